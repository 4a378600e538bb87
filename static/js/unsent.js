// The list of what is kept on this tablet: each entry with how far it has come, and what a person
// can do with it. Nothing leaves the list but by the shop server's answer or a reason.
"use strict";

(() => {
  const shop = window.shopac;
  if (!shop.able) return;
  const { outbox, sender, store } = shop;
  const { goes, clock, strong } = shop.words;
  const SHOWN_DELIVERED = 20;
  const find = (name, inside = document) => inside.querySelector(`[data-${name}]`);
  const sending = new Set();
  const save = async (items) => (await shop.load("saved"))(items);

  let drawn = Promise.resolve();

  /** One after another: two at once would each add the row of the same entry. */
  function show() {
    drawn = drawn.then(draw, draw);
    return drawn;
  }

  async function draw() {
    const [items, all, delivered, reached, revoked] = await Promise.all([
      outbox.unsent(),
      store.all("items"),
      store.all("delivered"),
      store.get("about", "reached"),
      store.get("about", "revoked"),
    ]);
    const known = [...all, ...delivered];
    const photos = items.reduce((sum, item) => sum + item.photos.length, 0);
    find("count").textContent = `${counted(items.length, "entry", "entries")}, ${counted(photos, "photo", "photos")}`;
    find("reached").textContent = reached ? `server last reached ${clock(reached)}` : "";
    find("nothing").hidden = items.length > 0;
    find("send").hidden = Boolean(revoked) || !canGo(items);
    find("save-all").hidden = !all.length;
    find("revoked").hidden = !revoked;
    find("revoked").textContent = revoked || "";
    await showItems(items, all, known);
    await showDelivered(delivered, known);
  }

  const needsSomebody = (item) => item.state === "returned" || item.state === "refused";

  /** Whether anything can be sent: what waits for a person holds its own car's entries. */
  function canGo(items) {
    const first = new Map();
    for (const item of items) if (!first.has(item.lane)) first.set(item.lane, item);
    return [...first.values()].some((item) => !needsSomebody(item));
  }

  function counted(number, one, many) {
    return `${number} ${number === 1 ? one : many}`;
  }

  /** Rows are kept as they are while their entry is: somebody may be typing a reason in one. */
  async function showItems(items, all, known) {
    const list = find("unsent");
    const rows = new Map([...list.children].map((row) => [row.dataset.key, row]));
    const blocked = new Set();
    for (const item of items) {
      const row = rows.get(item.key) || newRow(item);
      rows.delete(item.key);
      find("what", row).textContent = await title(item, known);
      row.className = `kept-item ${item.state === "kept" ? "kept" : "needs"}`;
      find("state", row).replaceChildren(...stateWords(item, blocked.has(item.lane)));
      showDiscarding(row, item, all);
      if (needsSomebody(item)) blocked.add(item.lane);
      const open = find("open", row);
      open.hidden = item.state !== "returned";
      open.href = item.address;
      const signIn = find("sign-in", row);
      signIn.hidden = item.state !== "sign_in" || item.said === "revoked";
      signIn.href = `${document.getElementById("kept").dataset.signIn}?next=${encodeURIComponent(location.pathname)}`;
      if (row.parentNode !== list) list.append(row);
    }
    for (const gone of rows.values()) gone.remove();
  }

  /** An entry and what corrects it: alone the correction would have nothing to correct. */
  function withCorrections(item, all) {
    const found = [item];
    for (const one of found) found.push(...all.filter((other) => other.corrects === one.key));
    return found;
  }

  /** What goes with it, and what could not go out any more. */
  function showDiscarding(row, item, all) {
    const together = withCorrections(item, all);
    const both = together.length > 1;
    const going = new Set(together.map((one) => one.key));
    const resting = all.filter((one) => one.job === item.key && one.kind !== "discard" && !going.has(one.key));
    const said = [];
    if (both) said.push("What corrects it is kept here too and is discarded with it.");
    if (resting.length) {
      const rest = `${counted(resting.length, "entry rests", "entries rest")} on this one`;
      const unless = item.attempts ? ", unless it has this one already" : "";
      said.push(`${rest}. Without it the shop server takes none of them${unless}: they stay here until they are discarded too.`);
    }
    find("rests", row).textContent = said.join(" ");
    find("rests", row).hidden = !said.length;
    find("discard", row).textContent = both ? "Discard both: say why" : "Discard: say why";
    find("discarding", row).querySelector("[type=submit]").textContent = both ? "Discard both" : "Discard it";
  }

  function newRow(item) {
    const row = document.getElementById("kept-item").content.firstElementChild.cloneNode(true);
    row.dataset.key = item.key;
    const looked = find("looked", row);
    const discarding = find("discarding", row);
    find("look", row).addEventListener("click", () => {
      looked.hidden = !looked.hidden;
      looked.replaceChildren(...(looked.hidden ? [] : [asTyped(item)]));
    });
    find("save", row).addEventListener("click", () => save([item]));
    find("discard", row).addEventListener("click", () => {
      discarding.hidden = !discarding.hidden;
      discarding.elements.reason.focus();
    });
    discarding.addEventListener("submit", async (event) => {
      event.preventDefault();
      const reason = discarding.elements.reason.value.trim();
      const who = reason && (await shop.server.who());
      const missing = who ? "" : "Sign in first: who discards something is kept with it.";
      find("no-reason", row).textContent = reason ? missing : "Say in a few words why it is discarded.";
      if (who) outbox.discard(withCorrections(item, await store.all("items")), reason).then(sender.sendNow);
    });
    return row;
  }

  /** Which car, which form. */
  async function title(item, known) {
    const job = item.job && (await store.get("jobs", item.job));
    const intake = known.find((one) => one.kind === "intake" && one.key === item.job);
    const plate = job?.plate || intake?.fields.plate?.[0] || "";
    const form = item.title === plate ? item.words?.[0]?.question : item.title;
    return [plate, form, item.corrects && "correction"].filter(Boolean).join(", ") || "Entry";
  }

  /** What is wrong, each sentence behind its question. */
  function toMend(item) {
    return Object.entries(item.errors).map(([name, sentences]) => {
      const asked = item.words?.find((one) => one.name === name)?.question;
      return asked ? `${asked.replace(/\?$/, "")}: ${sentences.join(" ")}` : sentences.join(" ");
    }).join(" ");
  }

  /** @param behind whether an entry of its lane waits for a person before it */
  function stateWords(item, behind) {
    const at = clock(item.typed_at);
    const kept = strong("Kept on this tablet");
    const by = item.who ? ` ${item.who.person.name}.` : "";
    if (item.state === "returned") {
      const needed = "Open the form again, mend that and record it.";
      return [strong("Not recorded:"), ` ${toMend(item)} All is kept as typed, ${at}.${by} ${needed}`];
    }
    if (item.state === "refused") {
      const needed = "It does not go out as it is: look at it, save it to a file, or discard it and say why.";
      return [strong("Refused:"), ` ${item.why} Kept as typed, ${at}.${by} ${needed}`];
    }
    if (item.said === "revoked") return [kept, `, ${at}.${by} ${item.why}`];
    if (item.state === "sign_in") return [strong("Needs a sign-in"), ` to be sent. ${item.why} Kept, ${at}.${by}`];
    if (behind) return [kept, `, ${at}.${by} Goes out after the entry of the same car that needs you.`];
    if (item.again) return [kept, `, ${at}.${by} The shop server had it, ${clock(item.again)}, and has it no more. It is sent again by itself. ${item.why}`];
    if (sending.has(item.key)) return [kept, `, ${at}.${by} Sending…`];
    const tried = item.attempts ? ` Tried ${counted(item.attempts, "time", "times")}. ${item.why}` : "";
    return [kept, `, ${at}.${by} ${goes(item.who)}${tried}`];
  }

  async function showDelivered(delivered, known) {
    const newest = delivered.sort((one, other) => other.at - one.at).slice(0, SHOWN_DELIVERED);
    const rows = await Promise.all(
      newest.map(async (entry) => {
        const row = document.createElement("li");
        row.className = "kept-item sent";
        const what = document.createElement("p");
        what.textContent = await title(entry, known);
        const state = document.createElement("p");
        state.append(strong("On the shop server"), `, ${clock(entry.at)}.`);
        row.append(what, state);
        return row;
      }),
    );
    find("delivered").hidden = rows.length === 0;
    find("delivered").querySelector("ul").replaceChildren(...rows);
  }

  /** An entry that came without words (a discarded one) has its fields' names. */
  function told(item) {
    const named = ([name, values]) => ({ question: name.replaceAll("_", " "), said: values.join(", ") });
    return item.words || Object.entries(item.fields).map(named);
  }

  /** As typed, in the form's own words, and how many photos. */
  function asTyped(item) {
    const list = document.createElement("dl");
    list.className = "facts";
    const photos = item.photos.map((photo) => photo.name || "photo");
    for (const { question, said } of [...told(item), { question: "Photos", said: photos.join(", ") }]) {
      if (!said) continue;
      const term = document.createElement("dt");
      term.textContent = question;
      const value = document.createElement("dd");
      value.dir = "auto";
      value.textContent = said;
      list.append(term, value);
    }
    return list;
  }

  /** Whether the browser may throw away what is kept when the tablet runs short of room. */
  async function showRoom() {
    const lasting = await navigator.storage?.persist?.();
    const kept = lasting
      ? "This browser keeps what is listed here until it is sent."
      : "This browser may clear what is kept when the tablet runs short of room: send soon, and do not clear its data.";
    find("room").textContent = `${kept} All that is kept here, sent and unsent: ${megabytes(await shop.keptBytes())}, by its own count.`;
    const { photos, bytes, most } = await (await shop.load("ring")).size();
    find("ring").textContent =
      "What is on the shop server stays here for 14 days, so that a restored server gets it back. "
      + `Photos of it: ${photos}, ${megabytes(bytes)}; beyond ${megabytes(most)}, or where an entry needs the room, the oldest photos go.`;
  }

  function megabytes(bytes) {
    return bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
  }

  const again = () => show().catch(() => {}); // the page may be going away
  outbox.on((news) => {
    if (news.about === "sending") sending.add(news.key);
    if (news.about === "outcome") sending.delete(news.key);
    again();
  });
  find("send").addEventListener("click", async (event) => {
    event.currentTarget.setAttribute("aria-busy", "true");
    await sender.sendNow();
    find("send").removeAttribute("aria-busy");
    again();
  });
  find("save-all").addEventListener("click", async () => save(await store.all("items")));
  addEventListener("pageshow", again);
  setTimeout(again, 1000);
  showRoom();
})();
