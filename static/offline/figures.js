/**
 * What this tablet tells the shop server of itself with its ping: how much is kept here unsent, by its
 * own count of bytes (a browser's own estimate may be far off). Once a minute, and at once when there
 * is more or less of it.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store } = window.shopac;
  const TELL_MS = 60000;
  const HOLDING = ["items", "drafts", "delivered", "jobs"]; // and "photos"

  /** @returns {Promise<{unsent: number, waiting: number, text: string} | null>} null: nothing new to tell */
  async function figures() {
    const now = Date.now();
    const [items, last] = await Promise.all([store.all("items"), store.get("about", "told")]);
    const unsent = items.length;
    const waiting = items.filter((/** @type {any} */ item) => item.state !== "kept").length;
    const same = last?.unsent === unsent && last.waiting === waiting;
    if (same && now >= last.at && now - last.at < TELL_MS) return null;
    const first = Math.min(now, ...items.map((/** @type {any} */ item) => Date.parse(item.typed_at) || now));
    const told = {
      unsent,
      waiting,
      photos: items.reduce((/** @type {number} */ sum, /** @type {any} */ item) => sum + item.photos.length, 0),
      oldest: Math.round((now - first) / 1000),
      bytes: await keptBytes(),
      persisted: Number(Boolean(await navigator.storage?.persisted?.())),
      version: document.documentElement.dataset.version || "",
    };
    return { unsent, waiting, text: String(new URLSearchParams(/** @type {any} */ (told))) };
  }

  /** All that is kept here: texts as they are written, photos by their own size. */
  async function keptBytes() {
    const held = (await Promise.all(HOLDING.map((name) => store.all(name)))).flat();
    const photos = await store.read(["photos"], (/** @type {any} */ at) => store.value(at("photos").getAllKeys()));
    const sizes = new Map(held.flatMap((one) => one.photos || []).map((/** @type {any} */ one) => [one.sha256, one.size]));
    const texts = held.reduce((sum, one) => sum + JSON.stringify(one).length, 0);
    return photos.reduce((/** @type {number} */ sum, /** @type {any} */ [, sha256]) => sum + (sizes.get(sha256) || 0), texts);
  }

  Object.assign(window.shopac, { figures, keptBytes });
})();
