// Keeps the designs in this browser, each under an id of its own. A record
// holds what the module wrote (text), a copy to compare with (against), the
// title and when it was changed. It is written only over the version that
// this window knows, told by its stamp: windows do not write over each other.
"use strict";
globalThis.drawoffKeeper = (on) => {
  const oldKey = "drawoff.1"; // where the one design was, before there were several
  const openKey = "drawoff.open"; // which design this window has open, for when it is loaded again
  const fresh = () => Date.now().toString(36) + Math.random().toString(36).slice(2, 8);
  const seen = new Map(); // records as this window last read or wrote them
  const waiting = new Map(); // records that are still to be written
  const latest = (id) => waiting.get(id) || seen.get(id);
  const channel = new BroadcastChannel("drawoff");
  let db = null, writing = null, failed = false;
  let under = null; // the transaction that is under way

  async function open() {
    return db ||= await idb.openDB("drawoff", 1, {
      upgrade: (made) => { made.createObjectStore("designs", { keyPath: "id" }); },
      blocking: (_, __, event) => { event.target.close(); db = null; }, // a newer Drawoff waits for it
      terminated: () => { db = null; },
    });
  }

  // start returns the record to begin with: what this window had open, else
  // what was changed last, else a new one without text.
  async function start() {
    await open();
    let old = "", mine = "";
    try {
      old = localStorage.getItem(oldKey);
      mine = sessionStorage.getItem(openKey);
    } catch { /* what is refused there is not always refused in the database */ }
    const change = db.transaction("designs", "readwrite");
    const all = await change.store.getAll();
    if (old && !all.some((r) => r.text === old)) {
      all.push({ id: fresh(), text: old, title: titleOf(old), changed: Date.now(), stamp: fresh() });
      change.store.put(all.at(-1));
    }
    await change.done;
    if (old) localStorage.removeItem(oldKey);
    const record = all.find((r) => r.id === mine) || all.sort((a, b) => b.changed - a.changed)[0];
    if (record) seen.set(record.id, record);
    return record;
  }

  function titleOf(text) {
    try { return JSON.parse(text).design.title || ""; } catch { return ""; }
  }

  // save keeps text under id. A sample is one that nobody has changed yet.
  function save(id, text, title, sample) {
    try { sessionStorage.setItem(openKey, id); } catch { /* then the last one changed is opened */ }
    if (latest(id)?.text !== text) change(id, { text, title, sample, changed: Date.now() });
  }

  function change(id, more) {
    waiting.set(id, { ...latest(id), id, ...more });
    writing ||= write().finally(() => { writing = null; });
  }

  async function write() {
    try {
      await open();
      for (const id of waiting.keys()) {
        for (let next; (next = waiting.get(id));) {
          const change = under = db.transaction("designs", "readwrite");
          change.done.catch(() => {}); // what is asked of it tells
          const there = await change.store.get(id);
          if (there && there.stamp !== seen.get(id)?.stamp) {
            await change.done;
            if (waiting.has(id)) apart(id);
            break;
          }
          const record = { ...next, stamp: fresh() };
          await Promise.all([change.store.put(record), change.done]);
          if (!waiting.has(id)) break; // written again on leaving, or taken away
          if (waiting.get(id) === next) waiting.delete(id);
          written(record);
        }
      }
      if (failed) on.kept();
      failed = false;
    } catch (why) {
      if (waiting.size === 0) return; // it was broken off to leave
      if (!failed) on.refused(why);
      failed = true;
    }
  }

  function written(record) {
    seen.set(record.id, record);
    channel.postMessage({ id: record.id, stamp: record.stamp });
  }

  // apart keeps this window's version as a design of its own: another window
  // has changed the one that both had open.
  function apart(id) {
    const mine = fresh();
    waiting.set(mine, { ...waiting.get(id), id: mine });
    waiting.delete(id);
    on.rival(id, mine);
  }

  // leave writes what waits without looking first: nobody waits for an answer
  // then, and whoever types here has not typed elsewhere a blink ago.
  function leave() {
    if (!db || waiting.size === 0) return;
    if (writing) try { under.abort(); } catch { /* it is done */ }
    const change = db.transaction("designs", "readwrite");
    const lost = () => {}; // nobody is left to be told
    change.done.catch(lost);
    for (const next of waiting.values()) {
      const record = { ...next, stamp: fresh() };
      change.store.put(record).catch(lost);
      written(record);
    }
    waiting.clear();
    change.commit();
  }

  // What could not be kept would be gone: the browser asks first.
  addEventListener("beforeunload", (e) => { if (failed) e.preventDefault(); });

  channel.onmessage = ({ data: { id, stamp } }) => {
    if (latest(id) && seen.get(id)?.stamp !== stamp) on.elsewhere(id, stamp);
    on.listed();
  };
  addEventListener("pageshow", async ({ persisted }) => {
    if (!persisted) return; // it slept, and heard nothing meanwhile
    for (const id of seen.keys()) {
      const there = await read(id);
      if (there && there.stamp !== seen.get(id).stamp) on.elsewhere(id, there.stamp);
    }
  });

  const read = async (id) => (await open()).get("designs", id);

  return {
    fresh, start, save, change, leave, latest, read,
    all: async () => (await open()).getAll("designs"),
    // know takes record as the version that may be written over.
    know(record) {
      waiting.delete(record.id);
      seen.set(record.id, record);
    },
    async remove(id) {
      waiting.delete(id);
      seen.delete(id);
      await (await open()).delete("designs", id);
      channel.postMessage({ id, stamp: "" });
    },
    // add puts a record among the others, under another id where its own is taken.
    async add(record) {
      const change = (await open()).transaction("designs", "readwrite");
      const id = await change.store.get(record.id) ? fresh() : record.id;
      const added = { ...record, id, stamp: fresh() };
      await Promise.all([change.store.put(added), change.done]);
      channel.postMessage({ id, stamp: added.stamp });
      return added;
    },
  };
};
