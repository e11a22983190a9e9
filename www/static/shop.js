// The workshop: the module that does what takes longer, in a thread of its own
// that is started when there is something to do. It follows the design: of the
// requests that wait for it only the newest counts. on.start starts the module,
// on.beside gives what goes with a request, on.answered puts an answer in place,
// on.failed tells why there is none, and on.state hears that it is busy or idle.
"use strict";
globalThis.drawoffWorkshop = (on) => {
  let thread = null;
  let timer = 0; // runs while it is left alone
  let at = 0; // the number of the request that it is at, 0 when it is idle
  let number = 0;
  let next = ""; // the newest request that waits
  let last = ""; // the newest request: it holds the design as it is

  // soon sends a request after a pause: in the middle of an entry the workshop
  // would take the processor from the keystrokes, and be asked again at the next.
  function soon(request) {
    clearTimeout(timer);
    timer = setTimeout(send, 200, request);
    on.state();
  }

  async function send(request) {
    clearTimeout(timer);
    timer = 0;
    next = last = request;
    if (at) return;
    thread ||= on.start();
    const mine = at = ++number;
    next = "";
    on.state();
    const answer = await thread.ask({ ...JSON.parse(request), ...on.beside() });
    if (mine !== at) return; // it was stopped
    if (answer.error) return stop(answer.error);
    if (!next) await on.answered(answer);
    if (mine !== at) return;
    at = 0;
    if (next) send(next);
    on.state();
  }

  // stop ends what it is at, and its thread; the next request starts another.
  // why is told where it is a failure.
  function stop(why) {
    const stopped = thread;
    thread = null;
    at = 0;
    next = "";
    stopped?.end(why || "it was stopped: try again");
    on.failed(why);
    on.state();
  }

  return {
    soon, send, stop,
    busy: () => at > 0 || timer > 0,
    waits: () => next !== "" || timer > 0,
    again: () => { if (last) send(last); },
    // An errand is a request beside those that follow the design: it is not
    // dropped for a newer one. What it is answered is left to whoever sent it.
    errand: (request) => (thread ||= on.start()).ask(request),
    // of is a request about the design as it is.
    of: (more) => ({ ...JSON.parse(last), runs: undefined, ...more }),
  };
};
