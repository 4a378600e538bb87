/**
 * The job's page: the failing-now switch acts at once; a page kept without a car gets its switch,
 * points and unsent entries from what this tablet knows.
 */
"use strict";

(() => {
  /** @param {string} name @param {string} text */
  function element(name, text = "", looks = "") {
    const made = document.createElement(name);
    made.textContent = text;
    if (looks) made.className = looks;
    return made;
  }

  for (const form of document.querySelectorAll("form[data-at-once]")) {
    form.addEventListener("change", () => /** @type {HTMLFormElement} */ (form).requestSubmit());
  }

  /** One row a page, with the sentences it settles. @param {any} job */
  function showPoints(job) {
    const list = document.querySelector("[data-points]");
    const heading = document.querySelector("[data-points-said]");
    if (!list || !heading) return;
    const count = job.points.length;
    const open = count === 1 ? "1 point open." : `${count} points open.`;
    heading.textContent = job.unsent ? "What is open is told by the shop server." : open;
    const pages = [...new Set(job.points.map((/** @type {any} */ point) => point.page))];
    const rows = pages.map((page) => {
      const points = job.points.filter((/** @type {any} */ point) => point.page === page);
      const row = element("li", "", "row");
      const link = element("a", points[0].page_words, "whole name");
      link.setAttribute("href", `/${page}/?job=${job.key}`);
      const sentences = element("ul", "", "value");
      sentences.append(...points.map((/** @type {any} */ one) => element("li", one.sentence)));
      row.append(link, sentences);
      return row;
    });
    list.replaceChildren(...rows);
  }

  /** As last told, here or by the server. @param {any} job */
  async function showSwitch(job) {
    const unsent = await window.shopac.unsentOf(job.key);
    const turned = unsent.filter((/** @type {any} */ item) => item.kind === "failing_now").pop();
    const told = turned?.fields.failing?.[0] || job.failing_now;
    for (const radio of document.querySelectorAll('[name="failing"]')) {
      const input = /** @type {HTMLInputElement} */ (radio);
      input.checked = input.value === told;
    }
  }

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    showPoints(job);
    showSwitch(job);
  });
})();
