// The worker: answers for pages of the pocket when the yard's computer is out of reach, and delivers when the phone wakes it.
//
// It keeps pocket pages, scripts, the style sheet and the icon; no other page, so that nothing with anybody's name stays behind.

import { deliver } from "/static/MARK/deliver.js";

const PAGES = "pages";
const FILES = "files-MARK";
const SLOW = 4000;
/** On a page that is kept: when it was asked for, by this phone's clock. */
const ASKED = "kept-asked";
const worker = /** @type {any} */ (self);

worker.addEventListener("install", () => worker.skipWaiting());

worker.addEventListener("activate", (/** @type {any} */ event) => {
  event.waitUntil(tidy().then(() => worker.clients.claim()));
});

worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== location.origin) return;
  if (address.pathname.startsWith("/static/")) event.respondWith(file(request));
  else if (request.mode === "navigate") event.respondWith(page(request, address));
  else if (isPocket(address.pathname)) event.respondWith(page(request, address));
});

worker.addEventListener("sync", (/** @type {any} */ event) => {
  if (event.tag.startsWith("deliver ")) event.waitUntil(deliver(event.tag.slice(8)));
});

// A page tells what it needs, so that the first visit is enough.
worker.addEventListener("message", (/** @type {any} */ event) => {
  event.waitUntil(hold(event.data).catch(() => {}));
});

/** @param {{page: string, files: string[]}} needs  paths of our own */
async function hold({ page, files }) {
  const [pages, store] = [await caches.open(PAGES), await caches.open(FILES)];
  const first = /^\/y\/[0-9a-f]+/.exec(page)?.[0];
  for (const path of [page, `${first}/pocket`].filter(isPocket)) {
    const asked = Date.now();
    const got = await fetch(path, { cache: "no-store" });
    if (!got.ok || got.redirected) continue;
    await pages.put(location.origin + path, await dated(got.clone(), asked));
    files.push(...Array.from((await got.text()).matchAll(/"(\/static\/[^"]+)"/g), (found) => found[1]));
  }
  for (const path of new Set(files)) {
    if (path.startsWith("/static/") && !(await store.match(path))) await store.add(path);
  }
}

/** @param {string} path */
function isPocket(path) {
  return /^\/y\/[0-9a-f]+\/(?:m\/[a-z0-9-]+\/)?pocket$/.test(path);
}

/** Files are named by their content: what is there is right. @param {Request} request */
async function file(request) {
  const files = await caches.open(FILES);
  const there = await files.match(request);
  if (there) return there;
  const got = await fetch(request);
  if (got.ok) await files.put(request, got.clone());
  return got;
}

/** The yard's own answer where it comes soon; else what this phone keeps. @param {Request} request @param {URL} address */
async function page(request, address) {
  const pages = await caches.open(PAGES);
  const key = address.origin + address.pathname;
  const kept = isPocket(address.pathname) ? await pages.match(key) : undefined;
  const asked = Date.now();
  try {
    const got = await (kept ? soon(request) : fetch(request));
    // Only the page itself: not what it was sent on to, nor a refusal.
    if (isPocket(address.pathname) && got.ok && !got.redirected) await pages.put(key, await dated(got.clone(), asked));
    return got;
  } catch {
    const there = kept ?? (await shelf(pages, address));
    return there ? asKept(there) : Response.error();
  }
}

/** @param {Response} page @param {number} asked */
async function dated(page, asked) {
  const headers = new Headers(page.headers);
  headers.set(ASKED, String(asked));
  return new Response(await page.text(), { headers });
}

/** A page that this phone kept says so, and since when: whoever stands in it signed in then, and its verdict is of then. @param {Response} kept */
async function asKept(kept) {
  const text = await kept.text();
  const asked = Number(kept.headers.get(ASKED));
  return new Response(text.replace("<body ", `<body data-kept="${asked}" `), { headers: kept.headers });
}

/** @param {Request} request */
async function soon(request) {
  const giveUp = new AbortController();
  const clock = setTimeout(() => giveUp.abort(), SLOW);
  try {
    return await fetch(request.url, { signal: giveUp.signal, credentials: "same-origin", cache: "no-store", redirect: request.redirect });
  } finally {
    clearTimeout(clock);
  }
}

/** For any other page of the yard out of reach: the pocket's first page, which says what is here. @param {Cache} pages @param {URL} address */
async function shelf(pages, address) {
  const yard = /^\/y\/[0-9a-f]+/.exec(address.pathname)?.[0];
  const there = yard ? await pages.match(`${address.origin}${yard}/pocket`) : undefined;
  if (there || yard) return there;
  const keys = await pages.keys();
  const first = keys.find((key) => /^\/y\/[0-9a-f]+\/pocket$/.test(new URL(key.url).pathname));
  return first ? pages.match(first) : undefined;
}

async function tidy() {
  for (const name of await caches.keys()) {
    if (name !== PAGES && name !== FILES) await caches.delete(name);
  }
}
