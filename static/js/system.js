/** The A/C as this tablet knows it, on a page kept without a car. What was typed already stays. */
"use strict";

document.addEventListener("shopac:job", (event) => {
  const { system } = /** @type {CustomEvent} */ (event).detail;
  for (const [name, told] of Object.entries(system)) {
    const radios = [...document.querySelectorAll(`input[type="radio"][name="${CSS.escape(name)}"]`)];
    const inputs = /** @type {HTMLInputElement[]} */ (radios);
    if (inputs.some((input) => input.checked)) continue;
    for (const input of inputs) input.checked = input.value === told;
    const was = document.querySelector(`input[type="hidden"][name="was_${CSS.escape(name)}"]`);
    if (was && inputs.some((input) => input.checked)) was.setAttribute("value", String(told));
  }
});
