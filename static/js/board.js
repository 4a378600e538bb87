/**
 * The board stays of now: asked for anew each minute and when a timer is over. Without the shop
 * server it says of when it is; the page that a tablet keeps is filled from the open jobs kept ahead.
 */
"use strict";

(() => {
  const ANEW_MS = 60000;
  const GROUPS = ["now", "runs", "waits"];
  const { shopac } = window;
  const { element } = shopac;
  const board = () => document.querySelector("[data-board]");
  const kept = board()?.hasAttribute("data-board-kept");
  const shownAt = Date.now();

  /** In the header's second line. @param {string} words */
  function sayInHeader(words) {
    const heading = document.querySelector(".heading");
    const line = heading?.querySelector("[data-as-of]") || element("p", "", "second");
    line.setAttribute("data-as-of", "");
    line.textContent = words;
    if (words) heading?.append(line);
    else line.remove();
  }

  let asking = false;

  /** The same page anew, put in the place of its list. */
  async function anew() {
    if (asking || kept || document.hidden) return;
    asking = true;
    try {
      const signal = AbortSignal.timeout(10000);
      const answer = await fetch(location.href, { cache: "no-store", redirect: "manual", signal });
      const page = new DOMParser().parseFromString(answer.ok ? await answer.text() : "", "text/html");
      const fresh = page.querySelector("[data-board]:not([data-board-kept])");
      if (!fresh) throw new Error("no board");
      const put = () => {
        const focused = document.activeElement?.getAttribute("href");
        board()?.replaceWith(document.adoptNode(fresh));
        if (focused) /** @type {HTMLElement | null} */ (document.querySelector(`[data-board] a[href="${CSS.escape(focused)}"]`))?.focus();
        sayInHeader("");
        document.dispatchEvent(new CustomEvent("shopac:timers"));
      };
      if (shopac.inPlace) shopac.inPlace(put);
      else put();
    } catch {
      if (shopac.words) sayInHeader(`as of ${shopac.words.clock(shownAt)}`);
    } finally {
      asking = false;
    }
  }

  // The page that a tablet keeps.

  /** What holds a car, as the shop server would say. @param {any} job @param {any[]} here @param {number} now */
  function hold(job, here, now) {
    const waits = shopac.waitsOf(job, here).sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
    const over = waits.find((one) => one.runs && Date.parse(one.until) <= now);
    const someone = waits.find((one) => !one.runs);
    const first = over || someone || waits[0];
    if (first) return { first, group: over ? "now" : someone ? "waits" : "runs" };
    return { first: null, group: "now" };
  }

  /** @param {any} job @param {any} first what it waits for @param {number} now
   * @returns {[string, string]} */
  function gutter(job, first, now) {
    const { clock, timeWord } = shopac.words;
    const promised = job.place?.promised_at;
    if (first) return [first.due_words || clock(first.until || first.began_at), timeWord(first, now)];
    if (promised) return [clock(promised), timeWord(job.place, now)];
    return [clock(job.as_of), "as of"];
  }

  /** What is next, by what was made here too. @param {any} job @param {any[]} here */
  function nextWords(job, here) {
    const { next, said } = shopac.nextStep(job, here);
    return next ? next.words : said;
  }

  /** @param {any} job @param {any} first what it waits for @param {any[]} here entries of it kept here
   * @param {number} now */
  function row(job, first, here, now) {
    const made = element("li", "", "row board-row");
    const [when, word] = gutter(job, first, now);
    const time = element("p", "", "board-time");
    const said = element("span", word, "board-word soft");
    time.append(element("span", when, "board-when"), said);
    const plate = element("p", "", "board-plate");
    const link = /** @type {HTMLAnchorElement} */ (element("a", job.plate, "list-plate whole"));
    link.href = `/job/?job=${job.key}`;
    plate.append(link);
    const what = element("p", first?.label || nextWords(job, here), "board-what");
    if (first?.runs) {
      const { until, label, over } = first;
      Object.assign(what.dataset, { timer: "of", label, until, began: first.began_at, over });
      Object.assign(said.dataset, { timerWord: "", until });
    }
    const lines = element("div", "", "board-lines soft");
    const { bay_words: at, hook_words: hook } = job.place || {};
    lines.append(element("p", [job.car, at, hook].filter(Boolean).join(" · ")));
    if (job.danger) lines.append(element("strong", job.danger));
    const more = here.some((/** @type {any} */ one) => one.kind !== "intake");
    if (more) lines.append(element("p", "Of entries kept on this tablet since, only tests and what it waits for count here: open the car."));
    if (job.untold) lines.append(element("p", "Taken in on this tablet."));
    made.append(time, plate, what, element("p", String(job.stage_words).toLowerCase(), "board-stage soft"), lines);
    return made;
  }

  async function fillKept() {
    const jobs = await shopac.jobsKept();
    const offset = (await shopac.store.get("about", "clock_offset")) || 0;
    const here = await Promise.all(jobs.map((/** @type {any} */ job) => shopac.enteredHere(job.key, job.as_of)));
    const held = jobs.map((/** @type {any} */ job, /** @type {number} */ at) => {
      const now = Date.now() + offset;
      const { first, group } = hold(job, here[at], now);
      const counts = first?.at || job.place?.promised_at;
      return { group, row: row(job, first, here[at], now), at: counts ? Date.parse(counts) : Infinity };
    });
    held.sort((/** @type {any} */ one, /** @type {any} */ other) => (one.at < other.at ? -1 : Number(one.at > other.at)));
    for (const code of GROUPS) {
      const section = document.querySelector(`[data-group="${code}"]`);
      const rows = held.filter((/** @type {any} */ one) => one.group === code).map((/** @type {any} */ one) => one.row);
      section?.querySelector("[data-rows]")?.replaceChildren(...rows);
      section?.querySelector("[data-none]")?.toggleAttribute("hidden", rows.length > 0);
      const count = section?.querySelector("[data-count]");
      if (count) count.textContent = String(rows.length);
    }
    const oldest = jobs.map((/** @type {any} */ job) => job.as_of).sort()[0];
    const more = (await shopac.store.get("about", "jobs_more")) || 0;
    const rest = more ? `; ${more} more open cars are not kept here` : "";
    sayInHeader(oldest ? `as of ${shopac.words.clock(oldest)}, kept on this tablet${rest}` : "no car is kept on this tablet");
    document.dispatchEvent(new CustomEvent("shopac:timers"));
  }

  /** A page that moves by itself is a surprise: it offers the board of now. */
  function offerNow() {
    if (document.querySelector("[data-now]")) return;
    const link = /** @type {HTMLAnchorElement} */ (element("a", "The shop server answers: show the board of now", "bar"));
    link.href = location.href;
    link.dataset.now = "";
    document.querySelector("main")?.prepend(link);
  }

  if (!kept) {
    setInterval(anew, ANEW_MS);
    document.addEventListener("shopac:timer-over", () => setTimeout(anew, 2000));
    addEventListener("pageshow", (event) => {
      if (event.persisted) anew();
    });
  } else if (shopac?.able) {
    document.addEventListener("DOMContentLoaded", () => fillKept().catch(() => {}));
    shopac.onKept(() => fillKept().catch(() => {}));
    shopac.server.on((/** @type {boolean} */ there) => {
      if (there) offerNow();
    });
  }
})();
