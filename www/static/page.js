// Passes what the user does to the module and puts what comes back in place.
// It holds no rule, no unit and no number format: those are Go's.
"use strict";
(() => {
  const script = document.currentScript;
  const root = document.documentElement;
  const unitsKey = "drawoff.units";
  const shelfKey = "drawoff.shelf.1"; // what the user has measured and made, for every design
  const sentKey = "drawoff.sent"; // the link that this window looks at, for when it is loaded again
  const byId = (id) => document.getElementById(id);

  // --- the module ---------------------------------------------------------

  let live = false;
  async function load() {
    const go = new Go();
    go.env.GOGC = "800"; // the heap is a few megabytes: collecting it seldom makes edits quicker
    const answer = fetch(script.dataset.module);
    let made;
    try {
      made = await WebAssembly.instantiateStreaming(answer, go.importObject);
    } catch {
      // Some hosts serve the module under another type: read it whole.
      const bytes = await (await fetch(script.dataset.module)).arrayBuffer();
      made = await WebAssembly.instantiate(bytes, go.importObject);
    }
    await new Promise((ready, failed) => {
      globalThis.drawoffReady = ready;
      go.run(made.instance).then(() => { live = false; }, failed);
    });
    live = true;
  }

  const passing = new Set(["edit", "mend", "add", "step", "slide", "undo", "redo"]);

  // ask sends one request and puts the answer in place. A module that has
  // died is started again from what was stored, and the user is told.
  function ask(request) {
    if (!live) return null;
    let answer;
    try {
      answer = JSON.parse(globalThis.drawoff(JSON.stringify(request)));
    } catch {
      answer = { error: "the calculator stopped" };
    }
    if (answer.error) {
      recover(answer.error);
      return null;
    }
    const went = apply(answer);
    if (!answer.message && passing.has(request.op)) byId("message").replaceChildren(); // it was of what was done before
    if (request.op === "mend" && answer.message && !answer.problem) sayIn("message", answer.message, { "Undo": acts.undo });
    if (answer.more) {
      root.dataset.shop = "busy";
      restSoon();
    }
    if (request.op !== "rest" && request.op !== "later") inEntry = request.typing;
    if (answer.shop) inEntry ? shopSoon(answer.shop) : shop(answer.shop);
    else if (went && shopLast) shop(shopLast); // it may be compared with something else
    return answer;
  }

  // What is in sight is put in place first, the rest when that is painted. The
  // form shows already what was typed: it comes with the rest.
  const inSight = new Set();
  const watch = new IntersectionObserver((seen) => {
    for (const s of seen) s.isIntersecting ? inSight.add(s.target.id) : inSight.delete(s.target.id);
  });
  const see = (request) => Object.assign(request, { see: ["tally", "pending", ...inSight], width: drawingWidth() });

  let restWaits = false;
  function restSoon() {
    if (restWaits) return;
    restWaits = true;
    requestAnimationFrame(() => setTimeout(rest));
  }

  function rest() {
    if (!restWaits) return;
    restWaits = false;
    ask({ op: "rest" });
    root.dataset.shop = shopAt || shopTimer ? "busy" : "idle";
  }
  // The rest holds what the browser is to keep, and a page that goes out of
  // sight is not painted, and may not come back.
  addEventListener("pagehide", () => keeper.leave(rest));
  document.addEventListener("visibilitychange", rest);

  let recovering = false;
  async function recover(why) {
    if (recovering) return;
    recovering = true;
    live = false;
    tell("Something went wrong inside Drawoff (" + why + "). Your design is safe; starting again…", true);
    try {
      await load();
      await start("");
      tell("Started again after an error. The last change may not have been taken.", true);
    } catch {
      tell("The calculator could not be started again. Reload the page: your design is kept in this browser.", true);
    }
    recovering = false;
  }

  // --- the workshop: what takes longer, in a thread of its own ------------

  let worker = null;
  let inEntry = false; // somebody is in the middle of one
  let shopTimer = 0; // runs while the workshop is left alone
  let shopAt = 0; // the number of the request that the workshop is at, 0 when it is idle
  let shopNext = ""; // the newest request that waits for it
  let shopNumber = 0;
  let shopLast = ""; // the newest request: it holds the design as it is

  // In the middle of an entry the workshop waits for a pause: it would take the
  // processor from the keystrokes, and be asked again at the next.
  function shopSoon(request) {
    clearTimeout(shopTimer);
    root.dataset.shop = "busy";
    shopTimer = setTimeout(shop, 200, request);
  }

  // shop sends a request to the workshop; of those that wait only the newest counts.
  function shop(request) {
    clearTimeout(shopTimer);
    shopTimer = 0;
    if (!worker) {
      worker = new Worker(script.dataset.worker);
      worker.postMessage({ glue: new URL(script.dataset.glue, location).href, module: new URL(script.dataset.workshop, location).href });
      worker.onerror = () => stopShop("it could not be fetched");
      worker.onmessage = async ({ data }) => {
        const answer = JSON.parse(data.answer);
        if (errands.has(data.number)) return void errands.get(data.number)(answer);
        if (answer.error) return void stopShop(answer.error);
        shopAt = 0;
        if (shopNext) shop(shopNext);
        else {
          if (answer.tell) await ask(answer.tell);
          put(answer.regions);
          sheets = answer.sheets;
          if (root.dataset.finding) reveal(byId("runs-title"));
          delete root.dataset.finding;
        }
        root.dataset.shop = shopAt || shopTimer ? "busy" : "idle";
        if (printing) print();
      };
    }
    shopNext = shopLast = request;
    if (shopAt) return;
    root.dataset.shop = "busy";
    shopAt = ++shopNumber;
    shopNext = "";
    const against = keeper.latest(home)?.against; // a copy to compare with
    worker.postMessage({ number: shopAt, request: JSON.stringify({ ...JSON.parse(request), address: here(), against: against && JSON.parse(against) }) });
  }

  // What the workshop is at ends with its thread; the next request starts
  // another. why is told where it is a failure.
  function stopShop(why) {
    worker.terminate();
    worker = null;
    for (const end of errands.values()) end({ error: why || "it was stopped: try again" });
    shopAt = 0;
    shopNext = "";
    delete root.dataset.finding;
    root.dataset.shop = "idle";
    printing = false;
    sheets = "";
    if (!why) return tell("Stopped looking for runs.");
    ask({ op: "later" });
    tell("Heights, emptying, suction head, ways out, sheets and files could not be worked out (" + why + "). They are tried again at the next change.", true);
  }

  // An errand is a request beside those that follow the design: it is not
  // dropped for a newer one. What it is answered is left to whoever sent it.
  const errands = new Map();
  function errand(request) {
    if (!worker) shop(shopLast);
    const number = ++shopNumber;
    return new Promise((end) => {
      errands.set(number, (answer) => { errands.delete(number); end(answer); });
      worker.postMessage({ number, request: JSON.stringify(request) });
    });
  }

  // A file is made of the design of the newest request.
  async function fetchFile(file) {
    const { error, file: made } = await errand({ ...JSON.parse(shopLast), runs: undefined, file });
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

  function put(regions) {
    beside(null);
    const on = document.activeElement;
    for (const [id, html] of Object.entries(regions || {})) {
      const place = byId(id);
      if (!place) continue; // gone since the workshop was asked
      const template = document.createElement("template");
      template.innerHTML = html;
      morph(place, template.content);
    }
    if (on.isConnected && on !== document.activeElement) on.focus({ preventScroll: true }); // it was moved
    beside(document.activeElement);
  }

  function apply(answer) {
    put(answer.regions);
    byId("undo").disabled = !answer.undo;
    byId("redo").disabled = !answer.redo;
    document.title = answer.title ? answer.title + " · Drawoff" : "Drawoff";
    const went = (answer.home || "") !== home; // to another design
    home = answer.home || "";
    if (home) mine = home;
    sent(home ? "" : answer.title || "one without a name");
    if (answer.store) {
      stored = answer.store;
      title = answer.title;
      if (answer.home) keeper.save(home, stored, title, opening === "sample" && !answer.problem);
    }
    if (answer.shelf) keep(shelfKey, answer.shelf);
    if (answer.message) tell(answer.message, answer.problem);
    if (answer.focus) {
      const to = byId(answer.focus);
      if (to) {
        for (let d = to.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
        to.focus();
      }
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
  }

  // sayIn tells something that waits for an answer, in a place of its own.
  function sayIn(place, text, answers) {
    const p = document.createElement("p");
    p.textContent = text + " ";
    for (const [label, act] of Object.entries(answers)) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.addEventListener("click", act);
      p.append(button, " ");
    }
    byId(place).replaceChildren(p);
  }

  const keyOf = (n) => n.nodeType === 1 ? n.id || n.dataset.keep || n.dataset.ref || "" : "";

  // morph changes old's children into those of fresh, keeping the elements
  // that are alike: focus, caret and folds stay where the user left them.
  function morph(old, fresh) {
    let at = old.firstChild;
    const keys = new Set(Array.from(fresh.childNodes, keyOf));
    for (const want of Array.from(fresh.childNodes)) {
      const key = keyOf(want);
      let have = at;
      if (key) while (have && !(keyOf(have) === key && have.nodeName === want.nodeName)) have = have.nextSibling;
      if (!have || have.nodeName !== want.nodeName || keyOf(have) !== key) {
        old.insertBefore(want, at);
        continue;
      }
      while (at !== have && !keys.has(keyOf(at) || null)) { // what stands between is gone
        const gone = at;
        at = at.nextSibling;
        gone.remove();
      }
      if (at === have) at = have.nextSibling;
      else old.insertBefore(have, at); // or comes after
      if (have.nodeType !== 1) {
        if (have.nodeValue !== want.nodeValue) have.nodeValue = want.nodeValue;
        continue;
      }
      if (have.isEqualNode(want) && !isControl(have)) continue;
      attributes(have, want);
      if (want.dataset && want.dataset.shop) continue; // the workshop fills it
      if (have.nodeName !== "TEXTAREA") morph(have, want);
      value(have, want);
    }
    while (at) {
      const gone = at;
      at = at.nextSibling;
      gone.remove();
    }
  }

  const isControl = (n) => n.matches("input,select,textarea,details") || n.querySelector("input,select,textarea") !== null;

  function attributes(have, want) {
    for (const a of Array.from(have.attributes)) {
      if (!want.hasAttribute(a.name) && !(have.nodeName === "DETAILS" && a.name === "open")) have.removeAttribute(a.name);
    }
    for (const a of Array.from(want.attributes)) {
      if (have.nodeName === "DETAILS" && a.name === "open") continue;
      if (have.getAttribute(a.name) !== a.value) have.setAttribute(a.name, a.value);
    }
  }

  // value brings a control up to date unless the user is in the middle of it.
  function value(have, want) {
    if (have === typingIn) return;
    switch (have.nodeName) {
      case "INPUT":
        if (have.type === "checkbox") have.checked = want.hasAttribute("checked");
        else if (have.value !== want.value) have.value = want.value;
        break;
      case "SELECT":
      case "TEXTAREA":
        if (have.value !== want.value) have.value = want.value;
    }
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

  let typingIn = null; // the field that holds half an entry

  const valueOf = (c) => c.type === "checkbox" ? String(c.checked) : c.value;

  function edit(control, typing) {
    if (control.dataset.measure) {
      if (!typing) ask(see({ op: "measure", path: control.dataset.measure, value: control.value }));
    } else if (control.dataset.stock) {
      if (!typing) ask(see({ op: "stock", path: control.dataset.stock, value: control.value }));
    } else if (control.dataset.path) {
      typingIn = typing ? control : null;
      ask(see({ op: "edit", edits: [{ path: control.dataset.path, value: valueOf(control) }], typing }));
    } else if (control.dataset.add && !typing && control.value) {
      const kind = control.value;
      control.value = "";
      ask({ op: "add", kind, path: control.dataset.add });
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
  function step(field, by) {
    typingIn = null;
    const answer = ask(see({ op: "step", path: field.dataset.path, text: field.value, value: by }));
    if (answer?.value) field.value = answer.value; // the form itself comes with the rest
  }
  document.addEventListener("focusin", (e) => beside(e.target));
  document.addEventListener("focusout", () => beside(null));
  stepper.addEventListener("mousedown", (e) => e.preventDefault());
  document.addEventListener("keydown", (e) => {
    const by = { ArrowUp: "1", ArrowDown: "-1" }[e.key];
    if (!by || !e.target.matches("[data-steps]")) return;
    e.preventDefault();
    step(e.target, by);
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
    "keep-a": () => { rest(); compare(JSON.stringify(JSON.parse(stored).design)); },
    "drop-a": () => compare(),
    "a-back": () => enter({ op: "open", text: keeper.latest(home).against }),
    "print-compare": () => {
      for (const d of document.querySelectorAll("#compare details")) d.open = true;
      root.dataset.print = "compare";
      window.print();
    },
    "stop-finding": () => stopShop(),
  };

  document.addEventListener("click", (e) => {
    const button = e.target.closest("button");
    if (button && acts[button.id]) return void acts[button.id]();
    if (button && button.dataset.zoom) return void zoom(Number(button.dataset.zoom));
    if (button && button.dataset.from) return void (ask({ op: "find", value: button.dataset.from }) && (root.dataset.finding = "true"));
    if (button && button.dataset.step) {
      const range = byId("whatif-at");
      range.stepUp(Number(button.dataset.step));
      return whatIf(range);
    }
    if (button && button.dataset.by) return step(document.activeElement, button.dataset.by);
    if (button && button.dataset.file) return void fetchFile(button.dataset.file);
    if (button && "copy" in button.dataset) return void copy(button.value, "The list is copied: put it into a spreadsheet.");
    if (button && button.dataset.edits) {
      // What the workshop offered before the last edit is not to be had while it thinks again.
      if (root.dataset.shop === "idle") ask(see({ op: button.dataset.act, edits: JSON.parse(button.dataset.edits), value: button.dataset.value }));
      return;
    }
    if (button && button.dataset.op) return void ask({ op: button.dataset.op, path: button.dataset.path || "", value: button.value });
    if (button && button.dataset.act === "point") return void ask({ op: "point", path: button.dataset.path });
    if (button && button.dataset.act) {
      const done = ask({ op: "edit", edits: [{ op: button.dataset.act, path: button.dataset.path }] });
      if (done) follow(button);
      return;
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

  // What somebody starts with is kept in its fields until the plant stands.
  byId("own").addEventListener("submit", (e) => {
    e.preventDefault();
    const edits = Array.from(document.querySelectorAll("[data-own]"), (c) => ({ path: c.dataset.own, value: c.value }));
    const answer = enter({ op: "own", edits });
    if (answer && !answer.problem) byId("own").close();
    else if (answer) {
      byId(answer.focus)?.closest(".field").append(byId("own-fault")); // told at the question
      byId("own-fault").textContent = answer.message;
    }
    if (answer && !answer.problem) reveal(byId(answer.focus));
  });

  // follow keeps the focus on the piece that was moved.
  function follow(button) {
    const path = button.dataset.path, dot = path.lastIndexOf(".");
    const step = { up: -1, down: 1 }[button.dataset.act];
    if (!step) return;
    const moved = path.slice(0, dot + 1) + (Number(path.slice(dot + 1)) + step);
    const there = document.querySelector(`button[data-act="${button.dataset.act}"][data-path="${moved}"]:not(:disabled)`);
    if (there) there.focus();
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
    for (let d = element.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    element.focus({ preventScroll: true });
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    (element.closest(".piece-card,.field") || element).scrollIntoView({ block: "center", behavior: calm ? "auto" : "smooth" });
  }

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

  // A link to what is folded unfolds it.
  const unfold = (place) => { for (let d = byId(place.slice(1))?.closest("details"); d; d = d.parentElement.closest("details")) d.open = true; };
  document.addEventListener("click", (e) => {
    const link = e.target.closest("a[href^='#']");
    if (link) unfold(link.hash);
  });
  fold();
  unfold(location.hash);

  // --- the drawing: grips to drag, larger and smaller -------------------------

  // Only what the drawing shows is asked for while a grip is held; the entry
  // ends when it is let go.
  let held = null; // the grip in hand: where it was taken, and where that is
  const slide = (field, metres, typing) => ask(see({ op: "slide", path: field, value: metres.toFixed(5), typing }));
  document.addEventListener("pointerdown", (e) => {
    const grip = e.target.closest && e.target.closest("[data-grip]");
    if (!grip || e.button) return;
    e.preventDefault();
    const svg = grip.ownerSVGElement;
    held = { field: grip.dataset.grip, level: grip.classList.contains("level"), at: Number(grip.dataset.at), x: e.clientX, y: e.clientY, scale: Number(svg.dataset.scale) * svg.clientWidth / svg.viewBox.baseVal.width, pointer: e.pointerId, moved: false };
    grip.focus();
  });
  const heldAt = (e) => held.at + (held.level ? e.clientX - held.x : held.y - e.clientY) / held.scale;
  document.addEventListener("pointermove", (e) => {
    if (!held || e.pointerId !== held.pointer) return;
    held.moved = true;
    slide(held.field, heldAt(e), true);
  });
  const letGo = (e) => {
    if (!held || e.pointerId !== held.pointer) return;
    const was = held;
    if (was.moved) slide(was.field, heldAt(e), false);
    held = null;
  };
  document.addEventListener("pointerup", letGo);
  document.addEventListener("pointercancel", letGo);
  document.addEventListener("keydown", (e) => {
    const grip = e.target.closest && e.target.closest("[data-grip]");
    const step = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[e.key];
    if (!grip || !step) return;
    e.preventDefault();
    slide(grip.dataset.grip, Number(grip.dataset.at) + step * 0.01, false);
  });

  // zoom makes the drawing larger by by, or fits it for 0, round the middle of what is seen.
  let zoomed = 1;
  function zoom(by) {
    const sheet = byId("side-view"), was = zoomed;
    zoomed = by ? Math.min(6, Math.max(1, zoomed * by)) : 1;
    if (zoomed === was) return;
    const x = (sheet.scrollLeft + sheet.clientWidth / 2) / was, y = (sheet.scrollTop + sheet.clientHeight / 2) / was;
    ask(see({ op: "resize", zoom: Math.round(zoomed * 100) }));
    sheet.scrollTo(x * zoomed - sheet.clientWidth / 2, y * zoomed - sheet.clientHeight / 2);
  }
  byId("drawing").addEventListener("wheel", (e) => {
    if (!e.ctrlKey) return; // a pinch on a pad comes so, too
    e.preventDefault();
    zoom(e.deltaY < 0 ? 1.15 : 1 / 1.15);
  }, { passive: false });
  let apart = 0;
  byId("drawing").addEventListener("touchmove", (e) => {
    if (e.touches.length !== 2) return;
    e.preventDefault();
    const [a, b] = e.touches, now = Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
    if (!apart) apart = now;
    if (now / apart > 1.15 || now / apart < 0.87) {
      zoom(now / apart);
      apart = now;
    }
  }, { passive: false });
  for (const end of ["touchend", "touchcancel"]) byId("drawing").addEventListener(end, () => { apart = 0; });

  // The same piece is lit in the drawing, the table and the form.
  function light(e) {
    const ref = e.target.closest && e.target.closest("[data-ref]");
    document.querySelectorAll(".lit").forEach((n) => n.classList.remove("lit"));
    if (!ref) return;
    const same = `[data-ref="${CSS.escape(ref.dataset.ref)}"]`;
    document.querySelectorAll(same).forEach((n) => n.classList.add("lit"));
    const said = document.querySelector(same + "[data-say]"), what = byId("what");
    if (said && what) what.textContent = said.dataset.say;
  }
  document.addEventListener("pointerover", light);
  document.addEventListener("focusin", light);

  function save(op) {
    const answer = ask({ op });
    if (!answer) return;
    download(answer.name, answer.file, "application/json");
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

  function copyLink() {
    const answer = ask({ op: "link" });
    if (!answer) return;
    copy(here() + "#" + answer.link, "The link is copied: it holds the whole design. Anybody who opens it sees this plant.");
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
  let opening = ""; // "sample" while an example is put on the bench

  const keeper = drawoffKeeper({
    rival(theirs, mine) {
      ask({ op: "move", path: theirs, home: mine });
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

  // take puts a kept design on the bench, the demo where there is none left.
  function take(record) {
    if (!record) return enter({ op: "take" }, "sample");
    keeper.know(record);
    return ask({ op: "take", text: record.text, home: record.id });
  }

  // compare holds the design on the bench against a copy, a file's text.
  function compare(against) {
    if (!home) return tell("Make it yours first: what was sent to you is only looked at here.", true);
    keeper.change(home, { against, sample: false });
    shop(shopLast);
  }

  // The list of them comes with a script of its own, when it is asked for.
  let list = null;
  async function showDesigns() {
    try {
      list ||= (await import(new URL(script.dataset.designs, location).href)).list({
        keeper, errand, put, download, take, compare,
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
      back();
      byId("keeping").replaceChildren();
      const record = await keeper.read(theirs) || { id: theirs };
      keeper.know(record);
      act(record);
      if (home !== mine) keeper.remove(mine);
    };
    sayIn("keeping", "This design was changed in another window, too. Which one is to stay?", {
      "Keep mine": settle(() => {
        ask({ op: "move", path: mine, home: theirs });
        keeper.save(theirs, stored, title);
        tell("Kept as it is here. The other window is told.");
      }),
      "Take the other": settle((record) => {
        if (!record.text) return tell("It was deleted in the other window. Yours stays.");
        take(record);
        tell("As it is in the other window. Undo brings yours back.");
      }),
      "Save mine as another": () => {
        back();
        byId("keeping").replaceChildren();
        if (home === theirs) ask({ op: "move", path: theirs, home: keeper.fresh() });
        ask({ op: "edit", edits: [{ path: "title", value: (title || "Plant").slice(0, 180) + ", second" }] });
        tell("Yours is a design of its own now: both are among your designs.");
      },
    });
  }

  // enter puts another design on the bench. An example that nobody has
  // changed gives way to it, all else is kept.
  function enter(request, as = "") {
    rest(); // what was typed last is kept before it gives way
    opening = as;
    const answer = ask({ ...request, home: own() });
    opening = "";
    return answer;
  }

  const own = () => keeper.latest(mine)?.sample ? mine : keeper.fresh();

  // --- a plant that was sent --------------------------------------------------

  // look opens a link to be read: it has no home, so nothing is kept of it.
  function look(link) {
    rest();
    const answer = ask({ op: "follow", link });
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
      "Make it mine": () => {
        ask({ op: "move", home: own() });
        tell("It is a design of yours now, beside the others. Undo goes back to what was here before.");
        reveal(byId("form-title"));
      },
      "Back to mine": () => {
        back();
        reveal(byId("drawing-title"));
      },
    });
  }

  function back() {
    while (!home && !byId("undo").disabled) ask({ op: "undo" });
  }

  // --- without a network --------------------------------------------------

  // The site is kept once the page stands. A newer one waits until the user
  // takes it: the design is stored at every change, so nothing is lost then.
  async function keepSite() {
    const keeper = navigator.serviceWorker;
    if (!keeper) return; // the browser has none, or the address is not one that it trusts
    let taking = false;
    const say = (text, label, act) => sayIn("version", text, { [label]: act });
    const offer = (worker) => say("A new version of Drawoff is here. Your design stays as it is.", "Use it now", () => {
      taking = true;
      worker.postMessage("take");
    });
    let controlled = keeper.controller !== null;
    keeper.addEventListener("controllerchange", () => {
      if (taking) location.reload();
      else if (controlled) say("A new version was taken in another window.", "Load it here too", () => location.reload());
      controlled = true;
    });
    try {
      const site = await keeper.register(script.dataset.offline);
      if (site.waiting && keeper.controller) offer(site.waiting);
      site.addEventListener("updatefound", () => {
        const worker = site.installing;
        worker.addEventListener("statechange", () => {
          if (worker.state === "installed" && keeper.controller) offer(worker);
        });
      });
      await keeper.ready;
      root.dataset.kept = "true";
    } catch { /* it works with a network only, as before */ }
  }


  // --- start ----------------------------------------------------------------

  const drawingWidth = () => Math.floor(byId("drawing").clientWidth);

  async function start(link) {
    let record = home && { id: home, text: stored }, shelf = "", units = ""; // the module starts again
    try {
      record ||= await keeper.start();
      shelf = localStorage.getItem(shelfKey) || "";
      units = localStorage.getItem(unitsKey) || "";
      link ||= sessionStorage.getItem(sentKey);
    } catch { /* told when something is kept */ }
    const text = record ? record.text : "";
    opening = text ? "" : "sample";
    byId("units").value = units || "mm";
    ask({ op: "start", value: units, text, shelf, home: record ? record.id : keeper.fresh(), width: drawingWidth() });
    opening = "";
    if (!home) ask({ op: "move", home: keeper.fresh() }); // what could not be read stays as it is
    if (link) look(link);
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

  load().then(async () => {
    byId("message").replaceChildren();
    for (const id of ["own-open", "units", "copy-link", "save-file", "open-file", "designs", "examples"]) byId(id).disabled = false;
    await start(takeLink());
    fold(); // the form is there now
    document.querySelectorAll(".part > div").forEach((region) => watch.observe(region));
    let drawn = drawingWidth();
    new ResizeObserver(() => {
      const width = drawingWidth();
      if (width === drawn || width === 0) return;
      drawn = width;
      ask({ op: "resize", width });
    }).observe(byId("drawing"));
    root.dataset.ready = "true";
    keepSite();
  }).catch((why) => {
    tell("The calculator could not start (" + why + "). The plant shown is the demo; nothing can be changed. Reload, or try another browser.", true);
    root.dataset.ready = "failed";
  });
})();
