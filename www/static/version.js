// Keeps the site for use without a network: address is of the script that does.
// A newer one waits until the user takes it; the design is stored at every
// change, so nothing is lost then. sayIn tells of it, and takes the answer.
"use strict";
globalThis.drawoffVersion = async (address, sayIn) => {
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
    const site = await keeper.register(address);
    if (site.waiting && keeper.controller) offer(site.waiting);
    site.addEventListener("updatefound", () => {
      const worker = site.installing;
      worker.addEventListener("statechange", () => {
        if (worker.state === "installed" && keeper.controller) offer(worker);
      });
    });
    await keeper.ready;
    document.documentElement.dataset.kept = "true";
  } catch { /* it works with a network only, as before */ }
};
