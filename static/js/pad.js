/**
 * The number pad of the bay: keys as large as a glove, under the number field in use; beside the form
 * where there is room. Under a field it goes when no number is in use. At a desk the keyboard does.
 */
"use strict";

(() => {
  const desk = matchMedia("(min-width: 1200px) and (pointer: fine)");
  const beside = matchMedia("(min-width: 960px)");
  const GAP = 12; // px that stay free at an edge of the screen, for the field's outline
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.step"));
  const side = /** @type {HTMLElement} */ (document.querySelector("[data-pad-side]"));
  const fields = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll("[data-quantity]")]);
  if (!fields.length) return; // a test without numbers
  /** @type {Record<string, any>} */
  const asked = Object.fromEntries(
    JSON.parse(document.getElementById("kind")?.textContent || "{}").fields.map(
      (/** @type {any} */ one) => [one.name, one],
    ),
  );
  /** The number in use, or in use last. @type {HTMLInputElement} */
  let field = fields[0];
  let open = false; // under its field; beside the form it is always there
  let edited = false; // by the pad: a browser tells of such a change to nobody

  const pad = document.createElement("div");
  pad.className = "pad";
  pad.setAttribute("role", "group");
  pad.setAttribute("aria-label", "Number pad");
  pad.addEventListener("pointerdown", (event) => event.preventDefault()); // the field stays in use

  /** @param {string} words @param {() => void} pressed @param {string} [looks] */
  function key(words, pressed, looks = "") {
    const button = document.createElement("button");
    button.type = "button";
    button.tabIndex = -1;
    button.className = `key ${looks}`.trim();
    button.textContent = words;
    button.addEventListener("click", () => {
      if (document.activeElement !== field) field.focus({ preventScroll: true });
      pressed();
    });
    pad.append(button);
    return button;
  }

  /** @param {(text: string) => string} change */
  function edit(change) {
    field.value = change(field.value);
    edited = true;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  for (const digit of "123456789") key(digit, () => edit((text) => text + digit));
  key(".", () => edit((text) => (/[.,]/.test(text) ? text : `${text}${/\d/.test(text) ? "" : "0"}.`)));
  key("0", () => edit((text) => `${text}0`));
  key("del", () => edit((text) => text.slice(0, -1)));
  const other = key("", changeUnit);
  const sign = key("−", () => edit((text) => (/^[-−]/.test(text) ? text.slice(1) : `−${text}`)));
  const next = key("", goOn, "next");

  /** Whether a value below zero can be read there, on any car. @param {any} asked */
  const canBeBelow = (asked) =>
    [asked, ...asked.spans].some((/** @type {any} */ one) => one.span.least < 0);

  /**
   * What is asked after the number in use: the next number, or a question before it that nobody has
   * answered; passing that by would leave it unseen.
   * @returns {HTMLInputElement | HTMLElement | undefined}
   */
  function following() {
    const asked = /** @type {HTMLElement[]} */ ([...form.querySelectorAll("[data-asked]")]);
    const here = /** @type {HTMLElement} */ (field.closest("[data-asked]"));
    const after = asked.slice(asked.indexOf(here) + 1).filter((one) => one.getClientRects().length);
    const found = after.find((one) => numberIn(one) || unanswered(one));
    return found && (numberIn(found) || found);
  }

  /** @param {HTMLElement} question */
  const numberIn = (question) =>
    fields.find((one) => question.contains(one) && !one.disabled && one.getClientRects().length);

  const isNumber = (/** @type {any} */ one) => fields.includes(one);

  /** @param {HTMLElement} question */
  const unanswered = (question) =>
    question.querySelector("[type=radio]:enabled") && !question.querySelector("[type=radio]:checked");

  function changeUnit() {
    const unit = unitOf(field);
    const names = [asked[field.name].unit, ...asked[field.name].others];
    unit.value = names[(names.indexOf(unit.value) + 1) % names.length];
    unit.dispatchEvent(new Event("change", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
    label();
  }

  /** @param {HTMLInputElement} input @returns {HTMLInputElement} */
  function unitOf(input) {
    return /** @type {any} */ (form.elements.namedItem(`${input.name}_unit`));
  }

  /** The unit beside every field, as it is chosen. */
  function label() {
    for (const one of fields) {
      const shown = one.parentElement?.querySelector(".unit");
      if (shown) shown.textContent = unitOf(one).value || asked[one.name].unit;
    }
    const { unit, others } = asked[field.name];
    const chosen = unitOf(field).value || unit;
    const names = [unit, ...others];
    other.textContent = names[(names.indexOf(chosen) + 1) % names.length];
    other.hidden = names.length < 2;
    sign.hidden = !canBeBelow(asked[field.name]);
    next.textContent = `${chosen}, ${isNumber(following()) ? "next" : "done"}`;
    next.classList.toggle("wide", other.hidden !== sign.hidden);
    next.classList.toggle("widest", other.hidden && sign.hidden);
  }

  /** The number is whole: on to the next one, or to the question that comes before it. */
  function goOn() {
    const left = field;
    const after = following();
    if (isNumber(after)) return after?.focus({ preventScroll: true });
    left.blur();
    close();
    const questions = [...form.querySelectorAll("[data-asked]:not([hidden])")];
    const here = left.closest("[data-asked]");
    const onward = after || questions[questions.indexOf(/** @type {Element} */ (here)) + 1];
    onward?.scrollIntoView({ block: "nearest" });
  }

  function place() {
    form.parentElement?.classList.toggle("has-pad", !desk.matches);
    side.hidden = desk.matches || !beside.matches;
    for (const one of fields) one.inputMode = desk.matches ? "decimal" : "none";
    if (desk.matches) pad.remove();
    else if (beside.matches) side.append(pad);
    else if (open) field.closest(".field")?.after(pad);
    else pad.remove();
    label();
  }

  function close() {
    open = false;
    place();
  }

  /** The whole pad on the screen, and its field before all: scrolls no farther than that takes. */
  function show() {
    const question = /** @type {Element} */ (field.closest(".field"));
    question.scrollIntoView({ block: "nearest" });
    if (question.nextElementSibling !== pad) return;
    const hidden = pad.getBoundingClientRect().bottom + GAP - innerHeight;
    const room = field.getBoundingClientRect().top - GAP;
    if (hidden > 0) scrollBy({ top: Math.min(hidden, Math.max(room, 0)), behavior: "instant" });
  }

  form.addEventListener("focusin", (event) => {
    const target = /** @type {HTMLInputElement} */ (event.target);
    if (!fields.includes(target) || (open && target === field)) return;
    field = target;
    open = true;
    place();
    if (!desk.matches) show();
  });
  form.addEventListener("focusout", () => {
    if (edited) {
      edited = false;
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
    afterLeaving();
  });
  // Were the pad taken away as its field is left, the answer below would move from under the finger
  // that taps it: it goes after the tap, and what was tapped stays in its place. Under the next number
  // it is shown again: what was told of the number before may have pushed it down.
  function afterLeaving() {
    const inUse = () => fields.includes(/** @type {any} */ (document.activeElement));
    window.shopac.afterTap(() => {
      if (!desk.matches && inUse()) show();
    });
    window.shopac.inPlace(() => {
      if (open && !inUse()) close();
    });
  }

  // Its own tap may have moved the page: the browser then puts the cursor where the finger is by now,
  // outside of every field, and what a keyboard types goes nowhere though the field is in use.
  document.addEventListener("click", () => {
    const inside = field.parentElement?.contains(getSelection()?.anchorNode || null);
    if (document.activeElement === field && !inside) field.setSelectionRange(field.value.length, field.value.length);
  });

  form.addEventListener("shopac:restored", label);
  form.addEventListener("shopac:read", label); // an answer may ask for one number more
  beside.addEventListener("change", place);
  desk.addEventListener("change", place);
  place();
})();
