/** A consent asks what its kind, its outcome and its way need; what is not asked is not sent. */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const before = /** @type {HTMLInputElement} */ (form.elements.namedItem("consent_before"));
  const shownBefore = before.value; // a draft may bring back what was agreed when it was begun
  const phones = JSON.parse(document.getElementById("phones")?.textContent || "{}");
  const number = /** @type {HTMLInputElement} */ (form.elements.namedItem("number_called"));

  /** @param {Element} part @param {boolean} asked */
  function show(part, asked) {
    part.toggleAttribute("hidden", !asked);
    for (const input of part.querySelectorAll("input, textarea")) input.toggleAttribute("disabled", !asked);
  }

  function showAsked() {
    const told = new FormData(form);
    const about = String(told.get("consent_about") || "");
    const kind = ["", "work", "find_fault"].includes(about) ? about : "estimate";
    const outcome = told.get("consent_outcome");
    const how = told.get("consent_how");
    const is = {
      reached: outcome !== "not_reached",
      "not-reached": outcome === "not_reached",
      called: how === "phone" || how === "message",
      other: told.get("consent_who") === "other",
      signs: kind !== "find_fault" && how === "in_person" && (!outcome || outcome === "agreed"),
    };
    for (const part of form.querySelectorAll("[data-if], [data-if-called], [data-if-other], [data-if-not-reached], [data-if-signs]")) {
      const kinds = part.getAttribute("data-if");
      const fits = !kinds || kinds.split(" ").includes(kind);
      show(part, fits && Object.entries(is).every(([name, yes]) => yes || !part.hasAttribute(`data-if-${name}`)));
    }
  }

  /** The number of who is asked stands there, as long as nobody typed another. @param {Event} event */
  function fillNumber(event) {
    const who = /** @type {HTMLInputElement} */ (event.target);
    if (who.name !== "consent_who" || !Object.values(phones).concat("").includes(number.value)) return;
    number.value = phones[who.value] || "";
  }

  form.addEventListener("change", fillNumber);
  form.addEventListener("change", showAsked);
  form.addEventListener("shopac:restored", () => {
    before.value = shownBefore;
    showAsked();
  });
  showAsked();
})();
