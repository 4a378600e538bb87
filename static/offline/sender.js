/**
 * Sends what the outbox keeps. An entry leaves the tablet only when the server's whole answer names
 * its key and its fingerprint; anything else, whatever its status, is a reason to try again or to
 * wait for a person.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store, outbox, server, load } = window.shopac;
  const { value } = store;
  const SEND_MS = 20000;
  const SLOWEST = 10; // bytes a millisecond; a photo that goes slower is taken for stuck
  const PROBE_MS = 4000; // between looks for a server that does not answer
  const IDLE_MS = 15000;
  const LONGEST_WAIT_MS = 60000;
  const FORTNIGHT_MS = 14 * 24 * 3600 * 1000;
  const PHOTO_GONE = "photo_gone";
  const TAKEN = new Set(["accepted", "again", "overtaken"]);
  /** @type {Record<number, string>} */
  const TURNED_AWAY = { 403: "refused", 409: "refused", 413: "refused", 422: "returned" };

  /**
   * @typedef {import("./outbox.js").Item} Item
   * @typedef {import("./server.js").Server} Server
   * @typedef {{status: number, said: any}} Answer status 0: none, or a redirect
   */

  let missed = 0; // pings in a row
  let wake = () => {};

  /**
   * Send what can be sent now. One page of the tablet does it at a time.
   * @param {{wait?: boolean, forgot?: boolean}} [how] wait for the page that is at it, instead of
   *   leaving it to that; the server may have lost what it had
   */
  function drain({ wait = false, forgot = false } = {}) {
    const options = wait ? {} : { ifAvailable: true };
    return navigator.locks.request("shopac:drain", options, (lock) => (lock ? sendAll(forgot) : null));
  }

  /** Send without waiting out what was to be waited after earlier attempts. */
  async function sendNow() {
    await store.write(["items"], async (at) => {
      for (const item of await value(at("items").getAll())) {
        if (item.next) at("items").put({ ...item, next: 0 });
      }
    });
    outbox.tell({ about: "items" });
    return run({ wait: true });
  }

  /** The server, after it was offered what it lost. @returns {Promise<Server | null>} */
  async function reach() {
    const there = await server.ping();
    missed = there ? 0 : missed + 1;
    return there?.forgot ? (await load("ring")).offer(there) : there;
  }

  /** @param {boolean} forgot */
  async function sendAll(forgot) {
    /** @type {Map<number, {heavy: boolean, done: Promise<void>}>} */
    const running = new Map();
    /** @type {Server | null} */
    let there = forgot ? await reach() : null;
    for (;;) {
      const woken = new Promise((resolve) => {
        wake = () => resolve(undefined);
      });
      const free = (/** @type {Item} */ item) => !running.has(item.sequence) && isDue(item);
      let ready = (await firstOfEachLane()).filter(free);
      if (ready.length && !there) {
        there = await reach();
        ready = (await firstOfEachLane()).filter(free); // what was offered goes before
      }
      for (const item of there ? ready : []) {
        const heavy = item.photos.length > 0;
        if (!there || !mayGo(heavy, [...running.values()])) continue;
        const done = sendOne(item, there).then((settled) => {
          running.delete(item.sequence);
          if (!settled) there = null; // its token or the server itself may be gone
        });
        running.set(item.sequence, { heavy, done });
      }
      if (!running.size) return;
      await Promise.race([woken, ...[...running.values()].map((one) => one.done)]);
    }
  }

  /** @returns {Promise<Item[]>} an entry that waits for a person holds its lane */
  async function firstOfEachLane() {
    /** @type {Map<string, Item>} */
    const first = new Map();
    for (const item of await store.all("items")) {
      if (!first.has(item.lane)) first.set(item.lane, item);
    }
    return [...first.values()];
  }

  /** @param {Item} item */
  function isDue(item) {
    const left = item.next - Date.now();
    const clockWasSet = left > LONGEST_WAIT_MS;
    return isSendable(item) && (left <= 0 || clockWasSet);
  }

  /** Not in a person's hands. The tablet's own right to send may do where a sign-in has ended. */
  function isSendable(/** @type {Item} */ item) {
    return item.state === "kept" || item.state === "sign_in";
  }

  /**
   * At most two at once, one of them never with photos: text does not wait behind a slow upload.
   * @param {boolean} heavy
   * @param {{heavy: boolean}[]} running
   */
  function mayGo(heavy, running) {
    return running.length < 2 && !(heavy && running.some((one) => one.heavy));
  }

  /**
   * @param {Item} waiting
   * @param {Server} there
   * @returns {Promise<boolean>} whether the server settled it
   */
  async function sendOne(waiting, there) {
    const item = await countAttempt(waiting);
    if (!item) {
      outbox.tell({ about: "items" });
      return true;
    }
    outbox.tell({ about: "sending", key: item.key });
    const answer = await post(item, there);
    return settle(item, answer);
  }

  /**
   * Right before sending: from now on the server may have it, and it is never replaced.
   * @param {Item} waiting
   * @returns {Promise<Item | null>} as it is now; null when it is gone or waits for a person
   */
  function countAttempt(waiting) {
    return store.write(["items", "about"], async (at) => {
      /** @type {Item | undefined} */
      const item = await value(at("items").get(waiting.sequence));
      if (!item || !isDue(item)) return null;
      const here = await value(at("about").get("who"));
      // Who signed in anew stands by what was not taken under the last sign-in, and by what was
      // recorded under their name before; nobody else's sign-in makes that theirs.
      const same = item.who?.person.key === here?.person.key;
      if (here && !item.who) item.nameless = true;
      if (here && (!item.who || (same && (item.state === "sign_in" || item.who.claimed)))) item.who = here;
      if (item.who?.claimed) {
        item.state = "sign_in";
        item.next = Date.now() + LONGEST_WAIT_MS;
        item.why = `Name not confirmed: it waits for the PIN of ${item.who.person.name}.`;
        at("items").put(item);
        return null;
      }
      item.attempts += 1;
      at("items").put(item);
      return item;
    });
  }

  /**
   * One multipart: the entry as JSON, and the very bytes of its photos.
   * @param {Item} item
   * @param {Server} there
   * @returns {Promise<Answer>}
   */
  async function post(item, there) {
    const { key, kind, version, job, fields, photos, corrects, rev, sequence, typed_at } = item;
    const happened_at = item.happened_at || null;
    const clocks = { clock_offset_ms: item.clock_offset_ms, clock_offset_sent_ms: there.offset };
    const said = { key, kind, version, job, fields, photos, corrects, rev, sequence, typed_at, happened_at };
    const mended = (item.mended || []).map(({ who, ...when }) => ({ pass: who?.pass || "", ...when }));
    const last = (await store.get("about", "last"))?.key || "";
    const { held } = await navigator.locks.query();
    const asked = Boolean(held?.some((lock) => lock.name === `form:${key}`)); // in front of somebody
    const here = { asked, epoch: there.epoch, last, claimed: Boolean(item.claimed), nameless: item.nameless };
    const signed = { ...said, pass: item.who?.pass || "", mended, ...clocks, ...here };
    const body = new FormData();
    body.append("entry", JSON.stringify(signed));
    let size = 0;
    for (const sha256 of new Set(photos.map((photo) => photo.sha256))) {
      const bytes = await store.get("photos", [key, sha256]);
      if (!bytes) return { status: 0, said: { state: PHOTO_GONE, why: "Its photo is on this tablet no more." } };
      body.append(`photo_${sha256.slice(0, 12)}`, new Blob([bytes]), "photo");
      size += bytes.byteLength;
    }
    try {
      const answer = await fetch("/entries/", {
        method: "POST",
        body,
        headers: { "X-CSRFToken": there.csrf },
        cache: "no-store",
        redirect: "manual", // a sign-in page is no answer
        signal: AbortSignal.timeout(SEND_MS + size / SLOWEST),
      });
      if (answer.type === "opaqueredirect") return { status: 401, said: null };
      const text = await answer.text();
      return { status: answer.status, said: text.startsWith("{") ? JSON.parse(text) : null };
    } catch {
      return { status: 0, said: null };
    }
  }

  /**
   * Do what the answer says. Only an answer that echoes key and fingerprint settles anything.
   * @param {Item} sent
   * @param {Answer} answer
   * @returns {Promise<boolean>}
   */
  async function settle(sent, answer) {
    const { status, said } = answer;
    const echoed = said?.key === sent.key && said?.fingerprint === sent.fingerprint;
    const taken = echoed && (status === 200 || status === 201) && TAKEN.has(said.state);
    const turnedAway = said?.state === PHOTO_GONE ? "refused" : echoed && TURNED_AWAY[status];
    const state = turnedAway || (status === 401 ? "sign_in" : "kept");
    const entry = await store.write(["items", "delivered", "about"], async (at) => {
      /** @type {Item | undefined} */
      const item = await value(at("items").get(sent.sequence));
      if (!item || item.fingerprint !== sent.fingerprint) return null; // discarded meanwhile
      if (taken) return deliver(at, item, said);
      item.state = /** @type {Item["state"]} */ (state);
      item.next = turnedAway ? 0 : Date.now() + pause(item.attempts);
      item.said = said?.state || String(status || "");
      item.why = said?.why || "";
      item.errors = (echoed && said.errors) || {};
      at("items").put(item);
      return item;
    });
    if (entry) {
      const outcome = taken ? "delivered" : state;
      outbox.tell({ about: "outcome", key: sent.key, state: outcome, entry });
    }
    if (taken && sent.photos.length) load("ring").then((ring) => ring.forget(0)).catch(() => {}); // room for its photos
    return taken || Boolean(turnedAway);
  }

  /**
   * @param {(name: string) => IDBObjectStore} at
   * @param {Item} item
   * @param {any} said
   */
  async function deliver(at, item, said) {
    const { url = "", number = "" } = said.result || {};
    const { key } = item;
    const place = said.place || 0;
    const delivered = { ...item, state: "delivered", url, number, place, at: Date.now() };
    at("delivered").put(delivered);
    at("items").delete(item.sequence);
    const last = await value(at("about").get("last"));
    if (place > (last?.place || 0)) at("about").put({ key, place }, "last");
    return delivered;
  }

  /** 1 to 60 seconds, uneven, so that tablets do not all come at once. @param {number} attempts */
  function pause(attempts) {
    const even = 1000 * 2 ** Math.min(attempts - 1, 6);
    return Math.min(LONGEST_WAIT_MS, even * (1 + Math.random() / 2));
  }

  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;

  /** Look again when the next entry is due, and sooner for a server that was away. */
  async function planNext() {
    const sendable = (await firstOfEachLane()).filter(isSendable);
    const soonest = Math.min(...sendable.map((item) => item.next - Date.now()));
    const probe = document.hidden ? IDLE_MS : Math.min(PROBE_MS, pause(missed || 1));
    const wait = missed && sendable.length ? probe : soonest;
    clearTimeout(timer);
    timer = setTimeout(untilGone(run), Math.min(IDLE_MS, Math.max(500, wait)));
  }

  /** @param {{wait?: boolean, forgot?: boolean}} [how] */
  async function run(how) {
    clearTimeout(timer);
    timer = setTimeout(untilGone(run), IDLE_MS); // whatever becomes of this one
    await drain(how);
    await planNext();
  }

  async function begin() {
    const there = await server.first;
    const paused = (await store.all("items")).some((item) => item.state === "sign_in");
    await (there?.signedIn && paused ? sendNow() : run());
    if (!there) return;
    const now = Date.now() + there.offset;
    const old = (/** @type {any} */ at) => at("delivered").index("at").count(IDBKeyRange.upperBound(now - FORTNIGHT_MS));
    if (await store.read(["delivered"], (at) => value(old(at)))) await (await load("ring")).forget(now);
  }

  /** A page that goes away takes its database along; what it was doing is done by the next. */
  const untilGone = (/** @type {() => Promise<any>} */ work) => () => work().catch(() => {});

  outbox.on(() => wake());
  server.on((_, there) => {
    if (there?.forgot) untilGone(() => run({ forgot: true }))();
  });
  addEventListener("online", untilGone(sendNow));
  addEventListener("pageshow", untilGone(begin));
  document.addEventListener("visibilitychange", untilGone(() => run()));

  window.shopac.sender = { sendNow: untilGone(sendNow) };
})();
