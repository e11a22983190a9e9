// The core of Drawoff for other programs, in any page and in Node: the same
// checks as the page's, on this machine, with nothing sent anywhere.
//
//   import { open, DesignError } from "./drawoff.mjs";
//   const core = await open();
//   const report = core.check(design);        // what "drawoff check -json" prints
//
// It fetches its two parts, named above, from beside this file: copy all three
// of one build. A page with a Content-Security-Policy needs 'wasm-unsafe-eval'.
// drawoff.d.mts has the types.

// DesignError says what is wrong with a design or a link: faults, each with
// its field, what was given, what is wrong and what would be right.
export class DesignError extends Error {
  constructor(faults) {
    super(faults.map((f) => (f.field ? f.field + ": " : "") + f.what + "; " + f.hint).join("\n"));
    this.name = "DesignError";
    this.faults = faults;
  }
}

let opening;

// open starts the core, once however often it is called.
export function open() {
  opening ??= start().catch((why) => {
    opening = undefined;
    throw why;
  });
  return opening;
}

// kept runs what leaves names on globalThis, as the glue and the module do, and
// returns what it left under one of them. What was there before is put back.
async function kept(name, leave) {
  const names = ["Go", "drawoff", "drawoffReady"];
  const before = names.map((n) => [n, Object.getOwnPropertyDescriptor(globalThis, n)]);
  try {
    await leave();
    return globalThis[name];
  } finally {
    for (const [n, was] of before) {
      delete globalThis[n];
      if (was) Object.defineProperty(globalThis, n, was);
    }
  }
}

let Go;

async function start() {
  Go ??= await kept("Go", () => import(new URL(parts.glue, import.meta.url)));
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(await read(new URL(parts.module, import.meta.url)), go.importObject);
  const door = await kept("drawoff", () => {
    globalThis.drawoffReady = undefined;
    go.run(instance); // comes back when the door stands open
  });
  const ask = (request) => {
    const text = JSON.stringify(request);
    let answer;
    try {
      answer = JSON.parse(door(text));
    } catch (why) {
      opening = undefined; // the next open starts another
      throw new Error("the core has ended, as when memory runs out: open it again", { cause: why });
    }
    if (answer.error) throw new Error(answer.error);
    if (answer.faults) throw new DesignError(answer.faults);
    return answer;
  };
  const file = (design, name) => ask({ design, file: name }).file;
  const checkText = (design) => {
    const text = file(design, "report.json").content;
    const { faults } = JSON.parse(text);
    if (faults) throw new DesignError(faults);
    return text;
  };
  return {
    check: (design) => JSON.parse(checkText(design)),
    checkText,
    file,
    link: (design) => ask({ design, link: "" }).link,
    read: (link) => ask({ link }).design,
  };
}

async function read(url) {
  if (url.protocol === "file:") return (await import("node:fs/promises")).readFile(url);
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(url + ": the host answers " + answer.status);
  return answer.arrayBuffer();
}
