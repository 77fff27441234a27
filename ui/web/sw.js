// Keeps the whole app in the browser, so that it opens without a network. RELEASE and FILES are
// filled in by ui/web/build; a new release is another text, which is how the browser notices it.

const CACHE = "tautmark-RELEASE";
const FILES = ["FILES"];

self.addEventListener("install", (event) => {
  // Past what the browser keeps by a host's lifetimes: an old page would ask for a folder that is gone.
  const fresh = FILES.map((path) => new Request(path, { cache: "reload" }));
  event.waitUntil(
    caches.open(CACHE)
      .then((cache) => cache.addAll(fresh))
      // The page that is open has loaded all it needs; the next one gets the new release.
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith("tautmark-") && name !== CACHE;
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") {
    const kept = caches.open(CACHE).then((cache) => cache.match(event.request, { ignoreSearch: true }));
    event.respondWith(kept.then((response) => response ?? fetch(event.request)));
  }
});
