// Searches the catalogue with the workshop's module, which is fetched when
// somebody turns to the search and not before. Without this script the
// page is whole: it only has no search.
"use strict";
(() => {
  const { glue, workshop } = document.currentScript.dataset;
  const form = document.getElementById("find");
  const query = document.getElementById("query");
  const found = document.getElementById("found");

  let loading;
  function load() {
    loading ??= new Promise((ready, failed) => {
      const script = document.createElement("script");
      script.src = glue;
      script.onerror = () => failed(new Error("it could not be fetched"));
      script.onload = async () => {
        try {
          const go = new Go();
          const answer = await fetch(workshop);
          const bytes = await answer.arrayBuffer();
          const made = await WebAssembly.instantiate(bytes, go.importObject);
          globalThis.drawoffReady = ready;
          go.run(made.instance).catch(failed);
        } catch (why) {
          failed(why);
        }
      };
      document.head.append(script);
    });
    return loading;
  }

  async function find() {
    const asked = query.value;
    if (asked.trim() === "") {
      found.replaceChildren();
      return;
    }
    try {
      await load();
    } catch (why) {
      found.textContent = "The search could not start (" + why.message + "). The tables below are whole; your browser finds words in them.";
      return;
    }
    if (query.value !== asked) return; // a later entry answers
    const answer = JSON.parse(globalThis.drawoff(JSON.stringify({ find: asked })));
    if (answer.regions) found.innerHTML = answer.regions.found;
  }

  form.hidden = false;
  query.addEventListener("focus", () => { load().catch(() => {}); }, { once: true });
  query.addEventListener("input", find);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const asked = new URLSearchParams({ q: query.value });
    history.replaceState(null, "", query.value ? "?" + asked : location.pathname);
    find();
  });
  query.value = new URLSearchParams(location.search).get("q") || "";
  if (query.value) find();
})();
