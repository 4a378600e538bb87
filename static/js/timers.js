/**
 * Timers count down in the words of the page, by the shop server's clock. A timer is a time that an
 * entry told, not something that runs here: after sleep, reload or on another tablet it is the same.
 *
 * [data-timer="of"]      "Vacuum, 22 of 45 minutes", then "Vacuum: " and data-over
 * [data-timer="left"]    "until 15:20, 23 minutes left", then data-over: "30 minutes are up"
 * [data-timer-word]      "until", then "over since"
 * Each has data-until, the first data-began too. Tells other scripts by the event shopac:timer-over.
 */
"use strict";

(() => {
  const SECOND = 1000;
  const MINUTE = 60 * SECOND;
  const CLOCK_MS = 30 * SECOND;
  const { shopac } = window;
  let offset = 0; // server minus this tablet
  /** Timers seen running, by what they are and when they end. @type {Set<string>} */
  const running = new Set();
  /** @type {AudioContext | null} */
  let sound = null;
  let allowed = false;
  const plainTitle = () => document.title.replace(/^Over: /, "");

  async function readClock() {
    if (!shopac?.able) return;
    offset = (await shopac.store.get("about", "clock_offset").catch(() => 0)) || 0;
  }

  const now = () => Date.now() + offset;

  /** The time of day of a moment of the shop server's. @param {number} moment */
  const clock = (moment) => shopac.words.clock(moment);

  /** @param {number} left in milliseconds */
  function leftWords(left) {
    if (left < MINUTE) return "less than a minute left";
    const minutes = Math.ceil(left / MINUTE);
    if (minutes < 120) return minutes === 1 ? "1 minute left" : `${minutes} minutes left`;
    return `${Math.floor(minutes / 60)} hours ${minutes % 60} minutes left`;
  }

  /** @param {HTMLElement} one */
  function words(one) {
    const until = Date.parse(one.dataset.until || "");
    const left = until - now();
    if (one.hasAttribute("data-timer-word")) return left > 0 ? "until" : "over since";
    const { label } = one.dataset;
    if (one.dataset.timer === "left") {
      if (!shopac?.words) return "";
      return left > 0 ? `until ${clock(until)}, ${leftWords(left)}` : one.dataset.over || `over since ${clock(until)}`;
    }
    const began = Date.parse(one.dataset.began || "");
    if (left <= 0) return `${label}: ${one.dataset.over || "its minutes are up"}`;
    const gone = Math.max(0, Math.floor((now() - began) / MINUTE));
    return `${label}, ${gone} of ${Math.round((until - began) / MINUTE)} minutes`;
  }

  function tick() {
    for (const found of document.querySelectorAll("[data-timer], [data-timer-word]")) {
      const one = /** @type {HTMLElement} */ (found);
      const said = words(one);
      if (said && one.textContent !== said) one.textContent = said;
      if (one.dataset.timer) watch(one);
    }
  }

  /** Say that it is over to whoever saw it run. @param {HTMLElement} one */
  function watch(one) {
    const which = `${one.dataset.label} ${one.dataset.until}`;
    if (Date.parse(one.dataset.until || "") > now()) running.add(which);
    else if (running.delete(which)) over(one.dataset.label || "");
  }

  /** @param {string} label */
  function over(label) {
    const line = document.querySelector("[data-timer-said]");
    if (line) line.textContent = `${label}: its minutes are up.`;
    document.title = `Over: ${plainTitle()}`;
    if (allowed) {
      beep();
      navigator.vibrate?.([400, 200, 400]);
    }
    document.dispatchEvent(new CustomEvent("shopac:timer-over"));
  }

  /** Three short tones. */
  function beep() {
    if (!sound) return;
    for (const at of [0, 0.5, 1]) {
      const tone = sound.createOscillator();
      const loud = sound.createGain();
      loud.gain.value = 0.3;
      tone.frequency.value = 880;
      tone.connect(loud).connect(sound.destination);
      tone.start(sound.currentTime + at);
      tone.stop(sound.currentTime + at + 0.25);
    }
  }

  /** A browser makes no sound before a tap on the page asked for it. @param {HTMLElement} button */
  function allow(button) {
    allowed = true;
    const can = "AudioContext" in window;
    if (can) sound ||= new AudioContext();
    sound?.resume();
    beep();
    const vibrates = "vibrate" in navigator;
    const yes = "Sound is on while this page is open";
    button.textContent = can || vibrates ? yes : "This browser can make no sound: look at the words";
    button.toggleAttribute("disabled", true);
  }

  function start() {
    tick();
    for (const found of document.querySelectorAll("[data-sound]")) {
      const button = /** @type {HTMLElement} */ (found);
      button.addEventListener("click", () => allow(button));
    }
    showSound();
  }

  /** Only where something runs. */
  function showSound() {
    const runs = [...document.querySelectorAll("[data-timer]")].some(
      (one) => Date.parse(/** @type {HTMLElement} */ (one).dataset.until || "") > now(),
    );
    for (const button of document.querySelectorAll("[data-sound]:not([disabled])")) {
      button.toggleAttribute("hidden", !runs);
    }
  }

  const again = () => {
    tick();
    showSound();
  };

  readClock().then(start);
  setInterval(again, SECOND);
  setInterval(readClock, CLOCK_MS);
  document.addEventListener("visibilitychange", () => readClock().then(again));
  document.addEventListener("shopac:timers", again); // others were drawn
  shopac?.server?.on(() => readClock().then(again));
})();
