/**
 * A test that asks for what was booked of the loop begins with it, on a page kept without a car: what
 * was typed already stays, and the page says where the figures come from.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.step"));
  const line = /** @type {HTMLElement} */ (document.querySelector("[data-booked]"));

  document.addEventListener("shopac:job", (event) => {
    const told = new FormData(form);
    const booked = /** @type {CustomEvent} */ (event).detail.booked?.[String(told.get("test_kind"))];
    const all = Object.entries(booked?.fields || {});
    if (told.get("corrects") || all.some(([name]) => !name.endsWith("_unit") && told.get(name))) return;
    for (const [name, value] of all) {
      const field = /** @type {any} */ (form.elements.namedItem(name));
      if (field) field.value = value;
    }
    line.textContent = booked?.said || "";
    line.hidden = !booked;
    read();
  });
  addEventListener("load", () => line.hidden || read());

  function read() {
    form.dispatchEvent(new Event("input"));
  }
})();
