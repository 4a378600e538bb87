"""Filling rows with what is told later: empty answers leave what is there, changes are told."""

from collections.abc import Mapping
from typing import Any

from django.urls import reverse

from diagnostics.physics.units import with_unit
from jobs import ledger
from jobs.actions.refold import refold
from jobs.models import Entry, Job, Vehicle
from jobs.models.vehicles import (
    BRANCHES,
    DISPLACEMENTS,
    DRIVES,
    REFRIGERANTS,
    SWITCHED_SIDES,
    VOLTAGES,
    shown_ohm,
)
from jobs.models.wordings import PAYERS, SINCE, WARM_WHEN, YES_NO, words
from jobs.told import NOT_KNOWN

EMPTY: tuple[object, ...] = ("", None, [], {})


def address(job: Job) -> str:
    """The job's page."""
    return f"{reverse('job')}?job={job.key}"


def job_of(entry: Entry) -> Job:
    """The job an entry speaks of, with car, customer and system. Its form looked for it."""
    rows = Job.objects.select_related("customer", "vehicle__system")
    return rows.get(key=entry.job_key)  # type: ignore[misc]


def fill_job(
    entry: Entry, parts: Mapping[str, Mapping[str, Any]], marks: list[str]
) -> dict[str, Any]:
    """Fill the rows of an entry's job: {"customer", "car", "system" or "job": {column: value}}."""
    job = job_of(entry)
    car = job.vehicle
    rows = {"customer": job.customer, "car": car, "system": car.system, "job": job}
    changed = [said for part, values in parts.items() for said in fill(rows[part], values)]
    entry.marks = [*entry.marks, *marks, *changed]
    refold_car(car)
    return {"url": address(job), "remarks": changed}


def refold_car(car: Vehicle) -> None:
    """Bring what a car's jobs are found by up to date."""
    refold(Job.objects.filter(vehicle=car).select_related("customer", "vehicle"))


def fill(row: Any, values: Mapping[str, Any]) -> list[str]:
    """Write what is told and new; the sentences about what stood there before."""
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
    before = {name: getattr(row, name) for name in new if name in SAID}
    answered = dict(getattr(row, "complaint_answers", {}))
    for name, value in new.items():
        setattr(row, name, value)
    row.save(update_fields=list(new))
    before |= {
        name: answered[name]
        for name, value in told.get("complaint_answers", {}).items()
        if name in answered and answered[name] != value
    }
    return [
        f"{SAID[name]} {'not known' if told.get(name, 1) in EMPTY else 'changed'};"
        f" before: {as_said(name, old)}."
        for name, old in before.items()
        if old not in EMPTY
    ]


SAID = {
    "name": "Customer",
    "phone": "Phone",
    "plate": "Plate",
    "vin": "VIN",
    "make_model": "Make and model",
    "model_year": "Model year",
    "odometer": "Odometer",
    "complaint": "Complaint",
    "payer": "Who pays",
    "since": "Since when",
    "warm_when": "When it blows warm",
    "topped_up": "Topped up before",
    "topped_up_with": "Topped up with what",
    "accident": "Accident or repair at the front",
    "other_work": "Other work before it began",
    "other_work_what": "What other work was done",
    "drive": "Drive",
    "displacement": "Displacement",
    "voltage": "Voltage",
    "switched_side": "Switched side",
    "refrigerant": "Refrigerant",
    "label_charge_mg": "Label charge",
    "branches": "Branches",
    "coil_milliohm": "Clutch coil",
}
TABLES = {
    "payer": PAYERS,
    "since": SINCE,
    "warm_when": WARM_WHEN,
    "topped_up": YES_NO,
    "accident": YES_NO,
    "other_work": YES_NO,
    "drive": DRIVES,
    "displacement": DISPLACEMENTS,
    "voltage": VOLTAGES,
    "switched_side": SWITCHED_SIDES,
    "refrigerant": REFRIGERANTS,
    "branches": BRANCHES,
}


def as_said(name: str, value: Any) -> str:
    """A column's value in words."""
    if name == "label_charge_mg":
        return ledger.both(value)
    if name == "coil_milliohm":
        return with_unit(shown_ohm(value), "Ω")
    values = value if isinstance(value, list) else [value]
    return ", ".join(words(TABLES.get(name, {}), str(one)) for one in values)
