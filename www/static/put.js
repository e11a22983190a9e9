// Puts what the module answers in place: HTML by the id of a region, changed
// into it and not over it, so that focus, caret, folds and what is half typed
// stay. beside(field) has the pair of steps stand at a field, or apart from the
// page's content; inUse tells of a control whether it holds half an entry.
"use strict";
globalThis.drawoffPutter = ({ beside, inUse }) => {
  // put fills the regions; where that takes long it lets the browser paint
  // between, unless they belong together.
  async function put(regions, together) {
    let begun = performance.now();
    let couple = uncouple();
    for (const [id, html] of Object.entries(regions || {})) {
      if (!together && performance.now() - begun > 12) {
        couple();
        await new Promise((on) => setTimeout(on));
        couple = uncouple();
        begun = performance.now();
      }
      const place = document.getElementById(id);
      if (!place) continue; // gone since the workshop was asked
      if (!touchUp(place, html)) morph(place, parsed(html));
    }
    couple();
  }

  function parsed(html) {
    const template = document.createElement("template");
    template.innerHTML = html;
    return template.content;
  }

  // touchUp changes only the values that are new in place, where all else of it
  // is as it was given last: so it is with a drawing at most keys. It takes a
  // fifth of what morph does, and leaves less to collect.
  const given = new Map(); // by a region's id: the tags and texts of it, and the nodes that they stand for
  function touchUp(place, html) {
    const last = given.get(place.id), tokens = html.match(/<[^>]*>|[^<]+/g) || [];
    given.set(place.id, { tokens });
    const nodes = last?.tokens.length === tokens.length && (last.nodes || nodesOf(place, last.tokens));
    if (!nodes || !nodes.every((node) => node.isConnected)) return false; // a script put something else there
    const shape = (token) => token[0] === "<" ? token.replace(/ (?!id=|data-keep=|data-ref=)([^ =]+)="[^"]*"/g, " $1") : ""; // what has a key is moved, not rewritten
    const fresh = tokens.map((token, i) => i).filter((i) => tokens[i] !== last.tokens[i]);
    if (fresh.some((i) => shape(tokens[i]) !== shape(last.tokens[i]))) return false;
    for (const i of fresh) {
      const was = valuesOf(last.tokens[i]);
      if (tokens[i][0] !== "<") nodes[i].nodeValue = plain(tokens[i]);
      else valuesOf(tokens[i]).forEach(([, name, value], n) => value !== was[n][2] && nodes[i].setAttribute(name, plain(value)));
    }
    given.set(place.id, { tokens, nodes });
    return true;
  }

  const valuesOf = (tag) => Array.from(tag.matchAll(/ ([^ =]+)="([^"]*)"/g));
  const plain = (text) => text.includes("&") ? parsed(text).textContent : text;

  // nodesOf returns the node that each of tokens stands for, place for an end;
  // nothing where place holds something else, or what a user changes.
  function nodesOf(place, tokens) {
    if (place.querySelector("input,select,textarea")) return null;
    const walk = document.createTreeWalker(place, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    const nodes = [];
    for (const token of tokens) {
      const node = token.startsWith("</") ? place : walk.nextNode();
      if (node !== place && node?.nodeName.toLowerCase() !== (/^<([^ />]+)/.exec(token)?.[1].toLowerCase() || "#text")) return null;
      nodes.push(node);
    }
    return walk.nextNode() ? null : nodes;
  }

  // While the page changes the pair of steps stands apart; the focus comes back to what was moved.
  function uncouple() {
    beside(null);
    const on = document.activeElement, back = hold();
    return () => {
      if (on.isConnected && on !== document.activeElement) on.focus({ preventScroll: true });
      back();
      beside(document.activeElement);
    };
  }

  // hold is for before something is taken away: what it returns gives the focus,
  // where what has it is gone or cannot be pressed any more, to what is next to it.
  function hold() {
    const on = document.activeElement, within = [];
    if (!on.matches("button,a,summary")) return () => {};
    for (let n = on.parentElement; n; n = n.parentElement) within.push(n);
    const all = Array.from(document.querySelectorAll("button,a[href],summary,select")), at = all.indexOf(on);
    const there = (n) => n.isConnected && !n.disabled && n.tabIndex >= 0 && n.checkVisibility({ visibilityProperty: true });
    return () => {
      if (there(on) || ![on, document.body].includes(document.activeElement)) return;
      for (const place of within.filter((n) => n.isConnected)) {
        const near = (n) => place.contains(n) && there(n);
        const next = all.slice(at + 1).find(near) || all.slice(0, at).findLast(near);
        if (next) return next.focus();
      }
    };
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
    if (inUse(have)) return;
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

  return { put, keyOf, hold };
};
