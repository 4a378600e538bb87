// What this tablet keeps that the shop server refused or gave back to its form: why, by whom, when.
// What can be done about it stands on the page of what is kept here.
"use strict";

(() => {
  const { able, element, outbox, words } = window.shopac;
  if (!able) return;

  async function show() {
    const needs = (await outbox.unsent()).filter((one) => ["refused", "returned"].includes(one.state));
    const list = document.querySelector("[data-refused]");
    list.replaceChildren(...needs.map(row));
    document.querySelector("[data-none]").hidden = needs.length > 0;
  }

  function row(item) {
    const made = element("li", "", "kept-item needs");
    const said = element("p");
    const why = item.why || Object.values(item.errors).flat().join(" ");
    const by = item.who ? `${item.who.person.name}, ` : "";
    said.append(words.strong(item.state === "refused" ? "Refused:" : "Not recorded:"), ` ${why}`);
    const told = (item.words || []).map((one) => `${one.question}: ${one.said}`).join(" · ");
    made.append(element("h3", item.title), said, element("p", told), element("p", `${by}${words.clock(item.typed_at)}`, "soft"));
    return made;
  }

  const again = () => show().catch(() => {}); // the page may be going away
  outbox.on(again);
  addEventListener("pageshow", again);
})();
