// What a check of the two pages of pairing found, in its line; over plain HTTP and over HTTPS.
"use strict";

/** @param {string} check @param {string} state @param {string} words */
function show(check, state, words) {
  const line = document.querySelector(`[data-check="${check}"]`);
  line.dataset.state = state;
  let found = line.querySelector(".found");
  if (!found) {
    found = document.createElement("span");
    found.className = "found";
    line.append(found);
  }
  found.textContent = words;
}
