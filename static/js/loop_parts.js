/**
 * The parts of the loop: those that this car does not have are not asked for, and on a page kept
 * without a car each says how it stands. One touch answers for all of which nothing is told.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const parts = /** @type {HTMLElement[]} */ ([...form.querySelectorAll("[data-loop-part]")]);
  const rest = form.querySelector("[data-rest]");

  /** @param {HTMLElement} part */
  const boxes = (part) => /** @type {HTMLInputElement[]} */ ([...part.querySelectorAll('input[type="radio"]')]);

  rest?.addEventListener("click", () => {
    for (const part of parts) {
      const radios = boxes(part);
      if (part.hidden || part.dataset.told !== undefined || radios.some((one) => one.checked)) continue;
      const unseen = radios.find((one) => one.value === "unseen");
      if (unseen) unseen.checked = true;
    }
    form.dispatchEvent(new Event("change", { bubbles: true }));
  });
  rest?.toggleAttribute("hidden", false);

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    const rows = new Map((job.loop_parts || []).map((/** @type {any} */ row) => [row.field, row]));
    for (const part of parts) {
      const row = rows.get(part.dataset.loopPart);
      const typed = boxes(part).some((one) => one.checked);
      part.toggleAttribute("hidden", rows.size > 0 && !row && !typed);
      part.toggleAttribute("data-told", Boolean(row?.code));
      const now = part.querySelector("[data-now]");
      const said = now?.querySelector("bdi");
      if (said) said.textContent = row?.text || "";
      now?.toggleAttribute("hidden", !row?.code);
      const name = part.querySelector(".question");
      if (name && row) name.textContent = row.name;
    }
  });
})();
