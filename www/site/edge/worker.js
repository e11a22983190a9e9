// The adapter between the platform and Drawoff's Go module: it reads a
// request, asks the module, does with the store what the module says, and
// puts the security headers on everything. What is asked and answered is
// decided in Go, package www/edge.
//
// It stands on the Workers API alone: fetch, KV, rate limiting and static
// assets. A Go module that serves an http.Handler on Workers would replace this
// file: its handler would fill an edge.Request, call edge.Handle, and do Get and
// Put by that module's KV, as answer and store do here.
import "./wasm_exec.js";
import module from "./edge.wasm";

const mostBody = 64 << 10; // bytes; the module refuses more

// No script but the site's own files. The sheets to print bring their style with them.
const security = {
  "Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; " +
    "connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
};

let go;

// ask passes one request to the module. Nothing in it waits, so that requests
// that come at the same time cannot get into each other's way. A module that
// has died is started anew.
function ask(request) {
  if (!go) {
    go = new Go();
    go.run(new WebAssembly.Instance(module, go.importObject)); // runs until the door stands open
  }
  let answer;
  try {
    answer = JSON.parse(globalThis.drawoff(JSON.stringify(request)));
  } catch (why) { // what a panic is answered with is JSON: it has died
    go = undefined;
    throw why;
  }
  if (answer.error) throw new Error(answer.error);
  return answer;
}

export default {
  async fetch(request, env) {
    let response;
    try {
      response = await answer(request, env);
    } catch (why) {
      console.error(why);
      const body = { type: "about:blank", title: "Internal Server Error", status: 500, reason: "fault", detail: "Drawoff failed: the fault is the program's, not yours." };
      response = Response.json(body, { status: 500, headers: { "Content-Type": "application/problem+json", "Cache-Control": "no-store" } });
    }
    for (const name in security) response.headers.set(name, security[name]);
    return response;
  },
};

async function answer(request, env) {
  const url = new URL(request.url);
  if (!/^\/(api|l)\//.test(url.pathname) && (request.method === "GET" || request.method === "HEAD")) {
    if (url.pathname === "/") url.pathname = "/index.html";
    const file = await env.SITE.fetch(new Request(url, request));
    if (file.status !== 404) return new Response(file.body, file); // whose headers can be set
  }
  const header = (name) => request.headers.get(name) ?? "";
  const asked = {
    method: request.method, path: url.pathname, origin: url.origin,
    type: header("Content-Type"), coding: header("Content-Encoding"), accept: header("Accept"),
    id: chance(), ...await body(request),
  };
  let said = ask(asked);
  if (said.do) said = ask({ ...asked, ...await store(said, request, env) });
  return new Response(said.body || null, { status: said.status, headers: said.headers });
}

// body reads what was sent, and no more of it than may be.
async function body(request) {
  const read = new Uint8Array(mostBody + 1);
  let size = 0;
  for await (const part of request.body ?? []) {
    const some = part.subarray(0, read.length - size);
    read.set(some, size);
    size += some.length;
    if (size > mostBody) break;
  }
  try {
    return { body: new TextDecoder("utf-8", { fatal: size <= mostBody, ignoreBOM: true }).decode(read.subarray(0, size)) };
  } catch {
    return { garbled: true };
  }
}

// store does what was said, and tells what came of it.
async function store({ do: what, key, value }, request, env) {
  try {
    if (what === "get") {
      const kept = await env.LINKS.get(key);
      return kept === null ? { came: "none" } : { came: "done", kept };
    }
    // A client of IPv6 has at least half of the address to itself.
    const client = (request.headers.get("CF-Connecting-IP") ?? "").split(":").slice(0, 4).join(":");
    const { success } = await env.WRITES.limit({ key: client });
    if (!success) return { came: "limited" };
    await env.LINKS.put(key, value);
    return { came: "done" };
  } catch (why) {
    console.error(why);
    return { came: "failed" };
  }
}

// chance returns 128 random bits in 22 characters, the name of a link.
function chance() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").slice(0, 22);
}
