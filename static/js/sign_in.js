// The keys for a PIN, as large as a glove. Without this script the field brings up the tablet's own
// number keys; with a keyboard the keys stay out of the tab order.
"use strict";

const KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "clear", "0", "del"];
const LONGEST = 8;

function press(field, key) {
  if (key === "clear") {
    field.value = "";
  } else if (key === "del") {
    field.value = field.value.slice(0, -1);
  } else if (field.value.length < LONGEST) {
    field.value += key;
  }
}

for (const pad of document.querySelectorAll("[data-pin-pad]")) {
  const field = pad.closest("form").querySelector("input[data-pin]");
  for (const key of KEYS) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "button";
    button.textContent = key;
    button.tabIndex = -1;
    button.addEventListener("click", () => press(field, key));
    pad.append(button);
  }
  // Our own keys are on the page: the tablet's would only cover them.
  if (window.matchMedia("(pointer: coarse)").matches) {
    field.inputMode = "none";
  } else {
    field.focus(); // with a keyboard the PIN is typed right after the name was tapped
  }
  pad.hidden = false;
}
