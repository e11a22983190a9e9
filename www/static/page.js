// Passes what the user does to the module and puts what comes back in place.
// It holds no rule, no unit and no number format: those are Go's.
"use strict";
(() => {
  const script = document.currentScript;
  const root = document.documentElement;
  const unitsKey = "drawoff.units";
  const shelfKey = "drawoff.shelf.1"; // what the user has measured and made, for every design
  const leftKey = "drawoff.left"; // what was asked and not answered when the page was left
  const sentKey = "drawoff.sent"; // the link that this window looks at, for when it is loaded again
  const byId = (id) => document.getElementById(id);

  // --- the bench: what answers the user ------------------------------------

  let bench = null;
  const queue = []; // turns: requests with who waits for them, the first of them under way

  // ask has a request answered, puts the answer in place and promises it, or
  // null from a module that has died. A request that is a function is made when
  // its turn comes. Of those that wait one after the other under the same key
  // only the newest is asked: keys and a hand can be quicker than a slow phone.
  function ask(request, { key, as, what } = {}) {
    if (!bench) return Promise.resolve(null);
    if (what || passing.has(request.op) || request.op === "follow") wanted = ""; // a press that waits was for the plant of before
    const make = typeof request === "function" ? request : () => request, last = queue.at(-1);
    if (key && queue.length > 1 && last.key === key) {
      Object.assign(last, { make, what });
      return last.answer;
    }
    const turn = turnOf({ make, key, as, what });
    queue.push(turn);
    if (queue.length === 1) work();
    return turn.answer;
  }

  function turnOf(turn) {
    turn.answer = new Promise((done) => { turn.done = done; });
    return turn;
  }

  const quiet = async () => { while (queue.length) await queue.at(-1).answer; };

  async function work() {
    tellState();
    while (queue.length) {
      const turn = queue[0];
      let answer = null;
      try {
        const request = turn.request = turn.make();
        const given = await bench.ask(request);
        if (request.op === "rest") await painted;
        if (given.error) recover(given.error, request);
        else await take(answer = given, request, turn);
      } catch (why) {
        reportError(why); // one that goes wrong does not hold up the others
      }
      turn.done(answer);
      await null; // whoever waits goes first
      queue.shift();
      if (!queue.length && restWaits) {
        restWaits = false;
        ask({ op: "rest" });
        return; // that works on
      }
    }
    tellState();
  }

  // tellState says on the root whether somebody is still to be waited for.
  function tellState() {
    root.toggleAttribute("data-asking", queue.length > 0);
    root.dataset.shop = queue.length || shop.busy() ? "busy" : "idle";
    if (root.dataset.shop !== "idle") return;
    if (printing) print();
    if (wanted) accept(wanted);
  }

  const passing = new Set(["edit", "mend", "add", "step", "slide", "undo", "redo", "go"]);

  async function take(answer, request, { as, what }) {
    const crossed = past.remember(answer, request, what);
    if (answer.anew) root.dataset.anew = "";
    const back = hold(), went = await apply(answer, as);
    if (!answer.message && passing.has(request.op)) byId("message").replaceChildren(); // it was of what was done before
    if (request.op === "mend" && answer.message && !answer.problem) sayIn("message", answer.message, { "Undo": acts.undo });
    back();
    if (crossed) followBack(crossed, request.op === "undo");
    if (answer.more) {
      restWaits = true;
      painted = aFrame();
    }
    if (request.op !== "rest" && request.op !== "later") inEntry = request.typing;
    if (answer.shop) inEntry ? shop.soon(answer.shop) : shop.send(answer.shop);
    else if (went) shop.again(); // it may be compared with something else
  }

  // What is in sight is put in place first, the rest when that is painted. The
  // form shows already what was typed: it comes with the rest.
  let restWaits = false;
  let painted = null; // once what was in sight is
  const inSight = new Set();
  const watch = new IntersectionObserver((seen) => {
    for (const s of seen) s.isIntersecting ? inSight.add(s.target.id) : inSight.delete(s.target.id);
  });
  const see = (request) => Object.assign(request, { see: ["tally", "pending", ...inSight], width: drawn });
  const aFrame = () => new Promise((drawn) => {
    requestAnimationFrame(() => setTimeout(drawn));
    setTimeout(drawn, 100); // a page that nobody sees is not painted
  });

  // What was asked and not answered when the page is left is done when the
  // design is opened again, if it is then as it was.
  const lasting = new Set([...passing, "measure", "stock", "recall", "keep", "forget", "point"]);
  addEventListener("pagehide", () => {
    settle();
    keeper.leave();
    const requests = queue.map((turn) => turn.request || turn.make()).filter((r) => lasting.has(r.op));
    if (requests.length && home) try { localStorage.setItem(leftKey, JSON.stringify({ home, stored, requests })); } catch { /* the last key only */ }
  });
  addEventListener("pageshow", ({ persisted }) => { if (persisted) localStorage.removeItem(leftKey); }); // it goes on where it was
  function goOn() {
    const left = JSON.parse(localStorage.getItem(leftKey));
    if (left?.home !== home) return;
    localStorage.removeItem(leftKey);
    if (left.stored === stored) for (const request of left.requests) ask({ ...request, typing: false });
  }

  // A module that has died is started again from what was stored, and the user
  // is told; what waits is asked of the new one.
  function recover(why, request) {
    bench.end(why);
    const started = root.dataset.ready === "true";
    if (request.op === "start") {
      bench = null;
      for (const turn of queue.splice(1)) turn.done(null);
      if (!started) {
        root.dataset.ready = "failed";
        return tell("The calculator could not start (" + why + "). The plant shown is the demo; nothing can be changed. Reload, or try another browser.", true);
      }
      return sayIn("message", "The calculator could not be started again (" + why + "). Reload the page: your design is kept in this browser.", { "Save it as a file": saveStored });
    }
    bench = drawoffThread(script.dataset.module);
    const text = home ? stored : keeper.latest(mine)?.text; // and not of what was sent,
    const link = reading && looked; // which is looked at again
    const again = turnOf({ make: () => see({ op: "start", value: byId("units").value, text, shelf: kept(shelfKey), home: mine }) });
    queue.splice(1, 0, again);
    again.answer.then((answer) => {
      if (!answer) return;
      if (link) look(link);
      sayIn("keeping", "Something went wrong inside Drawoff (" + why + "), and it was started again. Your design is kept; look whether your last change was taken.", { "Save it as a file": saveStored, "Go on": () => byId("keeping").replaceChildren() });
    });
  }

  const saveStored = () => download("plant.drawoff.json", JSON.stringify(JSON.parse(stored).design), "application/json");

  const past = drawoffHistory(ask);

  // --- the workshop: what takes longer --------------------------------------

  let inEntry = false; // somebody is in the middle of one

  const shop = drawoffWorkshop({
    start: () => drawoffThread(script.dataset.workshop),
    beside() {
      const against = keeper.latest(home)?.against; // a copy to compare with
      return { address: here(), against: against && JSON.parse(against) };
    },
    async answered(answer) {
      if (answer.tell) await ask(answer.tell);
      if (shop.waits()) return; // it is of what was shown before
      await put(answer.regions);
      root.removeAttribute("data-anew");
      sheets = answer.sheets;
      if (root.dataset.finding) reveal(byId("runs-title"));
      delete root.dataset.finding;
    },
    failed(why) {
      delete root.dataset.finding;
      printing = false;
      sheets = "";
      if (!why) {
        tell("Stopped looking for runs.");
        return shop.send(JSON.stringify(shop.of())); // all else of the design
      }
      ask({ op: "later" });
      if (root.hasAttribute("data-anew")) for (const e of document.querySelectorAll(".gist,[data-shop=part],[data-shop=ways]")) e.replaceChildren();
      root.removeAttribute("data-anew");
      tell("Heights, emptying, suction head, ways out, sheets and files could not be worked out (" + why + "). They are tried again at the next change.", true);
    },
    state: () => tellState(),
  });

  // A file is made of the design as it is.
  async function fetchFile(file) {
    const { error, file: made } = await shop.errand(shop.of({ file }));
    if (error) return tell(error, true);
    download(made.name, made.content, made.type);
  }

  function download(name, content, type) {
    const a = document.createElement("a");
    a.href = URL.createObjectURL(new Blob([content], { type }));
    a.download = name;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10000);
    tell("Saved as " + name + ".");
  }

  // --- putting answers in place -------------------------------------------

  const { put, keyOf, hold } = drawoffPutter({ beside: (field) => beside(field), inUse: (control) => control === typingIn });

  async function apply(answer, as) {
    // It is kept before it is seen: whoever has seen it may leave at once.
    const under = (moving && answer.home === moving.theirs ? moving.mine : answer.home) || "";
    const went = under !== home; // to another design
    home = under;
    if (home) mine = home;
    if (answer.store) {
      stored = answer.store;
      title = answer.title;
      if (home) keeper.save(home, stored, title, as === "sample" && !answer.problem);
    }
    if (answer.shelf) keep(shelfKey, answer.shelf);
    await put(answer.regions, answer.anew);
    byId("undo").disabled = !answer.undo;
    byId("redo").disabled = !answer.redo;
    document.title = answer.title ? answer.title + " · Drawoff" : "Drawoff";
    sent(home ? "" : answer.title || "one without a name");
    if (answer.message) tell(answer.message, answer.problem);
    if (answer.focus) {
      const to = byId(answer.focus);
      unfold(to);
      to?.focus();
    }
    return went;
  }

  // keep keeps what is not of any one design.
  function keep(key, text) {
    try {
      localStorage.setItem(key, text);
    } catch {
      tell("This browser keeps neither your shelf nor your units between visits (storage is full or refused). Save the shelf as a file.", true);
    }
  }

  function tell(text, problem) {
    const p = document.createElement("p");
    p.textContent = text;
    if (problem) p.className = "fault";
    byId("message").replaceChildren(p);
    makeRoom();
  }

  // sayIn tells something that waits for an answer, in a place of its own.
  function sayIn(place, text, answers) {
    const p = document.createElement("p");
    p.textContent = text + " ";
    for (const [label, act] of Object.entries(answers)) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.addEventListener("click", async () => {
        const back = hold();
        await act();
        back();
      });
      p.append(button, " ");
    }
    byId(place).replaceChildren(p);
    makeRoom();
  }

  // Long lists of choices are put into a select when the user turns to it.
  function fill(e) {
    const select = e.target;
    if (!select.matches || !select.matches("select[data-choices]") || select.dataset.full) return;
    const chosen = select.value;
    select.append(byId(select.dataset.choices).content.cloneNode(true));
    select.dataset.full = "1";
    for (const o of Array.from(select.options).filter((o, i) => i > 0 && o.value === chosen).slice(0, -1)) o.remove();
    select.value = chosen;
  }
  for (const when of ["pointerdown", "focusin", "keydown"]) document.addEventListener(when, fill);

  // --- what the user does ---------------------------------------------------

  // nameOf is what the page calls a control, and where that stands. It is looked
  // for once while a field is in use: at every key it would take as long as all
  // else that a key does here.
  let inUse = { control: null, name: "" };
  function nameOf(control) {
    if (inUse.control !== control) inUse = { control, name: sought(control) };
    return inUse.name;
  }
  for (const when of ["focusin", "pointerdown"]) document.addEventListener(when, () => { inUse = { control: null }; });

  function sought(control) {
    const label = control.labels?.[0]?.textContent || control.getAttribute("aria-label") || control.textContent;
    const place = control.closest(".piece-card")?.querySelector(".piece-label") || control.closest(".group,.part")?.querySelector("summary > :is(h3, h4)");
    return place ? place.textContent + ": " + label : label;
  }

  let typingIn = null; // the field that holds half an entry

  const valueOf = (c) => c.type === "checkbox" ? String(c.checked) : c.value;

  // settle takes half an entry as if its field had been left: a page that nobody
  // sees may never be seen again.
  function settle() {
    if (typingIn && typingIn.value !== typingIn.defaultValue) edit(typingIn, false);
  }
  document.addEventListener("visibilitychange", () => { if (document.hidden) settle(); });

  function edit(control, typing) {
    typingIn = typing ? control : null;
    const value = valueOf(control), shown = control.selectedOptions?.[0].textContent || value, what = nameOf(control) + ", " + (shown || "left empty");
    if (control.dataset.measure) {
      if (!typing) ask(() => see({ op: "measure", path: control.dataset.measure, value }), { what });
    } else if (control.dataset.stock) {
      if (!typing) ask(() => see({ op: "stock", path: control.dataset.stock, value }), { what });
    } else if (control.dataset.path) {
      const path = control.dataset.path;
      ask(() => see({ op: "edit", edits: [{ path, value }], typing }), { key: typing && "type " + path, what });
    } else if (control.dataset.add && !typing && control.value) {
      const kind = control.value;
      control.value = "";
      ask({ op: "add", kind, path: control.dataset.add }, { what: "Put in: " + shown });
    }
  }

  const typed = (c) => c.matches("input:not([type=checkbox]),textarea");

  document.addEventListener("input", (e) => {
    if (e.target.dataset.stops) whatIf(e.target);
    else if (typed(e.target)) edit(e.target, true);
  });
  document.addEventListener("change", (e) => {
    if (e.target.id === "file") openFile(e.target);
    else if (e.target.id === "examples") openExample(e.target);
    else if (e.target.id === "units") showIn(e.target.value);
    else if (e.target.dataset.sweep) ask({ op: "whatif", path: byId("whatif-move").value, value: byId("whatif-watch").value });
    else edit(e.target, false);
  });
  document.addEventListener("focusout", () => { typingIn = null; });
  byId("form").addEventListener("submit", (e) => e.preventDefault());
  document.addEventListener("keydown", (e) => {
    if (e.key === "Enter" && e.target.matches("input[data-path],input[data-measure],input[data-stock]")) {
      e.preventDefault();
      edit(e.target, false);
    }
    if (e.target.matches("input,textarea,select") || !(e.ctrlKey || e.metaKey)) return;
    if (e.key === "z") ask({ op: e.shiftKey ? "redo" : "undo" });
    if (e.key === "y") ask({ op: "redo" });
  });

  // The pair of buttons that moves a number in steps stands beside the field in
  // use, which keeps the focus; the arrow keys do the same.
  const stepper = byId("stepper");
  function beside(field) {
    stepper.hidden = !field?.matches("[data-steps]");
    if (stepper.hidden) return void document.body.append(stepper);
    field.after(stepper);
    stepper.style.top = field.offsetTop + (!field.closest("td") ? 0 : field.closest("tr:last-child") ? -44 : field.offsetHeight) + "px";
  }
  const moves = new Map(); // that are still to be asked, by the field's path
  async function move(field, by) {
    typingIn = null;
    const path = field.dataset.path;
    moves.set(path, (moves.get(path) || 0) + Number(by));
    const answer = await ask(() => {
      const value = String(moves.get(path) || 0);
      moves.delete(path);
      return see({ op: "step", path, text: field.value, value });
    }, { key: "step " + path, what: nameOf(field) + ", in steps" });
    if (answer?.value) field.value = answer.value; // the form itself comes with the rest
  }
  document.addEventListener("focusin", (e) => beside(e.target));
  document.addEventListener("focusout", () => beside(null));
  stepper.addEventListener("mousedown", (e) => e.preventDefault());
  document.addEventListener("keydown", (e) => {
    const by = { ArrowUp: "1", ArrowDown: "-1" }[e.key];
    if (!by || !e.target.matches("[data-steps]")) return;
    e.preventDefault();
    move(e.target, by);
  });

  // whatIf moves the dot along its curve; a stop of the slider holds what is so there.
  function whatIf(range) {
    const stop = byId(range.dataset.stops).children[range.value].dataset;
    const use = byId("whatif-use"), dot = document.querySelector(".whatif-dot");
    byId("whatif-says").textContent = stop.says;
    range.setAttribute("aria-valuetext", stop.says);
    use.dataset.edits = stop.edits;
    dot.setAttribute("cx", stop.x);
    dot.setAttribute("cy", stop.y);
  }

  const acts = {
    "undo": () => ask({ op: "undo" }),
    "redo": () => ask({ op: "redo" }),
    "history": past.show,
    "print-sheet": () => { delete root.dataset.print; print(); },
    "print-card": () => { root.dataset.print = "card"; print(); },
    "open-file": () => byId("file").click(),
    "save-file": () => save("save"),
    "save-shelf": () => save("save-shelf"),
    "own-open": () => { byId("own-fault").textContent = ""; byId("own").showModal(); },
    "own-cancel": () => byId("own").close(),
    "copy-link": copyLink,
    "copy-summary": copySummary,
    "send-summary": () => (navigator.share ? navigator.share({ title, text: byId("summary").value }).catch(() => {}) : copySummary()),
    "short-link": shortLink,
    "designs": showDesigns,
    "keep-a": async () => {
      await quiet();
      compare(JSON.stringify(JSON.parse(stored).design));
    },
    "drop-a": () => compare(),
    "a-back": () => enter({ op: "open", text: keeper.latest(home).against }),
    "print-compare": () => {
      for (const d of document.querySelectorAll("#compare details")) d.open = true;
      root.dataset.print = "compare";
      window.print();
    },
    "stop-finding": () => shop.stop(),
    "more": (button) => button.ariaExpanded = button.ariaExpanded !== "true", // the style sheet does it, on a phone
  };

  document.addEventListener("click", (e) => {
    const button = e.target.closest("button");
    if (button && acts[button.id]) return void acts[button.id](button);
    if (button && button.dataset.from) {
      root.dataset.finding = "true";
      return void ask({ op: "find", value: button.dataset.from });
    }
    if (button && button.dataset.step) {
      const range = byId("whatif-at");
      range.stepUp(Number(button.dataset.step));
      return whatIf(range);
    }
    if (button && button.dataset.by) return move(document.activeElement, button.dataset.by);
    if (button && button.dataset.file) return void fetchFile(button.dataset.file);
    if (button && "copy" in button.dataset) return void copy(button.value, "The list is copied: put it into a spreadsheet.");
    if (button && button.dataset.edits) return accept(offerOf(button));
    if (button && button.dataset.op) return void ask({ op: button.dataset.op, path: button.dataset.path || "", value: button.value }, { what: nameOf(button) });
    if (button && button.dataset.act === "point") return void ask({ op: "point", path: button.dataset.path }, { what: nameOf(button) });
    if (button && button.dataset.act) {
      const { act, path } = button.dataset;
      return void ask({ op: "edit", edits: [{ op: act, path }] }, { what: nameOf(button) }).then((done) => done && follow(act, besides(path, act)));
    }
    const ref = e.target.closest("[data-ref]");
    if (ref && !e.target.closest(".piece-card") && (ref.closest("svg") || e.target.closest("a"))) {
      e.preventDefault();
      show(ref.dataset.ref);
    }
    const link = e.target.closest("a[href^='#in-'],a[href^='#card-']");
    if (link && !ref) {
      e.preventDefault();
      if (home) reveal(byId(link.getAttribute("href").slice(1)));
      else tell("Make it yours first, to change that.");
    }
  });

  // What was offered before the last edit is not to be had while the workshop
  // thinks again: who presses it then has it once it is offered of the plant as it is.
  let wanted = "";
  const offerOf = (button) => JSON.stringify([button.id, button.dataset.value, button.getAttribute("aria-label") || button.dataset.edits]);
  function accept(offer) {
    wanted = root.dataset.shop === "idle" ? "" : offer;
    if (wanted) return void setTimeout(() => { if (wanted === offer) tell("That is done as soon as the plant is worked out."); }, 400);
    const button = Array.from(document.querySelectorAll("button[data-edits]")).find((b) => offerOf(b) === offer);
    if (!button) return tell("That is not offered any more: the plant has changed.");
    const { act: op, value, edits } = button.dataset;
    ask(() => see({ op, edits: JSON.parse(edits), value }), { what: value || nameOf(button) });
  }
  for (const when of ["input", "change", "click"]) document.addEventListener(when, () => { wanted = ""; }, true); // they do something else

  // What somebody starts with is kept in its fields until the plant stands.
  byId("own").addEventListener("submit", async (e) => {
    e.preventDefault();
    const edits = Array.from(document.querySelectorAll("[data-own]"), (c) => ({ path: c.dataset.own, value: c.value }));
    const answer = await enter({ op: "own", edits });
    if (answer && !answer.problem) byId("own").close();
    else if (answer) {
      byId(answer.focus)?.closest(".field").append(byId("own-fault")); // told at the question
      byId("own-fault").textContent = answer.message;
    }
    if (answer && !answer.problem) reveal(byId(answer.focus));
  });

  // besides is where the piece at path is after act, "" where that moves none.
  function besides(path, act) {
    const dot = path.lastIndexOf("."), by = { up: -1, down: 1 }[act];
    return by ? path.slice(0, dot + 1) + (Number(path.slice(dot + 1)) + by) : "";
  }

  // follow keeps the focus on the piece that was moved to path by act.
  function follow(act, path) {
    const button = (act) => document.querySelector(`button[data-act="${act}"][data-path="${path}"]:not(:disabled)`);
    if (path) (button(act) || button(act === "up" ? "down" : "up"))?.focus(); // at the end of the line it goes back only
  }

  // followBack does when a step is undone, or done again, and the focus is on its piece.
  function followBack({ act, path }, undone) {
    const there = path && besides(path, act), on = document.activeElement.dataset;
    if (there && ["up", "down"].includes(on.act) && on.path === (undone ? there : path)) follow(on.act, undone ? path : there);
  }

  const places = { tank: "in-tank.bore", pump: "in-pump.kind", stand: "in-stand.height", delivery: "in-delivery.height", liquid: "in-liquid.kind", site: "in-site.altitude" };

  function show(ref) {
    if (!home) return reveal(document.querySelector(`#drawing [data-ref="${CSS.escape(ref)}"]`));
    const card = byId("card-" + ref);
    if (!card) return reveal(byId(places[ref]));
    const details = card.querySelector("details");
    details.open = true;
    reveal(details.querySelector("select,input"));
  }

  function reveal(element) {
    if (!element) return;
    unfold(element);
    element.focus({ preventScroll: true });
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    (element.closest(".piece-card,.field") || element).scrollIntoView({ block: "center", behavior: calm ? "auto" : "smooth" });
  }

  // What is gone to stands clear of the bars that stay in sight, however high
  // those are: whoever puts something in them makes room at once, for what gets
  // the focus next. A style that looks for what is in them would be worked out
  // anew at every key, for the whole page.
  const bars = [document.querySelector(".tally-bar"), byId("keeping")];
  function makeRoom() {
    root.style.scrollPaddingTop = Math.max(...bars.map((b) => b.offsetHeight)) + 12 + "px";
  }
  const room = new ResizeObserver(makeRoom);
  for (const bar of bars) room.observe(bar);

  // --- what folds ---------------------------------------------------------------

  // What somebody has opened or shut stays so at the next visit, for every design.
  const foldsKey = "drawoff.folds";
  const folding = "details.part,details.group";
  let folds = {};
  try { folds = { ...JSON.parse(localStorage.getItem(foldsKey)) }; } catch { /* all as it comes */ }
  function fold() {
    for (const d of document.querySelectorAll(folding)) d.open = folds[keyOf(d)] ?? d.open;
  }
  document.addEventListener("toggle", ({ target: d }) => {
    if (!d.matches(folding) || folds[keyOf(d)] === d.open) return;
    folds[keyOf(d)] = d.open;
    try { localStorage.setItem(foldsKey, JSON.stringify(folds)); } catch { /* it is as well without */ }
  }, true);

  // unfold opens all that element is folded into.
  function unfold(element) {
    for (let d = element?.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
  }
  const placeOf = (hash) => byId(hash.slice(1));
  document.addEventListener("click", (e) => {
    const link = e.target.closest("a[href^='#']");
    if (link) unfold(placeOf(link.hash));
  });
  fold();
  unfold(placeOf(location.hash));

  drawoffDrawings({ ask, see, nameOf });

  async function save(op) {
    const answer = await ask({ op });
    if (answer) download(answer.name, answer.file, "application/json");
  }

  // What is typed stays as typed; only what is shown changes. The browser
  // remembers it, and no design does.
  function showIn(units) {
    ask({ op: "units", value: units });
    keep(unitsKey, units);
  }

  async function openFile(input) {
    const file = input.files[0];
    input.value = "";
    if (!file) return;
    if (file.size > 2e6) return tell("That file is too large to be a design: it has " + Math.round(file.size / 1e6) + " MB.", true);
    enter({ op: "open", text: await file.text() });
  }

  async function openExample(select) {
    const file = select.value;
    select.value = "";
    if (!file) return;
    try {
      const answer = await fetch(file);
      if (!answer.ok) throw new Error("the host answers " + answer.status);
      enter({ op: "open", text: await answer.text() }, "sample");
    } catch (why) {
      tell("The example could not be fetched (" + why.message + "). What is here stays as it is.", true);
    }
  }

  const here = () => location.href.split("#")[0];

  async function copyLink() {
    const answer = await ask({ op: "link" });
    if (answer) copy(here() + "#" + answer.link, "The link is copied: it holds the whole design. Anybody who opens it sees this plant.");
  }

  function copySummary() {
    copy(byId("summary").value, "The summary is copied, with the link.");
  }

  // shortLink leaves the design with the host, where that keeps short links.
  async function shortLink() {
    try {
      const answer = await fetch("api/links", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(JSON.parse(stored).design) });
      const said = await answer.json().catch(() => ({}));
      if (answer.status === 201) return copy(said.link, "The short link is copied: " + said.link);
      tell(said.detail || "This host keeps no short links. The long one needs nobody's help.", true);
    } catch {
      tell("The host cannot be reached: no short link was made. The long one needs nobody's help.", true);
    }
  }

  async function copy(text, done) {
    try {
      await navigator.clipboard.writeText(text);
      tell(done);
    } catch {
      tell("Copy this: " + text);
    }
  }

  // --- paper ----------------------------------------------------------------

  let sheets = ""; // that the workshop made last
  let printing = false; // once they are there
  const notReady = byId("sheets").innerHTML;

  const ready = () => sheets && root.dataset.shop === "idle";

  function print() {
    printing = root.dataset.shop !== "idle";
    if (printing) tell("Making the sheets…");
    else if (sheets) window.print();
    else tell("There are no sheets to print: the plant could not be worked out.", true);
  }

  addEventListener("beforeprint", () => {
    const compared = root.dataset.print === "compare" && `<section class="compare">${byId("compare").innerHTML}</section>`;
    byId("sheets").innerHTML = compared || (ready() ? sheets : notReady);
  });
  addEventListener("afterprint", () => { byId("sheets").innerHTML = notReady; delete root.dataset.print; });

  // --- the designs in this browser ------------------------------------------

  let home = ""; // what the design on the bench is kept under, "" while it is one that was sent
  let mine = ""; // what the last that was not sent is kept under
  let stored = "", title = ""; // as the module last gave it

  let moving = null; // from one home to another, until the module knows of it

  const keeper = drawoffKeeper({
    async rival(theirs, mine) {
      moving = { theirs, mine };
      await ask({ op: "move", path: theirs, home: mine });
      moving = null;
      compete(theirs);
    },
    elsewhere(id, stamp) {
      if (id !== home) return;
      if (stamp) compete(id);
      else tell("This design was deleted in another window. It is kept again at your next change.", true);
    },
    refused: (why) => sayIn("keeping", "This browser does not keep your changes: its storage is full or refused (" + why.message + "). Save a file before you leave.", { "Save file": () => save("save") }),
    kept: () => byId("keeping").replaceChildren(),
    listed: () => list?.refresh(),
  });

  // bring puts a kept design on the bench, the demo where there is none left.
  function bring(record) {
    if (!record) return enter({ op: "take" }, "sample");
    keeper.know(record);
    return ask({ op: "take", text: record.text, home: record.id });
  }

  // compare holds the design on the bench against a copy, a file's text.
  function compare(against) {
    if (!home) return tell("Make it yours first: what was sent to you is only looked at here.", true);
    keeper.change(home, { against, sample: false });
    shop.again();
  }

  // The list of them comes with a script of its own, when it is asked for.
  let list = null;
  async function showDesigns() {
    try {
      list ||= (await import(new URL(script.dataset.designs, location).href)).list({
        keeper, errand: shop.errand, put, hold, download, take: bring, compare,
        home: () => home,
      });
      await list.show();
    } catch (why) {
      tell("The list of your designs could not be fetched (" + why.message + ").", true);
    }
  }

  // compete tells that another window has changed the design under theirs,
  // which was on the bench here: the user says which of the two is to stay.
  function compete(theirs) {
    if (!home) return tell("Your design was changed in another window, too. Both are among your designs.");
    const mine = home;
    const settle = (act) => async () => {
      await back();
      byId("keeping").replaceChildren();
      const record = await keeper.read(theirs) || { id: theirs };
      keeper.know(record);
      await act(record);
      if (home !== mine) keeper.remove(mine);
    };
    sayIn("keeping", "This design was changed in another window, too. Which one is to stay?", {
      "Keep mine": settle(async () => {
        await ask({ op: "move", path: mine, home: theirs });
        keeper.save(theirs, stored, title);
        tell("Kept as it is here. The other window is told.");
      }),
      "Take the other": settle(async (record) => {
        if (!record.text) return tell("It was deleted in the other window. Yours stays.");
        await bring(record);
        tell("As it is in the other window. Undo brings yours back.");
      }),
      "Save mine as another": async () => {
        await back();
        byId("keeping").replaceChildren();
        if (home === theirs) await ask({ op: "move", path: theirs, home: keeper.fresh() });
        await ask({ op: "edit", edits: [{ path: "title", value: (title || "Plant").slice(0, 180) + ", second" }] }, { what: "Another title" });
        tell("Yours is a design of its own now: both are among your designs.");
      },
    });
  }

  // enter puts another design on the bench. An example that nobody has
  // changed gives way to it, all else is kept.
  const enter = (request, as) => ask(() => ({ ...request, home: own() }), { as });

  const own = () => keeper.latest(mine)?.sample ? mine : keeper.fresh();

  // --- a plant that was sent --------------------------------------------------

  // look opens a link to be read: it has no home, so nothing is kept of it.
  async function look(link) {
    const answer = await ask({ op: "follow", link });
    if (!answer || answer.problem) return;
    if (!answer.message) byId("message").replaceChildren();
    looked = link;
    lookAgain();
    scrollTo(0, 0);
  }

  let looked = ""; // the link that was opened last
  let reading = ""; // the title of what was sent, while that is on the bench

  // When this window is loaded again it looks at the same plant.
  function lookAgain() {
    try { sessionStorage.setItem(sentKey, reading && looked); } catch { /* then it shows the user's own */ }
  }

  // sent turns the page into a report of what was sent, called as, or back for "".
  function sent(as) {
    if (as === reading) return;
    reading = as;
    lookAgain();
    root.toggleAttribute("data-sent", as);
    byId("form").inert = as;
    if (!as) return byId("sent").replaceChildren();
    sayIn("sent", "You are looking at a plant that was sent to you: " + as + ". Nothing of yours was touched.", {
      "Make it mine": async () => {
        await ask({ op: "move", home: own() });
        tell("It is a design of yours now, beside the others. Undo goes back to what was here before.");
        reveal(byId("form-title"));
      },
      "Back to mine": async () => {
        await back();
        reveal(byId("drawing-title"));
      },
    });
  }

  async function back() {
    while (!home && !byId("undo").disabled) await ask({ op: "undo" });
  }

  // --- start ----------------------------------------------------------------

  // To ask for the width at every key would have the page laid out once more.
  const drawingWidth = () => Math.floor(byId("drawing").clientWidth);
  let drawn = drawingWidth();

  const kept = (key) => { try { return localStorage.getItem(key) || ""; } catch { return ""; } };

  async function start(link) {
    let record;
    try {
      record = await keeper.start();
      link ||= sessionStorage.getItem(sentKey);
    } catch { /* told when something is kept */ }
    const text = record ? record.text : "", units = kept(unitsKey) || "typed";
    byId("units").value = units;
    const answer = await ask(() => see({ op: "start", value: units, text, shelf: kept(shelfKey), home: record ? record.id : keeper.fresh() }), { as: text ? "" : "sample" });
    if (!answer) return false;
    if (!home) await ask({ op: "move", home: keeper.fresh() }); // what could not be read stays as it is
    try { goOn(); } catch { /* nothing was left */ }
    if (link) await look(link);
    await quiet();
    return true;
  }

  // The shelf is one for all windows: what another puts on it is here too.
  addEventListener("storage", (e) => {
    if (e.key === shelfKey && e.newValue) ask({ op: "shelf", text: e.newValue });
  });

  // A link that was opened is in the design now; in the address it would be
  // opened over newer work at every reload.
  function takeLink() {
    // A digit, or an escape that a messenger put there; the page's own places begin with a letter.
    const link = /^#[\d%]/.test(location.hash) ? location.hash : "";
    if (link) history.replaceState(null, "", location.pathname + location.search);
    return link;
  }

  addEventListener("hashchange", () => {
    const link = takeLink();
    if (link) look(link);
  });

  document.querySelectorAll(".part > div").forEach((region) => watch.observe(region));
  bench = drawoffThread(script.dataset.module);
  start(takeLink()).then((started) => {
    if (!started) return; // it was told
    byId("message").querySelector(".loading")?.remove();
    for (const id of ["history", "own-open", "units", "copy-link", "save-file", "open-file", "designs", "examples"]) byId(id).disabled = false;
    fold(); // the form is there now
    new ResizeObserver(() => {
      const width = drawingWidth();
      if (width === drawn || width === 0) return;
      drawn = width;
      ask({ op: "resize", width }, { key: "resize" });
    }).observe(byId("drawing"));
    root.dataset.ready = "true";
    drawoffVersion(script.dataset.offline, sayIn);
  });
})();
