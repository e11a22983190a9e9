// Runs a module in a thread beside the page. One message holds the module,
// compiled, and the address of the glue that starts it; each other one is a
// request, answered by a message under the same number.
"use strict";
let run;
const running = new Promise((ready, failed) => {
  run = ({ glue, module }) => {
    try {
      importScripts(glue);
      globalThis.drawoffReady = ready;
      const go = new Go();
      go.env.GOGC = "400";
      WebAssembly.instantiate(module, go.importObject)
        .then((made) => go.run(made))
        .then(() => failed(new Error("it closed")), failed);
    } catch (why) {
      failed(why);
    }
  };
});
running.catch(() => {}); // whoever asks is told

let pause = 0;
let answered = 0; // since garbage was collected
function collect() {
  answered = 0;
  globalThis.drawoffCollect?.();
}

onmessage = async ({ data }) => {
  if (data.module) return run(data);
  clearTimeout(pause);
  let answer;
  try {
    await running;
    // A call that the program does not outlive gives undefined, as when memory runs out.
    answer = globalThis.drawoff(data.request) ?? JSON.stringify({ error: "it ended before it answered" });
  } catch (why) {
    answer = JSON.stringify({ error: String(why) });
  }
  postMessage({ number: data.number, answer });
  if (++answered > 12) pause = setTimeout(collect, 8); // while nobody waits
};
