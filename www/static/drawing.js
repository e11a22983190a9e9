// The drawings take a hand: grips are dragged, the side view is made larger, and
// the piece that is pointed at is lit wherever the page shows it. ask and see
// are the page's, nameOf says what it calls a control.
"use strict";
globalThis.drawoffDrawings = ({ ask, see, nameOf }) => {
  const byId = (id) => document.getElementById(id);

  // Only what the side view shows is asked for while a grip is held; the entry
  // ends when it is let go.
  let held = null; // the grip in hand: where it was taken, and where that is
  const slide = (path, metres, typing) => ask(() => see({ op: "slide", path, value: metres.toFixed(5), typing }), { key: typing && "slide " + path, what: nameOf(byId("grip-" + path)) + ", dragged" });
  document.addEventListener("pointerdown", (e) => {
    const grip = e.target.closest && e.target.closest("[data-grip]");
    if (!grip || e.button) return;
    e.preventDefault();
    const svg = grip.ownerSVGElement;
    held = { field: grip.dataset.grip, level: grip.classList.contains("level"), at: Number(grip.dataset.at), x: e.clientX, y: e.clientY, scale: Number(svg.dataset.scale) * svg.clientWidth / svg.viewBox.baseVal.width, pointer: e.pointerId };
    grip.focus();
  });
  const heldAt = (e) => held.at + (held.level ? e.clientX - held.x : held.y - e.clientY) / held.scale;
  document.addEventListener("pointermove", (e) => {
    if (!held || e.pointerId !== held.pointer) return;
    held.to = heldAt(e);
    slide(held.field, held.to, true);
  });
  // A finger that holds a grip does not scroll: the browser would take it away.
  document.addEventListener("touchmove", (e) => { if (held) e.preventDefault(); }, { passive: false });
  const letGo = (e) => {
    if (!held || e.pointerId !== held.pointer) return;
    if ("to" in held) slide(held.field, held.to, false); // where it was last: one that is taken away says no place
    held = null;
  };
  document.addEventListener("pointerup", letGo);
  document.addEventListener("pointercancel", letGo);
  document.addEventListener("keydown", (e) => {
    const grip = e.target.closest && e.target.closest("[data-grip]");
    const by = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[e.key];
    if (!grip || !by) return;
    e.preventDefault();
    const { id } = grip, { grip: path } = grip.dataset;
    ask(() => see({ op: "slide", path, value: (Number(byId(id).dataset.at) + by * 0.01).toFixed(5) }), { what: nameOf(grip) });
  });

  // zoom makes the drawing larger by by, or fits it for 0, round the middle of what is seen.
  let zoomed = 1;
  async function zoom(by) {
    const sheet = byId("side-view"), was = zoomed;
    zoomed = by ? Math.min(6, Math.max(1, zoomed * by)) : 1;
    if (zoomed === was) return;
    const x = (sheet.scrollLeft + sheet.clientWidth / 2) / was, y = (sheet.scrollTop + sheet.clientHeight / 2) / was;
    await ask(() => see({ op: "resize", zoom: Math.round(zoomed * 100) }), { key: "zoom" });
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
    const said = document.querySelector(`#drawing ${same} > title`), what = byId("what");
    if (said && what) what.textContent = said.textContent;
  }
  document.addEventListener("pointerover", light);
  document.addEventListener("focusin", light);
  document.addEventListener("click", (e) => {
    const button = e.target.closest("button[data-zoom]");
    if (button) zoom(Number(button.dataset.zoom));
  });
};
