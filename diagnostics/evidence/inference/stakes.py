"""What is at stake in each variable: what mending costs, and what leaving a fault costs.

In minutes of a bay, parts counted as the minutes they are worth, where the shop typed no price: our
judgement. They decide which test is worth its minutes; a shop's own prices take their place.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from diagnostics.evidence.inference.factors import Array

COMES_BACK = 150.0  # the car again: found again, done again, the customer's day
# Where a fault that is left ruins what was fitted, or opens the loop again.
COSTS_MORE: Mapping[str, float] = {
    "mechanics": 420,
    "dirt": 400,
    "oil": 260,
    "gas": 120,
    "seal": 240,
}


@dataclass(frozen=True)
class Remedy:
    """One way to mend a variable: which answers it cures, at what cost."""

    words: str
    cures: tuple[str, ...]
    cost: float


REMEDIES: Mapping[str, tuple[Remedy, ...]] = {
    "command": (
        Remedy("relay", ("relay_open", "relay_stuck"), 25),
        Remedy("fuse", ("fuse",), 15),
        Remedy("wire or ground", ("wire_open", "short_ground", "feed_resistance", "ground_resistance"), 60),
        Remedy("switch or sensor", ("switch_false",), 60),
        Remedy("control unit", ("driver",), 220),
    ),
    "clutch": (
        Remedy("gap set right", ("gap_wide", "gap_small"), 40),
        Remedy("coil", ("coil_open", "melt_open", "coil_shorted", "fails_hot"), 150),
        Remedy(
            "clutch",
            ("coil_open", "melt_open", "coil_shorted", "fails_hot", "gap_wide", "gap_small", "worn", "oily", "hub_broken", "bearing"),
            260,
        ),
    ),
    "belt": (Remedy("belt", ("slips", "off"), 60),),
    "mechanics": (
        Remedy("control valve", ("valve",), 200),
        Remedy("compressor", ("locked", "stiff", "not_pumping", "valve", "not_commanded", "isolation", "inverter"), 600),
    ),
    "seal": (Remedy("seal or compressor", ("wet",), 450),),
    "tightness": (
        Remedy("leak repair", ("leaks", "leaks_hidden"), 200),
        Remedy("charge by weight, dye, weigh again", ("short_filled",), 90),
    ),
    "amount": (Remedy("recover and charge by weight", ("low", "empty", "too_much"), 80),),
    "gas": (Remedy("recover as contaminated, evacuate, charge", ("air", "mixed"), 140),),
    "dirt": (Remedy("drier, flush, condenser", ("metal", "burnt", "moisture"), 380), Remedy("whole loop", ("metal", "burnt", "moisture", "leak_stop"), 1200)),
    "flow": (
        Remedy("expansion device and drier", ("device_blocked", "device_open", "drier_hose"), 200),
        Remedy("condenser", ("condenser_blocked",), 260),
    ),
    "oil": (Remedy("oil measured and put right", ("little", "much", "wrong"), 130),),
    "outside": (Remedy("fan", ("fan",), 140), Remedy("face cleaned", ("face",), 40), Remedy("shield", ("engine_heat",), 50)),
    "cabin": (
        Remedy("cabin filter", ("airflow",), 40), Remedy("air door", ("door",), 140),
        Remedy("heater valve", ("heater",), 110), Remedy("evaporator and sensor", ("iced",), 160),
        Remedy("rear unit", ("rear",), 180),
    ),
}  # fmt: skip


def losses(variable: str, codes: Sequence[str], rightly: Sequence[str]) -> Array:
    """What each decision (first axis) costs at each answer (second): leave it, or one remedy.

    What is so rightly costs nothing to leave. An answer that is left, or that a remedy does not
    cure, comes back and is mended then.
    """
    remedies, back = REMEDIES.get(variable, ()), COSTS_MORE.get(variable, COMES_BACK)
    later = np.array(
        [
            0.0 if code == "ok" or code in rightly else back + cheapest(remedies, code)
            for code in codes
        ]
    )
    rows = [later]
    for remedy in remedies:
        cured = np.array([code in remedy.cures for code in codes])
        rows.append(remedy.cost + np.where(cured, 0.0, later))
    return np.array(rows)


def cheapest(remedies: Sequence[Remedy], code: str) -> float:
    """The least that mends an answer; nothing known mends it: the dearest there is."""
    mending = [one.cost for one in remedies if code in one.cures]
    return min(mending, default=max((one.cost for one in remedies), default=0.0))
