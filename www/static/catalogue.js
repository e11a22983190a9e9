// Searches the catalogue with the workshop's module, which is fetched when
// somebody turns to the search and not before. Without this script the
// page is whole: it only has no search.
"use strict";
(() => {
  const { workshop } = document.currentScript.dataset;
  const form = document.getElementById("find");
  const query = document.getElementById("query");
  const found = document.getElementById("found");

  let searcher = null; // the module, in its thread
  const start = () => searcher ||= drawoffThread(workshop);

  // find looks for what is asked, and at what is asked by then: entries can be
  // quicker than a slow phone.
  let looking = false;
  async function find() {
    if (looking) return;
    looking = true;
    for (let asked = null; asked !== query.value;) {
      asked = query.value;
      const answer = asked.trim() ? await start().ask({ find: asked }) : { regions: { found: "" } };
      if (answer.error) fail(answer.error);
      else if (asked === query.value) found.innerHTML = answer.regions.found;
    }
    looking = false;
  }

  function fail(why) {
    searcher.end(why);
    searcher = null; // the next entry starts another
    found.textContent = "The search could not start (" + why + "). The tables below are whole; your browser finds words in them.";
  }

  form.hidden = false;
  query.addEventListener("focus", start);
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
