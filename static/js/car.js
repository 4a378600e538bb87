/**
 * The car on a page that was kept without any: fills what has data-fill, and gives links and form
 * the job of the page's address. Tells other scripts by the event shopac:job, with the job's JSON;
 * on the job's own page once more when the shop server answers after it was away, and when it took
 * an entry of this job.
 */
"use strict";

(() => {
  const key = new URLSearchParams(location.search).get("job") || "";
  const places = [...document.querySelectorAll("[data-fill]")];
  const plate = places.find((place) => place.getAttribute("data-fill") === "plate");
  if (!plate || (plate.textContent?.trim() && !plate.hasAttribute("data-no-car"))) return; // the shop server filled it
  const WHICH = "Which job? Open it from Find.";
  const UNKNOWN = {
    no_such: "The shop server has no such job.",
    not_kept: "This job is not kept on this tablet: it keeps the newest 200 open jobs, as the shop server last told them.",
  };

  /** @param {any} job */
  function fill(job) {
    const words = {
      plate: job.plate,
      car: job.car,
      number: job.number || (job.unsent ? "not on the shop server yet" : "on the shop server"),
      loop: job.loop || "not known yet, this car is not on the shop server.",
      stage: job.stage_words || "Intake",
      state: job.state?.number ? `${job.state.what} (car state ${job.state.number})` : "As it came in",
    };
    for (const place of places) {
      const name = place.getAttribute("data-fill") || "";
      const said = words[/** @type {keyof typeof words} */ (name)];
      if (name in words && place.textContent !== said) place.textContent = said;
    }
    if (!document.title.startsWith(`${job.plate} `)) document.title = `${job.plate} · ${document.title}`;
    document.dispatchEvent(new CustomEvent("shopac:job", { detail: job }));
  }

  /** One sentence in the place of forms that would be about no car. @param {string} sentence */
  function sayInstead(sentence) {
    const main = document.querySelector("main");
    const line = document.createElement("p");
    line.className = "say";
    line.setAttribute("data-instead", "");
    line.textContent = sentence;
    main?.querySelector("[data-instead]")?.remove();
    main?.prepend(line);
    main?.classList.add("no-job");
    document.addEventListener("shopac:job", () => {
      line.remove();
      main?.classList.remove("no-job");
    });
  }

  /** A page kept for everybody says whose work it is before it is filled in. */
  async function sayWhoseWork() {
    const work = /** @type {HTMLElement | null} */ (document.querySelector("form[data-bay]"))?.dataset.bay;
    const role = (await window.shopac.server?.who())?.person.role;
    if (!work || !role || role === "technician" || role === "owner") return;
    const line = document.createElement("p");
    line.className = "need say";
    line.setAttribute("data-not-yours", "");
    line.textContent = `${work} the technicians’ work: the shop server refuses what the front desk records here.`;
    document.querySelector("main")?.prepend(line);
  }

  if (!key) return sayInstead(WHICH);
  sayWhoseWork();

  for (const link of document.querySelectorAll("a[data-to-job]")) {
    link.setAttribute("href", `${link.getAttribute("href")}?job=${encodeURIComponent(key)}`);
  }
  addEventListener("DOMContentLoaded", async () => {
    const job = await window.shopac.jobJson(key);
    const unknown = UNKNOWN[/** @type {keyof typeof UNKNOWN} */ (job.unknown)];
    if (unknown) sayInstead(unknown);
    else fill(job);
    behind = Boolean(unknown || job.kept || job.unsent);
    if (window.shopac.able && document.querySelector("[data-points]")) keepUp();
  });

  /** Whether what stands here is not the shop server's word of now. */
  let behind = false;
  let renewing = false;

  function keepUp() {
    const { server, outbox } = window.shopac;
    server.on((/** @type {boolean} */ there) => {
      if (there && behind) renew();
    });
    outbox.on((/** @type {any} */ news) => {
      if (news.about !== "outcome" || news.state !== "delivered" || news.entry.job !== key) return;
      behind = true;
      renew();
    });
    if (behind) server.first.then((/** @type {any} */ there) => there && renew());
  }

  /** In place, once no finger is on the glass; what the server does not tell stays as it is. */
  async function renew() {
    if (renewing) return;
    renewing = true;
    try {
      while (behind) {
        behind = false; // what arrives while this is asked for is asked for again
        const job = await window.shopac.jobJson(key);
        if (job.unknown || job.kept || job.unsent) {
          behind = true;
          return;
        }
        window.shopac.inPlace(() => fill(job));
      }
    } finally {
      renewing = false;
    }
  }
})();
