/**
 * What every page does on a tablet: says in its header what is kept here, keeps the open jobs ahead,
 * and starts the worker that keeps the pages.
 *
 * For other scripts: shopac.jobJson(key), shopac.enteredHere(key, asOf), shopac.onKept(listener),
 * shopac.onJob(show).
 */
"use strict";

(() => {
  const { store, outbox, server, words } = window.shopac;
  const JOB_MS = 2000;
  const AHEAD_MS = 60000;
  /** The A/C as fitted: names of the intake's fields and of the job's JSON alike. */
  const SYSTEM = ["drive", "clutch", "displacement", "voltage", "switched_side", "refrigerant"];
  const BRANCHES = "branches"; // the same, but several
  const NO_CONSENT = { code: "consent", page: "consent", page_words: "Consent", sentence: "Consent no. 1, to find the fault: not given yet" };
  const NOT_KNOWN = "-"; // the answer that takes out a wrong one

  /** @typedef {import("./outbox.js").Item} Item */

  // The header: how many are kept here, how many photos with them; whether the server answers. Two
  // lines at most, beside a long title.

  async function showKept() {
    const place = document.getElementById("kept");
    if (!place) return;
    const known = [outbox.unsent(), lastDelivered(), store.get("about", "silent")];
    const [items, last, silent] = await Promise.all(known);
    const needs = items.filter((/** @type {Item} */ item) => item.state !== "kept").length;
    const waiting = items.length - needs;
    const edge = needs ? "needs" : waiting ? "kept" : silent ? "silent" : "sent";
    place.className = `kept ${edge}`;
    place.hidden = !items.length && !last && !silent;
    const said = items.length ? countWords(needs, waiting, items, silent) : lastWords(last, silent);
    if (place.textContent !== said) place.textContent = said;
  }

  /** @param {number} needs @param {number} waiting @param {Item[]} items
   * @param {number | undefined} silent */
  function countWords(needs, waiting, items, silent) {
    const photos = items.reduce((sum, item) => sum + item.photos.length, 0);
    const said = [];
    if (needs) said.push(`${needs} ${needs === 1 ? "needs" : "need"} you`);
    if (needs && waiting) said.push(`${waiting} to send`);
    if (!needs) said.push(silent ? `${waiting} kept here` : `${waiting} kept here, not sent`);
    if (photos && !(needs && waiting)) said.push(photos === 1 ? "1 photo" : `${photos} photos`);
    const since = silent ? `; no server since ${words.clock(silent)}` : `, since ${words.clock(items[0].typed_at)}`;
    return said.join(", ") + since;
  }

  /** Of then, and of now: that an entry arrived does not say that the server is there.
   * @param {{at: number} | undefined} last @param {number | undefined} silent */
  function lastWords(last, silent) {
    if (silent) return `Shop server not answering since ${words.clock(silent)}`;
    return last ? `Last entry sent ${words.clock(last.at)}` : "";
  }

  /** @returns {Promise<any>} */
  function lastDelivered() {
    return store.read(["delivered"], async (at) => {
      const cursor = await store.value(at("delivered").index("at").openCursor(null, "prev"));
      return cursor?.value;
    });
  }

  /** A kept job says of when it is, in the header's second line. @param {string} when */
  function showAsOf(when) {
    const heading = document.querySelector(".heading");
    if (!heading) return;
    const line = heading.querySelector("[data-as-of]") || document.createElement("p");
    line.className = "second";
    line.setAttribute("data-as-of", "");
    line.textContent = `as of ${words.clock(when)}`;
    heading.append(line);
  }

  // Jobs: from the server, else as kept ahead, else as typed at an intake here.

  /**
   * @param {string} key
   * @returns {Promise<any>} the job's JSON with `kept` (a copy) or `unsent` (an intake not yet
   *   acknowledged), `untold` where only its intake is known here, its A/C as told here since; with
   *   `unknown` only: "no_such" (the server's word) or "not_kept" (it does not answer)
   */
  async function jobJson(key) {
    const job = await jobAsTold(key);
    if (job.unknown || !window.shopac.able) return job;
    const system = { ...job.system };
    const here = await enteredHere(key, job.as_of);
    for (const entry of here) {
      for (const name of entry.kind === "system" ? SYSTEM : []) {
        const told = entry.fields[name]?.[0];
        const shown = entry.fields[`was_${name}`]?.[0]; // what was only shown was not told
        if (told && told !== shown) system[name] = told === NOT_KNOWN ? "" : told;
      }
      const ticked = entry.kind === "system" ? entry.fields[BRANCHES] || [] : [];
      if (ticked.length && [...ticked].sort().join(",") !== entry.fields[`was_${BRANCHES}`]?.[0]) {
        system[BRANCHES] = ticked.filter((/** @type {string} */ one) => one !== NOT_KNOWN);
      }
    }
    const begins = job.untold && (await store.get("about", "begins"));
    const points = withConsent(job.points, here);
    return { ...job, system, points, ...(begins && { gates: begins[system.drive || ""] }) };
  }

  /** A consent that is kept here is no point of now, nor settled yet. @param {any[]} points @param {any[]} here */
  function withConsent(points, here) {
    const no = ["refused", "not_reached"];
    const given = here.some((one) => one.kind === "consent" && !no.includes(one.fields.consent_outcome?.[0] || ""));
    if (!given) return points;
    const kept = (/** @type {any} */ one) => ({ ...one, code: "consent_kept", sentence: `${one.sentence}, as the shop server last told it. One is kept on this tablet` });
    return points.map((one) => (one.code === "consent" ? kept(one) : one));
  }

  /** @param {string} key */
  async function jobAsTold(key) {
    const answer = await get(`/job.json?job=${encodeURIComponent(key)}`, JOB_MS);
    const fresh = answer && (await jsonOf(answer));
    if (fresh && window.shopac.able) await store.put("jobs", fresh);
    if (fresh && document.querySelector("[data-as-of]")) showAsOf(fresh.as_of); // it said another time
    // A hotel's sign-in page may say 404 too, but has no policy of ours.
    const denied = answer?.status === 404 && answer.headers.has("Content-Security-Policy");
    const unknown = { key, unknown: denied ? "no_such" : "not_kept" };
    if (fresh || !window.shopac.able) return fresh || unknown;
    const kept = !denied && (await store.get("jobs", key));
    if (kept) {
      showAsOf(kept.as_of);
      return { ...kept, kept: true };
    }
    const [told] = (await intakesHere()).filter(([first]) => first.job === key);
    if (!told) return unknown;
    const job = fromIntake(told);
    if (job.unsent) return job;
    showAsOf(job.as_of);
    return { ...job, kept: true };
  }

  /** @param {string} address @param {number} milliseconds @returns {Promise<any>} null: no answer */
  async function fetchJson(address, milliseconds) {
    const answer = await get(address, milliseconds);
    return answer && jsonOf(answer);
  }

  /** @param {string} address @param {number} milliseconds @returns {Promise<Response | null>} */
  async function get(address, milliseconds) {
    try {
      const signal = AbortSignal.timeout(milliseconds);
      return await fetch(address, { cache: "no-store", redirect: "manual", signal });
    } catch {
      return null;
    }
  }

  /** @param {Response} answer @returns {Promise<any>} */
  async function jsonOf(answer) {
    try {
      return answer.ok ? await answer.json() : null;
    } catch {
      return null; // cut off, or another's page
    }
  }

  /**
   * Each car's intake with what corrected it, in the order in which they were made here.
   * @returns {Promise<any[][]>}
   */
  async function intakesHere() {
    const stores = ["delivered", "items"];
    const read = (/** @type {any} */ at) => Promise.all(stores.map((name) => store.value(at(name).getAll())));
    const entries = (await store.read(stores, read)).flat();
    /** @type {Map<string, any[]>} */
    const ofJob = new Map();
    for (const one of entries.sort((one, other) => one.sequence - other.sequence)) {
      if (one.kind === "intake") ofJob.set(one.job, [...(ofJob.get(one.job) || []), one]);
    }
    return [...ofJob.values()];
  }

  /** @param {any[]} intakes of one car; the last is what was told in the end */
  function fromIntake(intakes) {
    const [first, last] = [intakes[0], intakes[intakes.length - 1]];
    const told = (/** @type {string} */ name) => last.fields[name]?.[0] || "";
    return {
      key: last.job,
      number: first.number || "",
      plate: told("plate"),
      car: [told("make_model"), told("model_year")].filter(Boolean).join(", "),
      system: {
        ...Object.fromEntries(SYSTEM.map((name) => [name, told(name)])),
        [BRANCHES]: last.fields[BRANCHES] || [],
      },
      stage: "intake",
      stage_words: "Intake",
      failing_now: told("failing_now"),
      complaint: told("complaint"),
      loop: "",
      state: null,
      steps: [],
      changes: [],
      again: [],
      points: told("consent_amount") ? [] : [NO_CONSENT],
      as_of: new Date(Date.parse(first.typed_at) + (first.clock_offset_ms || 0)).toISOString(),
      unsent: first.state !== "delivered" && !first.corrects,
      untold: true,
    };
  }

  /** Every car this tablet can go on with, those taken in here first. @returns {Promise<any[]>} */
  async function jobsKept() {
    if (!window.shopac.able) return [];
    const read = [store.all("jobs"), intakesHere(), store.get("about", "jobs_at")];
    const [jobs, intakes, toldAt] = await Promise.all(read);
    const known = new Set(jobs.map((/** @type {any} */ job) => job.key));
    // Delivered before the open jobs were told, and not among them: closed since.
    const isOpen = (/** @type {any} */ one) => one.state !== "delivered" || one.at >= (toldAt || 0);
    const more = intakes.filter((/** @type {any[]} */ told) => !known.has(told[0].job) && told.some(isOpen));
    return [...more.reverse().map(fromIntake), ...jobs];
  }

  /**
   * What was recorded here for a job and may be missing in its JSON: acknowledged since that was
   * told, then not yet acknowledged.
   * @param {string} key
   * @param {string} asOf
   * @returns {Promise<any[]>}
   */
  async function enteredHere(key, asOf) {
    if (!window.shopac.able) return [];
    const ofJob = (/** @type {Item} */ entry) => entry.job === key;
    const known = [store.all("items"), store.all("delivered"), store.get("about", "clock_offset")];
    const [items, delivered, offset] = await Promise.all(known);
    // That is the server's time, an entry's the tablet's.
    const later = (/** @type {any} */ entry) => entry.at + (offset || 0) >= Date.parse(asOf);
    const since = delivered.filter((/** @type {any} */ entry) => ofJob(entry) && later(entry));
    const inOrder = since.sort((/** @type {any} */ one, /** @type {any} */ other) => one.sequence - other.sequence);
    return [...inOrder, ...items.filter(ofJob)];
  }

  /** The open jobs once a minute, and the job that is looked at each time. */
  async function keepAhead() {
    const there = await server.first;
    if (!there?.signedIn) return;
    const last = (await store.get("about", "jobs_at")) || 0;
    if (Math.abs(Date.now() - last) >= AHEAD_MS) return keepOpenJobs();
    const key = window.shopac.draft.jobInAddress();
    const job = key && (await fetchJson(`/job.json?job=${key}`, JOB_MS));
    if (job) await store.put("jobs", job);
  }

  async function keepOpenJobs() {
    const asked = Date.now();
    const told = await fetchJson("/jobs.json", 10 * JOB_MS);
    if (!told) return;
    await store.write(["jobs", "about"], (at) => {
      at("jobs").clear();
      for (const job of told.jobs) at("jobs").put(job);
      at("about").put(asked, "jobs_at");
      at("about").put(told.people, "people");
      at("about").put(told.more, "jobs_more");
      at("about").put(told.begins, "begins");
    });
  }

  /** The pages are kept by the worker; it needs a signed-in person's pages to keep. */
  async function startWorker() {
    if (!navigator.serviceWorker) return;
    const here = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    const look = async () => {
      if (here.waiting && navigator.serviceWorker.controller) (await window.shopac.load("renew"))(here);
    };
    here.onupdatefound = () => {
      here.installing?.addEventListener("statechange", () => quietly(look));
    };
    quietly(look);
    const ready = await navigator.serviceWorker.ready;
    if ((await server.first)?.signedIn) ready.active?.postMessage("keep");
  }

  /** @param {() => void} listener called at every change of what is kept here */
  function onKept(listener) {
    if (window.shopac.able) outbox.on(listener);
  }

  /**
   * Show a page's job each time it is told, and again at every change of what is kept here.
   * @param {(job: any) => Promise<void>} show
   */
  function onJob(show) {
    /** The job as it is shown. @type {any} */
    let told = null;
    const again = () => show(told).catch(() => {}); // the page may be going away
    document.addEventListener("shopac:job", (event) => {
      if (!told) onKept(again);
      told = /** @type {CustomEvent} */ (event).detail;
      again();
    });
  }

  Object.assign(window.shopac, { jobJson, jobsKept, enteredHere, onKept, onJob });
  if (!window.shopac.able) return;
  const quietly = (/** @type {() => Promise<any>} */ work) => work().catch(() => {});
  const show = () => quietly(showKept);
  outbox.on(show);
  server.on(show);
  addEventListener("pageshow", () => {
    show();
    setTimeout(show, 1000); // a page just left lets go of its form a moment later
  });
  document.addEventListener("DOMContentLoaded", () => {
    show();
  });
  addEventListener("load", () => {
    quietly(startWorker);
    quietly(keepAhead);
  });
})();
