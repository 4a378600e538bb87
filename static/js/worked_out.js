/**
 * Numbers worked out while readings are typed, under their fields: without the shop server, and with
 * the digits that it will have.
 *
 * @typedef {{si: number, lastDigit: number}} Read a reading in SI, and what one step of its last
 *   digit is worth
 */
"use strict";

window.shopac = window.shopac || {};

(() => {
  const MOST_DECIMALS = 4;
  const PLAIN = "1"; // the unit of a ratio
  const PICKS = ["same", "smallest", "largest"]; // one of the readings, as fine as it is

  /**
   * The numbers that can be worked out, with their words; what cannot is left out.
   * @param {any[]} all what the kind works out
   * @param {Record<string, Read>} readings by field
   * @param {any} around as physics.js takes it
   * @param {any} units
   * @returns {{about: string, words: string, shown: string}[]}
   */
  function workedOut(all, readings, around, units) {
    const found = [];
    for (const one of all) {
      const needed = one.takes.slice(0, one.least || one.takes.length);
      if (!needed.every((/** @type {string} */ name) => readings[name])) continue;
      const read = one.takes.map((/** @type {string} */ name) => readings[name]).filter(Boolean);
      try {
        const shown = shownNumber(one, read, around, units);
        if (shown) found.push({ about: one.about, words: one.words, shown });
      } catch (problem) {
        if (!(problem instanceof window.shopac.NotHere)) throw problem;
      }
    }
    return found;
  }

  /** @param {any} one @param {Read[]} read @param {any} around @param {any} units */
  function shownNumber(one, read, around, units) {
    const how = window.shopac.physics[one.how];
    const numbers = how(read.map(({ si }) => si), around);
    if (!numbers.length) return "";
    const decimals = decimalsOf(one.how, read, around, window.shopac.toSi("1", one.unit, units) - window.shopac.toSi("0", one.unit, units));
    const ends = numbers.map((si) => window.shopac.shown(window.shopac.fromSi(si, one.unit, units), decimals));
    const text = [...new Set(ends)].join("–"); // ends shown alike are one number
    return one.unit === PLAIN ? text : window.shopac.withUnit(text, one.unit);
  }

  /**
   * As many decimals as the last digits typed are worth; one of the readings keeps all it had: in
   * another unit no step is larger than the one typed.
   * @param {string} name of the function
   * @param {Read[]} read @param {any} around @param {number} factor of the unit shown
   */
  function decimalsOf(name, read, around, factor) {
    const how = window.shopac.physics[name];
    const here = how(read.map(({ si }) => si), around);
    if (PICKS.includes(name)) {
      const picked = read.filter(({ si }) => si === here[0]);
      const digit = Math.max(...picked.map(({ lastDigit }) => lastDigit));
      return decimalsFor(digit / factor, true);
    }
    const moved = read.flatMap((_, index) =>
      how(read.map(({ si, lastDigit }, place) => si + lastDigit * Number(place === index)), around)
        .map((there, end) => Math.abs(there - here[end])),
    );
    return decimalsFor(Math.max(...moved) / factor);
  }

  /**
   * As many decimals as that much is worth.
   * @param {number} worth in the unit shown
   * @param {boolean} whole so many that all of it shows
   */
  function decimalsFor(worth, whole = false) {
    if (!worth) return MOST_DECIMALS;
    const exact = -Math.log10(worth);
    const decimals = whole ? Math.ceil(exact - 1e-9) : Math.floor(exact + 1e-9);
    return Math.min(Math.max(decimals, 0), MOST_DECIMALS);
  }

  window.shopac.workedOut = workedOut;
})();
