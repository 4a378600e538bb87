// The cars a tablet can go on with while the shop server is away: the open jobs as kept ahead, and
// cars taken in here that the server has not heard of; on Find, those with the words that are typed.
"use strict";

(async () => {
  const list = document.querySelector("[data-cars]");
  const typed = document.getElementById("words");
  const jobs = await window.shopac.jobsKept();
  const plain = (text) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

  function row(job) {
    const made = document.createElement("li");
    made.className = "row";
    const plate = document.createElement("a");
    plate.className = "list-plate whole";
    plate.href = `/job/?job=${job.key}`;
    plate.textContent = job.plate;
    const car = document.createElement("span");
    car.className = "value";
    car.textContent = job.car;
    const when = document.createElement("span");
    when.className = "soft";
    const clock = window.shopac.words.clock(job.as_of);
    when.textContent = job.untold ? `taken in here, ${clock}` : `as of ${clock}`;
    made.append(plate, car, when);
    return made;
  }

  function show() {
    const words = (typed?.value || "").split(/\s+/).map(plain);
    const has = (job) => words.every((word) => [job.plate, job.car, job.number].map(plain).some((text) => text.includes(word)));
    const found = jobs.filter(has);
    list.replaceChildren(...found.map(row));
    document.querySelector("[data-no-cars]").hidden = found.length > 0;
  }

  if (typed) {
    typed.value = new URLSearchParams(location.search).get("words") || typed.value;
    typed.addEventListener("input", show);
  }
  show();
})();
