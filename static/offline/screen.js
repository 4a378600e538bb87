/**
 * What was chosen for this tablet, from its cookie (jobs/views/screen.py) onto the page, before anything
 * is painted: a page kept on the tablet was drawn when it was kept, and may be of before the choice.
 */
"use strict";

(() => {
  const KEPT = /(?:^|; )shopac_screen=(light|dark)_([3-9]\.\d)_(right|left)(?:;|$)/;
  const AS_IT_COMES = { look: "light", mm: "6.0", side: "right" };
  const LONGEST_S = 400 * 24 * 3600; // browsers keep no cookie longer

  function chosen() {
    const [, look, mm, side] = document.cookie.match(KEPT) || [];
    return look ? { look, mm, side } : { ...AS_IT_COMES };
  }

  function show() {
    const { look, mm, side } = chosen();
    const { dataset } = document.documentElement;
    dataset.mm = mm;
    if (look === "dark") dataset.scheme = look;
    else delete dataset.scheme;
    if (side === "left") dataset.side = side;
    else delete dataset.side;
  }

  /** @param {Partial<typeof AS_IT_COMES>} change */
  function choose(change) {
    const { look, mm, side } = { ...chosen(), ...change };
    const secure = location.protocol === "https:" ? "; secure" : "";
    document.cookie = `shopac_screen=${look}_${mm}_${side}; path=/; max-age=${LONGEST_S}; samesite=lax${secure}`;
    show();
  }

  show();
  addEventListener("pageshow", show); // a page gone back to
  window.shopac = Object.assign(window.shopac || {}, { screen: { chosen, choose } });
})();
