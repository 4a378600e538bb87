/**
 * Where the car is and what it waits for, on a page kept without a car: from what this tablet was
 * told, and from what was recorded here since. What was ended here is taken away at once.
 */
"use strict";

(() => {
  const { element } = window.shopac;
  const { clock, timeWord } = window.shopac.words;
  /** @type {any} */
  let told = null;

  /** @param {any} wait */
  function timeWords(wait) {
    if (wait.time) return wait.time;
    return `${timeWord(wait)} ${wait.due_words || clock(wait.until || wait.began_at)}`;
  }

  /** @param {HTMLElement} time @param {any} wait */
  function count(time, wait) {
    const { label, until, over } = wait;
    Object.assign(time.dataset, { timer: "left", label, until, over });
  }

  /** The way to the test that reads it. @param {any} wait */
  function toRead(wait) {
    const words = String(wait.read_words);
    const link = /** @type {HTMLAnchorElement} */ (element("a", words.charAt(0).toUpperCase() + words.slice(1)));
    link.className = "alone";
    link.href = `/step/${wait.read}/?job=${told.key}`;
    return link;
  }

  /** On the job's first screen. @param {any[]} waits */
  function drawFirst(waits) {
    const first = document.querySelector("[data-timers-first]");
    first?.replaceChildren(
      ...waits.filter((one) => one.runs).flatMap((one) => {
        const line = element("p");
        const time = element("span", timeWords(one));
        count(time, one);
        line.append(element("strong", `${one.label}:`), " ", time);
        const below = element("p");
        const up = one.read && Date.parse(one.until) <= Date.now();
        if (up) below.append(toRead(one));
        return up ? [line, below] : [line];
      }),
    );
  }

  /** What bars pumping it down, on the form. @param {any} job */
  function drawBars(job) {
    const whys = (job.gates || []).filter((/** @type {any} */ one) => one.act === "pump" && one.found).map((/** @type {any} */ one) => one.why);
    document.querySelector("[data-bars-pumping]")?.toggleAttribute("hidden", !whys.length);
    const line = document.querySelector("[data-bars-pumping-why]");
    if (line) line.textContent = whys.join(" ");
  }

  /** @param {any} wait */
  function row(wait) {
    const made = element("li", "", "row");
    made.dataset.wait = wait.key;
    const words = element("span", "", "wait");
    const time = element("span", timeWords(wait), "value");
    if (wait.runs) count(time, wait);
    words.append(element("span", wait.label, "name"), time);
    if (wait.read) words.append(toRead(wait));
    const button = element("button", "No longer", "button");
    Object.assign(button, { type: "submit", name: "waiting", value: wait.key });
    button.setAttribute("aria-label", `${wait.label}: no longer`);
    made.append(words, button);
    return made;
  }

  /** @param {any[]} waits */
  function draw(waits) {
    const list = document.querySelector("[data-waits]");
    if (!list) return;
    const rows = waits.map(row);
    const same = (/** @type {Iterable<Element>} */ ones) => [...ones].map((one) => one.getAttribute("data-wait")).join();
    if (same(rows) !== same(list.children)) list.replaceChildren(...rows);
    document.querySelector("[data-waits-form]")?.toggleAttribute("hidden", !rows.length);
    document.querySelector("[data-waits-none]")?.toggleAttribute("hidden", rows.length > 0);
  }

  /** As told, and behind it what was told here since. @param {any} job @param {any[]} moved */
  function where(job, moved) {
    const place = job.place || {};
    const promised = place.promised_at && `${timeWord(place)} ${clock(place.promised_at)}`;
    const told = [place.bay_words, place.hook_words, promised].filter(Boolean).join(" · ");
    const said = moved.map((one) => `${window.shopac.answersOf(one)} (kept on this tablet ${clock(one.typed_at)})`);
    return [told, ...said].filter(Boolean).join("; ") || "Where it is and when it is promised: not told on this tablet.";
  }

  async function show() {
    if (!told) return;
    const here = await window.shopac.enteredHere(told.key, told.as_of);
    const waits = window.shopac.waitsOf(told, here);
    const line = document.querySelector("[data-where]");
    if (line) line.textContent = where(told, here.filter((/** @type {any} */ one) => one.kind === "place"));
    draw(waits);
    drawFirst(waits);
    drawBars(told);
    document.dispatchEvent(new CustomEvent("shopac:timers"));
  }

  document.addEventListener("shopac:job", (event) => {
    if (!told) window.shopac.onKept(() => show().catch(() => {}));
    told = /** @type {CustomEvent} */ (event).detail;
    show().catch(() => {}); // the page may be going away
  });
})();
