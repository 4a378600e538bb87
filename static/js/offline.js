// The cars a tablet can go on with while the shop server is away: the open jobs as kept ahead, and
// cars taken in here that the server has not heard of.
"use strict";

(async () => {
  const list = document.querySelector("[data-cars]");
  const jobs = await window.shopac.jobsKept();
  for (const job of jobs) {
    const row = document.createElement("li");
    row.className = "row";
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
    row.append(plate, car, when);
    list.append(row);
  }
  document.querySelector("[data-no-cars]").hidden = jobs.length > 0;
})();
