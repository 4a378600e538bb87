/**
 * Is the shop server there, and who does it think is here? `navigator.onLine` is a hint at best, so
 * a small answer is asked for and its text is looked at: a hotel's sign-in page answers 200 too.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { store } = window.shopac;
  const PING_MS = 5000;
  const FIRST_PING_MS = 2000;

  /**
   * @typedef {{key: string, name: string, role: string}} Person
   * @typedef {{person: Person, pass: string, tablet: string}} Who a person and the signed proof
   * @typedef {{csrf: string, offset: number, signedIn: boolean, hasPass: boolean}} Server
   *   csrf is fresh with every ping; offset is server minus tablet in milliseconds
   */

  /** @returns {Promise<Server | null>} null when it does not answer, or something else does */
  async function ping() {
    const asked = Date.now();
    const signal = AbortSignal.timeout(PING_MS);
    try {
      const answer = await fetch("/ping/", { cache: "no-store", redirect: "manual", signal });
      const told = await answer.json();
      if (!answer.ok || told.shopac !== "here") return null;
      const now = Date.now();
      const { person, pass, tablet } = told;
      await store.put("about", now, "reached");
      if (person && pass) await store.put("about", { person, pass, tablet }, "who");
      // Someone without a pass here: nothing of theirs may be kept under the last one's name.
      else if (person) await store.write(["about"], (at) => at("about").delete("who"));
      return {
        csrf: told.csrf,
        offset: Math.round(Date.parse(told.time) - (asked + now) / 2),
        signedIn: Boolean(person),
        hasPass: Boolean(pass),
      };
    } catch {
      return null;
    }
  }

  const first = ping();

  /**
   * Who types here: whoever signed in last. Until this page's first ping has come back that can
   * have changed, so it is waited for, though not for long.
   * @returns {Promise<Who | null>}
   */
  async function who() {
    await Promise.race([first, new Promise((resolve) => setTimeout(resolve, FIRST_PING_MS))]);
    return (await store.get("about", "who")) || null;
  }

  window.shopac.server = { ping, first, who };
})();
