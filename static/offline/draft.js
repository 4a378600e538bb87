/**
 * Forms in front of somebody: which entry each one is, and what has been typed so far.
 *
 * A form's key lies in the history's entry, so Back and reload find it again, and is held under a
 * lock, so a second tab knows that it is the second. What is typed is kept at every input, under the
 * name of who is here: the next person is told that it is there, and shown it on their own tap only.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store } = window.shopac;
  const { value } = store;
  const LOCK_MS = 400; // a page that is just going away lets go within this time
  const TYPING_MS = 200;
  const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
  const OURS = new Set(["csrfmiddlewaretoken", "key", "corrects"]);

  /**
   * @typedef {import("./outbox.js").Photo} Photo
   * @typedef {Object} Open a form in front of somebody
   * @property {HTMLFormElement} form
   * @property {string} place which form of which job this is, whoever opens it
   * @property {string} key
   * @property {string | null} corrects
   * @property {string} lane behind whom it goes; empty: its own job
   * @property {boolean} elsewhere another tab has this very entry in front of it
   * @property {any} entry what is kept or delivered under the key
   * @property {number} touched when something was last typed, on the page's clock
   * @property {boolean} dirty typed and not yet recorded
   * @property {string} recorded the fields as they were recorded last
   * @property {number} left when what was found here had last been typed; 0: nothing was
   * @property {{key: string, name: string} | null} by who types
   * @property {any[]} others drafts that somebody else left here
   * @property {Photo[]} photos as far as read
   */

  /** @type {Map<HTMLFormElement, Promise<Open>>} */
  const opening = new Map();
  /** @type {Set<Open>} */
  const opened = new Set();
  /** @type {WeakMap<HTMLFormElement, number>} when something was last typed, also while it opens */
  const typedAt = new WeakMap();
  /** @type {Map<string, () => void>} key to what lets go of it */
  const held = new Map();
  const dropped = dropTaken().catch(() => {}); // no store: no draft either
  let onOpened = (/** @type {Open} */ _open, /** @type {boolean} */ _found) => {};

  /** The job in the page's address. @returns {string | null} */
  function jobInAddress() {
    const job = (new URLSearchParams(location.search).get("job") || "").toLowerCase();
    return UUID.test(job) ? job : null;
  }

  /** The form, with its key and what was typed before. @param {HTMLFormElement} form */
  function open(form) {
    const promise = opening.get(form) || openFirst(form);
    opening.set(form, promise);
    return promise;
  }

  /** @param {HTMLFormElement} form @returns {Promise<Open>} */
  async function openFirst(form) {
    const place = [form.dataset.entry, location.pathname, jobInAddress() || "", form.id].join(" ");
    /** @type {Open} */
    const state = {
      form,
      place,
      key: "",
      corrects: hidden(form, "corrects")?.value || null,
      lane: "",
      elsewhere: false,
      entry: null,
      touched: 0,
      dirty: false,
      recorded: "",
      left: 0,
      by: (await store.get("about", "who").catch(() => null))?.person || null,
      others: [],
      photos: [],
    };
    // A switch that acts at once has no draft, and shows what the page says of it.
    const once = form.hasAttribute("data-at-once");
    await dropped;
    const known = once ? null : (await fromHistory(state)) || (await leftBehind(state));
    const typing = typedAt.has(form);
    if (known && typing) leaveAlone(state); // what is being typed now is never written over
    if (!state.key) await take(state, crypto.randomUUID());
    opened.add(state);
    remember(state);
    const found = Boolean(known && !typing);
    if (found) await restore(state, known);
    onOpened(state, found);
    return state;
  }

  /** Back, reload and a duplicated tab bring the key along; a link to the same address does not. */
  async function fromHistory(/** @type {Open} */ state) {
    const [how] = performance.getEntriesByType("navigation");
    const key = history.state?.shopac?.[state.place];
    if (!key || !["reload", "back_forward"].includes(/** @type {any} */ (how)?.type)) return null;
    if (anothers(state, await store.get("drafts", key))) return null;
    state.key = key;
    state.elsewhere = !(await hold(key));
    return lookUp(state);
  }

  /** Whether somebody else left it. @param {Open} state @param {any} draft */
  function anothers(state, draft) {
    return Boolean(draft?.by && draft.by.key !== state.by?.key);
  }

  /** What was found stays for the next time this form is opened. @param {Open} state */
  function leaveAlone(state) {
    letGo(state.key);
    Object.assign(state, { key: "", corrects: null, lane: "", entry: null, dirty: true });
  }

  /** What went back to this form, or was typed into it in a tab that is closed. */
  async function leftBehind(/** @type {Open} */ state) {
    if (state.key) return null;
    const found = await store.read(["items", "drafts"], async (at) => [
      ...(await value(at("items").index("place").getAll(state.place))),
      ...(await value(at("drafts").index("place").getAll(state.place))),
    ]);
    for (const one of found) {
      if (one.state && one.state !== "returned") continue;
      if (!one.state && anothers(state, one)) {
        state.others.push(one);
        continue;
      }
      if (!(await hold(one.key))) continue;
      state.key = one.key;
      return lookUp(state);
    }
    return null;
  }

  /** What is known under the form's key: `entry` kept or delivered, `typed` to be shown. */
  async function lookUp(/** @type {Open} */ state) {
    const [draft, item, delivered] = await store.read(["drafts", "items", "delivered"], (at) =>
      Promise.all([
        value(at("drafts").get(state.key)),
        value(at("items").index("key").get(state.key)),
        value(at("delivered").get(state.key)),
      ]),
    );
    state.entry = delivered || item || null;
    const typed = draft || item || delivered;
    if (!typed) return null;
    state.corrects = typed.corrects;
    state.lane = typed.corrects ? typed.lane : "";
    state.dirty = Boolean(draft);
    state.left = draft?.at || 0;
    return typed;
  }

  // The lock of a key: who holds it has the entry in front of somebody.

  /** @param {string} key @param {boolean} [steal] @returns {Promise<boolean>} */
  function hold(key, steal = false) {
    if (held.has(key)) return Promise.resolve(true); // asking twice would look like a second tab
    return new Promise((resolve) => {
      const options = steal ? { steal } : { signal: AbortSignal.timeout(LOCK_MS) };
      const keepIt = () =>
        new Promise((release) => {
          held.set(key, () => release(undefined));
          resolve(true);
        });
      navigator.locks.request(`form:${key}`, options, keepIt).catch(() => {
        if (held.delete(key)) lost(key);
        resolve(false);
      });
    });
  }

  /** @param {string} key */
  function letGo(key) {
    held.get(key)?.();
    held.delete(key);
  }

  /** Another tab took the entry over. @param {string} key */
  function lost(key) {
    for (const state of opened) {
      if (state.key !== key) continue;
      state.elsewhere = true;
      onOpened(state, false);
    }
  }

  /** Give the form this key. @param {Open} state @param {string} key @param {boolean} [steal] */
  async function take(state, key, steal) {
    if (state.key && state.key !== key) letGo(state.key);
    state.key = key;
    state.elsewhere = !(await hold(key, steal));
    remember(state);
  }

  /** Another entry from here on; a correction goes behind what it corrects. @param {Open} state */
  async function renew(state, corrected) {
    state.corrects = corrected?.key || null;
    state.lane = corrected?.lane || "";
    state.entry = null;
    await take(state, crypto.randomUUID());
    unsettled(state);
  }

  /** Into the history, and into the form for the case that it posts without this script. */
  function remember(/** @type {Open} */ state) {
    const keys = { ...history.state?.shopac, [state.place]: state.key };
    history.replaceState({ ...history.state, shopac: keys }, "");
    const key = hidden(state.form, "key");
    if (key) key.value = state.key;
    const corrects = hidden(state.form, "corrects") || document.createElement("input");
    Object.assign(corrects, { type: "hidden", name: "corrects", value: state.corrects || "" });
    state.form.append(corrects);
  }

  /** @param {HTMLFormElement} form @param {string} name @returns {HTMLInputElement | null} */
  function hidden(form, name) {
    return form.querySelector(`input[type="hidden"][name="${name}"]`);
  }

  // What is typed: read, kept, and put back.

  /** A button can be an answer itself. @param {HTMLFormElement} form @param {HTMLElement | null} [pressed] */
  function fieldsIn(form, pressed = null) {
    /** @type {Record<string, string[]>} */
    const fields = {};
    for (const [name, text] of new FormData(form, pressed)) {
      if (typeof text === "string" && !OURS.has(name)) (fields[name] ||= []).push(text);
    }
    return fields;
  }

  /** @param {HTMLFormElement} form @returns {HTMLInputElement[]} */
  function fileInputs(form) {
    return Array.from(form.querySelectorAll('input[type="file"]:enabled'));
  }

  /** @type {WeakMap<File, Promise<{sha256: string, data: ArrayBuffer, file: File}>>} */
  const reading = new WeakMap();
  /** @type {WeakMap<HTMLInputElement, File[]>} the files read last: a file made small is the same again */
  const heldBy = new WeakMap();
  /** As it is kept and sent: made smaller where that can be. @param {File} chosen */
  async function readFile(chosen) {
    const shrink = await window.shopac.load("shrink").catch(() => (/** @type {File} */ one) => one);
    const file = await shrink(chosen);
    const data = await file.arrayBuffer();
    return { data, file, sha256: await window.shopac.sha256(data) };
  }

  /** A file that is gone throws NotReadableError. @param {HTMLFormElement} form */
  async function photosIn(form) {
    const photos = [];
    const bytes = new Map();
    for (const input of fileInputs(form)) {
      const chosen = [...(input.files || [])];
      heldBy.set(input, chosen);
      for (const one of chosen) if (!reading.has(one)) reading.set(one, readFile(one));
      for (const one of chosen) {
        const { sha256, data, file } = await /** @type {any} */ (reading.get(one));
        bytes.set(sha256, data);
        const { name, type, size } = file;
        photos.push({ field: input.name, name, type, size, sha256 });
      }
    }
    return { photos, bytes };
  }

  /** One blind write: a page that is going away may still do this. @param {Open} state */
  function save(state) {
    if (!state.dirty || state.elsewhere) return;
    const { key, place, corrects, lane, photos, by } = state;
    const fields = fieldsIn(state.form);
    store.putNow("drafts", { key, place, corrects, lane, photos, fields, by, at: Date.now() });
  }

  /** Go on with what somebody else left. @param {Open} state @param {string} key */
  async function goOnWith(state, key) {
    await take(state, key);
    const known = await lookUp(state);
    if (known) await restore(state, known);
    state.others = [];
    save(state);
    onOpened(state, Boolean(known));
  }

  /** What the form has now is being recorded. @param {Open} state */
  function settled(state) {
    Object.assign(state, { dirty: false, recorded: JSON.stringify(fieldsIn(state.form)) });
  }

  /** It was not. @param {Open} state */
  function unsettled(state) {
    Object.assign(state, { dirty: true, recorded: "" });
    save(state);
  }

  /** @param {Open} state */
  async function savePhotos(state) {
    const { photos, bytes } = await photosIn(state.form);
    const chosen = fileInputs(state.form).reduce((sum, input) => sum + (input.files?.length || 0), 0);
    if (chosen !== photos.length) return; // others were chosen meanwhile, and are read after these
    await store.write(["photos"], (at) => {
      for (const [sha256, data] of bytes) at("photos").put(data, [state.key, sha256]);
    });
    state.photos = photos;
    save(state);
  }

  /** Begin anew: what was typed and not recorded goes. @param {Open} state */
  async function forget(state) {
    const { key } = state;
    state.dirty = false;
    await take(state, crypto.randomUUID());
    await store.write(["drafts", "photos"], (at) => {
      at("drafts").delete(key);
      at("photos").delete(store.photosOf(key));
    });
    state.form.dispatchEvent(new CustomEvent("shopac:restored", { bubbles: true }));
  }

  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;

  /** @param {Event} event */
  async function typed(event) {
    const form = /** @type {any} */ (event.target)?.form;
    if (!form?.matches?.("form[data-entry]")) return;
    typedAt.set(form, event.timeStamp);
    const state = await open(form);
    const isFile = /** @type {any} */ (event.target).type === "file";
    // Some browsers tell of a change when a field is left, and a tap on a button leaves none.
    if (event.type === "change" && !isFile && state.recorded === JSON.stringify(fieldsIn(form))) return;
    state.touched = event.timeStamp;
    state.dirty = true;
    clearTimeout(timer);
    timer = setTimeout(() => opened.forEach(save), TYPING_MS);
    // no room for a draft: the tap will say so
    if (isFile && event.type === "change") savePhotos(state).catch(() => {});
  }

  /** Put what was typed back into the form. @param {Open} state @param {any} record */
  async function restore(state, record) {
    const left = structuredClone(record.fields);
    for (const control of /** @type {any} */ (state.form.elements)) {
      const { name, type } = control;
      if (!name || OURS.has(name) || ["file", "submit", "button", "fieldset"].includes(type)) continue;
      const values = left[name] || [];
      if (type === "radio" || type === "checkbox") control.checked = values.includes(control.value);
      else if (type === "select-multiple") {
        for (const option of control.options) option.selected = values.includes(option.value);
      } else if (type !== "hidden" || values.length) control.value = values.shift() || "";
    }
    for (const input of fileInputs(state.form)) {
      const files = new DataTransfer();
      for (const photo of record.photos.filter((/** @type {Photo} */ one) => one.field === input.name)) {
        const data = await store.get("photos", [state.key, photo.sha256]);
        if (data) files.items.add(new File([data], photo.name, { type: photo.type }));
      }
      if (files.files.length) input.files = files.files;
    }
    state.photos = record.photos;
    state.form.dispatchEvent(new CustomEvent("shopac:restored", { bubbles: true }));
  }

  /** A form that posted by itself says in a cookie which entry was taken: its draft goes. */
  async function dropTaken() {
    const key = document.cookie.match(/(?:^|; )shopac_taken=([0-9a-f-]{36})/)?.[1];
    if (!key) return;
    document.cookie = "shopac_taken=; path=/; max-age=0; samesite=lax";
    await store.write(["drafts", "photos"], (at) => {
      at("drafts").delete(key);
      at("photos").delete(store.photosOf(key));
    });
  }

  document.addEventListener("input", typed, true);
  document.addEventListener("change", typed, true);
  addEventListener("pagehide", () => {
    opened.forEach(save);
    for (const key of [...held.keys()]) letGo(key);
  });
  addEventListener("pageshow", async (event) => {
    if (!event.persisted) return;
    for (const state of opened) state.elsewhere = !(await hold(state.key));
  });

  window.shopac.draft = {
    ...{ open, take, renew, forget, goOnWith, settled, unsettled },
    ...{ fieldsIn, photosIn, fileInputs, jobInAddress },
    find: (/** @type {string} */ key) => [...opened].find((state) => state.key === key),
    /** @param {typeof onOpened} listener told when a form is ready, or went on in another tab */
    onOpened: (listener) => {
      onOpened = listener;
    },
  };
})();
