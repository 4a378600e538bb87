/**
 * The six questions on a page kept without a car: as the shop server last weighed it, with the time,
 * and what was recorded on this tablet since, which is not in it.
 */
"use strict";

(() => {
  const SVG = "http://www.w3.org/2000/svg";
  /** The shapes of templates/_standing.html: [element, attributes]. */
  const ring = ["circle", { cx: "12", cy: "12", r: "9" }];
  /** @type {Record<string, any[]>} */
  const SHAPES = {
    proved: [["circle", { class: "full", cx: "12", cy: "12", r: "9" }]],
    likely: [ring, ["path", { class: "full", d: "M12 3a9 9 0 0 0 0 18z" }]],
    open: [ring],
    ruled_out: [["path", { d: "M5 5h14v14H5zM2 22 22 2" }]],
  };

  /** @param {string} standing */
  function standingMark(standing) {
    const drawn = document.createElementNS(SVG, "svg");
    const about = { class: "standing", viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" };
    for (const [name, value] of Object.entries(about)) drawn.setAttribute(name, value);
    for (const [name, attributes] of SHAPES[standing] || SHAPES.open) {
      const shape = document.createElementNS(SVG, name);
      for (const [one, value] of Object.entries(attributes)) shape.setAttribute(one, String(value));
      drawn.append(shape);
    }
    return drawn;
  }

  const WORKS = ["change", "recovery", "oil", "evacuation", "charge", "machine_cycle"];
  /** Whether an entry opens another state of the car. @param {any} one */
  const changesCar = (one) => WORKS.includes(one.kind);
  /** Whether the verdict rests on such an entry. @param {any} one */
  const isWeighed = (one) => changesCar(one) || ["step", "loop_parts", "taken_out", "system"].includes(one.kind);

  /** What was recorded here and is not in what was weighed. @param {any} job @returns {Promise<any[]>} */
  async function notWeighed(job) {
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const known = new Set([...job.steps, ...(job.changes || [])].map((/** @type {any} */ one) => one.key));
    return here.filter((/** @type {any} */ one) => isWeighed(one) && !known.has(one.key));
  }

  /** Of when it is, and of how many steps. @param {any} job */
  function asOf(job) {
    const { weighed } = job.verdict;
    return `As of ${window.shopac.words.clock(job.as_of)}, from ${weighed} step${weighed === 1 ? "" : "s"}.`;
  }

  /** @param {any} job */
  async function show(job) {
    const line = document.querySelector("[data-verdict-as-of]");
    if (!line) return;
    const since = await notWeighed(job);
    const names = since.map((/** @type {any} */ one) => one.title).join(", ");
    const none = "The shop server has not weighed this car yet.";
    const said = `${job.verdict ? asOf(job) : none}${names ? ` Kept on this tablet, not weighed yet: ${names}.` : ""}`;
    window.shopac.inPlace(() => {
      line.textContent = said;
      line.removeAttribute("hidden");
      for (const one of job.verdict?.questions || []) {
        const row = document.querySelector(`[data-told="${one.code}"]`);
        const words = row?.querySelector("[data-question-said]");
        if (words) words.textContent = one.said;
        row?.querySelector(".standing")?.replaceWith(standingMark(one.standing));
      }
    });
  }

  Object.assign(window.shopac, { standingMark, notWeighed, asOf, changesCar, isWeighed });
  window.shopac.onJob(show);
})();
