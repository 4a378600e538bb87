"""Repairs of the loop: leaks by their place, charge, gas, dirt, flow and oil.

The places are those of the leak search. Flat-tube condensers cannot be flushed reliably, and part
sellers ask for a new drier where the loop stood open: trade articles; all else common practice.
"""

from diagnostics.evidence.options import needs
from diagnostics.evidence.options.option import Option, together
from diagnostics.evidence.options.repairs_compressor import (
    DEVICE,
    DRIED,
    FILLED,
    OPEN_AND_FILL,
    PROVEN_CHARGE,
    REFILLED,
)

LEAK = {"tightness": ("leaks",)}
BEFORE = (needs.PLACE, *needs.LOOP)
OTHER_PLACES = "Other places that leak too little to be found today, or where no search reaches."

LOOP = (
    Option(
        "leak_place", "Leak repaired at its place, once it is found",
        "It loses refrigerant, and the place is not found yet.", OTHER_PLACES,
        (needs.SEARCH, *BEFORE), 7,
        cures={"tightness": ("leaks", "leaks_hidden")}, also=REFILLED,
        operations=(*OPEN_AND_FILL, "find_place", "leak_place"), parts=("leak_part", "seals"),
        fluids=(*FILLED, "dye"), asks=PROVEN_CHARGE,
    ),
    Option(
        "leak_joint", "Leak at a seal, valve core or joint", "A joint or port leaks.", OTHER_PLACES,
        BEFORE, 5,
        cures=LEAK, also=REFILLED,
        operations=(*OPEN_AND_FILL, "joint"), parts=("seals",), fluids=FILLED,
        places=("ports_block", "condenser_joints", "expansion", "low_port", "high_port", "switch"),
    ),
    Option(
        "leak_hose", "Leak at a hose or line", "A hose, its crimp or a line leaks.", OTHER_PLACES,
        BEFORE, 6,
        cures=LEAK, also=REFILLED,
        operations=(*OPEN_AND_FILL, "hose"), parts=("hose", "seals"), fluids=FILLED,
        places=("ports_block", "suction", "discharge", "lines"),
    ),
    Option(
        "evaporator", "Evaporator", "The evaporator leaks.",
        f"The dashboard comes out for it on many cars. {OTHER_PLACES}",
        BEFORE, 12,
        cures=LEAK, also=together(REFILLED, {"flow": ("device_blocked", "device_open")}),
        operations=(*OPEN_AND_FILL, "evaporator", "device"),
        parts=("evaporator", "device", "seals"), fluids=FILLED, places=("evaporator",),
        closes=("expansion",),
    ),
    Option(
        "leak_branch", "Leak in the rear or battery branch", "The rear or battery branch leaks.",
        OTHER_PLACES, BEFORE, 9,
        cures=LEAK, also=REFILLED,
        operations=(*OPEN_AND_FILL, "branch"), parts=("branch", "seals"), fluids=FILLED,
        places=("rear", "battery"), on={"branches": ("rear", "battery")},
    ),
    Option(
        "charge_dye", "Charge by weight, with dye, and a date to weigh again",
        "The amount is not right, and no place is shown to leak.",
        "Any leak there is: the date to weigh again tells how fast it loses.",
        (needs.REFILL, *needs.LOOP, needs.WEIGH), 3,
        cures={"amount": ("low", "empty", "too_much"), "tightness": ("short_filled",)},
        also={"gas": ("air",)},
        operations=(*OPEN_AND_FILL, "weigh_again"), fluids=(*FILLED, "dye"),
        rests_on=(needs.LEAK_LEFT,),
    ),
    Option(
        "new_gas", "Gas taken out, loop evacuated, filled anew",
        "Air or another gas is in it.", "How it got in, and oil of another kind.",
        (needs.CYLINDER, *needs.LOOP), 4,
        cures={"gas": ("air", "mixed")}, also={"amount": REFILLED["amount"]},
        operations=(*OPEN_AND_FILL, "own_cylinder"), parts=("reclaim",), fluids=FILLED,
    ),
    Option(
        "drier", "Drier or hose, with what it held", "The drier or a hose is blocked, or moisture"
        " is in the loop.", "Dirt that went past it.",
        (needs.ACROSS, *needs.LOOP), 6,
        cures={"flow": ("drier_hose",), "dirt": ("moisture",)}, also=REFILLED,
        operations=(*OPEN_AND_FILL, "drier"), parts=("drier", "seals"), fluids=FILLED,
        places=("drier",), asks=PROVEN_CHARGE,
    ),
    Option(
        "device", "Expansion device, with drier",
        "The expansion device is blocked or stands open.", "What blocked it, upstream.",
        (needs.ACROSS, needs.CHARGE_KNOWN, *needs.LOOP), 7,
        cures={"flow": ("device_blocked", "device_open")},
        also=together(REFILLED, DRIED, DEVICE),
        operations=(*OPEN_AND_FILL, "device", "drier"), parts=("device", "drier", "seals"),
        fluids=FILLED, asks=PROVEN_CHARGE, closes=("expansion", "drier"),
    ),
    Option(
        "condenser", "Condenser, with drier", "The condenser is blocked inside, or leaks.",
        "What blocked it, if that came from the compressor.",
        (needs.ACROSS, *needs.LOOP), 8,
        cures={"flow": ("condenser_blocked",)},
        also=together(REFILLED, DRIED, {"flow": ("drier_hose",), "outside": ("face",)}),
        operations=(*OPEN_AND_FILL, "condenser", "drier"), parts=("condenser", "drier", "seals"),
        fluids=FILLED, asks=PROVEN_CHARGE, places=("condenser",),
        closes=("condenser_joints", "drier"),
    ),
    Option(
        "flush", "Lines flushed, drier and expansion device new", "Burnt oil or moisture is in it.",
        "The condenser, where its flat tubes cannot be flushed, and the compressor as it is.",
        (needs.DEBRIS, *needs.LOOP), 8,
        cures={"dirt": ("burnt", "moisture")},
        also=together(REFILLED, DEVICE, {"oil": ("little", "much")}),
        operations=(*OPEN_AND_FILL, "flush", "drier", "device", "oil"),
        parts=("drier", "device", "seals", "flush_agent"), fluids=FILLED, asks=PROVEN_CHARGE,
    ),
    Option(
        "oil", "Oil measured and put right", "There is too little or too much oil.",
        "Oil of another kind, and where the missing oil went.",
        needs.LOOP, 5,
        cures={"oil": ("little", "much")}, also=REFILLED,
        operations=(*OPEN_AND_FILL, "oil"), fluids=FILLED,
    ),
)  # fmt: skip
