/**
 * The test to make next on a car that a tablet keeps, as the shop server works it out, with what was
 * made on this tablet since. The page brings every kind of test as "bars".
 */
"use strict";

(() => {
  /** Every kind of test with the sentence that bars it on this car, and whether it waits for another.
   * @param {any} job @returns {any[]} */
  function kindsFor(job) {
    const mustNotRun = (job.gates || []).some((/** @type {any} */ gate) => gate.bars_running);
    return JSON.parse(document.getElementById("bars")?.textContent || "[]").map((/** @type {any} */ kind) => {
      const rule = kind.bars.find((/** @type {any} */ one) => window.shopac.isSuch(one.when, job.system));
      const isOpen = (/** @type {any} */ order) => !window.shopac.isKept(order, job);
      const waits = (kind.waits && kind.orders.some(isOpen)) || (kind.runs && mustNotRun);
      return { name: kind.name, words: kind.words, barred: rule?.sentence || "", waits };
    });
  }

  /**
   * One to make again since the car was changed, else the first not made yet.
   * @param {any} job
   * @param {any[]} here entries of this tablet that may be missing in the job
   * @returns {{kinds: any[], made: Set<string>, next: any, again: boolean, waits: boolean}} `next` is
   *   a kind or undefined, `waits` whether one that is left waits for another
   */
  function nextStep(job, here) {
    const kinds = kindsFor(job);
    const isTold = (/** @type {any} */ item) => job.steps.some((/** @type {any} */ one) => one.key === item.key);
    const done = here.filter((item) => item.kind === "step" && !item.fields.not_done && !isTold(item));
    const madeHere = done.map((item) => item.fields.test_kind?.[0]);
    const standing = job.steps.filter((/** @type {any} */ step) => step.stands);
    const made = new Set([...standing.map((/** @type {any} */ step) => step.kind), ...madeHere]);
    const can = kinds.filter((one) => !one.barred && !one.waits);
    const [first] = (job.again || []).filter((/** @type {string} */ name) => !madeHere.includes(name));
    const repeated = can.find((one) => one.name === first);
    const next = repeated || can.find((one) => !made.has(one.name));
    const waits = kinds.some((one) => !one.barred && one.waits && !made.has(one.name));
    return { kinds, made, next, again: Boolean(repeated), waits };
  }

  Object.assign(window.shopac, { nextStep });
})();
