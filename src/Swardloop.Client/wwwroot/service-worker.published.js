// Serves the whole app without a network. Each build has a cache of its own, filled whole or not at all; a page keeps the build it started
// with until every page is closed or the person says so, so no page ever gets files of two builds.
self.importScripts("./service-worker-assets.js");

const cacheName = `swardloop-${self.assetsManifest.version}`;
const files = self.assetsManifest.assets
    .filter(asset => !/\.(br|gz|map|pdb)$|^service-worker/.test(asset.url))
    .map(asset => new Request(asset.url, { integrity: asset.hash, cache: "no-cache" }));

self.addEventListener("install", event => event.waitUntil(caches.open(cacheName).then(cache => cache.addAll(files))));

self.addEventListener("activate", event => event.waitUntil((async () => {
    for (const name of await caches.keys()) {
        if (name.startsWith("swardloop-") && name !== cacheName) await caches.delete(name);
    }
    await self.clients.claim();
})()));

self.addEventListener("message", event => { if (event.data === "take over") self.skipWaiting(); });

self.addEventListener("fetch", event => {
    const url = new URL(event.request.url);
    if (event.request.method !== "GET" || url.origin !== self.location.origin || /^\/(api|openapi|o)(\/|$)/.test(url.pathname)) return;
    event.respondWith((async () => {
        const cache = await caches.open(cacheName);
        const asked = event.request.mode === "navigate" ? "index.html" : event.request;
        return await cache.match(asked, { ignoreSearch: true }) ?? fetch(event.request);
    })());
});
