/**
 * A new version of the program: its worker waits, and a banner says so. It takes over on a tap only,
 * with nothing typed and unrecorded in any tab of this tablet, and while nothing is being sent.
 */
"use strict";

(() => {
  if (!window.shopac.able || !navigator.serviceWorker) return;
  const { store, words, element } = window.shopac;
  const LONGEST_MS = 2000; // nothing is sent for so long

  /** Whether a form in front of somebody has something that is not recorded. */
  async function isTyped() {
    const [drafts, locks] = await Promise.all([store.all("drafts"), navigator.locks.query()]);
    const held = new Set((locks.held || []).map((lock) => lock.name));
    return drafts.some((one) => held.has(`form:${one.key}`));
  }

  /** @param {ServiceWorkerRegistration} registration */
  function show(registration) {
    if (document.querySelector("[data-renew]")) return;
    const said = element("div", "", "said kept");
    said.dataset.renew = "";
    said.setAttribute("role", "status");
    const why = element("span");
    const use = words.button("Use it now", async () => {
      const typed = await isTyped();
      why.textContent = typed ? "Something is typed on this tablet and not recorded: record it first. " : "It takes over… ";
      if (!typed) await takeOver(registration);
    });
    const stays = " What is kept on this tablet stays and is sent as ever. ";
    said.append(words.strong("A new version of the program waits."), stays, why, use);
    document.querySelector("main")?.prepend(said);
  }

  /** Under the lock of who sends. @param {ServiceWorkerRegistration} registration */
  function takeOver(registration) {
    // The old worker may be keeping pages just now; then it comes later, and something may be typed.
    navigator.serviceWorker.oncontrollerchange = async () => {
      if (!(await isTyped())) location.reload();
    };
    return navigator.locks.request("shopac:drain", () => {
      registration.waiting?.postMessage("take over");
      return new Promise((resolve) => setTimeout(resolve, LONGEST_MS));
    });
  }

  window.shopac.renew = show;
})();
