/**
 * Lines of an estimate or an invoice: empty ones wait out of sight until they are wanted, and what
 * the lines come to is old from the first key typed until the shop server has added it up anew.
 */
"use strict";

(() => {
  const form = document.querySelector("form.priced");
  const more = form?.querySelector("[data-more]");
  const sums = document.getElementById("sums");
  if (!form || !more || !sums) return;
  /** @type {HTMLElement[]} */
  const lines = [...form.querySelectorAll("[data-line]")];
  const NOT_ADDED = "Not added up just now. What is typed stays here.";

  /** Whether something stands in a line. @param {Element} line */
  function filled(line) {
    const typed = line.querySelectorAll("input[type=text], input[type=checkbox]:checked");
    const wrong = line.querySelector(".problem:not(:empty)");
    return Boolean(wrong) || [...typed].some((/** @type {any} */ one) => one.value.trim());
  }

  /** Those that were not wanted yet go out of sight, those that are filled never do. */
  function showFilled() {
    for (const line of lines) {
      if (line.hasAttribute("data-spare")) line.toggleAttribute("hidden", !filled(line));
      if (filled(line)) line.removeAttribute("data-spare");
    }
    more.toggleAttribute("hidden", lines.every(filled));
  }

  /** The first line in which nothing stands, brought into sight. */
  function emptyLine() {
    const next = lines.find((line) => line.hasAttribute("hidden")) || lines.find((line) => !filled(line));
    next?.removeAttribute("hidden");
    next?.removeAttribute("data-spare");
    more.toggleAttribute("hidden", lines.every(filled));
    return next;
  }

  more.querySelector("[data-one-more]")?.addEventListener("click", () => {
    const first = emptyLine()?.querySelector("input[type=text]");
    if (first instanceof HTMLInputElement) first.focus();
  });

  // A line of the price list goes into the first empty one; its price may be typed over.
  more.querySelector("[data-from-list]")?.addEventListener("change", (event) => {
    const list = /** @type {HTMLSelectElement} */ (event.target);
    const chosen = list.selectedOptions[0]?.dataset;
    const line = list.value && (lines.find((one) => !filled(one)) || null);
    if (!chosen || !line) return;
    line.removeAttribute("hidden");
    line.removeAttribute("data-spare");
    for (const [name, text] of Object.entries(chosen)) {
      const field = line.querySelector(`[name="${name}_${line.dataset.line}"]`);
      if (field instanceof HTMLInputElement || field instanceof HTMLSelectElement) field.value = text || "";
    }
    list.value = "";
    line.querySelector(".priced-words input")?.dispatchEvent(new Event("input", { bubbles: true }));
    more.toggleAttribute("hidden", lines.every(filled));
  });
  form.addEventListener("shopac:restored", showFilled);
  for (const typed of ["input", "change"]) {
    form.addEventListener(typed, () => sums.setAttribute("data-old", ""));
  }
  sums.addEventListener("htmx:afterSwap", () => sums.removeAttribute("data-old"));
  for (const failed of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) {
    sums.addEventListener(failed, () => {
      sums.textContent = NOT_ADDED;
    });
  }
  showFilled();
})();
