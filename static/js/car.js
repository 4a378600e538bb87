/**
 * The car on a page that was kept without any: fills what has data-fill, and gives links and form
 * the job of the page's address. Tells other scripts by the event shopac:job, with the job's JSON.
 */
"use strict";

(() => {
  const key = new URLSearchParams(location.search).get("job") || "";
  const places = [...document.querySelectorAll("[data-fill]")];
  const plate = places.find((place) => place.getAttribute("data-fill") === "plate");
  if (!plate || plate.textContent?.trim()) return; // the shop server filled it
  const WHICH = "Which job? Open it from Find.";
  const UNKNOWN = {
    no_such: "The shop server has no such job.",
    not_kept: "This job is not kept on this tablet.",
  };

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

  /** One sentence in the place of forms that would be about no car. @param {string} sentence */
  function sayInstead(sentence) {
    const main = document.querySelector("main");
    const line = document.createElement("p");
    line.className = "say";
    line.setAttribute("data-instead", "");
    line.textContent = sentence;
    main?.prepend(line);
    main?.classList.add("no-job");
    document.addEventListener("shopac:job", () => {
      line.remove();
      main?.classList.remove("no-job");
    });
  }

  if (!key) return sayInstead(WHICH);

  for (const link of document.querySelectorAll("a[data-to-job]")) {
    link.setAttribute("href", `${link.getAttribute("href")}?job=${encodeURIComponent(key)}`);
  }
  addEventListener("DOMContentLoaded", async () => {
    const job = await window.shopac.jobJson(key);
    const unknown = UNKNOWN[/** @type {keyof typeof UNKNOWN} */ (job.unknown)];
    if (unknown) sayInstead(unknown);
    else fill(job);
  });
})();
