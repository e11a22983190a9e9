// Starts modules, each in a thread of its own: whoever works on the page never
// waits for one. The tag of this script says what runs in a thread, and what
// starts a module there.
"use strict";
globalThis.drawoffThread = (() => {
  const { thread, glue } = document.currentScript.dataset;

  const compiling = new Map();
  function compiled(address) {
    if (!compiling.has(address)) {
      const whole = WebAssembly.compileStreaming(fetch(address))
        .catch(async () => WebAssembly.compile(await (await fetch(address)).arrayBuffer())); // some hosts serve it under another type
      whole.catch(() => compiling.delete(address));
      compiling.set(address, whole);
    }
    return compiling.get(address);
  }

  // A module's ask sends it a request and promises its answer.
  return (module) => {
    const worker = new Worker(thread), waiting = new Map();
    let number = 0, ended = "";
    function end(why) {
      worker.terminate();
      ended = why;
      for (const answer of waiting.values()) answer({ error: why });
      waiting.clear();
    }
    worker.onerror = () => end("it could not be started");
    worker.onmessage = ({ data }) => {
      const answer = waiting.get(data.number);
      waiting.delete(data.number);
      answer(JSON.parse(data.answer));
    };
    compiled(module).then((made) => worker.postMessage({ glue: new URL(glue, location).href, module: made }), (why) => end(why.message));
    return {
      end,
      ask: (request) => new Promise((answer) => {
        if (ended) return answer({ error: ended });
        waiting.set(++number, answer);
        worker.postMessage({ number, request: JSON.stringify(request) });
      }),
    };
  };
})();
