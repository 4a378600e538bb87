/** Parts that may wait open by themselves when something in them needs mending or was typed. */
"use strict";

(() => {
  /** @param {Element} part */
  function openIfNeeded(part) {
    const problems = [...part.querySelectorAll(".problem")].some((one) => one.textContent);
    const typed = [...part.querySelectorAll("input, textarea")].some((one) => {
      const input = /** @type {HTMLInputElement} */ (one);
      return ["radio", "checkbox"].includes(input.type) ? input.checked : input.value;
    });
    if (problems || typed) part.setAttribute("open", "");
  }

  const parts = document.querySelectorAll("details.more");
  const watch = new MutationObserver(() => parts.forEach(openIfNeeded));
  for (const part of parts) {
    openIfNeeded(part);
    for (const problem of part.querySelectorAll(".problem")) {
      watch.observe(problem, { childList: true, characterData: true });
    }
  }
  document.addEventListener("shopac:restored", () => parts.forEach(openIfNeeded));
})();
