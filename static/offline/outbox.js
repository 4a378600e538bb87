/**
 * Entries kept on this tablet until the shop server has them. sender.js sends them.
 *
 * An entry is written here before anything is sent. Entries of one job (one lane) go in the order
 * they were made; an entry that waits for a person stops its own lane only.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store } = window.shopac;
  const { value } = store;
  // Letters of a discarded entry: the server takes 2 MB of text, and a letter can be six bytes of it.
  const CONTENT_MAX = 300000;
  const FULL = ["QuotaExceededError", "UnknownError"]; // a full disk says so in either way

  /**
   * @typedef {{field: string, name: string, type: string, size: number, sha256: string}} Photo
   *
   * @typedef {Object} Said an entry as a form says it
   * @property {string} key
   * @property {string} kind
   * @property {number} version
   * @property {string | null} job
   * @property {string} lane entries of one lane go in order
   * @property {Record<string, string[]>} fields
   * @property {{name: string, question: string, said: string}[]} [words] the fields in the form's own
   *   words, for the list of what is kept; not sent
   * @property {Photo[]} photos
   * @property {string | null} [happened_at] a time with its zone, when it is not that of typing
   * @property {string | null} corrects key of an earlier entry
   * @property {string} place which form it came from
   * @property {string} address where that form is
   * @property {string} title what that form is called
   *
   * @typedef {Object} Kept what the tablet adds
   * @property {number} sequence place in the order of this tablet
   * @property {string} fingerprint
   * @property {number} rev how often it was replaced before anybody took it
   * @property {import("./server.js").Who | null} who whose entry it is
   * @property {string} typed_at when it was first recorded, whatever became of it since
   * @property {{who: import("./server.js").Who | null, at: string, clock_offset_ms: number | null}[]}
   *   mended who changed it here since, the last time of each
   * @property {number | null} clock_offset_ms server minus tablet, as last measured before the tap:
   *   by the time it is sent this tablet may have set its clock
   * @property {"kept" | "sign_in" | "returned" | "refused"} state
   * @property {number} attempts times it may have reached the server
   * @property {number} next when to try again, by this tablet's clock
   * @property {string} said the server's own word in its last answer
   * @property {string} why
   * @property {Record<string, string[]>} errors by field
   * @property {number} [claimed] its name was picked without the server, at that time
   * @property {boolean} [nameless] it had no name when it was recorded
   * @property {number} [again] when the server had it; it lost it since
   *
   * @typedef {Said & Kept} Item
   * @typedef {Item & {url: string, number: string, at: number, place: number, let_go?: boolean}} Delivered
   *   `place`: in the server's logbook; `let_go`: its photos are here no more
   * @typedef {{about: "items"} | {about: "sending", key: string}
   *   | {about: "outcome", key: string, state: string, entry: any}} News
   */

  // Telling this page and the tablet's other pages.

  /** @type {Set<(news: News) => void>} */
  const listeners = new Set();
  /** @type {BroadcastChannel | null} */
  let channel = null;

  /** @param {News} news */
  function hear(news) {
    for (const listener of listeners) listener(news);
  }

  /** @param {News} news */
  function tell(news) {
    channel?.postMessage(news);
    hear(news);
  }

  function listen() {
    channel?.close();
    channel = new BroadcastChannel("shopac");
    channel.onmessage = (event) => hear(event.data);
  }

  addEventListener("pageshow", listen);
  addEventListener("pagehide", () => channel?.close());
  listen();

  /**
   * Whether nobody can have this entry under its key: never sent, or turned away for good.
   * @param {Item} item
   */
  function replaceable(item) {
    const turnedAway = item.state === "returned" || item.state === "refused";
    return item.attempts === 0 || (turnedAway && item.said !== "reused");
  }

  /**
   * Keep an entry and its photos, whole or not at all.
   *
   * The same content under the same key is the same entry. Other content replaces an entry that
   * nobody can have, in its place; otherwise nothing is written and the answer is "taken".
   * @param {Said} said
   * @param {Map<string, ArrayBuffer>} bytes the photos by hash
   * @returns {Promise<{state: "kept" | "delivered" | "taken", entry: any}>}
   * @throws {DOMException} QuotaExceededError: no room
   */
  async function keep(said, bytes) {
    const print = await fingerprint(said);
    const who = await window.shopac.server.who();
    const stores = ["items", "photos", "drafts", "delivered", "about"];
    const write = () => store.write(stores, async (at) => {
      /** @type {Delivered | undefined} */
      const delivered = await value(at("delivered").get(said.key));
      if (delivered) {
        const same = delivered.fingerprint === print;
        return { state: same ? "delivered" : "taken", entry: delivered };
      }
      /** @type {Item | undefined} */
      const before = await value(at("items").index("key").get(said.key));
      const same = before?.fingerprint === print;
      if (before && !same && !replaceable(before)) return { state: "taken", entry: before };
      at("drafts").delete(said.key);
      if (before && same && before.state !== "returned") return { state: "kept", entry: before };
      const first = { ...fresh(said, print, who), ...(await clockNow(at)) };
      const item = before ? inPlaceOf(before, first, same) : first;
      for (const [sha256, data] of bytes) at("photos").put(data, [said.key, sha256]);
      item.sequence = await value(at("items").put(item));
      return { state: "kept", entry: item };
    });
    const answer = await write().catch(async (error) => {
      const size = said.photos.reduce((sum, one) => sum + one.size, 1e6);
      const full = FULL.includes(error?.name);
      const made = () => window.shopac.load("ring").then((ring) => ring.makeRoom(size));
      if (!full || !(await made().catch(() => false))) throw error;
      return write();
    });
    tell({ about: "items" });
    return answer;
  }

  /** @param {Said} said */
  function fingerprint(said) {
    return window.shopac.fingerprint({ ...said, photos: said.photos.map((one) => [one.field, one.sha256]) });
  }

  /**
   * @param {Said} said
   * @param {string} print
   * @param {import("./server.js").Who | null} who
   * @returns {any} an Item without `sequence`
   */
  function fresh(said, print, who) {
    return {
      ...said,
      fields: window.shopac.cleanFields(said.fields),
      fingerprint: print,
      rev: 0,
      who,
      claimed: who?.claimed,
      typed_at: new Date().toISOString(),
      mended: [],
      state: "kept",
      attempts: 0,
      next: 0,
      said: "",
      why: "",
      errors: {},
    };
  }

  /**
   * What takes the place of another is told by whom and when that was first told: a test is not made
   * later because a number in it was mended later. What was refused is another's work, or decided anew.
   * @param {Item} before
   * @param {any} now
   * @param {boolean} same
   */
  function inPlaceOf(before, now, same) {
    const { sequence, typed_at, clock_offset_ms } = before;
    const item = { ...now, sequence, rev: before.rev + 1 };
    if (before.state === "refused" && before.said !== "too_large") return item;
    const mending = { who: now.who, at: now.typed_at, clock_offset_ms: now.clock_offset_ms };
    const others = (before.mended || []).filter((one) => one.who?.person.key !== now.who?.person.key);
    const mended = same ? before.mended || [] : [...others, mending];
    return { ...item, who: before.who || now.who, typed_at, clock_offset_ms, mended };
  }

  /** @param {(name: string) => IDBObjectStore} at */
  async function clockNow(at) {
    const offset = await value(at("about").get("clock_offset"));
    return { clock_offset_ms: offset ?? null };
  }

  /**
   * Throw entries away for a reason. The reason and all that was typed become entries themselves, in
   * the same write.
   * @param {Item[]} items one, and with it what corrects it: that would correct nothing
   * @param {string} reason
   */
  async function discard(items, reason) {
    const who = await window.shopac.server.who();
    const told = items.map((item) => discarded(item, reason));
    const logged = await Promise.all(told.map(async (said) => fresh(said, await fingerprint(said), who)));
    await store.write(["items", "photos", "about"], async (at) => {
      for (const item of items) {
        at("items").delete(item.sequence);
        at("photos").delete(store.photosOf(item.key));
      }
      const clocks = await clockNow(at);
      for (const one of logged) at("items").put({ ...one, ...clocks });
    });
    tell({ about: "items" });
  }

  /** @param {Item} item @param {string} reason @returns {Said} */
  function discarded(item, reason) {
    const key = crypto.randomUUID();
    return {
      key,
      kind: "discard",
      version: 1,
      job: item.job,
      lane: key, // it waits for nothing
      fields: {
        reason: [reason],
        discarded: [item.key],
        discarded_kind: [item.kind],
        discarded_typed_at: [item.typed_at],
        content: [JSON.stringify({ fields: item.fields, photos: item.photos }).slice(0, CONTENT_MAX)],
      },
      photos: [],
      corrects: null,
      place: "",
      address: location.pathname,
      title: `Discarded: ${item.title}`,
    };
  }

  /**
   * What the header and the list of kept entries count. An entry that went back to a form which is
   * open in front of somebody is not counted: it is being worked on.
   * @returns {Promise<Item[]>} in order
   */
  async function unsent() {
    const [items, locks] = await Promise.all([store.all("items"), navigator.locks.query()]);
    const held = new Set((locks.held || []).map((lock) => lock.name));
    return items.filter((item) => item.state !== "returned" || !held.has(`form:${item.key}`));
  }

  window.shopac.outbox = {
    keep,
    discard,
    unsent,
    tell,
    /** @param {(news: News) => void} listener */
    on: (listener) => listeners.add(listener),
  };
})();
