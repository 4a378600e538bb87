/** The browser's own printing, by a button; without script its menu does the same. */
"use strict";

for (const button of document.querySelectorAll("[data-print]")) {
  button.removeAttribute("hidden");
  button.addEventListener("click", () => window.print());
}
