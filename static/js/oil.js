/**
 * What has to go back by drain and match, while the oil is typed: the rule of
 * diagnostics/physics/oil.py, match_oil. Common practice; it fills in nothing.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const line = /** @type {HTMLElement} */ (form.querySelector("[data-match]"));
  const units = JSON.parse(document.getElementById("units")?.textContent || "{}");
  const VOLUMES = ["mL", "fl oz"];
  /** What was told before on this job came out and is to go back, µL. */
  let before = Number(form.dataset.outBefore || 0);
  let shownIn = "";

  /** A volume typed, in µL; null: none, or one that cannot be read. @param {FormData} told @param {string} name */
  function amount(told, name) {
    try {
      const { number, unit } = window.shopac.splitNumber(String(told.get(name) || ""));
      const meant = unit ? window.shopac.unitNamed(unit, VOLUMES, units) : String(told.get(`${name}_unit`) || "mL");
      return meant ? Math.round(window.shopac.toSi(number, meant, units) * 1e9) : null;
    } catch (problem) {
      if (problem instanceof window.shopac.Unreadable) return null;
      throw problem;
    }
  }

  /** @param {number} microliters */
  const words = (microliters) =>
    window.shopac.withUnit(window.shopac.shown(window.shopac.fromSi(microliters * 1e-9, shownIn, units), shownIn === "mL" ? 0 : 1), shownIn);

  /**
   * What has to go back in all, and what the new compressor brings: µL each.
   * @param {FormData} told @returns {{needed: number, brought: number, parts: string[]} | null}
   */
  function matched(told) {
    const arrived = String(told.get("arrived") || "");
    if (!arrived) return null;
    const drained = amount(told, "drained_old");
    const floor = arrived === "kept" ? 0 : amount(told, "floor") || 0;
    if (arrived !== "kept" && drained === null && !floor) return null;
    const parts = [];
    const old = Math.max(drained || 0, floor);
    if (floor > (drained || 0)) parts.push(`${words(floor)} as the maker’s floor`);
    else if (drained) parts.push(`${words(drained)} out of the old part`);
    const refrigerant = amount(told, "with_refrigerant") || 0;
    const allotted = amount(told, "allotted") || 0;
    if (refrigerant) parts.push(`${words(refrigerant)} out with the refrigerant`);
    if (allotted) parts.push(`${words(allotted)} for other parts replaced`);
    if (before) parts.push(`${words(before)} told before`);
    const brings = amount(told, "drained_new") ?? (arrived === "whole_system" ? amount(told, "system") : null);
    if ((arrived === "some" || arrived === "whole_system") && brings === null) return null;
    return { needed: old + refrigerant + allotted + before, brought: brings || 0, parts };
  }

  function show() {
    const told = new FormData(form);
    shownIn = String(told.get("added_unit") || "mL");
    const found = matched(told);
    line.toggleAttribute("hidden", !found);
    if (!found) return;
    const { needed, brought, parts } = found;
    const said = [`${words(needed)} have to go back in all${parts.length ? ` (${parts.join(", ")})` : ""}.`];
    if (!brought) said.push(`Put in ${words(needed)}.`);
    else if (brought > needed) said.push(`The new compressor brings ${words(brought)}: drain ${words(brought - needed)} of it and add none.`);
    else if (brought === needed) said.push(`The new compressor brings ${words(brought)}: just that. Drain none and add none.`);
    else said.push(`The new compressor brings ${words(brought)}: leave it in, or pour it back, and add ${words(needed - brought)}.`);
    const place = line.querySelector("span");
    if (place && place.textContent !== said.join(" ")) place.textContent = said.join(" ");
  }

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    before = Number(job.oil_before || 0);
    const drive = job.system?.drive || "";
    const high = !drive || ["electric_hv", "belt_electric"].includes(drive);
    for (const part of form.querySelectorAll("[data-high-voltage]")) part.toggleAttribute("hidden", !high);
    show();
  });
  form.addEventListener("input", show);
  form.addEventListener("change", show);
  form.addEventListener("shopac:restored", show);
  show();
})();
