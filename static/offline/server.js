/**
 * Is the shop server there, and who does it think is here? `navigator.onLine` is a hint at best, so
 * a small answer is asked for and its text is looked at: a hotel's sign-in page answers 200 too. A
 * page in front of somebody asks every few seconds, so that it never says of then what is of now.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store } = window.shopac;
  const PING_MS = 5000;
  const FIRST_PING_MS = 2000;
  const LOOK_MS = 10000;

  /**
   * @typedef {{key: string, name: string, role: string}} Person
   * @typedef {{person: Person, pass: string, tablet: string, since?: string, claimed?: number}} Who a
   *   person and the signed proof; since when the session is; `claimed`: no proof, since when that name
   *   was picked here without the server
   * @typedef {{csrf: string, offset: number, signedIn: boolean, hasPass: boolean, epoch: string,
   *   forgot: boolean}} Server
   *   csrf is fresh with every ping; offset is server minus tablet in milliseconds; `forgot`: it may
   *   have lost what it acknowledged to this tablet
   */

  /** @type {Set<(there: boolean, server: Server | null) => void>} */
  const listeners = new Set();
  let askedAt = 0;
  /** @type {WeakSet<HTMLFormElement>} */
  const posting = new WeakSet();
  let signing = false; // somebody's sign-in is under way on this page
  let going = false; // a page that goes away hears no answer, which says nothing of the server

  /** @returns {Promise<Server | null>} null when it does not answer, or something else does */
  async function ping() {
    const asked = (askedAt = Date.now());
    const told = await tellLeft(await ask());
    if (!told && going) return null;
    const there = told ? await remember(told) : await missed(asked);
    for (const listener of listeners) listener(Boolean(told), there);
    return there;
  }

  async function ask() {
    const figures = await window.shopac.figures().catch(() => null);
    const asked = Date.now();
    try {
      const last = await store.get("about", "last").catch(() => null);
      const signal = AbortSignal.timeout(PING_MS);
      const address = `/ping/?last=${last?.key || ""}`;
      /** @type {HeadersInit} */
      const headers = figures ? { "Shopac-Tablet": figures.text } : {};
      const answer = await fetch(address, { headers, cache: "no-store", redirect: "manual", signal });
      const told = await answer.json();
      return answer.ok && told.shopac === "here" ? { ...told, asked, figures } : null;
    } catch {
      return null;
    }
  }

  /**
   * A sign-out that the server has not heard of is told before anybody is taken to be here. It names
   * its session and ends no other.
   * @param {any} told
   */
  async function tellLeft(told) {
    const since = await store.get("about", "left").catch(() => undefined);
    if (!told?.person || since === undefined || told.since !== since) return told;
    const signal = AbortSignal.timeout(PING_MS);
    const headers = { "X-CSRFToken": told.csrf };
    const body = new URLSearchParams({ since });
    await fetch("/sign_in/leave/", { method: "POST", body, headers, redirect: "manual", signal }).catch(() => {});
    return ask();
  }

  /** Since when it does not answer: the first time in a row. @param {number} asked */
  async function missed(asked) {
    const first = async (/** @type {any} */ at) => {
      const about = at("about");
      if (!(await store.value(about.get("silent")))) about.put(asked, "silent");
    };
    await store.write(["about"], first).catch(() => {}); // no room: the header says less
    return null;
  }

  /** @param {any} told @returns {Promise<Server | null>} */
  async function remember(told) {
    try {
      const now = Date.now();
      const { asked, pass, tablet } = told;
      const offset = Math.round(Date.parse(told.time) - (asked + now) / 2);
      let forgot = told.knows === false;
      const person = await store.write(["about"], async (at) => {
        const about = at("about");
        forgot ||= told.epoch !== (await store.value(about.get("epoch")));
        const left = await store.value(about.get("left"));
        const person = left !== undefined && told.since === left ? null : told.person;
        about.put(now, "reached");
        about.delete("silent");
        about.put(offset, "clock_offset");
        about.put(told.revoked || "", "revoked");
        if (told.figures && tablet) about.put({ at: now, ...told.figures }, "told");
        if (signing) return person; // it may be answered as before the sign-in; the next page asks
        if (!((await store.value(about.get("changing"))) > asked)) about.delete("changing");
        if (person) about.delete("claimed");
        if (person && pass) about.put({ person, pass, tablet, since: told.since }, "who");
        // Someone without a pass here: nothing of theirs may be kept under the last one's name.
        else if (person) about.delete("who");
        return person;
      });
      return {
        csrf: told.csrf,
        offset,
        signedIn: Boolean(person),
        hasPass: Boolean(person && pass),
        epoch: told.epoch,
        forgot,
      };
    } catch {
      return null;
    }
  }

  const first = ping();

  /** @type {Promise<Who | null> | null} */
  let here = null;

  /**
   * Who types on this page: whoever had signed in when it was opened. After a sign-in the server is
   * asked who that was, though not waited for long; an entry without a name gets it when the server
   * has said who is here, before it is sent.
   * @returns {Promise<Who | null>}
   */
  async function who() {
    here ||= lookUp();
    const found = await here.catch(() => null);
    if (!found) here = null;
    return found;
  }

  async function lookUp() {
    const known = await lastKnown();
    if (known) return known;
    await Promise.race([first, new Promise((resolve) => setTimeout(resolve, FIRST_PING_MS))]);
    return lastKnown();
  }

  /** Nobody while somebody may just be signing in: better no name yet than the last one's. */
  async function lastKnown() {
    const [known, claimed, changing] = await store.read(["about"], (at) =>
      Promise.all(["who", "claimed", "changing"].map((name) => store.value(at("about").get(name)))),
    );
    return changing ? null : known || claimed || null;
  }

  who();
  const look = () => {
    if (!document.hidden && !signing && Date.now() - askedAt >= LOOK_MS) ping();
  };
  setInterval(look, LOOK_MS);
  document.addEventListener("visibilitychange", look);
  addEventListener("pagehide", () => {
    going = true;
  });
  addEventListener("pageshow", (event) => {
    going = signing = false;
    if (event.persisted) here = null; // from the back/forward cache: somebody else may be here now
  });

  // Somebody may be signing in: until the server has said who, the last one is not taken for them.
  document.addEventListener(
    "submit",
    (event) => {
      const form = /** @type {HTMLFormElement} */ (event.target);
      const entering = form.querySelector('[type="password"]');
      signing ||= Boolean(entering);
      if (entering) store.putNow("about", Date.now(), "changing");
      if (!form.hasAttribute("data-leave") || posting.delete(form)) return;
      event.preventDefault();
      const released = window.shopac.words.press(event.submitter);
      leave(form).finally(released);
    },
    true,
  );

  /** Nobody is here from now on; the shop server hears of it now, or when it answers. */
  async function leave(/** @type {HTMLFormElement} */ form) {
    const since = String(new FormData(form).get("since") || "");
    try {
      await store.write(["about"], (at) => {
        at("about").put(since, "left");
        for (const name of ["who", "claimed"]) at("about").delete(name);
      });
    } catch {
      posting.add(form);
      return form.requestSubmit();
    }
    if (await ping()) return location.assign(form.dataset.leave || "/");
    const said = document.createElement("p");
    said.className = "said kept";
    said.setAttribute("role", "status");
    const words = ". The shop server does not answer; it is told when it does. What is recorded here until then waits for a sign-in.";
    said.append(window.shopac.words.strong("Signed out on this tablet"), words);
    form.querySelector("button")?.replaceWith(said);
    document.querySelector("[data-here]")?.remove();
  }

  window.shopac.server = {
    ping,
    first,
    who,
    asNow: lastKnown, // not as when this page was opened
    /** @param {(there: boolean, server: Server | null) => void} listener told whenever the server was asked */
    on: (listener) => listeners.add(listener),
  };
})();
