"""The part of a record about refrigerant and oil: balance, work on the loop, moves."""

from collections.abc import Iterator
from typing import Any, Literal

from django import forms

from diagnostics.physics.shown_units import ShownIn
from diagnostics.record.words import done_times, in_parts, iso
from jobs.balance import Balance
from jobs.balance_told import heading, rows, sentences
from jobs.forms.charge import ChargeForm
from jobs.forms.evacuation import EvacuationForm
from jobs.forms.loop_work import CylinderTap
from jobs.forms.machine_cycle import MachineCycleForm
from jobs.forms.oil import OilForm
from jobs.forms.recovery import RecoveryForm
from jobs.models import Entry, Job, LoopWork
from jobs.models.amounts import WORKS
from jobs.models.balances import balance_of_job, oil_of_job, oil_told
from jobs.models.evacuations import details, number
from jobs.models.first_told import first_told
from jobs.models.loop_works import works_of
from jobs.models.oil_works import OilBalance, OilRow
from jobs.paper import frozen_amounts as frozen

NONE = "No refrigerant was moved in this job, as far as is noted."
FORMS: dict[str, type[forms.Form]] = {
    "recovery": RecoveryForm,
    "charge": ChargeForm,
    "machine_cycle": MachineCycleForm,
    "oil": OilForm,
    "evacuation": EvacuationForm,
}
NOT_PRINTED = ("mistake", "corrected_why", "why_asked", "is_done", "note", "cylinder_named")


def amounts(job: Job, units: ShownIn) -> frozen.Amounts:
    """All of it; `job` comes with its car's system."""
    balance, oil = balance_of_job(job), oil_of_job(job)
    unit = units.unit("g")
    first = balance.cycles[0] if balance.cycles else None
    missing = balance.missing
    told = oil_told(oil, units)
    works = list(works_of(job))
    told_first = first_told(works)
    return {
        "text": in_parts(heading(balance, unit)) if balance.cycles else NONE,
        "rows": [row_of(one) for one in rows(balance, unit)],
        "says": [in_parts(one) for one in sentences(balance, unit)],
        "label_mg": balance.label,
        "recovered_mg": sum(one.recovered for one in balance.cycles) if first else None,
        "remainder_mg": first.remainder if first else None,
        "missing_least_mg": missing.least if missing else None,
        "charged_mg": charged(balance),
        "oil": [*oil_rows(oil, units)],
        "oil_says": list(told.get("says", ())),
        "works": [work_of(one, told_first[one.pk]) for one in works],
        "moves": moves(job),
    }


def charged(balance: Balance) -> int | None:
    """What the last charge put into the car; None: none was."""
    last = balance.cycles[-1] if balance.cycles else None
    return last.into_car if last and last.charged_at else None


def row_of(row: Any) -> frozen.GramsRow:
    """A line of the drawing."""
    return {
        "code": row.code,
        "text": row.words,
        "amount": row.number,
        "start": row.start,
        "end": row.end,
        "looks": row.looks,
        "group": row.group,
        "strong": row.strong,
    }


def oil_rows(oil: OilBalance, units: ShownIn) -> Iterator[frozen.OilRow]:
    """The oil, side by side."""
    sides: dict[Literal["out", "into", "aside"], tuple[OilRow, ...]]
    sides = {"out": oil.out, "into": oil.into, "aside": oil.aside}
    for side, listed in sides.items():
        for one in listed:
            yield {
                "side": side,
                "text": one.words,
                "amount": units.text(one.amount * 1e-9, "mL"),
                "microliters": one.amount,
                "measured": one.measured,
                "entry": str(one.work.key),
            }


def work_of(work: LoopWork, first: Entry) -> frozen.Work:
    """One piece of work, superseded or not, that was told `first` by that entry."""
    read = list(readings(work))
    note = str(work.told.get("note", ""))
    new = [one for one in read if one["text"] not in work.words]
    shown = details(work.told) if work.what == "evacuation" else [line(one) for one in new]
    lines = shown if work.what == "evacuation" or not note else [*shown, note]
    return {
        "key": str(work.key),
        "what": work.what,
        "text": in_parts(f"{WORKS[work.what]}: entered by mistake" if work.mistake else work.words),
        "lines": [in_parts(one) for one in lines],
        "readings": read,
        "state": work.state.number if work.state else None,
        "counts": not work.superseded_by_id and not work.mistake,
        "by": work.entry.author.name,
        "author": str(work.entry.author.key),
        **done_times(work.entry, first),
    }


def line(one: frozen.Reading) -> str:
    """One reading in a line."""
    gap = " " if one["name"].endswith("?") else ": "
    return f"{one['name']}{gap}{one['text']}"


def readings(work: LoopWork) -> Iterator[frozen.Reading]:
    """What its form asks and was told, in the form's order."""
    for name, field in FORMS[work.what].base_fields.items():
        told = work.told.get(name)
        if told in (None, "", []) or name in NOT_PRINTED or isinstance(field, CylinderTap):
            continue
        text = text_of(work, name, field)
        if text:
            number_told = isinstance(told, dict)
            yield {
                "field": name,
                "name": str(field.label),
                "text": in_parts(text),
                "typed": str(told["typed"]) if number_told else "",
                "unit": str(told["unit"]) if number_told else "",
                "si": told["si"] if number_told and not told.get("unused") else None,
                "code": told if not number_told and hasattr(field, "choices") else None,
            }


def text_of(work: LoopWork, name: str, field: forms.Field) -> str:
    """One answer in words."""
    told = work.told[name]
    if isinstance(told, dict):
        return number(work.told, name)
    choices = dict(getattr(field, "choices", ()))
    return str(choices.get(told, told))


def moves(job: Job) -> list[frozen.Moved]:
    """Every move of the job, what was taken back included."""
    around = ("entry", "from_cylinder", "to_cylinder", "undoes", "undone_by")
    return [
        {
            "entry": str(one.entry.key),
            "substance": one.substance,
            "gas": one.gas,
            "amount": one.amount,
            "from_place": one.from_place,
            "from_cylinder": named(one.from_cylinder),
            "to_place": one.to_place,
            "to_cylinder": named(one.to_cylinder),
            "undone": bool(one.undoes_id) or hasattr(one, "undone_by"),
            "at": iso(one.happened_at),
        }
        for one in job.moves.select_related(*around)
    ]


def named(cylinder: Any) -> str | None:
    """A cylinder's name; None: no cylinder, or one that is not entered."""
    return cylinder.name if cylinder else None
