/**
 * What is odd about a VIN, said under its field while it is typed. Nothing is refused: it is kept as
 * read. The same rule as jobs/vin.py (49 CFR 565.13 and 565.15), held to the same samples.
 */
"use strict";

(() => {
  const LENGTH = 17;
  const VALUES = "0123456789.ABCDEFGH..JKLMN.P.R..STUVWXYZ"; // place modulo 10 is the value
  const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];
  const NORTH_AMERICA = "12345";

  /** @param {string} letter @returns {number} its value, or -1 when it is in no VIN */
  function valueOf(letter) {
    const place = letter === "." ? -1 : VALUES.indexOf(letter);
    return place < 0 ? -1 : place % 10;
  }

  /** @param {string} typed @returns {string} a sentence, or nothing */
  function mark(typed) {
    const letters = Array.from(typed.replace(/[\s-]/g, "").toUpperCase());
    if (!letters.length) return "";
    if (letters.length !== LENGTH) {
      const plural = letters.length === 1 ? "" : "s";
      return `${letters.length} character${plural}; a VIN has ${LENGTH}. Read it again.`;
    }
    const odd = letters.find((letter) => valueOf(letter) < 0);
    if (odd) return `“${odd}” is in no VIN (no I, O or Q). Read it again.`;
    const total = letters.reduce((sum, letter, at) => sum + valueOf(letter) * WEIGHTS[at], 0);
    if ("0123456789X"[total % 11] === letters[8]) return "";
    return NORTH_AMERICA.includes(letters[0])
      ? "Its check digit does not fit: one character may be misread. Read it again."
      : "Its ninth character is no check digit; outside North America it need not be one.";
  }

  /** @param {HTMLInputElement} input @returns {HTMLElement} */
  function place(input) {
    const id = `${input.id}_odd`;
    const there = document.getElementById(id);
    if (there) return there;
    const line = document.createElement("p");
    line.id = id;
    line.className = "odd";
    line.setAttribute("role", "status");
    input.closest(".typed")?.after(line);
    const described = input.getAttribute("aria-describedby") || "";
    input.setAttribute("aria-describedby", `${described} ${id}`.trim());
    return line;
  }

  /** @param {HTMLInputElement} input */
  function show(input) {
    place(input).textContent = mark(input.value);
  }

  for (const input of document.querySelectorAll("input[data-vin]")) {
    const field = /** @type {HTMLInputElement} */ (input);
    field.addEventListener("change", () => show(field));
    field.addEventListener("input", () => place(field).textContent && show(field));
    field.form?.addEventListener("shopac:restored", () => show(field));
    show(field);
  }
  window.shopac = Object.assign(window.shopac || {}, { vinMark: mark });
})();
