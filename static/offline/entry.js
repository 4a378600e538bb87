/**
 * Recording: a tap is kept on this tablet, then sent, then the page goes on.
 *
 * One listener on the document, in the head of the page, catches the submit of form[data-entry]; a
 * tap before the page is ready is caught too. Never says more than has happened: writing, kept on
 * this tablet, on the shop server. What cannot be kept here is posted by the form itself.
 */
"use strict";

(() => {
  if (!window.shopac.able) return;
  const { outbox, sender, draft, server, store } = window.shopac;
  const { goes, clock, strong, link, button, say, showErrors, inWords, showBar, press } = window.shopac.words;
  const GO_ON_MS = 3000; // later than this after the tap a page that moves by itself is a surprise
  const PHOTOS_MAX = 12; // as the shop server takes them (PHOTOS_PER_ENTRY_MAX)
  const PHOTO_BYTES_MAX = 16 * 1024 * 1024; // the same

  /**
   * @typedef {import("./draft.js").Open} Open
   * @typedef {import("./outbox.js").Item} Item
   */

  /** @type {WeakSet<HTMLFormElement>} */
  const writing = new WeakSet();
  /** @type {WeakSet<HTMLFormElement>} */
  const posting = new WeakSet();
  /** @type {WeakMap<HTMLFormElement, number>} */
  const tappedAt = new WeakMap();
  let leaving = false;

  document.addEventListener("submit", caught, true);

  /** @param {SubmitEvent} event */
  function caught(event) {
    const form = /** @type {HTMLFormElement} */ (event.target);
    if (!form.matches("form[data-entry]") || posting.delete(form)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (writing.has(form)) return; // the second tap of a double tap
    writing.add(form);
    const button = /** @type {HTMLButtonElement | null} */ (event.submitter);
    const released = press(button);
    tappedAt.set(form, performance.now());
    record(form, button)
      .catch(async (error) => {
        draft.unsettled(await draft.open(form));
        notKept(form, button, error);
      })
      .finally(() => {
        writing.delete(form);
        released();
      });
  }

  /** @param {HTMLFormElement} form @param {HTMLElement | null} pressed */
  async function record(form, pressed) {
    const state = await draft.open(form);
    if (state.elsewhere) return askWhere(state);
    const missing = reasonMissing(form);
    if (missing) return showErrors(form, { corrected_why: [missing] });
    if (await mustPostPlainly()) return postPlainly(form, pressed);
    // A switch that acts at once: turning it again is one more, never another for the last.
    if (state.entry && form.hasAttribute("data-at-once")) await draft.renew(state, null);
    let answer = await keepAsItIs(state, pressed);
    if (answer?.state === "taken") {
      const { entry } = answer;
      const delivered = entry.state === "delivered";
      if (delivered) return askWhich(state, entry, pressed);
      // The server may have it already: what was changed since goes there as its correction.
      await draft.renew(state, delivered ? null : entry);
      answer = await keepAsItIs(state, pressed);
    }
    if (!answer) return;
    state.entry = answer.entry;
    form.querySelector("[data-back]")?.remove();
    showErrors(form, {});
    show(state);
    form.querySelector("[data-said]")?.scrollIntoView({ block: "nearest", behavior: "instant" });
    if (answer.state === "kept") sender.sendNow();
  }

  /**
   * What to say of a correction that tells no reason: asked before it is kept, because the shop server
   * would send it back, and all that was told of the car since would wait behind it.
   * @param {HTMLFormElement} form
   */
  function reasonMissing(form) {
    const asked = /** @type {HTMLElement | null} */ (form.querySelector('[name="why_asked"][data-say]'));
    const why = /** @type {HTMLInputElement | null} */ (form.querySelector('[name="corrected_why"]'));
    if (!asked || !why || why.value.trim()) return "";
    return "unlessAdded" in asked.dataset && onlyAdds(form) ? "" : asked.dataset.say || "";
  }

  /** Whether all that the form began with stands as it was. @param {HTMLFormElement} form */
  function onlyAdds(form) {
    return [.../** @type {any} */ (form.elements)].every((one) =>
      /^(radio|checkbox)$/.test(one.type) ? one.checked || !one.defaultChecked : !one.defaultValue || one.value === one.defaultValue,
    );
  }

  /** @param {Open} state @param {HTMLElement | null} pressed */
  async function keepAsItIs(state, pressed) {
    const { said, bytes } = await gather(state, pressed);
    if (said.photos.length > PHOTOS_MAX) {
      tooMany(state, said.photos);
      return null;
    }
    const missing = (await store.get("about", "silent")) && notAnswered(state.form, said);
    if (missing) {
      showErrors(state.form, missing); // as the shop server would say
      draft.unsettled(state);
      return null;
    }
    const large = said.photos.find((one) => one.size > PHOTO_BYTES_MAX);
    if (large) {
      tooLarge(state, large);
      return null;
    }
    draft.settled(state);
    return outbox.keep(said, bytes);
  }

  /** What would come back from the shop server, and hold up what is recorded behind it; null: nothing.
   * @param {HTMLFormElement} form @param {any} said */
  function notAnswered(form, { fields, photos, words }) {
    /** @type {Record<string, string[]>} */
    const errors = {};
    for (const place of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll("[data-needed]"))) {
      const input = /** @type {any} */ (place.querySelector("input, textarea, select"));
      const asked = input && !input.disabled && !place.closest("[hidden]");
      if (asked && !fields[input.name]?.some((/** @type {string} */ one) => one.trim())) errors[input.name] = [place.dataset.needed || ""];
    }
    const asks = [...form.elements].some((/** @type {any} */ one) => one.name && !["hidden", "submit"].includes(one.type));
    if (asks && !words.length && !photos.length && !Object.keys(errors).length) errors.__all__ = ["Nothing is told yet."];
    return Object.keys(errors).length ? errors : null;
  }

  /** Signed in, but in a browser the shop server has given no pass: its own sign-in must carry it. */
  async function mustPostPlainly() {
    if (await server.who()) return false;
    const there = await Promise.race([server.first, null]);
    return Boolean(there?.signedIn && !there.hasPass);
  }

  /**
   * The entry as the form has it now.
   * @param {Open} state
   * @param {HTMLElement | null} pressed
   */
  async function gather(state, pressed) {
    const { form, key, corrects, lane, place } = state;
    const job = form.dataset.lane === "own" ? lane || key : draft.jobInAddress();
    const { photos, bytes } = await draft.photosIn(form);
    const unchosen = !photos.length && state.entry?.state === "delivered";
    const heading = form.dataset.title || document.querySelector("h1")?.textContent || "";
    const fields = draft.fieldsIn(form, pressed);
    const said = {
      key,
      kind: form.dataset.entry || "",
      version: Number(form.dataset.version || 1),
      job,
      lane: lane || job || form.dataset.entry || "",
      fields,
      words: inWords(form, fields),
      photos: unchosen ? state.entry.photos : photos,
      corrects,
      place,
      address: location.pathname + location.search,
      title: heading.trim().replace(/\s+/g, " "),
    };
    return { said, bytes };
  }

  // What has happened, in words.

  /** @param {Open} state */
  function show(state) {
    const { entry, form } = state;
    const waits = entry.state === "kept" || entry.state === "sign_in";
    showBar(form, waits ? (state.dirty ? "changed" : "same") : "");
    const kept = strong("Kept on this tablet");
    const typedAt = clock(entry.typed_at);
    if (entry.state === "delivered") {
      if (mayGoOn(state)) location.assign(entry.url);
      const sent = strong("On the shop server");
      say(form, "sent", sent, `, ${clock(entry.at)}. `, link(entry.url, "Go on"));
    } else if (entry.state === "returned") {
      const errors = notMended(form, entry);
      if (Object.keys(errors).length) showErrors(form, errors);
    } else if (entry.state === "refused") {
      const words = ` ${entry.why} Kept as you typed it. `;
      say(form, "needs", strong("Refused:"), words, link("/unsent/", "See what is kept"));
    } else if (entry.state === "sign_in") {
      const revoked = entry.said === "revoked";
      const words = `, ${typedAt}. ${revoked ? "" : "It needs a sign-in to be sent. "}${entry.why} `;
      say(form, "needs", kept, words, revoked ? link("/unsent/", "See what is kept") : link(signIn(), "Sign in"));
    } else {
      const onward = entry.job ? link(`/job/?job=${entry.job}`, "Go on with this car", "bar") : "";
      say(form, "kept", kept, `, ${typedAt}. ${goes(entry.who)} `, onward);
    }
  }

  /** Soon after the tap, nothing typed since, nowhere else bound. @param {Open} state */
  function mayGoOn(state) {
    const tapped = tappedAt.get(state.form) ?? -Infinity;
    const soon = performance.now() - tapped <= GO_ON_MS && state.touched <= tapped;
    return soon && !leaving && /^\/(?!\/)/.test(state.entry.url);
  }

  function signIn() {
    const here = encodeURIComponent(location.pathname + location.search);
    const address = document.getElementById("kept")?.dataset.signIn;
    return address ? `${address}?next=${here}` : "";
  }

  outbox.on((news) => {
    const state = news.about === "outcome" && draft.find(news.key);
    if (!state) return;
    state.entry = news.entry;
    show(state);
  });

  draft.onOpened((state, found) => {
    if (state.elsewhere) return askWhere(state);
    if (state.entry) show(state);
    sayLeft(state);
    if (found && state.left && (!state.entry || state.entry.state === "returned")) sayBack(state);
  });

  /**
   * What a form that came back is still to be mended in: not what was changed since.
   * @param {HTMLFormElement} form @param {Item} entry
   */
  function notMended(form, { errors, fields }) {
    const now = window.shopac.cleanFields(draft.fieldsIn(form));
    const differs = (/** @type {string} */ name) => {
      const button = form.querySelector(`button[name="${CSS.escape(name)}"]`); // its answer is no field's
      return !button && JSON.stringify(now[name]) !== JSON.stringify(fields[name]);
    };
    const changed = (/** @type {string} */ name) =>
      name === "__all__"
        ? Object.keys({ ...now, ...fields }).some(differs)
        : [name, `${name}_why`, name.replace(/_why$/, "")].some(differs);
    return Object.fromEntries(Object.entries(errors).filter(([name]) => !changed(name)));
  }

  // What a person has to choose.

  /**
   * Delivered, and changed since.
   * @param {Open} state
   * @param {any} entry
   * @param {HTMLElement | null} pressed
   */
  function askWhich(state, entry, pressed) {
    draft.unsettled(state);
    const again = async (/** @type {any} */ corrected) => {
      await draft.renew(state, corrected);
      state.form.requestSubmit(pressed);
    };
    const words = `, ${clock(entry.at)}, as it was typed then. Is this a correction, or one more? `;
    const correct = button("Correct it", () => again(entry));
    const more = button("One more", () => again(null));
    say(state.form, "needs", strong("On the shop server"), words, correct, more);
  }

  /** Another tab has the same entry. @param {Open} state */
  function askWhere(state) {
    const choose = async (/** @type {Promise<void>} */ chosen) => {
      await chosen;
      say(state.form, "");
    };
    const here = button("Use it here", () => choose(draft.take(state, state.key, true)));
    const copy = button("Make a copy", () => choose(draft.renew(state, null)));
    say(state.form, "needs", strong("Open in another tab too."), " ", here, copy);
  }

  /**
   * Above all questions: what stands there was typed before. What went back to its form has a place
   * among the unsent entries, and is thrown away there, for a reason.
   * @param {Open} state
   */
  function sayBack(state) {
    const { form, left, entry } = state;
    const said = document.createElement("div");
    said.className = "said kept";
    said.dataset.back = "";
    said.setAttribute("role", "status");
    const anew = button("Begin anew", async () => {
      form.reset();
      await draft.forget(state);
      said.remove();
    });
    said.append(`What you typed here before, ${clock(left)}, is back. `, entry ? "" : anew);
    form.prepend(said);
  }

  /** Above all questions: somebody else typed here and did not record it. @param {Open} state */
  function sayLeft(state) {
    state.form.querySelector("[data-left]")?.remove();
    if (!state.others.length) return;
    const said = document.createElement("div");
    said.className = "said kept";
    said.dataset.left = "";
    said.setAttribute("role", "status");
    for (const { by, at, key } of state.others) {
      const words = document.createElement("p");
      words.textContent = `${by.name} left something typed here, ${clock(at)}, not recorded. It stays on this tablet for ${by.name}.`;
      said.append(words, button("Go on with it here", () => draft.goOnWith(state, key)));
    }
    state.form.prepend(said);
  }

  /** @param {Open} state @param {{field: string}[]} photos */
  function tooMany(state, photos) {
    const sentence = `${photos.length} photos: one entry takes ${PHOTOS_MAX}. Take the rest with another.`;
    showErrors(state.form, { [photos[0].field]: [sentence] });
  }

  /** @param {Open} state @param {{field: string, name: string}} photo */
  function tooLarge(state, photo) {
    const sentence = `“${photo.name}” is over 16 MB, too large for the shop server. Take it again, smaller.`;
    showErrors(state.form, { [photo.field]: [sentence] });
  }

  /**
   * @param {HTMLFormElement} form
   * @param {HTMLElement | null} pressed
   * @param {any} error
   */
  function notKept(form, pressed, error) {
    if (error?.name === "NotReadableError" || error?.name === "NotFoundError") {
      const words = " a photo cannot be read any more. Choose it again; all else is as you typed it.";
      say(form, "needs", strong("Not kept:"), words);
      return;
    }
    // A disk that is full says so in more than one way. Posting by itself could end on a page of the
    // browser's own, with all that was typed gone.
    const full = error?.name === "QuotaExceededError";
    const why = ` ${full ? "no room on" : "cannot write on"} this tablet. What you typed stays in this form. `;
    const plainly = button("Send it without keeping it", () => postPlainly(form, pressed));
    say(form, "needs", strong("Not kept:"), why, plainly);
  }

  /** As a page without this script would. */
  function postPlainly(/** @type {HTMLFormElement} */ form, /** @type {HTMLElement | null} */ by) {
    posting.add(form);
    form.requestSubmit(by);
  }

  /** Typed since it was kept: the button records that. @param {Event} event */
  async function changed(event) {
    const form = /** @type {any} */ (event.target)?.form;
    if (!form?.matches?.("form[data-entry]")) return;
    const { entry, dirty } = await draft.open(form);
    if (!dirty) return;
    if (entry?.state === "kept" || entry?.state === "sign_in") showBar(form, "changed");
  }

  document.addEventListener("input", changed);
  document.addEventListener("change", changed);
  document.addEventListener("click", (event) => {
    const onLink = /** @type {Element} */ (event.target).closest?.("a[href]");
    if (onLink && !onLink.getAttribute("href")?.startsWith("#")) leaving = true;
  });
  addEventListener("pageshow", () => {
    leaving = false;
  });
  document.addEventListener("DOMContentLoaded", () => {
    for (const form of document.querySelectorAll("form[data-entry]")) {
      draft.open(/** @type {HTMLFormElement} */ (form));
    }
  });
})();
