/**
 * The shop's own phrases: a tap puts one into its field, behind what stands there; tapped again it is
 * taken out.
 */
"use strict";

(() => {
  for (const group of document.querySelectorAll("[data-fills]")) {
    const field = /** @type {HTMLTextAreaElement | null} */ (
      document.getElementById(group.getAttribute("data-fills") || "")
    );
    if (!field) continue;
    const buttons = /** @type {HTMLButtonElement[]} */ ([...group.querySelectorAll("button")]);

    /** Whether the phrase stands there as a sentence of its own. @param {string} phrase */
    const stands = (phrase) => parts().includes(phrase);
    const parts = () => field.value.split("\n").flatMap((line) => line.split("; ")).map((one) => one.trim());
    const mark = () => {
      for (const button of buttons) button.setAttribute("aria-pressed", String(stands(wordsOf(button))));
    };
    /** @param {HTMLButtonElement} button */
    const wordsOf = (button) => (button.textContent || "").trim();

    for (const button of buttons) {
      button.addEventListener("click", () => {
        const phrase = wordsOf(button);
        const left = parts().filter((one) => one && one !== phrase);
        if (stands(phrase)) field.value = left.join("; ");
        else field.value = [field.value.trim(), phrase].filter(Boolean).join("; ");
        field.dispatchEvent(new Event("input", { bubbles: true }));
        field.dispatchEvent(new Event("change", { bubbles: true }));
        mark();
      });
    }
    field.addEventListener("input", mark);
    group.toggleAttribute("hidden", false);
    mark();
  }
})();
