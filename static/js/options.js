/**
 * Options and decision on a page that was kept without a car: the ways as the shop server last told
 * them, without prices, and of the fields those that they need.
 */
"use strict";

(() => {
  const { element } = window.shopac;

  /** @param {any} job */
  function showWays(job) {
    const ways = job.options?.ways || [];
    const section = document.querySelector("[data-ways]");
    const rows = ways.map((/** @type {any} */ way) => {
      const row = element("li", "", "row");
      const link = element("a", way.words, "whole name");
      link.setAttribute("href", `/decision/?job=${job.key}&plan=${encodeURIComponent(way.code)}`);
      const told = element("span", way.said.join(" "), "value");
      row.append(link, told);
      return row;
    });
    section?.querySelector("ul")?.replaceChildren(...rows);
    section?.toggleAttribute("hidden", !rows.length);
    document.querySelector("[data-ways-none]")?.toggleAttribute("hidden", rows.length > 0);
  }

  /** @param {any} job */
  function showFields(job) {
    const asked = new Set(job.options?.asked || []);
    for (const place of document.querySelectorAll("[data-asked]")) {
      place.toggleAttribute("hidden", !asked.has(place.getAttribute("data-asked")));
    }
  }

  /** The ways as answers before "something else". @param {any} job */
  function showPlans(job) {
    const other = document.querySelector('[data-plans] input[value="other"]')?.closest("label");
    if (!other) return;
    const plan = new URLSearchParams(location.search).get("plan") || "";
    for (const way of job.options?.ways || []) {
      const label = /** @type {HTMLElement} */ (other.cloneNode(true));
      const input = /** @type {HTMLInputElement} */ (label.querySelector("input"));
      input.value = way.code;
      input.id = `id_plan_${way.code.replaceAll("+", "_")}`;
      input.checked = way.code === plan;
      label.setAttribute("for", input.id);
      const words = label.querySelector("span");
      if (words) words.textContent = way.mark ? `${way.words} (${way.mark})` : way.words;
      other.before(label);
    }
  }

  let filled = false;
  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    if (filled) return;
    filled = true;
    showWays(job);
    showFields(job);
    showPlans(job);
    const old = document.querySelector("[data-ways-old]");
    old?.toggleAttribute("hidden", !job.options?.ways?.length);
    for (const at of document.querySelectorAll("[data-ways-at]")) {
      at.textContent = job.as_of ? window.shopac.words.clock(job.as_of) : "";
    }
  });
})();
