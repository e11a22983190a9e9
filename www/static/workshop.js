// Runs the workshop's module in a thread beside the page. The first message
// says where the module and the glue that starts it are; each later one is a
// request, answered by a message under the same number.
"use strict";
let ready;
onmessage = async ({ data }) => {
  if (data.module) {
    importScripts(data.glue);
    ready = new Promise((open, failed) => {
      globalThis.drawoffReady = open;
      const go = new Go();
      go.env.GOGC = "400";
      fetch(data.module).then((file) => file.arrayBuffer())
        .then((bytes) => WebAssembly.instantiate(bytes, go.importObject))
        .then((made) => go.run(made.instance).then(() => failed(new Error("the workshop closed"))))
        .catch(failed);
    });
    ready.catch(() => {});
    return;
  }
  try {
    await ready;
    postMessage({ number: data.number, answer: globalThis.drawoff(data.request) });
  } catch (why) {
    postMessage({ number: data.number, answer: JSON.stringify({ error: String(why) }) });
  }
};
