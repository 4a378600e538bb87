/**
 * A sentence at a field is about what the field had: once that is changed the sentence goes, and the
 * field's name from the line over the record button. When none is left the line goes too; nothing is
 * said in its place, for nothing is recorded.
 *
 * A sentence loses its words at once and its place only when the finger has let go of what it taps
 * next: nothing moves from under it.
 */
"use strict";

(() => {
  const { showToMend } = window.shopac.words;
  let pressed = false;
  /** @type {Element | null} */
  let touched = null;

  /** Do `work` when the tap that is under way has done what it was meant to. @param {() => void} work */
  function afterTap(work) {
    const soon = () => setTimeout(work);
    if (!pressed) return soon();
    const options = { capture: true, once: true };
    const ended = new AbortController();
    for (const name of ["pointerup", "pointercancel"]) {
      const then = () => {
        ended.abort();
        soon();
      };
      addEventListener(name, then, { ...options, signal: ended.signal });
    }
  }

  /** @param {Event} event */
  function changed(event) {
    const control = /** @type {any} */ (event.target);
    const form = control?.form;
    if (!form || !control.name || control.type === "hidden") return;
    const { name } = control;
    const reason = name.endsWith("_why");
    // A value typed anew needs no reason. With a reason, what is odd about it is told all the same.
    const past = reason ? [name, "__all__"] : [name, `${name}_why`, "__all__"];
    for (const place of form.querySelectorAll("[data-errors-for]")) {
      if (past.includes(place.dataset.errorsFor) && place.textContent.trim()) place.dataset.mended = "";
    }
    control.removeAttribute("aria-invalid");
    control.closest("fieldset")?.removeAttribute("aria-invalid");
    strikeOff(form, reason ? [...past, name.slice(0, -"_why".length)] : past);
    if (event.type === "change") afterTap(() => takeAway(form));
  }

  /** @param {HTMLFormElement} form @param {string[]} mended */
  function strikeOff(form, mended) {
    const line = /** @type {HTMLElement | null} */ (form.querySelector("[data-to-mend]"));
    const names = line?.dataset.toMend?.split(" ").filter(Boolean) || [];
    const left = names.filter((name) => !mended.includes(name));
    if (left.length < names.length) showToMend(form, left);
  }

  /** @param {HTMLFormElement} form */
  function takeAway(form) {
    for (const place of /** @type {any} */ (form.querySelectorAll("[data-mended]"))) {
      place.textContent = "";
      place.removeAttribute("data-mended");
      if (place.dataset.errorsFor === "__all__") place.hidden = true;
    }
  }

  /**
   * Change parts of the page: not while a finger is on it, and what was touched last stays where it
   * is on the glass. Where nothing was, the browser holds what is in view.
   * @param {() => void} change
   */
  function inPlace(change) {
    afterTap(() => {
      const held = touched;
      const before = held?.getBoundingClientRect();
      change();
      const after = held?.getBoundingClientRect();
      const inView = before?.height && before.bottom > 0 && before.top < innerHeight;
      if (!inView || !after?.height) return;
      scrollBy({ top: after.top - before.top, behavior: "instant" });
      // At the page's top there is nothing to scroll: the place of what went above stays empty.
      const short = before.top - held.getBoundingClientRect().top;
      const main = document.querySelector("main");
      if (main && short > 1) main.style.marginTop = `${parseFloat(getComputedStyle(main).marginTop) + short}px`;
    });
  }

  const down = (/** @type {boolean} */ is) => () => {
    pressed = is;
  };
  addEventListener("pointerdown", down(true), true);
  addEventListener("pointerdown", (event) => (touched = /** @type {Element} */ (event.target)), true);
  for (const name of ["pointerup", "pointercancel"]) addEventListener(name, down(false), true);
  document.addEventListener("input", changed, true);
  document.addEventListener("change", changed, true);

  Object.assign(window.shopac, { afterTap, inPlace });
})();
