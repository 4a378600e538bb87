/**
 * The forms of work on the loop: what follows from an answer is asked only then. A page kept without
 * a car gets the cylinders, the label and what comes first from what this tablet was told.
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
    const done = form.querySelector("[data-done]");
    const speaks = [...(done?.querySelectorAll(".problem") || [])].some((one) => one.textContent);
    if (speaks || told.get("is_done")) done?.removeAttribute("hidden");
  }

  /** The shop's cylinders as this tablet was told of them; what was tapped stays tapped.
   * @param {{key: string, words: string}[]} cylinders */
  function putCylinders(cylinders) {
    const answers = form.querySelector("[data-cylinders] .answers");
    const last = answers?.querySelector('input[value="unnamed"]')?.closest(".answer");
    if (!answers || !last) return;
    const tapped = String(new FormData(form).get("cylinder") || "");
    for (const old of answers.querySelectorAll(".answer")) if (old !== last) old.remove();
    for (const { key, words } of cylinders) {
      const label = document.createElement("label");
      label.className = "answer";
      const input = document.createElement("input");
      Object.assign(input, { type: "radio", name: "cylinder", value: key, id: `id_cylinder_${key}` });
      input.checked = key === tapped;
      label.htmlFor = input.id;
      const said = document.createElement("span");
      said.textContent = words;
      label.append(input, said);
      last.before(label);
    }
  }

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    if (job.cylinders) putCylinders(job.cylinders);
    for (const place of document.querySelectorAll("[data-label-charge]")) {
      if (job.label) place.textContent = job.label;
    }
    const first = document.querySelector("[data-bars]");
    const acts = first?.getAttribute("data-bars") || "";
    const shut = (job.gates || []).filter((/** @type {any} */ gate) => gate.works?.includes(acts));
    const words = first?.querySelector("span");
    if (words) words.textContent = shut.map((/** @type {any} */ gate) => gate.why).join(" ");
    first?.toggleAttribute("hidden", !shut.length);
    const fill = new FormData(form).get("fill");
    const full = /** @type {HTMLInputElement | null} */ (form.querySelector('[name="fill"][value="full"]'));
    if (full && !fill && job.emptied) full.checked = true;
    showAsked();
  });

  const seen = new MutationObserver(showAsked);
  for (const problem of form.querySelectorAll("[data-done] .problem")) {
    seen.observe(problem, { childList: true, characterData: true, subtree: true });
  }
  form.addEventListener("input", showAsked);
  form.addEventListener("change", showAsked);
  form.addEventListener("shopac:restored", showAsked);
  showAsked();
})();
