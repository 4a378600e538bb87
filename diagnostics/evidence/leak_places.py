"""The places of a loop where a leak is searched, and what was told of each. Common practice."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnostics.evidence.fields import Answer, Choice
from diagnostics.evidence.orders import BELT
from diagnostics.evidence.system import System, SystemIs, can_be_such

ANSWERS = (
    Answer("found", "Found"),
    Answer("clean", "Clean"),
    Answer("no_reach", "Out of reach"),
)
PLACE_FOUND = ("found", "found_again")  # outcomes of a search that found a place
# Name, what it is called, and on which systems it is there.
_PLACES: tuple[tuple[str, str, SystemIs], ...] = (
    ("nose", "Compressor’s nose, shaft seal", {"drive": BELT}),
    ("body", "Compressor’s body and bolts", {}),
    ("ports_block", "Hose block at the compressor", {}),
    ("suction", "Suction hose and its crimps", {}),
    ("discharge", "Discharge hose and its crimps", {}),
    ("condenser", "Condenser’s face and ends", {}),
    ("condenser_joints", "Condenser’s joints", {}),
    ("drier", "Drier or accumulator", {}),
    ("lines", "Lines and their holders", {}),
    ("expansion", "Expansion device’s joints", {}),
    ("evaporator", "Evaporator, at its drain or vent", {}),
    ("low_port", "Low side’s service port", {}),
    ("high_port", "High side’s service port", {}),
    ("switch", "Pressure switch or sensor", {}),
    ("rear", "Rear unit and its lines", {"branches": ("rear",)}),
    ("battery", "Battery chiller and its lines", {"branches": ("battery",)}),
)
PLACES = tuple(
    Choice(
        name, words, "", ANSWERS, on=on, compact=True, group="" if index else "Places, one by one"
    )
    for index, (name, words, on) in enumerate(_PLACES)
)


@dataclass(frozen=True)
class Searched:
    """The places by what was told of them, in words."""

    found: tuple[str, ...]
    clean: tuple[str, ...]
    no_reach: tuple[str, ...]
    untold: tuple[str, ...]

    @property
    def whole(self) -> bool:
        """Whether every place that such a car has was searched."""
        return not (self.no_reach or self.untold)


def searched(told: Mapping[str, str], system: System) -> Searched:
    """What was told of each place; one that such a car does not have is not among the untold."""

    def those(answer: str) -> tuple[str, ...]:
        return tuple(one.question for one in PLACES if told.get(one.name) == answer)

    untold = tuple(
        one.question for one in PLACES if one.name not in told and can_be_such(one.on, system)
    )
    return Searched(those("found"), those("clean"), those("no_reach"), untold)


def in_words(places: tuple[str, ...]) -> str:
    """Several places in one line."""
    return "; ".join(places)
