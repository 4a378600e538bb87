/**
 * What was recorded on this tablet and is not in what the shop server told of a job: in words, and what of it
 * the car waits for.
 */
"use strict";

(() => {
  const MINUTE = 60000;
  const SHOWN = 4; // answers; all stand on the page of what is kept
  /** By kind, what stands before words, what stands alone, and minutes where nobody says. @type {any} */
  const WORDED = JSON.parse(document.getElementById("waits-worded")?.textContent || "{}");

  /** Recorded here and not in what the server told. @param {any} item */
  function fromEntry(item) {
    const text = (/** @type {string} */ name) => item.fields[name]?.[0] || "";
    const what = text("what");
    const worded = WORDED[what] || {};
    const minutes = Number(text("minutes_typed") || text("minutes")) || worded.minutes;
    const began = Date.parse(item.typed_at) + (item.clock_offset_ms || 0);
    const until = minutes ? new Date(began + minutes * MINUTE).toISOString() : "";
    const label = [worded.before, text("words")].filter(Boolean).join(": ");
    return {
      key: item.key,
      label: label.charAt(0).toUpperCase() + label.slice(1) || worded.alone,
      runs: Boolean(until),
      until,
      over: minutes === 1 ? "1 minute is up" : `${minutes} minutes are up`,
      began_at: new Date(began).toISOString(),
      at: until || new Date(began).toISOString(),
      word: until ? "until" : "since",
      past_word: until ? "over since" : "since",
      time: "kept on this tablet",
    };
  }

  /** What stands of what was told and of what was begun and ended here. @param {any} job @param {any[]} here */
  function waitsOf(job, here) {
    const of = (/** @type {string} */ kind) => here.filter((one) => one.kind === kind);
    const known = new Set((job.waiting || []).map((/** @type {any} */ one) => one.key));
    const begun = of("waiting").filter((one) => !known.has(one.key));
    const gone = new Set([...of("waiting_end").map((one) => one.fields.waiting?.[0]), ...begun.map((one) => one.corrects)]);
    return [...(job.waiting || []), ...begun.map(fromEntry)].filter((one) => !gone.has(one.key));
  }

  /** What was answered, the first few in full. @param {any} item */
  function answersOf(item) {
    const told = (item.words || []).map((/** @type {any} */ one) => `${one.question.replace(/[?:]$/, "")}: ${one.said}`);
    const more = told.length - SHOWN;
    return [...told.slice(0, SHOWN), ...(more > 0 ? [`${more} more`] : [])].join(" · ");
  }

  Object.assign(window.shopac, { waitsOf, answersOf });
})();
