/**
 * Numbers as people type them and as they are shown, and units: exact, as on the shop server.
 *
 * The same rules stand in diagnostics/physics/typed.py and units.py; both are held to
 * tests/physics/typed_vectors.json. A number is decimal text, such as "12.40", as long as its digits
 * matter; a table of units is what units.py writes into the page.
 *
 * @typedef {{quantity: string, factor: string, zero: string, spellings: string[]}} Unit
 * @typedef {Record<string, Unit>} Units
 * @typedef {[bigint, bigint]} Ratio numerator and denominator, the latter above zero
 */
"use strict";

window.shopac = window.shopac || {};

(() => {
  const NO_BREAK = "\u00a0";
  const MINUS = "\u2212";
  const MAX_LENGTH = 40;
  const MAX_DIGITS = 400;
  /** Signs of one meaning, brought to the one in front. */
  const ALIKE = [
    " \u00a0\u2007\u2009\u202f\u2002\u2003\t\n\r",
    "-\u2212\u2010\u2011\u2012\u2013\u2014\ufe63\uff0d",
    "'\u2019\u02bc\u066c",
    ".\u066b\uff0e",
    ",\uff0c\u060c",
  ];
  const SPACES = /^[ \u00a0\u2007\u2009\u202f\u2002\u2003\t\n\r]+|[ \u00a0\u2007\u2009\u202f\u2002\u2003\t\n\r]+$/g;
  const ENDS = /^ +| +$/g;

  // Reading.

  /** What was typed is no number; `code` names in one word why, `message` is for the field. */
  class Unreadable extends Error {
    /** @param {"no_number" | "too_long" | "two_ways"} code @param {string} sentence */
    constructor(code, sentence) {
      super(sentence);
      this.code = code;
    }
  }

  /** The value of a digit of any script: they stand in rows of ten. @param {string} letter */
  function digitOf(letter) {
    const point = /** @type {number} */ (letter.codePointAt(0));
    let first = point;
    while (/^\p{Nd}$/u.test(String.fromCodePoint(first - 1))) first -= 1;
    return (point - first) % 10;
  }

  /** @param {string} letter */
  function plainLetter(letter) {
    if (/^\p{Nd}$/u.test(letter)) return String(digitOf(letter));
    return ALIKE.find((signs) => signs.includes(letter))?.[0] || letter;
  }

  /** @param {string} typed */
  const quoted = (typed) => `“${typed.replace(SPACES, "")}”`;

  /** @param {string} typed */
  function noNumber(typed) {
    const { length } = [...typed];
    if (length > MAX_LENGTH) {
      return new Unreadable("too_long", `That is ${length} characters long. Type the number alone.`);
    }
    const sentence = `${quoted(typed)} is no number. Type digits with one point or one comma.`;
    return new Unreadable("no_number", sentence);
  }

  /** The part before the decimal mark, its thousands marks taken out. @param {string} text @param {string} typed */
  function whole(text, typed) {
    const marks = new Set(text.replace(/\d/g, ""));
    if (!marks.size) return text;
    if (marks.size > 1 || !/^\d{1,3}([^\d]\d{3})+$/.test(text)) throw noNumber(typed);
    return text.replace(/\D/g, "");
  }

  /** Digits with marks to digits with one point. @param {string} text @param {string} typed */
  function digits(text, typed) {
    if (!/^[\d.,' ]+$/.test(text) || /^[' ]/.test(text) || !/\d/.test(text)) throw noNumber(typed);
    const last = Math.max(text.lastIndexOf("."), text.lastIndexOf(","));
    if (last < 0) return whole(text, typed);
    const [mark, before, after] = [text[last], text.slice(0, last), text.slice(last + 1)];
    if (before.includes(mark)) return whole(text, typed); // twice: it can only part thousands
    if (!/^\d*$/.test(after)) throw noNumber(typed);
    if (mark === "," && after.length === 3 && /^\d{1,3}$/.test(before) && !/^0+$/.test(before)) {
      throw new Unreadable(
        "two_ways",
        `${quoted(typed)} can be ${before}.${after} or ${before}${after}. ` +
          "Type it with a point, or without the mark.",
      );
    }
    return after ? `${whole(before, typed) || "0"}.${after}` : whole(before, typed);
  }

  /**
   * The number as decimal text, and the text of the unit typed behind it, which may be empty.
   * @param {string} typed
   * @throws {Unreadable}
   */
  function splitNumber(typed) {
    let plain = [...typed].map(plainLetter).join("").replace(ENDS, "");
    if (!plain || [...plain].length > MAX_LENGTH) throw noNumber(typed);
    const sign = /^[-+]/.test(plain) ? plain[0] : "";
    if (sign) plain = plain.slice(1).replace(/^ +/, "");
    const front = /** @type {RegExpExecArray} */ (/^[\d.,' ]*/.exec(plain))[0];
    const number = digits(front.replace(/ +$/, ""), typed).replace(/^0+(?=\d)/, "");
    return {
      number: (sign === "-" ? "-" : "") + number,
      unit: plain.slice(front.length).replace(ENDS, ""),
    };
  }

  // Showing.

  /**
   * The digits of a finite number and the power of ten they stand at.
   * @param {number | string} value
   * @returns {{negative: boolean, coefficient: bigint, power: number}}
   * @throws {RangeError} no number
   */
  function decimal(value) {
    const found = /^([-+]?)(\d*)\.?(\d*)(?:e([-+]?\d+))?$/i.exec(String(value));
    if (!found || !(found[2] + found[3])) throw new RangeError("That is no number.");
    return {
      negative: found[1] === "-",
      coefficient: BigInt(found[2] + found[3]),
      power: Number(found[4] || 0) - found[3].length,
    };
  }

  /** @param {number} power */
  const tens = (power) => 10n ** BigInt(power);

  /**
   * The number as text, rounded half away from zero on its decimal text, not on its binary value.
   * Thousands stand apart by a no-break space; a true minus sign, none before zero.
   * @param {number | string} value a number, or decimal text
   * @param {number} decimals
   * @throws {RangeError} no finite number, or one of more than 400 digits
   */
  function shown(value, decimals) {
    const { negative, coefficient, power } = decimal(value);
    const rounded = coefficient && atPower(coefficient, power + decimals);
    const figures = (decimals < 0 ? rounded * tens(-decimals) : rounded).toString();
    const padded = figures.padStart(Math.max(decimals, 0) + 1, "0");
    const end = padded.length - Math.max(decimals, 0);
    const front = padded.slice(0, end).replace(/\B(?=(\d{3})+$)/g, NO_BREAK);
    const text = decimals > 0 ? `${front}.${padded.slice(end)}` : front;
    return negative && rounded ? MINUS + text : text;
  }

  /** coefficient x 10^power as a whole number, half away from zero. @param {bigint} coefficient @param {number} power */
  function atPower(coefficient, power) {
    const { length } = coefficient.toString();
    if (length + power > MAX_DIGITS) throw new RangeError("That is no number.");
    if (power >= 0) return coefficient * tens(power);
    if (-power > length + 1) return 0n;
    const half = tens(-power) / 2n;
    return (coefficient + half) / tens(-power);
  }

  /** Number and unit, never parted at the end of a line; the Δ of a difference is not shown.
   * @param {string} text @param {string} symbol */
  const withUnit = (text, symbol) => text + NO_BREAK + symbol.replace(/^Δ/, "");

  // Units.

  /** @type {[string, "absolute" | "gauge"][]} */
  const MARKS = [
    ["absolute", "absolute"],
    ["abs", "absolute"],
    ["gauge", "gauge"],
    ["gage", "gauge"],
    ["a", "absolute"],
    ["g", "gauge"],
  ];

  /** A unit as typed in one form. @param {string} typed */
  const plainUnit = (typed) => typed.normalize("NFKC").replace(/[ .·*^()[\]]/g, "");

  /** A unit as typed without what it says of gauge and absolute; and that.
   * @param {string} typed @param {Units} units @returns {[string, "absolute" | "gauge" | ""]} */
  function apart(typed, units) {
    const plain = plainUnit(typed);
    const pressures = new Set();
    for (const unit of Object.values(units)) {
      if (unit.quantity !== "pressure") continue;
      for (const word of unit.spellings) pressures.add(word.toLowerCase());
    }
    if (pressures.has(plain.toLowerCase())) return [plain, ""];
    for (const [mark, reference] of MARKS) {
      if (!plain.toLowerCase().endsWith(mark)) continue;
      const rest = plain.slice(0, -mark.length);
      if (pressures.has(rest.toLowerCase()) || (mark.length > 1 && !rest)) return [rest, reference];
    }
    return [plain, ""];
  }

  /** What a unit as typed says of its pressure: "psia" absolute, "bar g" gauge, "kPa" nothing.
   * @param {string} typed @param {Units} units */
  const referenceTyped = (typed, units) => apart(typed, units)[1];

  /**
   * The symbol of the unit meant by `typed` among `allowed`; null: not known, or two are meant.
   * @param {string} typed @param {string[]} allowed @param {Units} units
   * @param {string} [reference] what a pressure is asked as: "gauge" or "absolute"
   * @returns {string | null}
   */
  function unitNamed(typed, allowed, units, reference = "gauge") {
    if (allowed.includes(typed)) return typed;
    const [plain, told] = apart(typed, units);
    if (told && told !== reference) return null;
    const lower = plain.toLowerCase();
    const exact = allowed.filter((symbol) => units[symbol].spellings.includes(plain));
    const folded = allowed.filter((symbol) =>
      units[symbol].spellings.some((word) => word.toLowerCase() === lower),
    );
    const quantities = allowed.map((symbol) => units[symbol].quantity);
    const another = Object.entries(units).some(
      ([symbol, unit]) =>
        quantities.includes(unit.quantity) && !allowed.includes(symbol) && unit.spellings.includes(plain),
    ); // to the letter: MΩ beside mΩ
    const meant = exact.length || another ? exact : folded;
    return meant.length === 1 ? meant[0] : null;
  }

  /** @param {string} text @returns {Ratio} */
  function ratio(text) {
    const [numerator, denominator] = text.split("/");
    return [BigInt(numerator), BigInt(denominator)];
  }

  /** @param {bigint} value */
  const bits = (value) => value.toString(2).length;

  /** The number nearest to a ratio; below 1e-290 it may be nothing. @param {Ratio} exact */
  function nearest([numerator, denominator]) {
    if (!numerator) return 0;
    const size = numerator < 0n ? -numerator : numerator;
    const shift = 66 - bits(size) + bits(denominator);
    const top = shift > 0 ? size << BigInt(shift) : size;
    const bottom = shift < 0 ? denominator << BigInt(-shift) : denominator;
    let quotient = top / bottom; // of 66 or 67 bits; the last one tells that something is left
    if (top % bottom) quotient |= 1n;
    const found = Number(quotient) * 2 ** -shift;
    return numerator < 0n ? -found : found;
  }

  /**
   * A number in a unit as SI, even where no such thing can be; units.py's `scaled`.
   * @param {number | string} value a number, or decimal text
   * @param {string} symbol
   * @param {Units} units
   * @throws {RangeError} no finite number
   */
  function toSi(value, symbol, units) {
    const { negative, coefficient, power } = decimal(value);
    const [factor, factorOf] = ratio(units[symbol].factor);
    const [zero, zeroOf] = ratio(units[symbol].zero);
    const top = (negative ? -coefficient : coefficient) * tens(Math.max(power, 0));
    const bottom = tens(Math.max(-power, 0));
    return nearest([(top * zeroOf + zero * bottom) * factor, bottom * zeroOf * factorOf]);
  }

  /**
   * An SI value in a unit.
   * @param {number} si
   * @param {string} symbol
   * @param {Units} units
   * @throws {RangeError} no finite number
   */
  function fromSi(si, symbol, units) {
    if (!Number.isFinite(si)) throw new RangeError("That is no number.");
    let [top, bottom] = [si, 1n];
    while (!Number.isInteger(top)) [top, bottom] = [top * 2, bottom * 2n];
    const [factor, factorOf] = ratio(units[symbol].factor);
    const [zero, zeroOf] = ratio(units[symbol].zero);
    const over = bottom * factor;
    return nearest([BigInt(top) * factorOf * zeroOf - zero * over, over * zeroOf]);
  }

  Object.assign(window.shopac, {
    Unreadable, splitNumber, shown, withUnit, referenceTyped, unitNamed, toSi, fromSi,
  });
})();
