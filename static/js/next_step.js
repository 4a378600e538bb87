/**
 * The test to make next on a car that a tablet keeps: of those that the shop server named when it
 * last weighed the car, the first that was not made here since. A car it never weighed has the first
 * test not made, in the usual order. The page brings every kind of test as "bars".
 */
"use strict";

(() => {
  const USUAL = "The first not made yet, in the usual order: the shop server has not weighed this car yet.";

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
   * @param {any} job
   * @param {any[]} here entries of this tablet that may be missing in the job
   * @returns {{kinds: any[], made: Set<string>, next: any, reason: string, said: string}} `next` is a
   *   kind or undefined, `reason` why it is worth its minutes, `said` what stands in its place
   */
  function nextStep(job, here) {
    const kinds = kindsFor(job);
    const isTold = (/** @type {any} */ item) => job.steps.some((/** @type {any} */ one) => one.key === item.key);
    const since = here.filter((item) => item.kind === "step" && !isTold(item));
    const kindOf = (/** @type {any} */ item) => item.fields.test_kind?.[0];
    const triedHere = since.map(kindOf); // what could not be done here is planned around, too
    const madeHere = since.filter((item) => !item.fields.not_done).map(kindOf);
    const standing = job.steps.filter((/** @type {any} */ step) => step.stands);
    const made = new Set([...standing.map((/** @type {any} */ step) => step.kind), ...madeHere]);
    const can = (/** @type {string} */ name) => kinds.find((one) => one.name === name && !one.barred && !one.waits);
    const planned = (job.next?.planned || []).find(
      (/** @type {any} */ one) => !triedHere.includes(one.kind) && can(one.kind),
    );
    if (planned) {
      const next = { ...can(planned.kind), words: planned.words };
      return { kinds, made, next, reason: planned.reason, said: "" };
    }
    if (!job.untold) return { kinds, made, next: undefined, reason: "", said: left(job, since.length > 0) };
    const next = kinds.find((one) => can(one.name) && !made.has(one.name));
    return { kinds, made, next, reason: USUAL, said: next ? "" : left(job, true) };
  }

  /** What is said where no test that was named is left. @param {any} job @param {boolean} more */
  function left(job, more) {
    if (more || !job.next) return "What comes next is weighed when the shop server answers.";
    return job.next.waits?.length ? `What is left waits: ${job.next.waits.join(" ")}` : `${job.next.words}.`;
  }

  Object.assign(window.shopac, { nextStep });
})();
