/** A number that was typed before comes back with the unit it was typed in, which its form sends. */
"use strict";

document.addEventListener("shopac:restored", (event) => {
  const form = /** @type {Element} */ (event.target);
  for (const sent of /** @type {any} */ (form.querySelectorAll('input[type="hidden"][name$="_unit"]'))) {
    const shown = document.getElementById(`id_${sent.name}`);
    if (shown) shown.textContent = sent.value;
  }
});
