"""Columns in words: the one name each has on pages, in sentences and on paper, and its values."""

from collections.abc import Mapping
from typing import Any

from diagnostics.physics.units import with_unit
from jobs import ledger
from jobs.models.jobs import shown_odometer
from jobs.models.vehicles import (
    BRANCHES,
    CHARGE_SOURCES,
    CLUTCHES,
    DISPLACEMENTS,
    DRIVES,
    EXPANSIONS,
    REFRIGERANTS,
    SWITCHED_SIDES,
    VOLTAGES,
    shown_mm,
    shown_ohm,
)
from jobs.models.wordings import PAYERS, SINCE, WARM_WHEN, YES_NO, words

EMPTY: tuple[object, ...] = ("", None, [], {})
NOBODY_KNOWS = "not known"

# What stands on forms beside these is the question that asks for the value.
SAID = {
    "name": "Name",
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
    "drive": "Compressor drive",
    "clutch": "Magnetic clutch",
    "displacement": "Displacement",
    "expansion": "Expansion device",
    "voltage": "System voltage",
    "switched_side": "Switched side",
    "refrigerant": "Refrigerant",
    "label_charge_mg": "Label charge",
    "branches": "Branches",
    "coil_milliohm": "Clutch coil",
    "gap_low_um": "Air gap, smallest allowed",
    "gap_high_um": "Air gap, largest allowed",
    "label_charge_source": "Label charge read from",
    "coil_milliohm_source": "Clutch coil’s figure read from",
    "gap_source": "Air gap’s limits read from",
}
# What is asked back at the counter, in its order.
ASKED = (
    "since",
    "warm_when",
    "topped_up",
    "topped_up_with",
    "accident",
    "other_work",
    "other_work_what",
)
AFTER_YES = ("topped_up_with", "other_work_what")
# What tells a person: not to be handed to somebody else, so a paper says only that it changed.
PERSONAL = ("name", "phone", "address")
TABLES = {
    "payer": PAYERS,
    "since": SINCE,
    "warm_when": WARM_WHEN,
    "topped_up": YES_NO,
    "accident": YES_NO,
    "other_work": YES_NO,
    "drive": DRIVES,
    "clutch": CLUTCHES,
    "displacement": DISPLACEMENTS,
    "expansion": EXPANSIONS,
    "voltage": VOLTAGES,
    "switched_side": SWITCHED_SIDES,
    "refrigerant": REFRIGERANTS,
    "branches": BRANCHES,
    "label_charge_source": CHARGE_SOURCES,
    "coil_milliohm_source": CHARGE_SOURCES,
    "gap_source": CHARGE_SOURCES,
}


# What belongs to a column's value: a figure without its unit cannot be said.
BESIDE = {"odometer": ("odometer_unit",)}


def with_beside(name: str, values: Mapping[str, Any]) -> dict[str, Any]:
    """A column's value as it is kept in a mark, with what it takes to say it."""
    return {one: values.get(one, "") for one in (name, *BESIDE.get(name, ()))}


def as_said(name: str, values: Mapping[str, Any]) -> str:
    """The value of one column among `values` ({column: value}) in words."""
    value = values[name]
    if name == "label_charge_mg":
        return ledger.both(value)
    if name == "coil_milliohm":
        return with_unit(shown_ohm(value), "Ω")
    if name in ("gap_low_um", "gap_high_um"):
        return with_unit(shown_mm(value), "mm")
    if name == "odometer":
        return shown_odometer(value, str(values.get("odometer_unit", "")))
    listed = value if isinstance(value, list) else [value]
    return ", ".join(words(TABLES.get(name, {}), str(one)) for one in listed)


def kept_as_typed(sentence: str, why: str) -> str:
    """What is odd about a value that stays, with the reason where one was given."""
    return f"{sentence} Kept as typed: {why}" if why else sentence


def in_a_line(name: str) -> str:
    """A name inside a sentence: no question mark, no capital, but VIN stays VIN."""
    name = name.rstrip("?")
    return name if name[1:2].isupper() else name[:1].lower() + name[1:]


def answered(answers: Mapping[str, Any]) -> dict[str, str]:
    """What was answered at the counter, in words by its column."""
    return {name: as_said(name, answers) for name in ASKED if answers.get(name) not in EMPTY}


def in_words(name: str, values: Mapping[str, Any]) -> str:
    """A column among values in words, an empty one too."""
    return NOBODY_KNOWS if values.get(name) in EMPTY else as_said(name, values)


def answers_in(values: Mapping[str, Any]) -> dict[str, Any]:
    """A row's values with what lies in its complaint_answers and sources as columns of their own.

    Where a figure was read is called as the figure with `_source` behind.
    """
    flat = dict(values)
    flat |= flat.pop("complaint_answers", {})
    sources = flat.pop("sources", {})
    return flat | {f"{figure}_source": code for figure, code in sources.items()}
