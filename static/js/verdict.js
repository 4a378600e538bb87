/**
 * The verdict kept without a car: the last that the shop server told, of when it is, and what was
 * recorded on this tablet since and is not weighed yet.
 */
"use strict";

(() => {
  const { element } = window.shopac;

  /** @param {string} name @param {Element[]} rows */
  function fill(name, rows) {
    const section = document.querySelector(`[data-${name}]`);
    section?.querySelector("ul")?.replaceChildren(...rows);
    section?.toggleAttribute("hidden", !rows.length);
  }

  /** @param {any} question */
  function questionRow(question) {
    const row = element("li", "", "row");
    const value = element("span", "", "value");
    const settled = question.parts.filter((/** @type {any} */ one) => one.standing !== "open");
    for (const part of [question, ...(question.standing === "open" ? settled : [])]) {
      const line = element("p", "", "in-a-line");
      const words = part === question ? part.said : `${part.words}: ${part.said}`;
      line.append(window.shopac.standingMark(part.standing), element("span", words));
      value.append(line);
    }
    row.append(element("span", question.name, "name"), value);
    return row;
  }

  /** @param {any} job */
  async function show(job) {
    const { notWeighed, asOf, words } = window.shopac;
    const since = await notWeighed(job);
    const { verdict } = job;
    window.shopac.inPlace(() => {
      const said = document.querySelector("[data-verdict-said]");
      if (said) said.textContent = verdict ? asOf(job) : "";
      document.querySelector("[data-verdict-none]")?.toggleAttribute("hidden", Boolean(verdict));
      const lines = [...(verdict?.plain || []), ...(verdict?.odd || [])];
      fill("plain", lines.map((one) => element("li", one)));
      fill("verdict-questions", (verdict?.questions || []).map(questionRow));
      fill("verdict-since", since.map((/** @type {any} */ one) => element("li", `${one.title}, ${words.clock(one.typed_at)}`)));
      const next = document.querySelector("[data-verdict-next]");
      const line = next?.querySelector("p");
      if (line) line.textContent = `${job.next?.said || ""}.`;
      next?.toggleAttribute("hidden", !job.next || since.length > 0);
    });
  }

  window.shopac.onJob(show);
})();
