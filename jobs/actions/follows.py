"""Writing which earlier job's trouble is back."""

from typing import Any

from jobs.actions.job import address, job_of
from jobs.known import known_car, may_be
from jobs.models import Entry, Job
from jobs.models.jobs import NEW_HERE
from jobs.told import Before

COMEBACK = "comeback"


def tell_follows(entry: Entry, told: Before) -> dict[str, Any]:
    """What was said of earlier visits later than at intake; the last word stands."""
    job = job_of(entry)
    follow(job, told)
    return {"url": address(job)}


def look_for_earlier(job: Job) -> None:
    """Note whether the car is new here, at intake and when plate or VIN are told anew."""
    if job.follows_told not in ("", NEW_HERE):
        return
    new = "" if known_car(job.vehicle.plate, job.vehicle.vin, job.key) else NEW_HERE
    if new != job.follows_told:
        job.follows_told = new
        job.save(update_fields=["follows_told"])


def follow(job: Job, told: Before) -> None:
    """Let a job follow the earlier one where that is a comeback of the same car.

    A job follows none after it.
    """
    earlier = None
    if told.job and told.told == COMEBACK:
        rows = Job.objects.select_related("vehicle")
        earlier = rows.filter(key=told.job, pk__lt=job.pk).first()
        car = job.vehicle
        if (
            earlier
            and earlier.vehicle_id != car.pk
            and not may_be(earlier.vehicle, car.plate, car.vin)
        ):
            earlier = None
    job.follows = earlier
    job.follows_told = told.told if earlier or told.told != COMEBACK else ""
    job.save(update_fields=["follows", "follows_told"])
