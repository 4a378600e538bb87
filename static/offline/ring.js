/**
 * The ring: what the shop server acknowledged within the last fortnight, whole, photos included.
 *
 * A server that was restored from a backup has lost some of it. It then has another epoch, or does
 * not know the entry that this tablet last had acknowledged; it is asked which entries are missing
 * there, and those go back among the unsent ones under their own keys and in their own places: before
 * all that waits in their lane.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store } = window.shopac;
  const { value } = store;
  const FORTNIGHT_MS = 14 * 24 * 3600 * 1000;
  // Bytes of photos of acknowledged entries; beyond it the oldest go. A fortnight of some forty a day
  // at most. Our judgement.
  const PHOTOS_MAX = 400e6;
  const ASK_MS = 20000;

  /**
   * @typedef {import("./outbox.js").Delivered} Delivered
   * @typedef {import("./server.js").Server} Server
   */

  /**
   * Put back among the unsent what the server does not have any more.
   * @param {Server} there
   * @returns {Promise<Server | null>} the server with its epoch; null: it did not say
   */
  async function offer(there) {
    const ring = await store.all("delivered");
    const told = ring.length ? await missingThere(ring, there) : { epoch: there.epoch, missing: [] };
    if (!told) return null;
    const missing = new Set(told.missing);
    await store.write(["items", "delivered", "about"], (at) => {
      /** @type {{key: string, place: number} | null} */
      let last = null;
      for (const { at: again, ...entry } of ring) {
        const { key, place = 0 } = entry;
        if (!missing.has(key)) {
          if (place > (last?.place || 0)) last = { key, place };
          continue;
        }
        at("items").put({ ...entry, state: "kept", again, attempts: 1, next: 0, said: "", why: "" });
        at("delivered").delete(key);
      }
      at("about").put(told.epoch, "epoch");
      at("about").put(last, "last");
    });
    window.shopac.outbox.tell({ about: "items" });
    return { ...there, epoch: told.epoch, forgot: false };
  }

  /** @param {Delivered[]} ring @param {Server} there @returns {Promise<any>} */
  async function missingThere(ring, there) {
    try {
      const answer = await fetch("/ring/", {
        method: "POST",
        body: JSON.stringify({ keys: ring.map((one) => one.key) }),
        headers: { "X-CSRFToken": there.csrf, "Content-Type": "application/json" },
        redirect: "manual",
        signal: AbortSignal.timeout(ASK_MS),
      });
      const told = await answer.json();
      return told.shopac === "here" && Array.isArray(told.missing) ? told : null;
    } catch {
      return null;
    }
  }

  /** @param {Delivered} one @returns {number} bytes of its photos that are still here */
  const bytesOf = (one) => (one.let_go ? 0 : one.photos.reduce((sum, photo) => sum + photo.size, 0));

  /** How many photos of acknowledged entries are here, and their bytes. */
  async function size() {
    const ring = (await store.all("delivered")).filter(bytesOf);
    const photos = ring.reduce((sum, one) => sum + one.photos.length, 0);
    return { photos, bytes: ring.reduce((sum, one) => sum + bytesOf(one), 0), most: PHOTOS_MAX };
  }

  /**
   * Forget what was acknowledged more than a fortnight ago, and photos beyond what is kept of them.
   * @param {number} now the shop's time: a tablet's clock that jumped ahead must empty nothing
   */
  function forget(now) {
    let left = PHOTOS_MAX;
    return letGo((one) => (left -= bytesOf(one)) < 0, now - FORTNIGHT_MS);
  }

  /**
   * No room for an entry: photos that the server has make room for it, the oldest first.
   * @param {number} bytes
   */
  async function makeRoom(bytes) {
    const all = (await size()).bytes;
    let left = all - 2 * bytes;
    if (all) await letGo((one) => (left -= bytesOf(one)) < 0, 0);
    return all > 0;
  }

  /**
   * The newest first. What was typed on in a form keeps its photos.
   * @param {(one: Delivered) => boolean} beyond whether its photos go
   * @param {number} oldest before it all goes
   */
  function letGo(beyond, oldest) {
    return store.write(["delivered", "drafts", "photos"], async (at) => {
      const ring = await value(at("delivered").index("at").getAll());
      const drafts = new Set(await value(at("drafts").getAllKeys()));
      for (const one of ring.reverse()) {
        const old = one.at <= oldest;
        if (old) at("delivered").delete(one.key);
        if (drafts.has(one.key) || !bytesOf(one) || !(old || beyond(one))) continue;
        at("photos").delete(store.photosOf(one.key));
        if (!old) at("delivered").put({ ...one, let_go: true });
      }
    });
  }

  window.shopac.ring = { offer, size, forget, makeRoom };
})();
