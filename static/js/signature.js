/**
 * A signature drawn with finger, pen or mouse, kept as whole numbers: [[x, y, x, y, …], …], one list
 * a stroke, in the units of the field's view box (jobs/signature.py has the same bounds).
 */
"use strict";

(() => {
  const field = /** @type {SVGSVGElement | null} */ (document.querySelector("[data-sign]"));
  const input = /** @type {HTMLInputElement | null} */ (document.querySelector('[name="signature"]'));
  const part = document.querySelector("[data-drawn]");
  if (!field || !input || !part) return;
  const POINTS_MAX = 1200;
  const APART = 6; // nearer points tell nothing
  const FULL = "The field is full. Clear it to draw again.";
  const { width, height } = field.viewBox.baseVal;
  const line = field.querySelector("path");
  const said = part.querySelector("[data-sign-said]");

  /** @type {number[][]} */
  let strokes = [];
  /** @type {number | null} the finger that draws: a palm beside it draws nothing */
  let drawing = null;

  /** @param {number[]} stroke */
  function pathOf([x, y, ...more]) {
    let path = `M${x} ${y}`;
    const rest = more.length ? more : [x, y];
    for (let at = 0; at < rest.length; at += 2) path += `L${rest[at]} ${rest[at + 1]}`;
    return path;
  }

  function draw() {
    line?.setAttribute("d", strokes.map(pathOf).join(" "));
  }

  /** @param {PointerEvent} event */
  function pointOf(event) {
    const box = /** @type {SVGSVGElement} */ (field).getBoundingClientRect();
    const on = (/** @type {number} */ share, /** @type {number} */ size) =>
      Math.round(Math.min(1, Math.max(0, share)) * size);
    return [on((event.clientX - box.left) / box.width, width), on((event.clientY - box.top) / box.height, height)];
  }

  /** @param {PointerEvent} event */
  function add(event) {
    const stroke = strokes[strokes.length - 1];
    const [x, y] = pointOf(event);
    if (strokes.flat().length >= 2 * POINTS_MAX) return say(FULL);
    if (Math.hypot(x - stroke[stroke.length - 2], y - stroke[stroke.length - 1]) >= APART) stroke.push(x, y);
  }

  function keep() {
    const input_ = /** @type {HTMLInputElement} */ (input);
    input_.value = strokes.length ? JSON.stringify(strokes) : "";
    input_.dispatchEvent(new Event("input", { bubbles: true })); // the draft keeps it
  }

  /** @param {string} words */
  function say(words) {
    if (said) said.textContent = words;
  }

  function clear() {
    strokes = [];
    say("");
    draw();
    keep();
  }

  /** What stands in the form: what was drawn here before. */
  function readBack() {
    try {
      const told = JSON.parse(input?.value || "[]");
      strokes = Array.isArray(told) ? told : [];
    } catch {
      strokes = [];
    }
    draw();
  }

  field.addEventListener("pointerdown", (event) => {
    if (drawing !== null || event.button) return;
    if (strokes.flat().length >= 2 * POINTS_MAX) return say(FULL);
    event.preventDefault();
    drawing = event.pointerId;
    field.setPointerCapture(event.pointerId);
    strokes.push(pointOf(event));
    draw();
  });
  field.addEventListener("pointermove", (event) => {
    if (event.pointerId !== drawing) return;
    for (const one of event.getCoalescedEvents?.() || [event]) add(one);
    draw();
  });
  for (const end of ["pointerup", "pointercancel"]) {
    field.addEventListener(end, (event) => {
      if (/** @type {PointerEvent} */ (event).pointerId !== drawing) return;
      drawing = null;
      keep();
    });
  }
  part.querySelector("[data-sign-clear]")?.addEventListener("click", clear);
  input.form?.addEventListener("shopac:restored", readBack);
  input.form?.addEventListener("reset", clear);
  part.removeAttribute("hidden");
  readBack();
})();
