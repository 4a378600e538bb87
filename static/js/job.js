/**
 * The job's page: the failing-now switch acts at once; a page kept without a car gets its switch,
 * points and unsent entries from what this tablet knows.
 */
"use strict";

(() => {
  const { element } = window.shopac;
  const ASKS_SERVER = ["estimate", "invoice"]; // pages that no tablet keeps
  const SHOWN_ELSEWHERE = ["intake", "waiting", "waiting_end"]; // the page itself; its timers
  /** The job as it is shown. @type {any} */
  let told = null;
  /** The links to tests, those that are barred now too. @type {Map<string, HTMLElement>} */
  const links = new Map();

  for (const form of document.querySelectorAll("form[data-at-once]")) {
    form.addEventListener("change", () => /** @type {HTMLFormElement} */ (form).requestSubmit());
  }

  /** One row a page, with the sentences it settles. @param {any} job */
  function showPoints(job) {
    const list = document.querySelector("[data-points]");
    if (!list) return;
    const count = job.points.length;
    const open = count === 1 ? "1 point open." : `${count} points open.`;
    for (const said of document.querySelectorAll("[data-points-said]")) {
      said.textContent = job.untold ? "What is open is told by the shop server." : open;
    }
    const pages = [...new Set(job.points.map((/** @type {any} */ point) => point.page))];
    const rows = pages.map((page) => {
      const points = job.points.filter((/** @type {any} */ point) => point.page === page);
      const row = element("li", "", "row");
      const asksServer = ASKS_SERVER.includes(page);
      const link = element(asksServer ? "span" : "a", points[0].page_words, asksServer ? "name" : "whole name");
      if (!asksServer) link.setAttribute("href", page === "steps" ? "#done" : `/${page}/?job=${job.key}`);
      const sentences = element("ul", "", "value");
      sentences.append(...points.map((/** @type {any} */ one) => element("li", one.sentence)));
      row.append(link, sentences);
      return row;
    });
    refill(list, rows);
  }

  /** Rows that say the same stay as they are. @param {Element | null | undefined} list @param {Element[]} rows */
  function refill(list, rows) {
    const now = rows.map((row) => row.outerHTML).join("");
    const before = [...(list?.children || [])].map((row) => row.outerHTML).join("");
    if (now !== before) list?.replaceChildren(...rows);
  }

  /**
   * The test that comes next with why, or what stands in its place.
   * @param {any} found as nextStep says it
   * @param {string | undefined} role
   */
  function showNext(found, role) {
    const next = document.querySelector("[data-next-step]");
    if (!next || !found.kinds.length) return; // the shop server said what comes next
    const tests = !role || role === "technician" || role === "owner";
    const free = tests ? found.next : undefined;
    for (const one of document.querySelectorAll("[data-for-repair]")) one.toggleAttribute("hidden", !tests);
    for (const bar of next.querySelectorAll("[data-next]")) {
      bar.toggleAttribute("hidden", bar.getAttribute("data-next") !== free?.name);
    }
    /** @param {string} name @param {string} words */
    const say = (name, words) => {
      const line = next.querySelector(`[data-next-${name}]`);
      if (line) line.textContent = words;
      line?.toggleAttribute("hidden", !words);
    };
    say("reason", free ? found.reason : "");
    say("why", tests ? found.said : "Tests are the technicians’ work.");
  }

  /**
   * What the car bars is no link, and says why; what was made is offered again.
   * @param {{name: string, barred: string}[]} kinds @param {Set<string>} made names of kinds
   */
  function showTests(kinds, made) {
    for (const { name, barred } of kinds) {
      const row = document.querySelector(`[data-test="${CSS.escape(name)}"]`);
      const link = row?.querySelector("a") || links.get(name);
      if (!row || !link) continue;
      links.set(name, link);
      if (made.has(name) && !link.dataset.again) {
        link.prepend("Make it again: ");
        link.dataset.again = "";
      }
      const title = row.querySelector(".name.soft") || element("span", "", "name soft");
      title.textContent = link.textContent;
      if (barred) link.replaceWith(title);
      else title.replaceWith(link);
      const why = /** @type {HTMLElement | null} */ (row.querySelector("[data-test-why]"));
      if (!why) continue;
      why.dataset.asks ||= why.textContent || "";
      why.textContent = barred || why.dataset.asks;
    }
  }

  /** Tests and changes the shop server knew, then those kept here, newest first.
   * @param {any} job @param {any[]} here */
  function showDone(job, here) {
    const section = document.querySelector("[data-done]");
    const tests = job.steps.map((/** @type {any} */ step) => {
      const value = element("span", `${step.finding} `, "value");
      if (step.photos) value.append(element("span", `${photos(step.photos)}. `, "soft nowrap"));
      const by = step.replaced_by;
      if (by) value.append(element("span", `Replaced by step ${by}.`, "soft"));
      const row = doneRow(element("span", `${step.number} ${step.title}`, "name"), value);
      return { at: step.made_at, row };
    });
    const changes = (job.changes || []).map((/** @type {any} */ one) => {
      const value = element("span", "", "value");
      if (one.where) value.append(element("span", one.where, "told"), " ");
      value.append(`Car state ${one.state}.`);
      return { at: one.made_at, row: doneRow(element("span", `Changed: ${one.what}`, "name"), value) };
    });
    const works = (job.works || []).map((/** @type {any} */ one) => {
      const value = element("span", `Car state ${one.state}.`, "value");
      return { at: one.made_at, row: doneRow(element("span", one.what, "name"), value) };
    });
    const inTime = [...tests, ...changes, ...works].sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
    const made = inTime.map(({ row }) => row);
    const kept = here.map((item) => {
      const taken = item.photos.length ? `, ${photos(item.photos.length)}` : "";
      const words = `${item.title}${taken}, ${howFar(item)}`;
      return doneRow(element("span", words, "name"), element("span", window.shopac.answersOf(item), "value soft"));
    });
    refill(section?.querySelector("ul"), [...made, ...kept].reverse());
    section?.toggleAttribute("hidden", !made.length && !kept.length);
  }

  const photos = (/** @type {number} */ count) => (count === 1 ? "1 photo" : `${count} photos`);

  /** @param {...Element} parts */
  function doneRow(...parts) {
    const row = element("li", "", "row");
    row.append(...parts);
    return row;
  }

  /** @param {any} item */
  function howFar(item) {
    const { clock } = window.shopac.words;
    if (item.state === "delivered") return `on the shop server ${clock(item.at)}`;
    const needs = item.state === "returned" || item.state === "refused";
    return `kept on this tablet ${clock(item.typed_at)}${needs ? ", not recorded yet: it needs you" : ""}`;
  }

  /** @param {any} job */
  function showComplaint(job) {
    const section = document.querySelector("[data-complaint]");
    const place = section?.querySelector("p");
    if (place) place.textContent = job.complaint || "";
    section?.toggleAttribute("hidden", !job.complaint);
  }

  /** What was recorded on this tablet and is not in what the server told. @param {any} job */
  async function showHere(job) {
    const who = window.shopac.server?.who();
    const here = (await window.shopac.enteredHere(job.key, job.as_of)).filter(
      (/** @type {any} */ item) =>
        !SHOWN_ELSEWHERE.includes(item.kind) &&
        ![...job.steps, ...(job.changes || [])].some((/** @type {any} */ one) => one.key === item.key),
    );
    const found = window.shopac.nextStep(job, here);
    const changed = Boolean(job.verification) || here.some(window.shopac.changesCar);
    const still = (/** @type {() => void} */ change) => () => job === told && change(); // not told anew
    window.shopac.inPlace(still(() => {
      showDone(job, here);
      document.querySelector("[data-loop-here]")?.toggleAttribute("hidden", !here.some(window.shopac.isWeighed));
      document.querySelector("[data-verification-link]")?.toggleAttribute("hidden", !changed);
      showTests(found.kinds, found.made);
    }));
    const role = (await who)?.person.role;
    window.shopac.inPlace(still(() => showNext(found, role)));
  }

  /** As last told, here or by the server. @param {any} job */
  async function showSwitch(job) {
    const here = await window.shopac.enteredHere(job.key, job.as_of);
    const turned = here.filter((/** @type {any} */ item) => item.kind === "failing_now").pop();
    const told = turned?.fields.failing?.[0] || job.failing_now;
    for (const radio of document.querySelectorAll('[name="failing"]')) {
      const input = /** @type {HTMLInputElement} */ (radio);
      input.checked = input.value === told;
    }
  }

  const again = () => showHere(told).catch(() => {}); // the page may be going away

  document.addEventListener("shopac:job", (event) => {
    if (!told) window.shopac.onKept(again);
    told = /** @type {CustomEvent} */ (event).detail;
    showPoints(told);
    showComplaint(told);
    showSwitch(told);
    again();
  });
})();
