/**
 * Lines of an estimate or an invoice: empty ones wait out of sight until they are wanted, and what
 * the lines come to is old from the first key typed until the shop server has added it up anew.
 */
"use strict";

(() => {
  const form = document.querySelector("form.priced");
  const more = form?.querySelector("[data-one-more]");
  const sums = document.getElementById("sums");
  if (!form || !more || !sums) return;
  const lines = [...form.querySelectorAll("[data-line]")];
  const NOT_ADDED = "Not added up: the shop server does not answer. What is typed stays here.";

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
    more.toggleAttribute("hidden", !lines.some((line) => line.hasAttribute("hidden")));
  }

  more.addEventListener("click", () => {
    const next = lines.find((line) => line.hasAttribute("hidden"));
    next?.removeAttribute("hidden");
    next?.removeAttribute("data-spare");
    next?.querySelector("input[type=text]")?.focus();
    more.toggleAttribute("hidden", !lines.some((line) => line.hasAttribute("hidden")));
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
