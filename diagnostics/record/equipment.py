"""The parts of a record about instruments: what each step was read with, and what those are."""

from collections.abc import Sequence

from diagnostics.assess import Assessed, readings_of
from diagnostics.instruments import ReadWith, names_none
from diagnostics.physics.quantities import QUANTITIES
from diagnostics.physics.unit_table import SI, UNITS
from diagnostics.record.words import numbers
from jobs.models import Equipment
from jobs.paper import frozen_people as frozen

USUAL = (
    "Findings are worked out with the usual accuracy of such instruments, not with what these"
    " state."
)
NONE_NAMED = "No step of this job names an instrument."


def read_with_of(one: Assessed) -> list[frozen.ReadWith]:
    """What a step was read with, one line a quantity."""
    return [
        {
            "quantity": used.quantity,
            "name": used.words,
            "instrument": str(used.thing.key),
            "text": used.line,
        }
        for used in one.read_with
    ]


def equipment_of(steps: Sequence[Assessed]) -> frozen.Equipment:
    """Every instrument that a standing step names, in the order in which they were first used."""
    standing = [one for one in steps if not one.step.superseded_by_id]
    used: dict[int, list[tuple[int, ReadWith]]] = {}
    for one in standing:
        for told in one.read_with:
            used.setdefault(told.thing.pk, []).append((one.step.number, told))
    none = [
        one.step.number for one in standing if names_none(one.step, one.kind, readings_of(one.step))
    ]
    text = [USUAL] if used else []
    if used and none:
        text.append(f"Read, and the instrument not named: {steps_words(none)}.")
    return {
        "instruments": [instrument_of(told) for told in used.values()],
        "not_named": none,
        "text": " ".join(text) or NONE_NAMED,
    }


def steps_words(of: Sequence[int]) -> str:
    """Step 3; steps 1, 2."""
    return f"step{'' if len(of) == 1 else 's'} {numbers(of)}"


def instrument_of(used: Sequence[tuple[int, ReadWith]]) -> frozen.Instrument:
    """One instrument with the steps that name it."""
    last = max((told for _, told in used), key=lambda told: told.day)
    thing, check = last.thing, last.thing.check_on(last.day)
    return {
        "key": str(thing.key),
        "name": thing.name,
        "kind": thing.kind,
        "plate": ", ".join(filter(None, (thing.kind_words, thing.plate_words))),
        "standard": thing.standard,
        "accuracy": [accuracy_of(thing, quantity) for quantity in thing.reads_known],
        "check": last.check,
        "checked_on": check.checked_on.isoformat() if check else None,
        "until": check.until.isoformat() if check and check.until else None,
        "steps": sorted({number for number, _ in used}),
    }


def accuracy_of(thing: Equipment, quantity: str) -> frozen.Accuracy:
    """How far it may be off in one quantity."""
    told, asked = thing.stated(quantity), QUANTITIES[quantity]
    return {
        "quantity": quantity,
        "text": f"{asked.words}: {thing.accuracy_of(quantity)}",
        "share": told.share if told else None,
        "fixed": told.fixed if told else None,
        "si_unit": SI[UNITS[asked.units[0]].quantity] if asked.units else "",
    }
