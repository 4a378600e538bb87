/**
 * The hour's conditions on a test kept without a car: as told to this tablet, or recorded on it since. What
 * was typed stays.
 */
"use strict";

(() => {
  const HOUR = 3600000;
  const NAMES = ["ambient", "ambient_unit", "rpm", "doors"];
  const kind = JSON.parse(document.getElementById("kind")?.textContent || "{}");
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.step"));
  const line = /** @type {HTMLElement} */ (document.querySelector("[data-under]"));

  /** The last told, whoever told it. @param {any} job */
  async function lastOf(job) {
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const told = here.filter((/** @type {any} */ one) => one.kind === "conditions").map((/** @type {any} */ one) => ({
      at: Date.parse(one.typed_at) + (one.clock_offset_ms || 0),
      fields: Object.fromEntries(NAMES.map((name) => [name, one.fields[name]?.[0] || ""])),
      said: (one.words || []).map((/** @type {any} */ told) => `${told.question}: ${told.said}`).join(", "),
    }));
    const before = job.conditions && { ...job.conditions, at: Date.parse(job.conditions.at) };
    return [before, ...told].filter(Boolean).pop();
  }

  /** The question's own input for a value; none: this test does not ask it, or has an answer.
   * @param {string} name @param {string} value @returns {any} */
  function inputFor(name, value) {
    const all = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll(`[data-asked="${name}"] [name="${name}"]`)]);
    if (!value || all.some((one) => (one.type === "radio" ? one.checked : one.value))) return null;
    return all[0]?.type === "radio" ? all.find((one) => one.value === value) : all[0];
  }

  document.addEventListener("shopac:job", async (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    const last = await lastOf(job);
    const offset = (await window.shopac.store.get("about", "clock_offset")) || 0;
    const { corrects } = /** @type {any} */ (form.elements);
    if (!last || Date.now() + offset - last.at >= HOUR || corrects?.value) return;
    let begun = false;
    const asked = kind.fields.filter((/** @type {any} */ one) => one.condition && NAMES.includes(one.name));
    for (const { name } of asked) {
      const input = inputFor(name, last.fields[name]);
      if (!input) continue;
      begun = true;
      if (input.type === "radio") input.checked = true;
      else input.value = last.fields[name];
      const unit = /** @type {any} */ (form.elements.namedItem(`${name}_unit`));
      if (unit && last.fields[`${name}_unit`]) unit.value = last.fields[`${name}_unit`];
    }
    if (!begun) return;
    line.hidden = false;
    line.textContent = `Begins with what was told at ${window.shopac.words.clock(last.at)}: ${last.said}. Look again, and change what is otherwise now.`;
    form.dispatchEvent(new Event("input"));
  });
})();
