/**
 * The verification kept without a car: what the shop server last told of it, of when it is, and what
 * was recorded on this tablet since, at the line that it speaks of.
 */
"use strict";

(() => {
  const { element } = window.shopac;

  /** @param {string} name @param {Element[]} rows */
  function fill(name, rows) {
    const section = document.querySelector(`[data-verification-${name}]`);
    section?.querySelector("ul")?.replaceChildren(...rows);
    section?.toggleAttribute("hidden", !rows.length);
  }

  /** What was made here that speaks of a thing to show. @param {any} one @param {any[]} here */
  const speakOf = (one, here) =>
    here.filter((item) =>
      item.kind === "verified" ? !one.kind : one.kinds.includes(item.fields.test_kind?.[0]),
    );

  /** @param {any} one @param {any} job @param {any[]} here */
  function shownRow(one, job, here) {
    const { standingMark, words } = window.shopac;
    const row = element("li", "", "row");
    const link = element("a", one.words, "whole name");
    link.href = one.kind ? `/step/${one.kind}/?job=${job.key}` : "#label";
    const value = element("span", "", "value");
    const text = element("span", "");
    text.append(element("strong", `${one.standing[0].toUpperCase()}${one.standing.slice(1)}.`), ` ${one.because} `);
    for (const item of speakOf(one, here)) {
      const failed = item.fields.not_done ? "Could not be done" : "Recorded";
      text.append(element("strong", `${failed} on this tablet ${words.clock(item.typed_at)}, not looked at yet. `));
    }
    value.append(standingMark(one.is_shown ? "proved" : "open"), text);
    row.append(link, value);
    return row;
  }

  /** @param {any} one */
  function twinRow(one) {
    const row = element("li", "", "row");
    row.append(element("span", one.name, "name"), element("span", one.said, "value"));
    return row;
  }

  /** Entries of this tablet that are not in what the shop server told. @param {any} job */
  async function since(job) {
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const known = new Set([...job.steps, ...(job.changes || [])].map((/** @type {any} */ one) => one.key));
    return here.filter(
      (/** @type {any} */ one) => (one.kind === "step" || one.kind === "verified" || window.shopac.changesCar(one)) && !known.has(one.key),
    );
  }

  /** @param {any} told @param {any} job @param {any[]} here */
  function saidOf(told, job, here) {
    if (!told) {
      return here.some(window.shopac.changesCar)
        ? "The car was changed on this tablet: the shop server says what is to be shown once it answers."
        : "Nothing was changed on the car yet, as far as the shop server told this tablet.";
    }
    const changed = here.some(window.shopac.changesCar)
      ? " The car was changed on this tablet since: what was shown before counts no more in that."
      : "";
    return `As of ${window.shopac.words.clock(job.as_of)}: ${told.said}.${changed}`;
  }

  /** @param {any} job */
  async function show(job) {
    const here = await since(job);
    const told = job.verification;
    window.shopac.inPlace(() => {
      const said = document.querySelector("[data-verification-said]");
      if (said) said.textContent = saidOf(told, job, here);
      fill("shown", (told?.shown || []).map((/** @type {any} */ one) => shownRow(one, job, here)));
      fill("twins", (told?.twins || []).map(twinRow));
      const cold = document.querySelector("[data-verification-cold] h2");
      if (cold) cold.textContent = told?.cold?.words || "";
      fill("cold", (told?.cold?.lines || []).map((/** @type {string} */ one) => element("li", one)));
      fill("since", here.map((one) => element("li", `${one.title}, ${window.shopac.words.clock(one.typed_at)}`)));
    });
  }

  window.shopac.onJob(show);
})();
