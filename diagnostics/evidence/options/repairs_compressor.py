"""Repairs of compressor, seal and control valve, and of the loop as a whole.

The ladder is common practice: a rough shaft, a wet seal, a melt fuse with a lock, or metal asks for
compressor, drier and expansion device, and the condenser where it cannot be flushed; leak-stop,
mixed gas or wrong oil for the whole loop.
"""

from diagnostics.evidence.inference.network import ELECTRIC
from diagnostics.evidence.options import needs
from diagnostics.evidence.options.option import Option, together
from diagnostics.evidence.options.repairs_clutch import TAKES_HOLD

# By its shaft: what has a motor as well counts as electric, because of what is done to it.
SHAFT_DRIVEN = {"drive": ("belt_clutch", "belt_clutchless")}
OPEN_AND_FILL = ("recover", "evacuate", "charge", "sweep")
FILLED = ("refrigerant", "oil")
REFILLED = {"amount": ("low", "empty", "too_much"), "gas": ("air",)}
DRIED = {"dirt": ("moisture",)}
WHOLE = (*OPEN_AND_FILL, "unbolt", "hoses_off")
MECHANICS = ("locked", "stiff", "not_pumping", "valve")
NEW_COMPRESSOR = together({"mechanics": MECHANICS}, {"seal": ("wet",)})
NEW_MOTOR = together(NEW_COMPRESSOR, {"mechanics": ("isolation", "inverter")})
DEVICE = {"flow": ("device_blocked", "device_open", "drier_hose")}
BEFORE = (needs.DEBRIS, needs.HUB, *needs.LOOP, needs.GAP, needs.SERIAL, needs.OLD_PART)
MOTOR = (needs.DEAD, needs.LOW_VOLTAGE, needs.MAKER_OIL)
BEFORE_MOTOR = (*MOTOR, needs.DEBRIS, *needs.LOOP, needs.SERIAL, needs.OLD_PART)
AGAINST = (needs.NOT_LOCKED, needs.NOT_ROUGH, needs.NOSE_DRY, needs.PUMPS)
PROVEN_CHARGE = (needs.RIGHT_OIL, needs.BY_WEIGHT)
NOSE = ("nose", "body")

