"""Readings at the coil as a technician would type them, and what comes of them."""

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Number
from diagnostics.evidence.findings import Meaning, Strip
from diagnostics.evidence.readings import Reading, parse
from diagnostics.evidence.system import System

SPECIFIED: System = {
    "drive": "belt_clutch",
    "voltage": "12",
    "coil_ohm": 3.6,
    "coil_ohm_tolerance": 0.05,
    "coil_ohm_source": "workshop data",
}
GENERAL: System = {"drive": "belt_clutch", "voltage": "12"}


KIND = KINDS["coil_power"]
GOOD = {"ground": "good", "volts": "12.38", "amps": "3.05", "temperature": "48", "magnet": "yes"}
HOLDS = GOOD | {"holds": "yes", "lets_go": "yes"}


def readings(**typed: str) -> dict[str, Reading | str]:
    """Each text read as the form reads it; presets stand where nothing is typed."""
    read: dict[str, Reading | str] = {one.name: one.preset for one in KIND.choices if one.preset}
    for name, text in typed.items():
        asked = KIND.asked(name)
        assert asked is not None, name
        read[name] = text
        if text and isinstance(asked, Number):
            read[name] = parse(text, asked.units, asked.unit)
    return {name: told for name, told in read.items() if told != ""}


def meaning(system: System = SPECIFIED, /, **typed: str) -> Meaning:
    """What the readings show on such a system."""
    return KIND.meaning(readings(**typed), Circumstances(system))


def code(system: System = SPECIFIED, /, **typed: str) -> str:
    """The outcome's code."""
    return meaning(system, **typed).outcome.code


def standing(result: Meaning, words: str) -> str:
    """The standing of the mark whose subject starts with these words."""
    found = [mark.standing for mark in result.outcome.marks if mark.subject.startswith(words)]
    assert len(found) == 1, result.outcome.marks
    return found[0]


def all_words(result: Meaning) -> list[str]:
    """Every text of a meaning."""
    outcome = result.outcome
    marks = [text for mark in outcome.marks for text in (mark.subject, mark.sentence)]
    return [
        result.lead,
        outcome.sentence,
        result.band,
        *marks,
        *outcome.not_tested,
        *result.notes,
        *result.onward,
    ]


def drawn(result: Meaning) -> Strip:
    """The strip of a meaning that has one."""
    assert result.strip is not None
    return result.strip


def band(result: Meaning) -> tuple[float, float]:
    """The band expected."""
    expected = drawn(result).expected
    assert expected is not None
    return expected


def number(name: str) -> Number:
    """The field of that name, which takes a number."""
    asked = KIND.asked(name)
    assert isinstance(asked, Number)
    return asked
