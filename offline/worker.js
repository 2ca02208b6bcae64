// Keeps the page for when there is no network: one version whole, or not at all. `cargo xtask build` writes two
// lines above this text: VERSION, made from all that the page is, and FILES, each with its digest.
//
// A new version is fetched beside the one in use and waits. It takes over when no tab holds the old one any more, or
// when the reader asks for it: what is open is never exchanged under anyone's hands.

// One host may hold more than one page, each with its own scope.
const OURS = `lip-to-rail ${self.registration.scope} `;
const KEPT = OURS + VERSION;

// The page says which of the two modules it runs; the other is not kept.
const module = new URL(self.location).search.slice(1);
const WANTED = FILES.filter((file) => !file.module || file.module === module);

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(forgetOthers()));
self.addEventListener("message", ({ data }) => {
  if (data === "take over") self.skipWaiting();
});
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") event.respondWith(answer(event));
});

async function keep() {
  const kept = await caches.open(KEPT);
  await Promise.all(
    WANTED.map(async ({ path, integrity }) => {
      // Hosts send `index.html` on to its folder, and a browser takes no redirected page from a worker.
      const address = path === "index.html" ? "./" : path;
      // A file of another version, half way through an upload, does not pass for this one.
      const response = await fetch(address, { cache: "no-cache", integrity });
      if (!response.ok) throw new Error(`${address}: ${response.status}`);
      await kept.put(path, response);
    }),
  );
}

async function forgetOthers() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(OURS) && name !== KEPT);
  await Promise.all(old.map((name) => caches.delete(name)));
  // The tab of the first visit counts as one that holds this version.
  await self.clients.claim();
}

async function answer(event) {
  const address = new URL(event.request.url);
  if (address.pathname.endsWith("/")) address.pathname += "index.html";
  const kept = await caches.open(KEPT);
  const found = await kept.match(address, { ignoreSearch: true });
  if (found) return found;
  const path = address.href.slice(self.registration.scope.length).split(/[?#]/)[0];
  if (WANTED.some((file) => file.path === path)) event.waitUntil(keepAgain());
  return fetch(event.request);
}

let keeping;

// A browser short of room may have thrown away what was kept. A site that has moved on to another version has not this
// one any more: then that one is kept when its worker comes.
function keepAgain() {
  keeping ??= keep()
    .catch(() => caches.delete(KEPT))
    .finally(() => {
      keeping = undefined;
    });
  return keeping;
}
