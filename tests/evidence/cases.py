"""Readings at the coil as a technician would type them, and what comes of them."""

from diagnostics.evidence.fields import Number
from diagnostics.evidence.findings import Meaning, Strip
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, words_of

__all__ = ["all_words", "standing"]
SPECIFIED: System = {
    "drive": "belt_clutch",
    "voltage": "12",
    "coil_ohm": 3.6,
    "coil_ohm_source": "workshop data",
}
GENERAL: System = {"drive": "belt_clutch", "voltage": "12"}
COIL = Trial("coil_power")
KIND = COIL.kind
GOOD = {"ground": "good", "volts": "12.38", "amps": "3.05", "temperature": "48", "magnet": "yes"}
HOLDS = GOOD | {"holds": "yes", "lets_go": "yes"}
readings, all_words = COIL.readings, words_of


def meaning(system: System = SPECIFIED, /, **typed: str) -> Meaning:
    """What the readings show, on a car whose coil's figure is known unless told otherwise."""
    return COIL.meaning(system, **typed)


def code(system: System = SPECIFIED, /, **typed: str) -> str:
    """The outcome's code."""
    return meaning(system, **typed).outcome.code


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
