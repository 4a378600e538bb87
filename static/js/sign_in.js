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

// Without the server: a name is picked, which proves nothing. Whoever was signed in is so no more, and
// what is recorded from now on waits for the PIN of who was picked.
const { able, element, store, words } = window.shopac;
const asked = new URLSearchParams(location.search);

function onward() {
  const next = asked.get("next") || "";
  return /^\/(?![/\\])/.test(next) ? next : "/board/";
}

async function pick(person) {
  await store.write(["about"], async (at) => {
    const here = await store.value(at("about").get("who"));
    if (here?.person.key === person.key) return;
    if (here?.since) at("about").put(here.since, "left");
    at("about").delete("who");
    at("about").put({ person, pass: "", tablet: "", claimed: Date.now() }, "claimed");
  });
  const { claimed, person: now } = await window.shopac.server.asNow();
  const said = element("p", "", "said kept");
  const how = claimed
    ? `, name not confirmed. What is recorded here now waits for the PIN of ${now.name}. `
    : " is signed in here as before. ";
  said.append(words.strong(now.name), how, words.link(onward(), "Go on", "button"));
  document.querySelector("[data-picked]").replaceChildren(said);
}

async function offerNames(place) {
  const people = (await store.get("about", "people")) || [];
  place.replaceChildren(...people.map((person) => words.button(person.name, () => pick(person))));
  document.querySelector("[data-nobody]").hidden = people.length > 0;
}

/** Before a PIN is typed: what it confirms besides. */
async function tellClaimed(place) {
  const person = asked.get("person");
  const mine = (one) => !one.who || (one.who.claimed && one.who.person.key === person);
  const found = (await store.all("items")).filter(mine);
  if (!found.length) return;
  const lines = element("ul", "", "lines");
  lines.append(...found.map((one) => element("li", `${one.title}, ${words.clock(one.typed_at)}`)));
  const said = element("div", "", "said needs");
  said.append(
    words.strong("Your PIN confirms these too."),
    " They were recorded here under your name, or under none, while the server was away. If one is not yours, discard it first: ",
    words.link("/unsent/", "Kept on this tablet"),
    lines,
  );
  place.replaceChildren(said);
}

for (const [name, show] of [["pick", offerNames], ["confirms", tellClaimed]]) {
  const place = document.querySelector(`[data-${name}]`);
  if (able && place) show(place).catch(() => {});
}
