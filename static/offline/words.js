/**
 * What a form says: how far its entry has come, and what is to be mended. The same words and places
 * as templates/crispy has for a form that was posted without script.
 */
"use strict";

(() => {
  /**
   * A time as people say it: 14:29, and the day when it is not today.
   * @param {string | number} when
   */
  function clock(when) {
    const time = new Date(when);
    const hours = String(time.getHours()).padStart(2, "0");
    const minutes = String(time.getMinutes()).padStart(2, "0");
    if (time.toDateString() === new Date().toDateString()) return `${hours}:${minutes}`;
    const month = time.toLocaleString("en-US", { month: "short" });
    return `${time.getDate()} ${month} ${hours}:${minutes}`;
  }

  /** @param {string} text */
  function strong(text) {
    const element = document.createElement("strong");
    element.textContent = text;
    return element;
  }

  /** @param {string} address @param {string} text @returns {Node | string} */
  function link(address, text) {
    if (!address) return "";
    const element = document.createElement("a");
    element.href = address;
    element.className = "alone";
    element.textContent = text;
    return element;
  }

  /** @param {string} text @param {() => void} pressed */
  function button(text, pressed) {
    const element = document.createElement("button");
    element.type = "button";
    element.className = "button";
    element.textContent = text;
    element.addEventListener("click", pressed);
    return element;
  }

  /** The line over the record button. @param {HTMLFormElement} form @returns {HTMLElement} */
  function line(form) {
    const there = form.querySelector("[data-said]");
    if (there) return /** @type {HTMLElement} */ (there);
    const element = document.createElement("div");
    element.dataset.said = "";
    element.setAttribute("role", "status");
    const before = form.querySelector("[data-not-recorded], .bar, [type=submit]");
    before?.before(element);
    return element;
  }

  /**
   * @param {HTMLFormElement} form
   * @param {"kept" | "sent" | "needs" | ""} edge dotted, solid, double
   * @param {...(Node | string)} words
   */
  function say(form, edge, ...words) {
    const element = line(form);
    element.className = `said ${edge}`;
    element.replaceChildren(...words);
  }

  /**
   * Put each sentence at its field, and all fields' names over the record button.
   * @param {HTMLFormElement} form
   * @param {Record<string, string[]>} errors
   */
  function showErrors(form, errors) {
    say(form, "");
    for (const place of /** @type {any} */ (form.querySelectorAll("[data-errors-for]"))) {
      const name = place.dataset.errorsFor;
      place.textContent = (errors[name] || []).join(" ");
      if (name === "__all__") place.hidden = !errors[name];
    }
    for (const control of /** @type {any} */ (form.elements)) {
      if (control.name && errors[control.name]) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
    const names = Object.keys(errors).filter((name) => name !== "__all__");
    const asked = [...new Set(names.map((name) => questionOf(form, name)))];
    const alert = form.querySelector("[data-not-recorded]") || line(form);
    if (!Object.keys(errors).length) return alert.replaceChildren();
    const all = errors.__all__ ? `${errors.__all__.join(" ")} ` : "";
    const told = asked.length ? `mend ${asked.join(", ")}. ` : "";
    const whole = link(`#${firstField(form, names)}`, "");
    const words = [strong("Nothing is recorded yet:"), ` ${told}${all}All you typed is still here.`];
    if (alert.matches("[data-said]")) alert.className = "said needs";
    if (!names.length) return alert.replaceChildren(...words);
    /** @type {Element} */ (whole).replaceChildren(...words);
    alert.replaceChildren(whole);
  }

  /** @param {HTMLFormElement} form @param {string} name @returns {any} */
  function control(form, name) {
    return form.querySelector(`[name="${CSS.escape(name)}"]:not([type=hidden])`);
  }

  /** The question's own words inside a sentence; VIN stays VIN. */
  function questionOf(/** @type {HTMLFormElement} */ form, /** @type {string} */ name) {
    const field = control(form, name)?.closest(".field, fieldset");
    const asking = field?.querySelector(".question, legend, label");
    const asked = asking?.dataset.short || asking?.textContent || name;
    const words = asked.trim().replace(/\?+$/, "");
    const spelled = words.charAt(1) !== words.charAt(1).toLowerCase();
    return spelled ? words : words.charAt(0).toLowerCase() + words.slice(1);
  }

  /** @param {HTMLFormElement} form @param {string[]} names */
  function firstField(form, names) {
    const controls = names.map((name) => control(form, name)).filter(Boolean);
    const [first] = controls.sort((one, other) =>
      one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1,
    );
    return first?.id || "";
  }

  /**
   * A pressed button shows it at once. @param {HTMLElement | null} pressed
   * @returns {() => void} what releases it
   */
  function press(pressed) {
    const second = pressed?.querySelector(".second");
    const before = second?.textContent || "";
    pressed?.setAttribute("aria-busy", "true");
    if (second) second.textContent = "writing…";
    return () => {
      pressed?.removeAttribute("aria-busy");
      if (second) second.textContent = before;
    };
  }

  // The line of what was not recorded is one link to the first such field. Its address must not
  // change the page's: the history's entry holds the form's key.
  document.addEventListener("click", (event) => {
    const target = /** @type {Element} */ (event.target);
    const whole = target.closest?.('[data-not-recorded] a[href^="#"], .said a[href^="#"]');
    if (!whole) return;
    event.preventDefault();
    const field = document.getElementById((whole.getAttribute("href") || "").slice(1));
    (field?.closest(".field") || field)?.scrollIntoView({ block: "center" });
    field?.focus({ preventScroll: true });
  });

  window.shopac.words = { clock, strong, link, button, say, showErrors, press };
})();
