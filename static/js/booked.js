/**
 * A test that asks for what was booked of the loop begins with it, on a page kept without a car: what
 * was typed already stays, and the page says where the figures come from.
 */
"use strict";

addEventListener("DOMContentLoaded", () => {
  const begun = document.querySelector("[data-booked]:not([hidden])");
  if (begun) document.querySelector("form.step")?.dispatchEvent(new CustomEvent("shopac:read"));
});

document.addEventListener("shopac:job", (event) => {
  const job = /** @type {CustomEvent} */ (event).detail;
  const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form.step"));
  const kind = JSON.parse(document.getElementById("kind")?.textContent || "{}");
  const booked = job.booked?.[kind.name];
  if (!form || !booked || new FormData(form).get("corrects")) return;
  const told = new FormData(form);
  const begun = Object.keys(booked.fields).some((name) => !name.endsWith("_unit") && told.get(name));
  if (begun) return;
  for (const [name, value] of Object.entries(booked.fields)) {
    const inputs = [...form.querySelectorAll(`[name="${CSS.escape(name)}"]`)];
    for (const input of /** @type {any[]} */ (inputs)) {
      if (input.type === "radio") input.checked = input.value === value;
      else input.value = value;
    }
  }
  const line = document.querySelector("[data-booked]");
  if (line) line.textContent = booked.said;
  line?.removeAttribute("hidden");
  form.dispatchEvent(new Event("input", { bubbles: true }));
});
