/**
 * Forms that name a cylinder: a page kept without a car gets the shop's from what this tablet was
 * told, and whether the whole charge comes next; what is done already is asked where a limit speaks.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));

  /** The shop's cylinders as this tablet was told of them; what was tapped stays tapped.
   * Kinds that are never taken for this work come last, with why.
   * @param {{key: string, words: string, kind?: string}[]} cylinders */
  function putCylinders(cylinders) {
    const answers = form.querySelector("[data-cylinders] .answers");
    const last = answers?.querySelector('input[value="unnamed"]')?.closest(".answer");
    if (!answers || !last) return;
    const tapped = String(new FormData(form).get("cylinder") || "");
    for (const old of answers.querySelectorAll(".answer")) if (old !== last) old.remove();
    /** @type {Record<string, string>} */
    const never = JSON.parse(document.getElementById("never")?.textContent || "{}");
    const whyNot = (/** @type {{kind?: string}} */ one) => never[one.kind || ""] || "";
    const inOrder = [...cylinders.filter((one) => !whyNot(one)), ...cylinders.filter(whyNot)];
    for (const one of inOrder) {
      const { key } = one;
      const label = document.createElement("label");
      label.className = "answer";
      const input = document.createElement("input");
      Object.assign(input, { type: "radio", name: "cylinder", value: key, id: `id_cylinder_${key}` });
      input.checked = key === tapped;
      label.htmlFor = input.id;
      const said = document.createElement("span");
      said.textContent = whyNot(one) ? `${one.words}: ${whyNot(one)}` : one.words;
      label.append(input, said);
      last.before(label);
    }
  }

  function showDone() {
    const done = form.querySelector("[data-done]");
    const speaks = [...(done?.querySelectorAll(".problem") || [])].some((one) => one.textContent);
    if (speaks || new FormData(form).get("is_done")) done?.removeAttribute("hidden");
  }

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    if (job.cylinders) putCylinders(job.cylinders);
    const fill = new FormData(form).get("fill");
    const full = /** @type {HTMLInputElement | null} */ (form.querySelector('[name="fill"][value="full"]'));
    if (full && !fill && job.emptied) full.checked = true;
  });

  const seen = new MutationObserver(showDone);
  for (const problem of form.querySelectorAll("[data-done] .problem")) {
    seen.observe(problem, { childList: true, characterData: true, subtree: true });
  }
  form.addEventListener("shopac:restored", showDone);
  showDone();
})();
