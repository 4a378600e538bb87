/**
 * Find from anywhere: the key "/" opens Find, or puts the caret into its field, unless somebody types.
 * Who comes by that key or by the word in the header finds the caret there.
 */
"use strict";

(() => {
  const field = /** @type {HTMLInputElement | null} */ (document.querySelector("form.find #words"));

  function toField() {
    field?.focus();
    field?.select();
  }

  /** @param {EventTarget | null} place */
  function typesIn(place) {
    return place instanceof Element && Boolean(place.closest("input, textarea, select, [contenteditable]"));
  }

  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.defaultPrevented || typesIn(event.target)) return;
    const link = /** @type {HTMLAnchorElement | null} */ (document.querySelector("a[data-to-find]"));
    if (!field && !link) return;
    event.preventDefault();
    if (field) toField();
    else if (link) location.assign(link.href);
  });
  if (field && location.hash === "#words") toField();
})();
