/**
 * What a change does not need is not asked: the part of a gap, the serial number of a repaired wire,
 * the gap of a drier, a branch that the car does not have.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const WITHOUT_PART = ["gap_set", "fuse", "nothing"];
  const TOGETHER = ["fitted", "flushed"];
  const BRANCHED = ["expansion_device", "evaporator", "hose"];
  const OPENS = ["compressor", "condenser", "drier", "shaft_seal", "control_valve", "seal", "pressure_switch", ...BRANCHED];
  const { drive, clutch, branches } = form.dataset;
  /** What is known of the car; empty: not noted, or not told yet. */
  let car = { drive, clutch, branches: (branches || "").split(" ").filter(Boolean) };

  /** @param {Element} part @param {boolean} asked */
  function ask(part, asked) {
    part.toggleAttribute("hidden", !asked);
    for (const input of part.querySelectorAll("input")) input.disabled = !asked;
  }

  /** @param {string} which @param {boolean} asked */
  function show(which, asked) {
    for (const part of form.querySelectorAll(`[data-if-${which}]`)) ask(part, asked);
  }

  /** A branch that the car has, or the front, which every car has. @param {string} code */
  const has = (code) =>
    car.branches.length ? car.branches.includes(code.replace(/^.*_/, "")) : !/_(rear|battery)$/.test(code);

  /** @param {string} part */
  function showTogether(part) {
    const ticked = new Set();
    for (const box of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll('[name="also"]'))) {
      const other = /_(rear|battery)$/.test(box.value);
      const fits = other ? has(box.value) : box.value !== part || BRANCHED.includes(part);
      box.closest("label")?.toggleAttribute("hidden", !fits && !box.checked);
      if (box.checked && !box.disabled) ticked.add(box.value);
    }
    return ticked;
  }

  /** A point of the gap is asked once the one before it is typed. @param {boolean} asked */
  function showGaps(asked) {
    let before = true;
    for (const [index, part] of form.querySelectorAll("[data-gap]").entries()) {
      const typed = /** @type {HTMLInputElement} */ (part.querySelector('input:not([type="hidden"])')).value;
      ask(part, asked && (before || Boolean(typed)));
      before = Boolean(typed) || index < 2;
    }
  }

  function showAsked() {
    const told = new FormData(form);
    const what = String(told.get("what") || "");
    const radio = /** @type {HTMLInputElement | null} */ (form.querySelector('[name="part"]:checked'));
    const part = radio?.value || "";
    const fitted = what === "fitted";
    const withClutch = part === "clutch" || part === "coil" || part === "compressor";
    show("part", Boolean(what) && !WITHOUT_PART.includes(what));
    show("fitted", fitted);
    show("flushed", what === "flushed");
    show("branch", TOGETHER.includes(what) && BRANCHED.includes(part) && car.branches.length > 1);
    show("together", TOGETHER.includes(what) && OPENS.includes(part));
    const clutchless = ["belt_clutchless", "electric_hv", "electric_48"].includes(car.drive || "") || car.clutch === "none";
    const gaps = fitted && withClutch && !clutchless;
    show("clutch", gaps);
    showGaps(gaps);
    const ticked = showTogether(part);
    for (const row of form.querySelectorAll("[data-number]")) {
      ask(row, fitted && ticked.has(row.getAttribute("data-number") || ""));
    }
    const corrects = Boolean(told.get("corrects")); // also of a page kept on a tablet
    show("corrects", corrects);
    show("new", !corrects);
  }

  form.addEventListener("change", showAsked);
  form.addEventListener("input", showAsked);
  form.addEventListener("shopac:restored", showAsked);
  document.addEventListener("shopac:job", (event) => {
    const { system } = /** @type {CustomEvent} */ (event).detail;
    if (!system) return;
    car = { drive: system.drive, clutch: system.clutch, branches: system.branches || [] };
    showAsked();
  });
  showAsked();
})();
