// Serves a built worker in the platform's own runtime on this machine:
//
//   node serve.mjs FOLDER STORE [broken]
//
// FOLDER is what "drawoff build -edge" wrote; STORE is where links are kept,
// across restarts. With "broken" every call of the store fails. It prints the
// address, and ends when its standard input does.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Miniflare } from "miniflare";

const [folder, links, how] = process.argv.slice(2);
const config = JSON.parse(readFileSync(join(folder, "wrangler.json"), "utf8"));
const [limit] = config.ratelimits;
const [{ binding: store }] = config.kv_namespaces;
const worker = {
  name: config.name,
  compatibilityDate: config.compatibility_date,
  modulesRoot: join(folder, "worker"),
  modules: [
    { type: "ESModule", path: join(folder, config.main) },
    { type: "ESModule", path: join(folder, "worker", "wasm_exec.js") },
    { type: "CompiledWasm", path: join(folder, "worker", "edge.wasm") },
  ],
  assets: {
    directory: join(folder, config.assets.directory),
    binding: config.assets.binding,
    routerConfig: { invoke_user_worker_ahead_of_assets: config.assets.run_worker_first, has_user_worker: true },
    assetConfig: { html_handling: config.assets.html_handling, not_found_handling: config.assets.not_found_handling },
  },
  ratelimits: { [limit.name]: { simple: limit.simple } },
};
const workers = [worker];
if (how === "broken") {
  worker.wrappedBindings = { [store]: { scriptName: "broken" } };
  workers.push({
    name: "broken", modules: true,
    script: `export default () => ({ get() { throw new Error("the store is down"); }, put() { return Promise.reject(new Error("the store is down")); } });`,
  });
} else {
  worker.kvNamespaces = { [store]: "links" };
}
const miniflare = new Miniflare({ host: "127.0.0.1", port: 0, kvPersist: links, workers });
console.log(String(await miniflare.ready));
process.stdin.resume();
process.stdin.on("end", () => miniflare.dispose().then(() => process.exit(0)));
