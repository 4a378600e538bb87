/**
 * What the car and the tests made decide: whether a rule holds, and whether what must come first is
 * known. As is_such, can_be_such and Order.is_kept of the shop server do.
 */
"use strict";

(() => {
  /**
   * Whether the car is such; what is not known of it is "".
   * @param {Record<string, string[]>} when @param {any} system
   */
  function isSuch(when, system) {
    return Object.entries(when).every(([name, values]) =>
      [system[name] || ""].flat().some((told) => values.includes(told)),
    );
  }

  /**
   * Whether nothing known of the car speaks against it.
   * @param {Record<string, string[]>} when @param {any} system
   */
  function canBeSuch(when, system) {
    return isSuch(Object.fromEntries(Object.entries(when).filter(([name]) => String(system[name] || ""))), system);
  }

  /**
   * The tests of a job that stand, an owner's overrides and work on the loop among them, oldest first.
   * @param {any} job @returns {any[]}
   */
  function standing(job) {
    return [job.steps, job.overrides, job.works]
      .flat()
      .filter((/** @type {any} */ step) => step?.stands)
      .sort((/** @type {any} */ one, /** @type {any} */ other) => (one.made_at < other.made_at ? -1 : 1));
  }

  /**
   * Whether what must come first is known from the tests that stand; the newest decides.
   * @param {any} order @param {any} job
   */
  function isKept(order, job) {
    if (!(order.known ? isSuch : canBeSuch)(order.on, job.system)) return true;
    let kept = order.at_first;
    let found = false; // a test shut it, and no override stands for that
    for (const step of standing(job)) {
      const told = (/** @type {any} */ table) => table[step.kind]?.includes(step.outcome);
      if (told(order.opened) || step.opens?.includes(order.code)) {
        found = found && step.kind === "override";
        kept = kept || (!found && (order.lasting || !step.touched)); // changed since, it opens nothing
      } else if (told(order.closed) || step.shuts?.includes(order.code)) {
        kept = false;
        found = true;
      }
    }
    return kept;
  }

  Object.assign(window.shopac, { isSuch, canBeSuch, isKept });
})();
