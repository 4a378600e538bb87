{% autoescape off %}/* shopac {{ version }}
 *
 * Keeps pages and static files, so that they open while the shop server is away. It never touches a
 * post, and keeps no page that knows a job, a person or a form token: the kept pages are the same
 * for every job, and the pages' own scripts fill them. A new worker waits until no page of the old
 * one is open, or until somebody taps for it (static/offline/renew.js).
 */
"use strict";

const PAGES = {{ pages }};
const FIRST = {{ first }}; // where the root address leads
const INSTEAD = {{ instead }}; // what opens in the place of a page that no tablet keeps
const NOTICE = {{ notice }};
const FILES = {{ files }};
const LIMIT_MS = 2000; // how long a page is waited for when a kept one is at hand
const LONGEST_MS = 20000;
const KEEP_AGAIN_MS = 10 * 60 * 1000;
const HASHED = /\.[0-9a-f]{12}\.[a-z0-9]+$/; // such a name never changes its content
const HEADERS = ["Content-Type", "Content-Security-Policy", "Referrer-Policy", "X-Frame-Options"];
const LATER = "<p class=\"soft\">Worked out when the server answers.</p>";

self.addEventListener("install", (event) => event.waitUntil(keepPage(NOTICE)));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("message", (event) => {
  if (event.data === "keep") event.waitUntil(keepAll());
  if (event.data === "keep anew") event.waitUntil(keepAll(true));
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== self.location.origin) return;
  if (address.pathname.startsWith(FILES)) event.respondWith(file(request, address));
  else if (request.headers.has("HX-Request")) event.respondWith(fragment(request));
  else if (request.mode === "navigate") event.respondWith(page(request, address));
});

/** A static file: as kept when its name tells its content, else from the server first. */
async function file(request, address) {
  const cache = await caches.open("files");
  const kept = await cache.match(request, { ignoreSearch: true });
  if (kept && HASHED.test(address.pathname)) return kept;
  try {
    const fresh = await fetch(request);
    if (fresh.ok) await cache.put(address.pathname, fresh.clone());
    return fresh;
  } catch (error) {
    if (kept) return kept;
    throw error;
  }
}

/** A part of a page: never kept under the page's address; htmx swaps nothing but a 200. */
async function fragment(request) {
  try {
    return await fetch(request, { signal: AbortSignal.timeout(LONGEST_MS) });
  } catch {
    return new Response(LATER, { headers: { "Content-Type": "text/html; charset=utf-8" } });
  }
}

/** A page: from the server; as kept when it is silent, gone, or something else answers. */
async function page(request, address) {
  const cache = await caches.open("pages");
  const path = address.pathname === "/" ? FIRST : INSTEAD[address.pathname] || address.pathname;
  const kept = await cache.match(path, { ignoreSearch: true });
  const coming = fetch(request);
  try {
    const fresh = await within(kept && !INSTEAD[address.pathname] ? LIMIT_MS : LONGEST_MS, coming);
    return kept && !isPage(fresh) ? kept : fresh;
  } catch {
    coming.catch(() => {});
    return kept || (await cache.match(NOTICE)) || Response.error();
  }
}

/**
 * Whether the shop server gave this page. A hotel's sign-in page has no policy of ours. A job that
 * was taken in on this tablet may still be unknown there (404).
 */
function isPage(answer) {
  if (answer.type === "opaqueredirect") return true; // to the sign-in
  return isOurs(answer) && answer.status < 500 && answer.status !== 404;
}

function isOurs(answer) {
  return answer.headers.has("Content-Security-Policy");
}

function within(milliseconds, promise) {
  const late = new Promise((_, reject) => {
    setTimeout(() => reject(new Error("late")), milliseconds);
  });
  return Promise.race([promise, late]);
}

/** Keep all pages anew, and let go of files that none of them needs. @param {boolean} now young or not */
async function keepAll(now = false) {
  const cache = await caches.open("pages");
  const first = await cache.match(PAGES[0]);
  const at = first ? Date.parse(first.headers.get("X-Kept-At")) : 0;
  if (!now && Math.abs(Date.now() - at) < KEEP_AGAIN_MS) return;
  const needed = new Set();
  let all = true;
  for (const address of [NOTICE, ...PAGES.slice(1), PAGES[0]]) {
    const files = await keepPage(address).catch(() => null);
    for (const one of files || []) needed.add(one);
    all &&= Boolean(files); // signed out, or the server is gone: what is kept stays
  }
  if (!all) return;
  const files = await caches.open("files");
  for (const { url } of await files.keys()) {
    if (!needed.has(new URL(url).pathname)) await files.delete(url);
  }
}

/** Keep one page, its files first. Returns their addresses, or null when there is no such page. */
async function keepPage(address) {
  const signal = AbortSignal.timeout(LONGEST_MS);
  const answer = await fetch(address, { cache: "no-store", redirect: "manual", signal });
  if (!answer.ok || !isOurs(answer)) return null;
  const at = new Date().toISOString();
  const text = neutral(await answer.text()).replace("<html", `<html data-kept="${at}"`);
  const files = [...text.matchAll(/(?:src|href)="([^"]+)"/g)]
    .map((found) => found[1])
    .filter((one) => one.startsWith(FILES));
  await Promise.all(files.map(keepFile));
  const headers = new Headers({ "X-Kept-At": at });
  for (const name of HEADERS) {
    const value = answer.headers.get(name);
    if (value) headers.set(name, value);
  }
  await (await caches.open("pages")).put(address, new Response(text, { headers }));
  return files;
}

async function keepFile(address) {
  const cache = await caches.open("files");
  if (HASHED.test(address) && (await cache.match(address))) return;
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`no ${address}`);
  await cache.put(address, answer);
}

/** Without form tokens (64 letters and digits) and keys: those of a kept page would serve twice. */
function neutral(text) {
  return text
    .replace(/\b[A-Za-z0-9]{64}\b/g, "")
    .replace(/value="[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"/g, 'value=""');
}
{% endautoescape %}
