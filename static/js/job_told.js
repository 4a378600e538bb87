/**
 * The job's page kept without a car: a hand-over note that waits, what must not be done yet, and how
 * far each question is tested, as this tablet knows them.
 */
"use strict";

(() => {
  /** @param {string} name @param {string} text */
  function element(name, text, looks = "") {
    const made = document.createElement(name);
    made.textContent = text;
    if (looks) made.className = looks;
    return made;
  }

  /** The last note told, unless somebody took it over here since. @param {any} job */
  async function showNote(job) {
    const section = document.querySelector("[data-note]");
    if (!section) return;
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const taken = here.some((/** @type {any} */ one) => one.fields.handover?.[0] === job.handover?.key);
    const note = taken ? null : job.handover;
    section.toggleAttribute("hidden", !note);
    if (!note) return;
    const put = (/** @type {string} */ name, /** @type {string} */ text) => {
      const place = section.querySelector(`[data-note-${name}]`);
      if (place) place.textContent = text;
    };
    put("to", note.to);
    put("by", `${note.by}, ${window.shopac.words.clock(note.at)}`);
    put("said", note.said);
    const next = [note.next_title || note.next_test, note.next_words].filter(Boolean).join(" · ");
    put("next", next ? `Next: ${next}` : "");
    put("stands", note.stands.join(" · "));
    const against = note.against.map((/** @type {string} */ one) => element("li", `${one} Look at the car.`));
    section.querySelector("[data-note-against]")?.replaceChildren(...against);
    section.querySelector('[name="handover"]')?.setAttribute("value", note.key);
  }

  /** @param {any} job */
  function showGates(job) {
    const section = document.querySelector("[data-not-yet]");
    const gates = (job.gates || []).filter((/** @type {any} */ one) => one.found || one.act !== "run");
    const rows = gates.map((/** @type {any} */ gate) => {
      const row = element("li", "", "row");
      row.dataset.gate = gate.code;
      const link = element("a", gate.page_words, "whole");
      link.setAttribute("href", `/${gate.page}/?job=${job.key}`);
      const value = element("span", `${gate.why} `, "value");
      value.append(link);
      row.append(element("span", gate.what, "name"), value);
      return row;
    });
    section?.querySelector("ul")?.replaceChildren(...rows);
    section?.toggleAttribute("hidden", !gates.length);
  }

  /** @param {any} job */
  function showTold(job) {
    const kinds = JSON.parse(document.getElementById("bars")?.textContent || "[]");
    const made = new Set(
      job.steps.filter((/** @type {any} */ one) => one.stands).map((/** @type {any} */ one) => one.kind),
    );
    for (const place of document.querySelectorAll("[data-told]")) {
      const about = place.getAttribute("data-told");
      const fits = kinds.filter(
        (/** @type {any} */ kind) =>
          kind.about === about &&
          !kind.bars.some((/** @type {any} */ one) => window.shopac.isSuch(one.when, job.system)),
      );
      const done = fits.filter((/** @type {any} */ kind) => made.has(kind.name)).length;
      const said = place.querySelector("[data-told-said]");
      if (said) said.textContent = fits.length ? `${done} of ${fits.length} tests` : "no test fits";
    }
  }

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    showGates(job);
    showTold(job);
    showNote(job).catch(() => {}); // the page may be going away
  });
})();
