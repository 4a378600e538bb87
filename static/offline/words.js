/**
 * What a form says: how far its entry has come, and what is to be mended. The same words and places
 * as templates/crispy has for a form that was posted without script.
 */
"use strict";

(() => {
  /** Of an entry that nobody's sign-in stands behind. */
  const NAMELESS = "Goes out when the server answers and somebody has signed in: it has no name yet.";
  const BY_ITSELF = "Goes out by itself when the server answers.";

  /**
   * What a kept entry waits for. @param {import("./server.js").Who | null} who
   * @returns {string}
   */
  function goes(who) {
    if (who?.claimed) return `Name not confirmed: goes out once ${who.person.name} has given the PIN here.`;
    return who ? BY_ITSELF : NAMELESS;
  }

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

  /**
   * The word for a time as the shop server gave it, the other one once the time is past.
   * @param {{at?: string, promised_at?: string, word: string, past_word: string}} told
   * @param {number} [now] by the shop server's clock
   */
  function timeWord(told, now = Date.now()) {
    return Date.parse(told.at || told.promised_at || "") <= now ? told.past_word : told.word;
  }

  /** @param {string} name @param {string} [text] @param {string} [looks] its classes */
  function element(name, text = "", looks = "") {
    const made = document.createElement(name);
    made.textContent = text;
    if (looks) made.className = looks;
    return made;
  }

  /** @param {string} text */
  const strong = (text) => element("strong", text);

  /** @param {string} address @param {string} text @param {string} [looks] @returns {Node | string} */
  function link(address, text, looks = "alone") {
    if (!address) return "";
    const made = /** @type {HTMLAnchorElement} */ (element("a", text, looks));
    made.href = address;
    return made;
  }

  /** @param {string} text @param {() => void} pressed */
  function button(text, pressed) {
    const made = /** @type {HTMLButtonElement} */ (element("button", text, "button"));
    made.type = "button";
    made.addEventListener("click", pressed);
    return made;
  }

  /** The line over the record button. @param {HTMLFormElement} form @returns {HTMLElement} */
  function line(form) {
    const there = form.querySelector("[data-said]");
    if (there) return /** @type {HTMLElement} */ (there);
    const made = element("div");
    made.dataset.said = "";
    made.setAttribute("role", "status");
    const before = form.querySelector("[data-not-recorded], .bar, [type=submit]");
    before?.before(made);
    return made;
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
      place.removeAttribute("data-mended");
      if (name === "__all__") place.hidden = !errors[name];
      if (errors[name]) place.closest("details:not([open])")?.setAttribute("open", "");
    }
    for (const control of /** @type {any} */ (form.elements)) {
      if (control.name && errors[control.name]) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
    showToMend(form, Object.keys(errors), (errors.__all__ || []).join(" "));
  }

  /**
   * The line over the record button: what is to be mended, by the fields' names; none, no line.
   * mended.js strikes them off one by one as they are changed.
   * @param {HTMLFormElement} form
   * @param {string[]} names `__all__` for what is about the form as a whole
   * @param {string} [whole] what that says
   */
  function showToMend(form, names, whole = "") {
    const alert = /** @type {HTMLElement} */ (form.querySelector("[data-not-recorded]") || line(form));
    alert.dataset.toMend = names.join(" ");
    if (!names.length) return alert.replaceChildren();
    const fields = names.filter((name) => name !== "__all__");
    const asked = [...new Set(fields.map((name) => questionOf(form, name)))];
    const told = asked.length ? `mend ${asked.join(", ")}. ` : "";
    const secret = form.querySelector('[type="password"]');
    const here = secret ? "Type PINs and passwords again; all else you typed is still here." : "All you typed is still here.";
    const words = [strong("Nothing is recorded yet:"), ` ${told}${whole ? `${whole} ` : ""}${here}`];
    if (alert.matches("[data-said]")) alert.className = "said needs";
    if (!fields.length) return alert.replaceChildren(...words);
    const first = /** @type {Element} */ (link(`#${firstField(form, fields)}`, ""));
    first.replaceChildren(...words);
    alert.replaceChildren(first);
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

  /**
   * What was told, in the form's own words: each question with its answers. Hidden fields are
   * nobody's answers, but for the unit of a number.
   * @param {HTMLFormElement} form
   * @param {Record<string, string[]>} fields
   * @returns {{name: string, question: string, said: string}[]}
   */
  function inWords(form, fields) {
    return Object.entries(fields).flatMap(([name, values]) => {
      const told = values.filter((value) => value.trim());
      const asking = control(form, name);
      if (!told.length || !asking || asking.type === "password") return [];
      const beside = asking.closest(".typed")?.querySelector(".unit")?.textContent; // of a field with one unit
      const unit = fields[`${name}_unit`]?.[0] || beside || "";
      const said = told.map((value) => answerWords(form, name, value)).join(", ");
      // A unit that was typed with the number stands there already.
      const whole = unit && /^[-+−–\d.,\s]+$/.test(said) ? `${said}\u00a0${unit}` : said;
      return [{ name, question: askedWords(asking), said: whole }];
    });
  }

  /** @param {any} asking a field's control */
  function askedWords(asking) {
    const whole = asking.closest(".why")?.querySelector("label") || asking.closest("fieldset")?.querySelector("legend");
    const own = whole || asking.closest(".field")?.querySelector(".question, label") || asking.labels?.[0];
    return plain(own?.textContent || asking.name.replaceAll("_", " "));
  }

  /** The words beside a tapped answer, on a pressed button, of a chosen line; else as typed. */
  function answerWords(/** @type {HTMLFormElement} */ form, /** @type {string} */ name, /** @type {string} */ value) {
    for (const one of /** @type {any} */ (form.elements)) {
      if (one.name !== name) continue;
      const tapped = ["radio", "checkbox"].includes(one.type) && one.value === value;
      if (tapped) return plain(one.closest("label")?.textContent || one.labels?.[0]?.textContent || value);
      if (one.type === "submit" && one.value === value) return plain(one.textContent || value);
      for (const option of one.options || []) if (option.value === value) return plain(option.textContent);
    }
    return value;
  }

  /** @param {string} text */
  function plain(text) {
    return text.trim().replace(/[^\S\u00a0]+/g, " ");
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
   * The record button of a form whose entry is kept: quiet while nothing was changed since, and
   * then for the change.
   * @param {HTMLFormElement} form
   * @param {"" | "same" | "changed"} how "": as the page has it
   */
  function showBar(form, how) {
    const bar = /** @type {HTMLElement | null} */ (form.querySelector("button.bar"));
    const words = bar?.firstChild;
    if (!bar || words?.nodeType !== Node.TEXT_NODE) return;
    bar.dataset.words ||= words.textContent || "";
    words.textContent = { "": bar.dataset.words, same: "Nothing changed since ", changed: "Record the change " }[how];
    bar.classList.toggle("quiet", how === "same");
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

  window.shopac.element = element;
  window.shopac.words = {
    goes,
    clock,
    timeWord,
    strong,
    link,
    button,
    say,
    showErrors,
    showToMend,
    inWords,
    showBar,
    press,
  };
})();
