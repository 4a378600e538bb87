/**
 * The old parts on a page kept without a car: what was fitted, by what this tablet knows; and which
 * of them the form is about, by the address.
 */
"use strict";

(() => {
  const { element } = window.shopac;
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const list = document.querySelector("[data-fitted]");
  const asked = new URLSearchParams(location.search).get("change") || "";
  const field = /** @type {HTMLInputElement} */ (form.querySelector('[name="change"]'));

  /** @param {any} job @param {any} one */
  function row(job, one) {
    const line = element("li", "", "row");
    const link = element("a", one.short, "whole name");
    link.setAttribute("href", `/taken_out/?job=${job.key}&change=${one.key}`);
    const told = one.old || "Where the old part went is not told";
    line.append(link, element("span", told, one.old ? "value" : "value soft"));
    return line;
  }

  /** Fitted as recorded on this tablet, which the shop server has not told yet. @param {any} job */
  async function fittedHere(job) {
    const told = new Set((job.changes || []).map((/** @type {any} */ one) => one.key));
    const isNew = (/** @type {any} */ one) => one.kind === "change" && one.fields?.what?.[0] === "fitted" && !told.has(one.key);
    const here = (await window.shopac.enteredHere(job.key, job.as_of)).filter(isNew);
    return here.map((/** @type {any} */ one) => {
      const said = (one.words || []).slice(0, 2).map((/** @type {any} */ each) => each.said);
      return { key: one.key, short: [...said, "kept on this tablet"].join(", ") };
    });
  }

  document.addEventListener("shopac:job", async (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    const fitted = (job.changes || []).filter((/** @type {any} */ one) => one.fitted);
    fitted.push(...(await fittedHere(job)));
    const about = fitted.find((/** @type {any} */ one) => one.key === asked);
    form.toggleAttribute("hidden", !asked);
    list?.toggleAttribute("hidden", Boolean(asked));
    if (asked && !field.value) field.value = asked;
    const words = form.querySelector("[data-change]");
    if (words && about) words.textContent = about.short;
    list?.querySelector("ul")?.replaceChildren(...fitted.map((/** @type {any} */ one) => row(job, one)));
    list?.querySelector("[data-none]")?.toggleAttribute("hidden", fitted.length > 0);
  });
})();