COMPRESSOR = (
    Option(
        "control_valve", "Control valve", "The control valve does not follow its command.",
        "The compressor’s pistons and shaft as they are, and what dirtied the valve.",
        (needs.DEAD, needs.CHARGE_KNOWN, *needs.LOOP), 7,
        cures={"mechanics": ("valve",)}, also=REFILLED,
        operations=(*OPEN_AND_FILL, "control_valve"), parts=("control_valve", "seals"),
        fluids=FILLED, rests_on=(needs.CLEAN_NOT_SHOWN,),
        on={"displacement": ("variable_inner", "variable_outer")},
    ),
    Option(
        "shaft_seal", "Shaft seal", "The shaft seal leaks.",
        "The shaft that wore the seal, and the rest of the old compressor.",
        (needs.DEAD, needs.PLACE, needs.HUB, *needs.LOOP), 8,
        cures={"seal": ("wet",)}, also=REFILLED,
        operations=(*OPEN_AND_FILL, "unbolt", "shaft_seal"), parts=("shaft_seal", "seals"),
        fluids=FILLED, rests_on=needs.SHAFT_NOT_SHOWN, places=("nose",),
        on={"drive": ("belt_clutch", "belt_clutchless", "belt_electric")},
    ),
    Option(
        "compressor", "Compressor, complete",
        "The shaft is locked or rough, the seal is wet, or it does not pump.",
        "The old drier, expansion device and condenser, with whatever the old compressor may have"
        " shed.",
        BEFORE, 9,
        cures=NEW_COMPRESSOR, also=together(TAKES_HOLD, REFILLED),
        operations=WHOLE, parts=("compressor", "seals"), fluids=FILLED,
        rests_on=(needs.CLEAN_NOT_SHOWN,), against=AGAINST,
        breaks=(needs.NEW_DRIER, needs.NEW_DEVICE), asks=PROVEN_CHARGE,
        cautions=needs.DRIVES_ON, places=NOSE, on=SHAFT_DRIVEN,
    ),
    Option(
        "compressor_device", "Compressor, with drier and expansion device",
        "The shaft is locked or rough, the seal is wet, or it does not pump.",
        "The condenser and lines, with whatever the old compressor may have shed into them.",
        BEFORE, 10,
        cures=NEW_COMPRESSOR, also=together(TAKES_HOLD, REFILLED, DRIED, DEVICE),
        operations=(*WHOLE, "drier", "device"), parts=("compressor", "drier", "device", "seals"),
        fluids=FILLED, against=AGAINST, asks=PROVEN_CHARGE,
        cautions=needs.DRIVES_ON, places=NOSE, closes=("drier",), on=SHAFT_DRIVEN,
    ),
    Option(
        "compressor_condenser", "Compressor, with drier, expansion device and condenser",
        "Metal was seen, or may be there, and the condenser cannot be cleaned inside.",
        "Lines and evaporator: cleaned as far as they can be.",
        BEFORE, 11,
        cures={"dirt": ("metal",)},
        also=together(
            NEW_COMPRESSOR, TAKES_HOLD, REFILLED, DRIED, DEVICE, {"dirt": ("burnt",)},
            {"flow": ("condenser_blocked",), "outside": ("face",)},
        ),
        operations=(*WHOLE, "drier", "device", "condenser", "flush"),
        parts=("compressor", "drier", "device", "condenser", "seals", "flush_agent"),
        fluids=FILLED, against=(*AGAINST, needs.LOOP_CLEAN), asks=(*PROVEN_CHARGE, needs.FLUSHED),
        cautions=needs.DRIVES_ON, closes=(*NOSE, "drier", "condenser"), on=SHAFT_DRIVEN,
    ),
    Option(
        "electric_compressor", "Electric compressor, with drier and expansion device",
        "Its insulation, its electronics or its pump is at fault.",
        "The condenser and lines, and oil of another kind if any is in them.",
        BEFORE_MOTOR, 10,
        cures=NEW_MOTOR, also=together(TAKES_HOLD, REFILLED, DRIED, DEVICE),
        operations=("isolate", *WHOLE, "drier", "device"),
        parts=("electric_compressor", "drier", "device", "seals"), fluids=FILLED,
        against=(needs.PUMPS, needs.NOSE_DRY), asks=PROVEN_CHARGE,
        places=NOSE, closes=("drier",), on={"drive": ELECTRIC},
    ),
)  # fmt: skip
ALL_OF_LOOP = together(
    NEW_COMPRESSOR, TAKES_HOLD, REFILLED, DRIED, DEVICE,
    {"dirt": ("metal", "burnt", "leak_stop"), "gas": ("mixed",)},
    {"oil": ("little", "much", "wrong")},
    {"flow": ("condenser_blocked",), "outside": ("face",), "cabin": ("rear",)},
    {"tightness": ("leaks", "leaks_hidden", "short_filled")},
)  # fmt: skip
WHOLE_LOOP_FROM = 0.2  # nobody is quoted a whole loop on a lesser suspicion: our judgement
ALL_NEW = ("drier", "device", "condenser", "evaporator", "hose", "flush", "own_cylinder")
EVERY_PLACE = (
    *NOSE, "ports_block", "suction", "discharge", "condenser", "condenser_joints", "drier",
    "lines", "expansion", "evaporator", "low_port", "high_port", "rear", "battery",
)  # fmt: skip
NEW_PARTS = (
    "drier", "device", "condenser", "evaporator", "hose", "seals", "flush_agent", "reclaim",
)  # fmt: skip
LOOP_BECAUSE = "Leak-stop, gas that is mixed or not known, or the wrong oil is in it."
LOOP_LEAVES = "Wires, fans, doors and the engine’s side."
LOOP_FOR = {"dirt": ("leak_stop",), "gas": ("mixed",), "oil": ("wrong",)}
LOOP_AGAINST = (needs.GAS_RIGHT, needs.NO_LEAK_STOP, needs.LOOP_CLEAN)

WHOLE_LOOP = (
    Option(
        "whole_loop", "Whole loop", LOOP_BECAUSE, LOOP_LEAVES,
        (needs.CYLINDER, *BEFORE), 13,
        cures=LOOP_FOR, also=ALL_OF_LOOP,
        operations=(*WHOLE, *ALL_NEW), parts=("compressor", *NEW_PARTS), fluids=FILLED,
        against=LOOP_AGAINST, asks=(*PROVEN_CHARGE, needs.FLUSHED), closes=EVERY_PLACE,
        on=SHAFT_DRIVEN, from_share=WHOLE_LOOP_FROM,
    ),
    Option(
        "electric_loop", "Whole loop, with the electric compressor", LOOP_BECAUSE, LOOP_LEAVES,
        (needs.CYLINDER, *BEFORE_MOTOR), 13,
        cures=together(LOOP_FOR, {"dirt": ("metal",)}), also=together(ALL_OF_LOOP, NEW_MOTOR),
        operations=("isolate", *WHOLE, *ALL_NEW), parts=("electric_compressor", *NEW_PARTS),
        fluids=FILLED, against=LOOP_AGAINST, asks=(*PROVEN_CHARGE, needs.FLUSHED),
        closes=EVERY_PLACE, on={"drive": ELECTRIC}, from_share=WHOLE_LOOP_FROM,
    ),
)  # fmt: skip
