"""Repairs of what drives the shaft: gap, coil, clutch, pulley, limiter, belt. Common practice.

Coil or friction worn, shaft smooth, nose dry, charge proven: then parts of the clutch alone are
defensible, with what remains in writing.
"""

from diagnostics.evidence.inference.network import BELTED, MAGNETIC
from diagnostics.evidence.options import needs
from diagnostics.evidence.options.option import Option

OLD_COMPRESSOR = (
    "The old compressor stays, and nobody looked inside it. If it gives out later, labor,"
    " evacuation and charge are paid again."
)
RESTS_ON = (*needs.SHAFT_NOT_SHOWN, needs.NOSE_NOT_SHOWN, needs.CHARGE_NOT_SHOWN)
COIL = ("coil_open", "melt_open", "coil_shorted", "fails_hot")
FACE = ("gap_wide", "gap_small", "worn", "oily", "hub_broken", "bearing")
TAKES_HOLD = {"clutch": (*COIL, *FACE)}

CLUTCH = (
    Option(
        "gap_set", "Air gap set right", "The gap is outside the vehicle’s own figures.",
        "A worn face: wear is what widens the gap, so it can widen again.",
        (needs.GAP_READ, needs.HUB), 1,
        cures={"clutch": ("gap_wide", "gap_small")}, operations=("gap",), parts=("shims",),
        rests_on=(*needs.SHAFT_NOT_SHOWN, needs.CHARGE_NOT_SHOWN), on=MAGNETIC,
    ),
    Option(
        "coil", "Clutch coil", "The coil is open, shorted, or lets go when it is hot.",
        f"Face, hub and bearing of the old clutch. {OLD_COMPRESSOR}",
        (needs.HUB, needs.GAP, needs.OLD_PART), 4,
        cures={"clutch": COIL}, operations=("clutch_in_car",), parts=("coil",),
        rests_on=RESTS_ON, on=MAGNETIC,
    ),
    Option(
        "clutch_in_car", "Clutch parts, in the car",
        "Coil, face, hub or bearing of the clutch, where it can be reached.", OLD_COMPRESSOR,
        (needs.HUB, needs.GAP, needs.SERIAL, needs.OLD_PART), 5,
        cures=TAKES_HOLD, operations=("clutch_in_car",), parts=("clutch",),
        rests_on=RESTS_ON, on=MAGNETIC,
    ),
    Option(
        "clutch_unbolted", "Clutch, compressor unbolted, hoses on",
        "The same, where the clutch cannot be reached with the compressor in its place.",
        OLD_COMPRESSOR,
        (needs.DEAD, needs.HUB, needs.GAP, needs.SERIAL, needs.OLD_PART), 6,
        cures=TAKES_HOLD, operations=("unbolt", "clutch_beside"), parts=("clutch",),
        rests_on=RESTS_ON, on=MAGNETIC,
    ),
    Option(
        "pulley", "Pulley with its bearing", "The bearing is noisy or loose.",
        f"Coil and hub as they are. {OLD_COMPRESSOR}",
        (needs.BEARING, needs.HUB), 4,
        cures={"clutch": ("bearing",)}, operations=("clutch_in_car",), parts=("pulley",),
        rests_on=RESTS_ON, cautions=needs.DRIVES_ON, on={"drive": BELTED},
    ),
    Option(
        "limiter", "Hub or limiter", "The pulley turns, the hub or its limiter is broken.",
        f"What broke it, if the shaft is not turned by hand. {OLD_COMPRESSOR}",
        (needs.LIMITER, needs.HUB), 3,
        cures={"clutch": ("hub_broken",)}, operations=("clutch_in_car",), parts=("limiter",),
        rests_on=RESTS_ON, on={"drive": BELTED},
    ),
    Option(
        "belt", "Belt or tensioner", "The belt slips, is off or torn.",
        "What drives or stops it: pulleys that were not turned by hand.",
        (needs.BELT,), 2,
        cures={"belt": ("slips", "off")}, operations=("belt",), parts=("belt",),
        rests_on=needs.SHAFT_NOT_SHOWN, cautions=needs.DRIVES_ON, on={"drive": BELTED},
    ),
)  # fmt: skip
PARTS_OF_CLUTCH = ("coil", "clutch_in_car", "clutch_unbolted", "pulley", "limiter")
