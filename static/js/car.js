/**
 * The car on a page that was kept without any: fills what has data-fill, and gives links and form
 * the job of the page's address. Tells other scripts by the event shopac:job, with the job's JSON.
 */
"use strict";

(() => {
  const key = new URLSearchParams(location.search).get("job") || "";
  const places = [...document.querySelectorAll("[data-fill]")];
  const plate = places.find((place) => place.getAttribute("data-fill") === "plate");
  if (!plate || plate.textContent?.trim() || !key) return; // the shop server filled it

  /** @param {any} job */
  function fill(job) {
    const words = {
      plate: job.plate,
      car: job.car,
      number: job.number || "not on the shop server yet",
      loop: job.loop || "not looked at yet",
      stage: job.stage_words || "Intake",
      state: job.state?.number ? `${job.state.what} (car state ${job.state.number})` : "As it came in",
    };
    for (const place of places) {
      const name = place.getAttribute("data-fill") || "";
      if (name in words) place.textContent = words[/** @type {keyof typeof words} */ (name)];
    }
    document.title = `${job.plate} · ${document.title}`;
    document.dispatchEvent(new CustomEvent("shopac:job", { detail: job }));
  }

  function sayUnknown() {
    const line = document.createElement("p");
    line.className = "say need";
    line.textContent = "This tablet keeps nothing of this job, and the shop server does not tell.";
    document.querySelector("main")?.prepend(line);
  }

  for (const link of document.querySelectorAll("a[data-to-job]")) {
    link.setAttribute("href", `${link.getAttribute("href")}?job=${encodeURIComponent(key)}`);
  }
  addEventListener("DOMContentLoaded", async () => {
    const job = await window.shopac.jobJson(key);
    if (job) fill(job);
    else sayUnknown();
  });
})();
