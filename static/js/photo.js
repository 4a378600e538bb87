/**
 * Photos about to be recorded: several cameras' worth in one entry, each shown small and taken out
 * again by a tap. The two buttons pick; what was picked is held by one field of the form, which the
 * scripts of static/offline/ read, keep and put back.
 */
"use strict";

(() => {
  const form = /** @type {HTMLFormElement} */ (document.querySelector("form.ask"));
  const pickers = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll("[data-picker]")]);
  const list = /** @type {HTMLElement} */ (form.querySelector("[data-taken]"));
  const work = /** @type {HTMLElement} */ (form.querySelector("[data-at-work]"));
  const held = document.createElement("input");
  Object.assign(held, { type: "file", name: "photo", multiple: true, hidden: true });
  list.before(held);
  for (const picker of pickers) {
    picker.removeAttribute("name");
    picker.setAttribute("form", "picked"); // of no form: it is emptied again as soon as it was used
    picker.addEventListener("change", () => {
      const picked = [...(picker.files || [])];
      picker.value = "";
      hold([...(held.files || []), ...picked]);
    });
  }

  /** @param {File[]} files */
  function hold(files) {
    const all = new DataTransfer();
    for (const file of files) all.items.add(file);
    held.files = all.files;
    show();
    held.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function show() {
    const files = [...(held.files || [])];
    for (const image of list.querySelectorAll("img")) URL.revokeObjectURL(image.src);
    list.replaceChildren(...files.map((file, at) => shown(file, at, files)));
  }

  /** @param {File} file @param {number} at @param {File[]} files */
  function shown(file, at, files) {
    const line = document.createElement("li");
    const image = document.createElement("img");
    image.alt = `Photo ${at + 1}`;
    image.src = URL.createObjectURL(file);
    const remove = document.createElement("button");
    Object.assign(remove, { type: "button", className: "button", textContent: `Remove ${at + 1}` });
    remove.addEventListener("click", () => {
      hold(files.filter((one) => one !== file));
      const next = /** @type {HTMLElement} */ (list.querySelectorAll("button")[at] || pickers[0]);
      next.focus();
    });
    line.append(image, remove);
    return line;
  }

  document.addEventListener("shopac:shrinking", (event) => {
    const { at, of, all } = /** @type {CustomEvent} */ (event).detail;
    work.textContent = all ? "" : `Made smaller for sending: at work on ${at} of ${of}.`;
  });
  form.addEventListener("shopac:restored", show);
  form.addEventListener("reset", () => setTimeout(show));

  // A page kept without a car shows every place; those that this car has not go.
  document.addEventListener("shopac:job", (event) => {
    const { drive = "", branches = [] } = /** @type {CustomEvent} */ (event).detail.system || {};
    const none = {
      clutch: ["belt_clutchless", "electric_hv", "electric_48"].includes(drive),
      high_voltage: ["belt_clutch", "belt_clutchless"].includes(drive),
      rear: branches.length > 0 && !branches.includes("rear"),
      battery: branches.length > 0 && !branches.includes("battery"),
    };
    for (const [code, gone] of Object.entries(none)) {
      document.getElementById(`id_place_${code}`)?.closest("label")?.toggleAttribute("hidden", gone);
    }
  });
  show();
})();
