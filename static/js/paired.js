// Asks this browser, one by one, for what it takes to go on without the shop server, and says in
// plain words which part is missing.
"use strict";

const CLOCK_MS = 5 * 60 * 1000;
const PATIENCE_MS = 15000;
const NOT_TRUSTED =
  "This browser does not trust the shop’s certificate: the page was opened past a warning, and so nothing is kept on this tablet. Do the steps of the pairing page.";

async function checkWorker() {
  if (!window.isSecureContext) {
    show("certificate", "wrong", "This page did not come over a secure connection.");
    show("worker", "wrong", "A browser keeps pages over a secure connection only.");
    return;
  }
  if (!navigator.serviceWorker) {
    show("certificate", "asked", "Cannot be told in this browser.");
    show("worker", "wrong", "This browser keeps no pages: a private window, or a browser too old. Open the shop in an ordinary window of a current one; on an iPad in Safari.");
    return;
  }
  try {
    await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    show("certificate", "well", "Trusted.");
  } catch (error) {
    const trust = error.name === "SecurityError";
    show("certificate", trust ? "wrong" : "asked", trust ? NOT_TRUSTED : "Cannot be told now.");
    const why = trust ? "Not before the certificate is trusted." : `They could not be kept just now (${error.message}). Check again.`;
    show("worker", "wrong", why);
    return;
  }
  const late = new Promise((done) => setTimeout(done, PATIENCE_MS));
  const ready = await Promise.race([navigator.serviceWorker.ready, late]);
  if (ready) show("worker", "well", "This browser keeps the pages.");
  else show("worker", "wrong", "The pages are not kept yet. Leave this page open for a minute, then check again.");
}

/** Writes something and reads it back. */
function tryDatabase() {
  return new Promise((done, fail) => {
    const asked = indexedDB.open("paired", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("tried");
    asked.onerror = () => fail(asked.error);
    asked.onsuccess = () => {
      const writing = asked.result.transaction("tried", "readwrite");
      writing.objectStore("tried").put(new ArrayBuffer(1000), 1);
      writing.onabort = () => fail(writing.error);
      writing.oncomplete = () => {
        asked.result.close();
        indexedDB.deleteDatabase("paired");
        done();
      };
    };
  });
}

async function checkStorage() {
  if (!navigator.locks || !window.crypto?.subtle) {
    show("storage", "wrong", "This browser is too old to keep entries safely. Bring it up to date.");
    return;
  }
  try {
    await tryDatabase();
    show("storage", "well", "Something was written to this tablet just now.");
  } catch (error) {
    const full = error?.name === "QuotaExceededError";
    show("storage", "wrong", full ? "There is no room left on this tablet." : "This browser lets nothing be written: a private window, or its settings forbid it.");
  }
}

async function checkPersistent() {
  const storage = navigator.storage;
  if (!storage?.persist) {
    show("persistent", "wrong", "This browser does not say. Put the shop on the home screen.");
    return;
  }
  if ((await storage.persisted()) || (await storage.persist())) {
    show("persistent", "well", "The browser promised not to throw entries away by itself.");
  } else {
    show("persistent", "wrong", "The browser promised nothing: it might throw away what is not sent when this tablet is full. Put the shop on the home screen (the browser’s menu, Install or Add to home screen), then check again.");
  }
}

async function checkClock() {
  try {
    const asked = { cache: "no-store", signal: AbortSignal.timeout(PATIENCE_MS) };
    const told = await (await fetch("/ping/", asked)).json();
    const off = Math.abs(Date.now() - Date.parse(told.time));
    if (off <= CLOCK_MS) show("clock", "well", "Agrees with the shop server’s.");
    else show("clock", "wrong", `${Math.round(off / 60000)} minutes off the shop server’s. Set it right (Settings, Date and time, automatic).`);
  } catch {
    show("clock", "asked", "Cannot be told: the shop server does not answer.");
  }
}

for (const line of document.querySelectorAll("[data-check]")) {
  show(line.dataset.check, "asked", "Being checked …");
}
checkWorker();
checkStorage();
checkPersistent();
checkClock();
