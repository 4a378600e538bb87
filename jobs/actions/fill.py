"""Filling rows with what is told later: empty answers leave what is there, changes are told."""

from collections.abc import Mapping
from typing import Any

from jobs.actions.conflicts import STALE, TOLD, Held
from jobs.actions.follows import look_for_earlier
from jobs.actions.job import address
from jobs.actions.refold import refold
from jobs.models import Entry, Job, Vehicle
from jobs.models.said import EMPTY, SAID, with_beside
from jobs.told import NOT_KNOWN, Mark, Showing


def fill_job(
    entry: Entry,
    job: Job,
    parts: Mapping[str, Mapping[str, Any]],
    showing: Showing,
    marks: list[Mark],
) -> dict[str, Any]:
    """Fill a job's rows: {"customer", "car", "system" or "job": {column: value}}.

    What the form showed and nobody touched is not written. Where a row was changed by somebody else
    since the form was opened the row stands, and a mark asks which is right.
    """
    car = job.vehicle
    rows = {"customer": job.customer, "car": car, "system": car.system, "job": job}
    held = Held.of(entry, job, showing)
    settles = held.settles()  # before the rows change
    asked: dict[str, Mark | None] = {}
    changed = []
    for part, values in parts.items():
        asked |= held.conflicts(rows[part], held.pick(values, STALE))
        changed += fill(rows[part], held.pick(values, TOLD))
    entry.marks = [*entry.marks, *marks, *changed, *filter(None, asked.values())]
    refold_car(car)
    if "car" in parts:
        look_for_earlier(job)
    return {"url": address(job), "stale": sorted(asked), "settles": settles}


def refold_car(car: Vehicle) -> None:
    """Bring what a car's jobs are found by up to date."""
    refold(Job.objects.filter(vehicle=car).select_related("customer", "vehicle"))


def fill(row: Any, values: Mapping[str, Any]) -> list[Mark]:
    """Write what is told and new; the marks of what stood there before."""
    told = {name: value for name, value in values.items() if value not in EMPTY}
    for name, value in told.items():
        if isinstance(value, dict):
            merged = {**getattr(row, name), **value}
            told[name] = {key: one for key, one in merged.items() if one is not NOT_KNOWN}
        elif value is NOT_KNOWN:
            told[name] = getattr(type(row)(), name)  # as in a row about which nothing was told
    new = {name: value for name, value in told.items() if value != getattr(row, name)}
    if "vin" in new:  # the remark about a VIN goes with it, an empty one too
        new["vin_mark"] = values["vin_mark"]
    found = changes(row, new)
    for name, value in new.items():
        setattr(row, name, value)
    row.save(update_fields=list(new))
    return found


def changes(row: Any, new: Mapping[str, Any]) -> list[Mark]:
    """What stood in a row that is about to become new."""
    stood = dict(vars(row))
    names = [name for name in new if name in SAID]
    if "odometer_unit" in new and "odometer" not in new:
        names.append("odometer")
    answered = stood.get("complaint_answers", {})
    answers = new.get("complaint_answers", answered)
    names += [name for name in {**answered, **answers} if answered.get(name) != answers.get(name)]
    stood |= answered
    new = {**dict.fromkeys(answered), **answers, **new}
    return [
        {
            "code": "emptied" if new.get(name, 1) in EMPTY else "changed",
            "field": name,
            "stood": with_beside(name, stood),
        }
        for name in names
        if stood.get(name) not in EMPTY
    ]
