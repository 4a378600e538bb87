/**
 * The form of a test step: asks what follows from the answers, tells odd numbers when their field is
 * left, bars what the car's drive bars, and has the meaning worked out below the fields.
 *
 * The kind's description is in the page, so all but the meaning works without the shop server.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.step"));
  const meaning = document.getElementById("meaning");
  const kind = data("kind");
  const units = data("units");
  let system = data("system");
  const around = { ...data("around"), system, table: null };
  /** The shop's units: {usual unit: shown unit}, and back. @type {Record<string, string>} */
  let shownIn = around.shown || {};
  /** The car and its tests, once they are known. @type {any} */
  let carNow = { system, steps: [] };

  /** @param {string} id @returns {any} */
  function data(id) {
    return JSON.parse(document.getElementById(id)?.textContent || "{}");
  }

  /** @param {string} name @returns {HTMLInputElement[]} */
  const inputs = (name) => [...form.querySelectorAll(`input[name="${CSS.escape(name)}"]`)].map(
    (input) => /** @type {HTMLInputElement} */ (input),
  );
  /** @param {string} name */
  const partOf = (name) => form.querySelector(`[data-asked="${CSS.escape(name)}"]`);
  /** @param {string} name */
  const problemOf = (name) => form.querySelector(`[data-errors-for="${CSS.escape(name)}"]`);

  /** The answer tapped; none for a question that is not asked. @param {string} name */
  function tapped(name) {
    return inputs(name).find((input) => input.checked && !input.disabled)?.value || "";
  }

  /** Whether something is typed there. @param {string} name */
  const isFilled = (name) => Boolean(inputs(name)[0]?.value.trim());

  /** @param {{field: string, values: string[]}[]} conditions */
  const allHold = (conditions) => conditions.every((one) => one.values.includes(tapped(one.field)));

  // Questions that follow from others: what is not asked is hidden and not recorded.

  function showAsked() {
    for (const asked of kind.fields) {
      const part = partOf(asked.name);
      const shown = allHold(asked.when) && canBeSuch(asked.on);
      part?.toggleAttribute("hidden", !shown);
      part?.classList.toggle("later", Boolean(asked.after) && !isFilled(asked.after) && !isFilled(asked.name));
      for (const input of part?.querySelectorAll("input") || []) input.disabled = !shown;
      for (const answer of asked.answers || []) {
        const offered = shown && allHold(answer.when) && canBeSuch(answer.on);
        const input = inputs(asked.name).find((one) => one.value === answer.code);
        if (!input) continue;
        input.disabled = !offered;
        input.closest(".answer")?.toggleAttribute("hidden", shown && !offered);
      }
    }
    for (const heading of form.querySelectorAll(".group")) heading.toggleAttribute("hidden", !hasShown(heading));
    for (const gate of kind.gates) {
      const broken = allHold(gate.when) && !gate.passes.includes(tapped(gate.field)); // no answer is no pass
      form.querySelector(`[data-gate="${gate.code}"]`)?.toggleAttribute("hidden", !broken);
    }
  }

  /** Whether a question under the heading is shown. @param {Element} heading */
  function hasShown(heading) {
    for (let part = heading.nextElementSibling; part?.matches(".asked"); part = part.nextElementSibling) {
      if (!part.hasAttribute("hidden") && !part.matches(".later")) return true;
    }
    return false;
  }

  function setFine() {
    for (const [name, code] of Object.entries(kind.fine.taps)) {
      const input = inputs(name).find((one) => one.value === code);
      if (!input || (kind.fine.rest && tapped(name))) continue;
      input.checked = true;
      showAsked();
      input.dispatchEvent(new Event("change", { bubbles: true }));
    }
  }

  // Odd numbers.

  /**
   * The number in SI, and as it is shown; null where it cannot be read, which the shop server tells.
   * @param {any} asked @returns {{si: number, lastDigit: number, words: string} | null}
   */
  function read(asked) {
    const [typed, chosen] = [inputs(asked.name)[0].value, inputs(`${asked.name}_unit`)[0]?.value];
    try {
      const { number, unit } = window.shopac.splitNumber(typed);
      const meant = unit ? window.shopac.unitNamed(unit, [asked.unit, ...asked.others], units) : chosen || asked.unit;
      if (!meant) return null;
      const decimals = number.split(".")[1]?.length || 0;
      const words = window.shopac.withUnit(window.shopac.shown(number, decimals), meant);
      const factor = inSi(1, meant) - inSi(0, meant);
      return { si: inSi(number, meant), lastDigit: Number(`1e-${decimals}`) * factor, words };
    } catch (problem) {
      if (problem instanceof window.shopac.Unreadable) return null;
      throw problem;
    }
  }

  /** The unit a field begins with. @param {any} asked @returns {string} */
  const begins = (asked) => {
    const chosen = shownIn[asked.unit];
    return [asked.unit, ...asked.others].includes(chosen) ? chosen : asked.unit;
  };

  /** A kept page takes the units and the air that the job was kept with. What was typed stays.
   * @param {any} job */
  function takeSettings(job) {
    if (job.air) around.air = job.air;
    if (!job.units) return;
    const numbers = kind.fields.filter((/** @type {any} */ one) => one.type === "number");
    const before = numbers.map(begins);
    shownIn = job.units;
    numbers.forEach((/** @type {any} */ asked, /** @type {number} */ index) => {
      const unit = inputs(`${asked.name}_unit`)[0];
      if (!isFilled(asked.name) && unit.value === before[index]) unit.value = begins(asked);
      const hint = document.getElementById(`id_${asked.name}_helptext`);
      if (hint && begins(asked) !== before[index]) hint.textContent = hintOf(asked);
    });
  }

  /** What stands under a number's question, as diagnostics/forms/step.py has it. @param {any} asked */
  function hintOf(asked) {
    const unit = begins(asked);
    const others = [asked.unit, ...asked.others].filter((/** @type {string} */ one) => one !== unit);
    const ends = endsIn(spanOf(asked), asked, unit);
    const words = rangeWords(spanOf(asked), ends, asked, unit);
    return `${asked.hint} ${words}${others.map((/** @type {string} */ one) => `, ${one} too`).join("")}.`;
  }

  /** What a number can be, in the unit shown. @param {any} span @param {any} asked @param {string} unit */
  const endsIn = (span, asked, unit) =>
    [span.low, span.high].map((end) =>
      unit === asked.unit ? end : window.shopac.fromSi(inSi(end, asked.unit), unit, units),
    );

  /** @param {number | string} number @param {string} unit @returns {number} */
  const inSi = (number, unit) => window.shopac.toSi(number, unit, units);

  const spanOf = (/** @type {any} */ asked) =>
    asked.spans.find(holds)?.span || asked.span;

  /** @param {any} asked */
  function tellOdd(asked) {
    const problem = /** @type {HTMLElement} */ (problemOf(asked.name));
    const reading = read(asked);
    const span = spanOf(asked);
    const within = (/** @type {number} */ low, /** @type {number} */ high) =>
      Boolean(reading) && reading.si >= inSi(low, asked.unit) && reading.si <= inSi(high, asked.unit);
    const before = partOf(asked.name)?.querySelector(".odd-strip");
    before?.remove();
    if (!reading || within(span.low, span.high)) {
      if (!before) return; // what else is told there is the shop server's
      problem.textContent = "";
      const why = problemOf(`${asked.name}_why`);
      if (why) why.textContent = "";
      return;
    }
    problem.removeAttribute("data-mended");
    const sentence = within(span.least, span.most) ? span.outside : span.impossible;
    problem.textContent = `${sentence} ${kind.type_again}`;
    const below = reading.si < inSi(span.low, asked.unit);
    const beside = document.createElement("div");
    beside.className = "odd-strip";
    beside.append(drawRange(span, asked, reading.words, below), keepButton(asked.name, reading.words));
    problem.after(beside);
  }

  /** @param {string} name @param {string} words */
  function keepButton(name, words) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "button wide";
    button.textContent = `Keep ${words} and say why`;
    button.addEventListener("click", () => {
      const why = problemOf(`${name}_why`);
      if (why) why.textContent = kind.say_why; // the reason's field shows now, and the button goes
      inputs(`${name}_why`)[0].focus();
    });
    return button;
  }

  /** What it can be, a break, and the value past it: below at the left, else at the right. As
   * templates/diagnostics/_strip.html draws it.
   * @param {any} span @param {any} asked @param {string} words @param {boolean} below */
  function drawRange(span, asked, words, below) {
    const unit = begins(asked);
    const [low, high] = endsIn(span, asked, unit);
    const [start, end] = below ? [22, 96] : [4, 78];
    const at = (/** @type {number} */ value) => start + (74 * (value - low)) / (high - low);
    const past = (/** @type {number[]} */ places) => places.map((place) => (below ? 100 - place : place));
    const svg = made("svg", { class: "strip", role: "img", "aria-label": `${words}, off the scale` });
    const line = (/** @type {number[]} */ [x1, x2], /** @type {number[]} */ [y1, y2], looks = "axis") =>
      made("line", { class: looks, x1: `${x1}%`, x2: `${x2}%`, y1: `${y1}em`, y2: `${y2}em` });
    svg.append(
      made("rect", { class: "band", x: `${start}%`, y: "1.9em", width: "74%", height: "1em" }),
      line([start, start], [1.6, 2.9], "edge"),
      line([end, end], [1.6, 2.9], "edge"),
      line([start, end], [2.9, 2.9]),
      line(past([79, 81]), [3.5, 2.3]),
      line(past([83, 85]), [3.5, 2.3]),
      line(past([84, 100]), [2.9, 2.9]),
      label((start + end) / 2, 5.5, "middle", `can be ${rangeWords(span, [low, high], asked, unit)}`, "words"),
      made("circle", { class: "point", cx: `${past([97])}%`, cy: "2.4em", r: "0.36em" }),
      label(past([100])[0], 1.2, below ? "start" : "end", words, "said"),
    );
    for (const { value, said } of ticksOf(low, high)) svg.append(label(at(value), 4.2, "middle", said, "tick"));
    return svg;
  }

  /** Such as 0–16 V, or −40 to 150 °C; as Number.range_words has it.
   * @param {any} span @param {number[]} ends in the unit shown @param {any} asked @param {string} unit */
  function rangeWords(span, ends, asked, unit) {
    const written = [span.low, span.high].map((edge) => String(edge).split(".")[1]?.length || 0);
    let decimals = Math.abs(span.high) >= 10 ? 0 : Math.max(...written);
    const high = Math.abs(ends[1]);
    if (unit !== asked.unit) decimals = high >= 10 ? 0 : 1 - Math.floor(Math.log10(high));
    const [from, to] = ends.map((edge) => window.shopac.shown(edge, edge || unit === asked.unit ? decimals : 0));
    return window.shopac.withUnit(from + (from.startsWith("−") ? "\u00a0to\u00a0" : "–") + to, unit);
  }

  /** Whole steps from low to high, as diagnostics/evidence/strips.py has them.
   * @param {number} low @param {number} high */
  function ticksOf(low, high) {
    const size = 10 ** Math.floor(Math.log10((high - low) / 7));
    const step = size * ([1, 2, 4, 5].find((one) => (high - low) / (one * size) <= 7) || 10);
    const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    const first = Math.ceil(low / step - 1e-9);
    const count = Math.floor(high / step + 1e-9) - first + 1;
    return Array.from({ length: count }, (_, index) => {
      const value = (first + index) * step;
      return { value, said: window.shopac.shown(value, decimals) };
    });
  }

  /** @param {string} name @param {Record<string, string>} attributes */
  function made(name, attributes) {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    return element;
  }

  /** @param {number} x @param {number} y @param {string} anchor @param {string} words @param {string} looks */
  function label(x, y, anchor, words, looks) {
    const text = made("text", { class: looks, x: `${x}%`, y: `${y}em`, "text-anchor": anchor });
    text.textContent = words;
    return text;
  }

  // Numbers worked out from what is read, under their fields.

  function showWorkedOut() {
    /** @type {Record<string, any>} */
    const readings = {};
    for (const asked of kind.fields) {
      if (asked.type !== "number" || inputs(asked.name)[0]?.disabled) continue;
      const reading = read(asked);
      const { least, most } = spanOf(asked);
      const can = reading && reading.si >= inSi(least, asked.unit) && reading.si <= inSi(most, asked.unit);
      if (can) readings[asked.name] = reading;
    }
    for (const line of form.querySelectorAll(".worked-out")) line.remove();
    const wanted = kind.works_out
      .filter((/** @type {any} */ one) => allHold(one.when))
      .map((/** @type {any} */ one) => ({ ...one, unit: shownIn[one.unit] || one.unit }));
    for (const one of window.shopac.workedOut(wanted, readings, around, units)) {
      const line = document.createElement("p");
      line.className = "worked-out";
      line.textContent = `${one.words}: ${one.shown}`;
      partOf(one.about)?.append(line);
    }
  }

  /** Once the shop server answered: what it makes nothing of goes. */
  function dropUnmade() {
    showWorkedOut();
    const below = document.getElementById("meaning");
    if (!below?.querySelector(".finding")) return; // only circumstances so far
    const made = [...below.querySelectorAll("dt.live")].map(
      (words) => `${words.textContent}: ${words.nextElementSibling?.textContent}`,
    );
    for (const line of form.querySelectorAll(".worked-out")) {
      if (!made.includes(line.textContent || "")) line.remove();
    }
  }

  /** Without the server: what stood there was of fewer readings, or of none. */
  function sayWaits() {
    if (!kind.fields.some((/** @type {any} */ one) => tapped(one.name) || (one.type === "number" && isFilled(one.name)))) return;
    meaning?.replaceChildren(window.shopac.element("p", "Worked out when the server answers.", "soft"));
  }

  /** The saturation table of what is in the car; kept on this tablet with the page. */
  async function readTable() {
    const link = document.querySelector(`link[data-table="${CSS.escape(system.refrigerant || "")}"]`);
    around.table = null;
    if (link) around.table = await (await fetch(/** @type {HTMLLinkElement} */ (link).href)).json();
    showWorkedOut();
  }

  // The car.

  /** Whether nothing known of the car speaks against it. @param {Record<string, string[]>} when */
  const canBeSuch = (when) => window.shopac.canBeSuch(when, system);
  /** @param {{when: Record<string, string[]>}} rule */
  const holds = (rule) => window.shopac.isSuch(rule.when, system);

  /** @param {string} place @param {string} sentence */
  function sayAbove(place, sentence) {
    const block = /** @type {HTMLElement} */ (document.querySelector(`[data-${place}]`));
    block.hidden = !sentence;
    const words = block.querySelector("span");
    if (words) words.textContent = sentence;
  }

  const sentenceOf = (/** @type {{first: string}} */ order) => order.first;

  /** What was found by which it must not be run. @param {any[]} gates */
  function mustNotRun(gates) {
    return gates.filter((gate) => gate.bars_running).map((gate) => gate.run_words).join(" ");
  }

  /** What the drive bars, asks for and reminds of. */
  function showSystem() {
    const barred = kind.bars.find(holds)?.sentence || "";
    sayAbove("barred", barred);
    const first = [kind.asks_first.find(holds)?.sentence];
    const open = kind.orders.filter((/** @type {any} */ order) => kind.waits && !window.shopac.isKept(order, carNow));
    first.push(...open.map(sentenceOf));
    sayAbove("first", barred ? "" : first.filter(Boolean).join(" "));
    if (carNow.gates && kind.runs) sayAbove("found", mustNotRun(carNow.gates));
    const holder = document.querySelector("[data-form-holder]");
    holder?.toggleAttribute("open", !barred);
    holder?.querySelector("summary")?.toggleAttribute("hidden", !barred);
    const list = /** @type {HTMLElement} */ (document.querySelector("[data-remarks]"));
    const sentences = kind.remarks.filter(holds).map((/** @type {any} */ rule) => rule.sentence);
    list.hidden = !sentences.length;
    list.replaceChildren(
      ...sentences.map((/** @type {string} */ sentence) => {
        const line = document.createElement("li");
        line.textContent = sentence;
        return line;
      }),
    );
  }

  document.addEventListener("shopac:job", (event) => {
    const job = /** @type {CustomEvent} */ (event).detail;
    system = around.system = job.system;
    readTable();
    carNow = job;
    takeSettings(job);
    showSystem();
    const open = job.points?.some((/** @type {any} */ point) => point.code === "consent");
    document.querySelector("[data-no-consent]")?.toggleAttribute("hidden", !open);
    const place = /** @type {HTMLElement} */ (document.getElementById("meaning"));
    place.setAttribute("data-hx-get", `${place.dataset.meaning}?job=${encodeURIComponent(job.key)}`);
    window.htmx.process(place);
    changed();
  });

  function changed() {
    showAsked();
    showWorkedOut();
    if (!meaning?.hasAttribute("data-hx-get")) sayWaits(); // nobody is asked before the job is known
    form.dispatchEvent(new CustomEvent("shopac:read"));
  }

  form.addEventListener("input", changed);
  form.addEventListener("change", (event) => {
    const name = /** @type {HTMLInputElement} */ (event.target).name;
    const asked = kind.fields.find((/** @type {any} */ one) => one.name === name);
    if (asked?.type === "number") window.shopac.afterTap(() => tellOdd(asked));
    changed();
  });
  form.addEventListener("shopac:restored", () => {
    for (const asked of kind.fields) if (asked.type === "number") tellOdd(asked);
    changed();
  });
  meaning?.addEventListener("htmx:afterSwap", dropUnmade);
  for (const failed of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) meaning?.addEventListener(failed, sayWaits);
  const fine = /** @type {HTMLElement | null} */ (form.querySelector("[data-fine]"));
  fine?.removeAttribute("hidden");
  fine?.addEventListener("click", setFine);
  showAsked();
  document.querySelector(".meaning")?.setAttribute("data-script", ""); // the numbers stand above
  readTable();
})();
