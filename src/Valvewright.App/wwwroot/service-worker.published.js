// Keeps the whole page on the device at the first visit, so that it opens without a signal. Data of sites is kept by the page itself.
self.importScripts('./service-worker-assets.js');

const cacheName = `valvewright-${self.assetsManifest.version}`;
const left = [/^service-worker\.js$/, /\.br$/, /\.gz$/];
// A name with a digest in it never changes its content: what the page has just loaded need not be asked for again.
const lasting = /^_framework\/.+\.[a-z0-9]{10}\.[a-z0-9]+$/;
const wanted = self.assetsManifest.assets.filter(asset => !left.some(pattern => pattern.test(asset.url)));

self.addEventListener('install', event => event.waitUntil((async () => {
  const cache = await caches.open(cacheName);
  // Each file is asked for with the digest that it was published with: half an old page and half a new one is refused.
  await cache.addAll(wanted.map(asset => new Request(asset.url, { integrity: asset.hash, cache: lasting.test(asset.url) ? 'default' : 'no-cache' })));
  await self.skipWaiting();
})()));

self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith('valvewright-') && name !== cacheName) await caches.delete(name);
  }
  await self.clients.claim();
})()));

let opened = null;
self.addEventListener('fetch', event => {
  const address = new URL(event.request.url);
  if (event.request.method !== 'GET' || address.origin !== self.location.origin || /^\/(api|pair|people|read)\b/.test(address.pathname)) return;
  event.respondWith((async () => {
    const cache = await (opened ??= caches.open(cacheName));
    // By the whole address without its query: told to ignore queries itself, a browser looks through all that is kept, file by file.
    const kept = await cache.match(event.request.mode === 'navigate' ? new URL('index.html', self.registration.scope).href : address.origin + address.pathname);
    return kept || fetch(event.request);
  })());
});
