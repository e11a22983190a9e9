// What was done, in words: a list to go back by. The module keeps the designs
// themselves, numbered; this keeps what the page called each step.
"use strict";
globalThis.drawoffHistory = (ask) => {
  const byId = (id) => document.getElementById(id);

  // What made each step, in the words that the page had for it, and the field
  // that was changed: an entry goes on in it.
  let steps = new Map(), step = 0;

  // It returns the step that was undone or done again.
  function remember(answer, request, what) {
    if (request.op === "start") steps = new Map();
    const crossed = answer.step === step ? null : { undo: steps.get(step), redo: steps.get(answer.step) }[request.op];
    const path = request.path || request.edits?.[0].path, goesOn = answer.step === step && path && steps.get(step)?.path === path;
    if (!steps.has(answer.step) || goesOn) steps.set(answer.step, { path, act: request.edits?.[0].op, what: (goesOn ? what : what || namesOf[request.op]) || steps.get(answer.step)?.what || "A change" });
    step = answer.step;
    return crossed;
  }

  const namesOf = { start: "As it was when the page was opened", own: "A plant of your own, started", open: "A file or an example, opened", follow: "What was sent, opened", take: "Another design", recall: "Lengths from the shelf" };

  async function show() {
    const answer = await ask({ op: "history" });
    if (!answer) return;
    byId("history-list").replaceChildren(...answer.steps.reverse().map((n) => {
      const li = document.createElement("li"), here = n === answer.step, it = document.createElement(here ? "strong" : "button");
      it.textContent = (steps.get(n)?.what || namesOf.start) + (here ? " (here)" : "");
      if (here) it.setAttribute("aria-current", "step");
      else it.addEventListener("click", () => {
        byId("history-dialog").close();
        ask({ op: "go", value: String(n) });
      });
      li.append(it);
      return li;
    }));
    byId("history-dialog").showModal();
  }

  return { remember, show };
};
