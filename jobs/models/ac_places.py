"""The places on a car's A/C at which a photo can be filed, and where each stands in the drawing.

Codes in the database, words here. The drawing is the car seen from above, front on top: columns a
to d from its left to its right, rows from the front to the back; on a narrow screen column a goes
below the others. Which places a car has depends on its system; of what nobody has noted all that
may be there are shown.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from jobs.models.vehicles import WITH_HIGH_VOLTAGE

BELT = ("", "belt_clutch", "belt_electric")
CLASS_48 = "electric_48"
ELECTRIC = ("", CLASS_48, *WITH_HIGH_VOLTAGE)
REAR, BATTERY = "rear", "battery"
# What of one another's place in the drawing changes by the expansion device.
VALVE, ORIFICE = "valve", "orifice"


class Fitted(Protocol):
    """What the drawing asks of a system. An empty text: nobody looked yet."""

    drive: str
    branches: list[str]
    expansion: str


@dataclass(frozen=True)
class ACPlace:
    """A place: code, words, where in the drawing, and what it also covers in other lists.

    `covers` are codes of places under which test steps tell of the same spot.
    """

    code: str
    words: str
    column: str
    row: int
    covers: tuple[str, ...] = ()


PLACES = (
    ACPlace("fan", "Con\u00addenser fan", "b", 1),
    ACPlace("condenser", "Con\u00addenser", "c", 1, ("condenser_joints",)),
    ACPlace("drier", "Drier or accumu\u00adlator", "d", 1, ("filter",)),
    ACPlace("clutch", "Clutch and belt", "b", 2, ("nose",)),
    ACPlace("compressor", "Com\u00adpressor", "c", 2, ("body", "ports_block", "port")),
    ACPlace("high_line", "Line, high side", "d", 2, ("discharge", "switch", "lines")),
    ACPlace("low_port", "Port, low side", "b", 3),
    ACPlace("low_line", "Line, low side", "c", 3, ("suction", "hose")),
    ACPlace("high_port", "Port, high side", "d", 3),
    ACPlace("vents", "Dash vents", "b", 4),
    ACPlace("evaporator", "Evapo\u00adrator", "c", 4),
    ACPlace("expansion", "Expan\u00adsion device", "d", 4),
    ACPlace("label", "Label under the hood", "a", 1),
    ACPlace("fuse_box", "Relay and fuse box", "a", 2),
    ACPlace("high_voltage", "High-voltage or 48\u00a0V unit", "a", 3),
    ACPlace("dash", "Odo\u00admeter, lamps", "a", 4),
    ACPlace(REAR, "Rear unit", "c", 5),
    ACPlace(BATTERY, "Battery chiller", "d", 5),
)
SOFT_HYPHEN = "\u00ad"  # where a long word may break on a phone
# Beside the drawing: they are no part of the A/C.
OUTSIDE = ACPlace("outside", "Car, outside", "", 0)
ELSEWHERE = ACPlace("elsewhere", "Somewhere else", "", 0)
BESIDE = (OUTSIDE, ELSEWHERE)
WORDS: dict[str, str] = {one.code: one.words.replace(SOFT_HYPHEN, "") for one in (*PLACES, *BESIDE)}
NOT_FILED = "Not filed at a place"

# What feeds the compressor, where its drive is noted.
_FEEDS: Mapping[str, ACPlace] = {
    **dict.fromkeys(WITH_HIGH_VOLTAGE, ACPlace("high_voltage", "High-voltage unit", "a", 3)),
    CLASS_48: ACPlace("high_voltage", "Inverter or converter", "a", 3),
}
# What a kind of expansion device calls these, and where they then stand.
_BY_EXPANSION: Mapping[str, Mapping[str, ACPlace]] = {
    VALVE: {
        "drier": ACPlace("drier", "Receiver-drier", "d", 1),
        "expansion": ACPlace("expansion", "Expan\u00adsion valve", "d", 4),
    },
    ORIFICE: {
        "high_port": ACPlace("high_port", "Port, high side", "d", 1),
        "drier": ACPlace("drier", "Accumu\u00adlator", "c", 4),
        "expansion": ACPlace("expansion", "Orifice tube", "d", 3),
        "evaporator": ACPlace("evaporator", "Evapo\u00adrator", "d", 4),
    },
}
# The loop from place to place; a thick line is the low side. Both rear ones hang on both sides.
_LOOP: Mapping[str, Sequence[tuple[str, str, bool]]] = {
    VALVE: (
        ("compressor", "condenser", False),
        ("condenser", "drier", False),
        ("drier", "high_line", False),
        ("high_line", "high_port", False),
        ("high_port", "expansion", False),
        ("expansion", "evaporator", True),
        ("evaporator", "low_line", True),
        ("low_line", "low_port", True),
        ("low_line", "compressor", True),
    ),
    ORIFICE: (
        ("compressor", "condenser", False),
        ("condenser", "high_port", False),
        ("high_port", "high_line", False),
        ("high_line", "expansion", False),
        ("expansion", "evaporator", True),
        ("evaporator", "drier", True),
        ("drier", "low_line", True),
        ("low_line", "low_port", True),
        ("low_line", "compressor", True),
    ),
}
_BRANCHES: Mapping[str, Sequence[tuple[str, str, bool]]] = {
    VALVE: (("evaporator", REAR, True), ("expansion", BATTERY, False), (REAR, BATTERY, True)),
    ORIFICE: (("drier", REAR, True), ("evaporator", BATTERY, True), (REAR, BATTERY, True)),
}


def places_of(system: Fitted | None) -> list[ACPlace]:
    """The places of a system, in the order in which they are read aloud; None: of any."""
    drive = system.drive if system else ""
    branches = system.branches if system else []
    told = dict(_BY_EXPANSION.get(system.expansion if system else "", {}))
    if drive in _FEEDS:
        told["high_voltage"] = _FEEDS[drive]
    absent = {
        "clutch": drive not in BELT,
        "high_voltage": drive not in ELECTRIC,
        REAR: bool(branches) and REAR not in branches,
        BATTERY: bool(branches) and BATTERY not in branches,
    }
    return [told.get(one.code, one) for one in PLACES if not absent.get(one.code, False)]


def lines_of(
    system: Fitted | None, places: Sequence[ACPlace]
) -> Iterator[tuple[ACPlace, ACPlace, bool]]:
    """What joins the places of a drawing: from, to, whether it is the low side."""
    here = {one.code: one for one in places}
    device = ORIFICE if system and system.expansion == ORIFICE else VALVE
    for start, end, low in (*_LOOP[device], *_BRANCHES[device]):
        if start in here and end in here:
            yield here[start], here[end], low
