/**
 * Grams on a form of work on the loop, held while they are typed to what the shop server holds them
 * to when it is sent: the scale, and for what goes in the label, without what stayed in the hose. The
 * rules are those of jobs/forms/loop_work.py and charge.py; it fills in nothing and stops nothing.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const of = (/** @type {string} */ id) => JSON.parse(document.getElementById(id)?.textContent || "{}");
  const [by, units] = [of("weighed"), of("units")];
  const { toSi, fromSi, shown, withUnit, splitNumber, unitNamed, Unreadable } = window.shopac;
  let { label, gas } = by;

  /** A number typed, in SI; null: none, or one that cannot be read.
   * @param {FormData} told @param {string} name @param {string[]} allowed */
  function si(told, name, allowed) {
    try {
      const { number, unit } = splitNumber(String(told.get(name) || ""));
      const meant = unit ? unitNamed(unit, allowed, units) : String(told.get(`${name}_unit`) || allowed[0]);
      return meant ? toSi(number, meant, units) : null;
    } catch (problem) {
      if (problem instanceof Unreadable) return null;
      throw problem;
    }
  }

  /** In whole mg. @param {FormData} told @param {string} name */
  function mg(told, name) {
    const kg = si(told, name, by.masses);
    return kg === null || kg < 0 ? null : Math.round(kg * 1e6);
  }

  /** What the scale changed by, in mg; null: not read twice. @param {FormData} told @param {boolean} up */
  function scaled(told, up) {
    const [before, after] = [mg(told, "scale_before"), mg(told, "scale_after")];
    return before === null || after === null ? null : (after - before) * (up ? 1 : -1);
  }

  /** What stayed in the hose, in mg. @param {FormData} told */
  function inHose(told) {
    const place = ["liquid", "vapor"].indexOf(String(told.get("hose")));
    const per = by.hoses[gas]?.[place];
    return per ? Math.round((si(told, "hose_length", by.lengths) || by.length) * per) : 0;
  }

  /** Whether it is the whole charge. @param {FormData} told */
  const isFull = (told) =>
    told.has("grams_out") ? by.whole.some((/** @type {string} */ name) => String(told.get(name) || "").trim()) : told.get("fill") === "full";

  /** The unit in which small masses are shown: as the grams are typed. @param {FormData} told */
  function unitOf(told) {
    const name = ["grams_out", "grams_in"].find((one) => told.get(one)) || "";
    const typed = String(told.get(name) || "");
    return /oz|ounce|lb|pound/i.test(/[a-z]/i.test(typed) ? typed : String(told.get(`${name}_unit`))) ? "oz" : "g";
  }

  function show() {
    const told = new FormData(form);
    const into = told.has("grams_in");
    const unit = unitOf(told);
    const words = (/** @type {number} */ one) => withUnit(shown(fromSi(one / 1e6, unit, units), unit === "g" ? 0 : 1), unit);
    const typed = mg(told, into ? "grams_in" : "grams_out");
    const scale = scaled(told, !into);
    const changed = Math.max((scale || 0) - (into ? 0 : mg(told, "grams_again") || 0), 0);
    const said = [];
    if (scale !== null && scale < 0) said.push("The scale went the other way: look at both readings.");
    else if (typed !== null && changed && Math.abs(changed - typed) > by.tolerance) {
      said.push(`${words(typed)} are told, and the scale changed by ${words(changed)}.`);
    }
    const left = typed ?? changed;
    const hose = into ? Math.min(inHose(told), left) : 0;
    const off = left - hose - label;
    if (into && label && left - hose && (off > by.tolerance || (isFull(told) && off < -by.tolerance))) {
      said.push(`${words(left - hose)} go in, and the label says ${words(label)}: more than ±15\u00a0g apart.`);
    }
    put("[data-in-hose]", hose ? `About ${words(hose)} stay in the hose, ${words(left - hose)} go in.` : "");
    put("[data-weighed]", said.join(" "));
  }

  /** @param {string} where @param {string} text */
  function put(where, text) {
    for (const place of form.querySelectorAll(where)) {
      if (place.textContent !== text) place.textContent = text;
      place.toggleAttribute("hidden", !text);
    }
  }

  document.addEventListener("shopac:job", (event) => {
    const { system } = /** @type {CustomEvent} */ (event).detail;
    label = Math.round((system?.label_charge_kg || 0) * 1e6);
    gas = system?.refrigerant || "";
    show();
  });
  for (const one of ["input", "change", "shopac:restored"]) form.addEventListener(one, show);
  show();
})();
