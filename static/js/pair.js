// Which part of the pairing is missing on this tablet, in plain words. This page is plain HTTP, so it
// can ask for the clock, the name and the certificate; what the browser can keep is asked by the
// page "paired", over the secure connection.
"use strict";

const TOLD = document.body.dataset;
const PATIENCE_MS = 8000;
const CLOCK_MS = 5 * 60 * 1000;
const DAY_MS = 24 * 3600 * 1000;

/** Fetches, and says how it failed: "silent" when nothing came in time, else "failed". */
async function ask(address, options) {
  try {
    const stop = AbortSignal.timeout(PATIENCE_MS);
    return { answer: await fetch(address, { cache: "no-store", signal: stop, ...options }) };
  } catch (error) {
    return { failed: error.name === "TimeoutError" ? "silent" : "failed" };
  }
}

async function json(address) {
  const { answer } = await ask(address);
  try {
    return answer?.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}

function span(ms) {
  const days = Math.round(ms / DAY_MS);
  if (days >= 2) return `${days} days`;
  const minutes = Math.round(ms / 60000);
  return minutes >= 120 ? `${Math.round(minutes / 60)} hours` : `${minutes} minutes`;
}

/** @returns {boolean} whether the certificate can be good at all at the time this tablet has */
function checkClock(about) {
  const off = Date.now() - about.time;
  const valid = Date.now() > about.begins && Date.now() < about.ends;
  if (Math.abs(off) <= CLOCK_MS) {
    show("clock", "well", "The tablet’s clock agrees with the shop server’s.");
    return true;
  }
  const how = `The tablet’s clock is ${span(Math.abs(off))} ${off > 0 ? "ahead of" : "behind"} the shop server’s.`;
  const rest = valid
    ? "Entries are put in order all the same; set it right (Settings, Date and time, automatic)."
    : "The certificate is not good at the time this tablet has. Set it right (Settings, Date and time, automatic), then check again.";
  show("clock", "wrong", `${how} ${rest}`);
  return valid;
}

async function checkCertificate(about, clockAllows) {
  const secure = await ask(`${TOLD.address}ping/`, { mode: "no-cors" });
  if (secure.answer) {
    show("name", "well", `${TOLD.name} leads to the shop server.`);
    show("certificate", "well", "This tablet trusts the shop’s certificate.");
    return true;
  }
  const named = await json(TOLD.byName);
  if (named?.authority !== about.authority) {
    const other = named ? "leads to another server" : "leads nowhere";
    show("name", "wrong", `${TOLD.name} ${other} on this tablet. The shop’s router has to know this name and give the shop server’s address for it, and the tablet has to ask the router (private or own name servers off). The owner finds the ways in README.md, “On the shop’s network”.`);
    show("certificate", "asked", "Cannot be told before the name leads to the shop server.");
    return false;
  }
  show("name", "well", `${TOLD.name} leads to the shop server.`);
  if (secure.failed === "silent") {
    show("certificate", "wrong", `Nothing answers at ${TOLD.address} although the server is there: its firewall may keep that port shut.`);
  } else if (clockAllows) {
    show("certificate", "wrong", "This tablet does not trust the shop’s certificate. Do steps 2 to 4; on an iPad its switch under Certificate Trust Settings is easily forgotten; on Windows close the browser once.");
  } else {
    show("certificate", "wrong", "Not believed at the time this tablet has: set the clock right first.");
  }
  return false;
}

async function check() {
  for (const one of ["clock", "name", "certificate"]) show(one, "asked", "Being checked …");
  const ready = document.querySelector("[data-ready]");
  ready.hidden = true;
  const about = await json("/about.json");
  if (!about) {
    show("clock", "asked", "Cannot be told: the shop server does not answer.");
    show("name", "wrong", "The shop server does not answer. Is this tablet still in the shop’s Wi-Fi, and is the server on?");
    show("certificate", "asked", "Cannot be told before the shop server answers.");
    return;
  }
  const done = await checkCertificate(about, checkClock(about));
  ready.hidden = !done;
  // One filled bar a page: the thing to do next.
  document.querySelector("[data-file]").className = done ? "button" : "bar";
}

document.querySelector("[data-again]").addEventListener("click", check);
check();
