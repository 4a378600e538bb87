/**
 * The forms of work on the loop: what follows from an answer is asked only then. A page kept without
 * a car gets the label and what comes first from what this tablet was told.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));

  /** Whether what a part waits for was answered: "name=code|code", or "name": something typed.
   * @param {FormData} told @param {string} condition */
  function holds(told, condition) {
    const [name, codes] = condition.split("=");
    const said = String(told.get(name) || "");
    return codes ? codes.split("|").includes(said) : Boolean(said.trim());
  }

  function showAsked() {
    const told = new FormData(form);
    for (const part of form.querySelectorAll("[data-if]")) {
      const asked = holds(told, part.getAttribute("data-if") || "");
      part.toggleAttribute("hidden", !asked);
      for (const input of part.querySelectorAll("input")) input.disabled = !asked;
    }
  }

  /** What was recorded here since: what comes first does not know of it. @param {any} job */
  async function since(job) {
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const names = [...new Set(here.map((/** @type {any} */ one) => one.title))].join(", ");
    return names && ` Kept on this tablet since, and not in this: ${names}.`;
  }

  document.addEventListener("shopac:job", async (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    for (const place of document.querySelectorAll("[data-label-charge]")) {
      if (job.label) place.textContent = job.label;
    }
    const first = document.querySelector("[data-bars]");
    const acts = first?.getAttribute("data-bars") || "";
    const shut = (job.gates || []).filter((/** @type {any} */ gate) => gate.works?.includes(acts));
    const words = first?.querySelector("span");
    first?.toggleAttribute("hidden", !shut.length);
    showAsked();
    const why = shut.map((/** @type {any} */ gate) => gate.why).join(" ");
    if (words) words.textContent = why + (await since(job));
  });

  form.addEventListener("input", showAsked);
  form.addEventListener("change", showAsked);
  form.addEventListener("shopac:restored", showAsked);
  showAsked();
})();
