/**
 * The job's page kept without a car: a hand-over note that waits, what must not be done yet, and how
 * far each question is tested, as this tablet knows them.
 */
"use strict";

(() => {
  const { element } = window.shopac;


  /** A note that was written on this tablet and is not in what the server told. @param {any} item */
  function noteHere(item) {
    const said = (/** @type {string} */ name) =>
      item.words?.find((/** @type {any} */ one) => one.name === name)?.said || "";
    return {
      key: item.key,
      to: (item.fields.to?.[0] !== "anyone" && said("to")) || said("to_name") || "whoever is next",
      by: item.who?.person.name || "On this tablet",
      at: item.typed_at,
      stands: said("stands") ? said("stands").split(", ") : [],
      against: [],
      next_title: said("next_test"),
      next_words: said("next_words"),
      said: item.fields.said?.[0] || "",
    };
  }

  /**
   * What shows the last note, told by the server or written here, unless it was taken over since.
   * @param {any} job
   * @returns {Promise<() => void>}
   */
  async function noteToShow(job) {
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const of = (/** @type {string} */ kind) => here.filter((/** @type {any} */ one) => one.kind === kind);
    const written = of("handover").pop();
    const last = written ? noteHere(written) : job.handover;
    const isTaken = (/** @type {any} */ one) => one.fields.handover?.[0] === last?.key;
    return () => showNote(of("taken_over").some(isTaken) ? null : last);
  }

  /** @param {any} note null: none waits */
  function showNote(note) {
    const section = document.querySelector("[data-note]");
    section?.toggleAttribute("hidden", !note);
    if (!section || !note) return;
    const put = (/** @type {string} */ name, /** @type {string} */ text) => {
      const place = section.querySelector(`[data-note-${name}]`);
      if (place) place.textContent = text;
    };
    put("to", note.to);
    put("by", `${note.by}, ${window.shopac.words.clock(note.at)}`);
    put("said", note.said);
    put("stands", note.stands.join(" · "));
    const next = [note.next_title, note.next_words].filter(Boolean).join(" · ");
    put("next", next ? `Next: ${next}` : "");
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
      link.setAttribute("href", `${gate.address}?job=${job.key}`);
      const value = element("span", `${gate.why} `, "value");
      value.append(link);
      row.append(element("span", gate.what, "name"), value);
      return row;
    });
    section?.querySelector("ul")?.replaceChildren(...rows);
    section?.toggleAttribute("hidden", !gates.length);
    const here = section?.querySelector("[data-not-yet-here]");
    if (here && job.untold) here.textContent = "As on any car of which nothing is told yet; what is kept on this tablet is not in it.";
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

  /** The job as it is shown. @type {any} */
  let told = null;
  /** What was decided, told by the server or here since. @param {any} job @returns {Promise<() => void>} */
  async function decisionToShow(job) {
    const { answersOf, words } = window.shopac;
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const last = here.filter((/** @type {any} */ one) => one.kind === "decision").pop();
    const told = job.decision || (last ? "" : "Nothing is decided yet, as far as this tablet was told.");
    const since = last ? `Kept on this tablet ${words.clock(last.typed_at)}: ${answersOf(last)}` : "";
    return () => {
      const place = document.querySelector("[data-decision-said]");
      if (place) place.textContent = [told, since].filter(Boolean).join(" ");
    };
  }

  /** In place: what is below stays under the finger. The page may be going away meanwhile. */
  async function again() {
    const job = told;
    const shows = await Promise.all([noteToShow(job), decisionToShow(job)]).catch(() => []);
    if (job === told) window.shopac.inPlace(() => shows.forEach((show) => show()));
  }

  document.addEventListener("shopac:job", (event) => {
    if (!told) window.shopac.onKept(again);
    told = /** @type {CustomEvent} */ (event).detail;
    showGates(told);
    showTold(told);
    again();
  });
})();
