/**
 * Whose name an entry gets, at the button that records it. The page that the shop server made for a
 * job has a name of then; the entry gets that of who is here on this tablet, so that one is told.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { server } = window.shopac;

  async function showRecorder() {
    const places = /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-recorder]"));
    if (!places.length) return;
    const known = await server.who();
    const here = encodeURIComponent(location.pathname + location.search);
    for (const place of places) {
      const link = place.querySelector("a");
      if (link) link.href = `${link.pathname}?next=${here}`;
      const name = place.querySelector("[data-recorder-name]");
      if (!known || !name) continue; // not known yet: a ping asks again
      const said = known.person.name + (known.claimed ? ", name not confirmed" : "");
      if (name.textContent !== said) name.textContent = said;
      place.hidden = false;
    }
  }

  const show = () => showRecorder().catch(() => {});
  document.addEventListener("DOMContentLoaded", show);
  addEventListener("pageshow", show);
  server.on(show);
})();
