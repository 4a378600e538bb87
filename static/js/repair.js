/** What a change does not need is not asked: the part of a gap, the serial number of a repaired wire. */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const WITHOUT_PART = ["gap_set", "fuse", "nothing"];

  /** @param {string} which @param {boolean} asked */
  function show(which, asked) {
    for (const part of form.querySelectorAll(`[data-if-${which}]`)) {
      part.toggleAttribute("hidden", !asked);
      for (const input of part.querySelectorAll("input")) input.disabled = !asked;
    }
  }

  function showAsked() {
    const what = new FormData(form).get("what");
    show("part", Boolean(what) && !WITHOUT_PART.includes(String(what)));
    show("fitted", what === "fitted");
    const corrects = Boolean(new FormData(form).get("corrects")); // also of a page kept on a tablet
    show("corrects", corrects);
    show("new", !corrects);
  }

  form.addEventListener("change", showAsked);
  form.addEventListener("shopac:restored", showAsked);
  showAsked();
})();
