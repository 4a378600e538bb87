/** What lies beside the tablet goes into its kept pages. Of a new instrument only what its kind reads is asked how well; the server takes all the same. */
"use strict";

// What lies beside this tablet stands in the pages that it keeps: those are asked for anew.
if (document.querySelector("[data-laid]")) {
  navigator.serviceWorker?.ready.then((ready) => ready.active?.postMessage("keep anew"));
}

(() => {
  const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form[data-instrument]"));
  if (!form) return;
  const READS = JSON.parse(document.getElementById("reads")?.textContent || "{}");
  const RECOVERS = JSON.parse(document.getElementById("recovers")?.textContent || "[]");

  function showAsked() {
    const told = new FormData(form || undefined);
    const kind = String(told.get("kind") || "");
    const tapped = told.getAll("reads");
    const reads = tapped.length ? tapped : READS[kind] || [];
    for (const part of form?.querySelectorAll("[data-accuracy]") || []) {
      const filled = part.querySelector("input")?.value.trim();
      const asked = filled || reads.includes(part.getAttribute("data-accuracy"));
      part.toggleAttribute("hidden", !asked);
    }
    form?.querySelector("[data-recovers]")?.toggleAttribute("hidden", Boolean(kind) && !RECOVERS.includes(kind));
    form?.querySelector("[data-accuracies]")?.toggleAttribute("hidden", !form.querySelector("[data-accuracy]:not([hidden])"));
  }

  form.addEventListener("change", showAsked);
  showAsked();
  // A form that came back opens where it has to be mended, not at its top.
  const first = [...form.querySelectorAll(".problem")].find((one) => one.textContent?.trim());
  const field = first?.closest(".field");
  field?.scrollIntoView({ block: "center" });
  const beginsAt = /** @type {HTMLElement | null | undefined} */ (field?.querySelector("input, select, textarea"));
  beginsAt?.focus({ preventScroll: true });
})();
