/** A consent asks what its kind, its outcome and its way need; what is not asked is not sent. */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const before = /** @type {HTMLInputElement} */ (form.elements.namedItem("consent_before"));
  const shownBefore = before.value; // a draft may bring back what was agreed when it was begun
  const sums = /** @type {HTMLElement} */ (form.querySelector("[data-sums]"));
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

  /** Whole smallest units of what is typed; null: nothing that is an amount. @param {string} name @param {number} decimals */
  function units(name, decimals) {
    const field = /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
    const typed = field.value.replace(/\s/g, "").replace(",", ".");
    const [, behind = ""] = typed.split(".");
    return /^\d+(\.\d+)?$/.test(typed) && behind.length <= decimals ? Math.round(Number(typed) * 10 ** decimals) : null;
  }

  /** Work in words and its sums as they are kept, before anybody signs; the server adds them up again. */
  function showSums() {
    const { currency = "", decimals = "0" } = sums.dataset;
    const places = Number(decimals);
    const then = before.value === "" ? null : Number(before.value);
    let added = units("consent_added", places);
    let total = units("consent_amount", places);
    if (then !== null && total === null && added !== null) total = then + added;
    if (then !== null && added === null && total !== null) added = total - then;
    const work = /** @type {HTMLTextAreaElement} */ (form.elements.namedItem("work")).value.trim();
    sums.hidden = !work || total === null || added === null;
    /** @param {string} name @param {number | null} amount */
    const line = (name, amount) => {
      if (amount === null) return [];
      const [whole, behind] = (amount / 10 ** places).toFixed(places).split(".");
      const figures = [whole.replace(/\B(?=(\d{3})+$)/g, "\u00a0"), behind].filter(Boolean).join(".");
      return [`${name}: ${figures}\u00a0${currency}`];
    };
    const lines = [...line("Agreed before", then), ...line("Added cost", added), ...line("Revised total", total)];
    sums.textContent = [`Work: ${work}`, ...lines].join("\n");
  }

  /** The number of who is asked stands there, as long as nobody typed another. @param {Event} event */
  function fillNumber(event) {
    const who = /** @type {HTMLInputElement} */ (event.target);
    if (who.name !== "consent_who" || !Object.values(phones).concat("").includes(number.value)) return;
    number.value = phones[who.value] || "";
  }

  form.addEventListener("change", fillNumber);
  form.addEventListener("change", showAsked);
  form.addEventListener("input", showSums);
  form.addEventListener("shopac:restored", () => {
    before.value = shownBefore;
    showAsked();
    showSums();
  });
  showAsked();
  showSums();
})();
