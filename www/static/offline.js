// Keeps the site for a shed without a network. The build puts a line before
// this one: unit, the version of the site and the names of all its files,
// which are kept together or not at all. A new version is kept beside the
// old one and waits until the user takes it, or until no window is open.
"use strict";
const ours = "drawoff " + registration.scope + " "; // other sites of the same host have caches, too
const kept = ours + unit.version;

addEventListener("install", (event) => {
  const fresh = unit.files.map((name) => new Request(name, { cache: "no-cache" }));
  event.waitUntil(caches.open(kept).then((cache) => cache.addAll(fresh)));
});

addEventListener("activate", (event) => {
  const old = (name) => name.startsWith(ours) && name !== kept;
  event.waitUntil(caches.keys().then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name)))));
});

addEventListener("message", ({ data }) => {
  if (data === "take") skipWaiting();
});

addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || !event.request.url.startsWith(registration.scope)) return;
  event.respondWith(caches.open(kept)
    .then((cache) => cache.match(event.request, { ignoreSearch: true }))
    .then((answer) => answer || fetch(event.request)));
});
