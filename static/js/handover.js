/** A hand-over note on a page kept without a car: the next test, and what only such a car has. */
"use strict";

document.addEventListener("shopac:job", (event) => {
  const job = /** @type {CustomEvent} */ (event).detail;
  const next = document.querySelector("[data-next-test]");
  const tap = /** @type {HTMLInputElement | null | undefined} */ (next?.querySelector('[name="next_test"]'));
  if (tap && tap.disabled && job.next?.kind) {
    tap.value = job.next.kind;
    tap.disabled = false;
    tap.checked = true;
    const words = next?.querySelector(".answer > span");
    if (words) words.textContent = job.next.title;
    next?.removeAttribute("hidden");
  }
  const onlyOn = JSON.parse(document.getElementById("only-on")?.textContent || "{}");
  for (const [code, drives] of Object.entries(onlyOn)) {
    const input = document.querySelector(`[name="stands"][value="${CSS.escape(code)}"]`);
    input?.closest(".answer")?.toggleAttribute("hidden", !drives.includes(job.system?.drive || ""));
  }
});
