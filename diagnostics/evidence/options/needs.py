"""What comes before a repair, what part sellers ask, and what a choice rests on, said once.

Orders and cautions: common practice, no source, but where a line names one. Conditions of part
sellers: trade articles; a seller's own paper counts.
"""

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.inference.network import BELTED, ELECTRIC, MAGNETIC
from diagnostics.evidence.options.option import Ground, Need

# Orders that must not be broken.
GAS = Need("gas", "Identify the gas before it is recovered.", "gas_first", ("gas_identity",))
LEAK_STOP = Need(
    "leak_stop", "Any sign of leak-stop, or a can was added: test for it before the shop’s own"
    " hoses are put on.", "leak_stop_first", ("sealant_test",),
)  # fmt: skip
SEARCH = Need(
    "search", "Search for the leak under pressure before the refrigerant is recovered.",
    "leak_search_first", ("leak_search",),
)  # fmt: skip
HUB = Need(
    "hub", "Turn the hub by hand, engine off, before it is run and before a part of the clutch is"
    " ordered.", "hub_first", ("hub_turn",), {"drive": BELTED},
)  # fmt: skip
DEBRIS = Need(
    "debris", "Look at the expansion device for debris before a compressor alone is ordered.",
    kinds=("debris",),
)  # fmt: skip
GAP = Need(
    "gap", "Measure the gap of the new part before it is fitted, at three places or more.",
    kinds=("air_gap",), on=MAGNETIC,
)  # fmt: skip
COIL = Need(
    "coil", "Measure the coil first, both ways round: a shorted one ends relays, fuses and"
    " drivers.", kinds=("coil_resistance",), on=MAGNETIC,
)  # fmt: skip
CURRENT = Need(
    "current", "Show the drop with current in the wire: a voltage without current shows nothing.",
    kinds=("feed_drop", "ground_drop", "feed_voltage"),
)  # fmt: skip
FUSE = Need(
    "fuse", "Find what blew it: coil measured, feed wire to ground measured.",
    kinds=("coil_resistance",),
)  # fmt: skip
SWITCH = Need(
    "switch", "Compare what it tells with a gauge or thermometer; never bridge a three-wire sensor"
    " or a high-pressure cut-out.", kinds=("pressure_switch", "evaporator_sensor"),
)  # fmt: skip
ASKED = Need(
    "asked", "Show with scan data that it is asked and does not command, its own supply and ground"
    " good.", kinds=("command_data",),
)  # fmt: skip
GAP_READ = Need(
    "gap_read", "Measure the gap at three places or more; never below the vehicle’s own least"
    " figure.", kinds=("air_gap",),
)  # fmt: skip
SERIAL = Need("serial", "Serial number and photos of the old part before it leaves the bay.")
OLD_PART = Need("old_part", "Ask whether the customer wants the old part before it is thrown away.")
CLOSED = Need("closed", "Drier last, caps on, loop closed before it is evacuated.")
OIL = Need(
    "oil", "Oil in before the charge: drain, measure, match; what a new part brings counts once.",
    kinds=("oil_condition",),
)  # fmt: skip
DEAD = Need(
    "dead", "High voltage isolated, waited and proven dead first, by a person qualified for it.",
    "dead_first", ("hv_isolation",), {"drive": WITH_HIGH_VOLTAGE},
)  # fmt: skip
LOW_VOLTAGE = Need(
    "low_voltage", "48 V class: isolate it as its maker says before a plug is touched.",
    on={"drive": ("electric_48",)},
)  # fmt: skip
MAKER_OIL = Need(
    "maker_oil", "Only the oil that its maker names; service machine and hoses without oil"
    " injection.", on={"drive": ELECTRIC},
)  # fmt: skip
CYLINDER = Need(
    "cylinder", "Gas that is mixed or not known goes into its own marked cylinder, never into the"
    " shop’s.",
)  # fmt: skip
REFILL = Need(
    "refill", "Some places forbid filling a leaking system before it is repaired (Directive"
    " 2006/40/EC, Article 6(3); Wisconsin ATCP 136.16): check your local rules.",
)  # fmt: skip
WEIGH = Need("weigh", "A date to come back, when the charge is recovered and weighed again.")
PLACE = Need(
    "place", "The place is seen: detector, dye or bubbles at the spot, cleaned and looked at"
    " again.", kinds=("leak_search", "nitrogen_hold", "shaft_seal"),
)  # fmt: skip
BELT = Need(
    "belt", "Turn every pulley by hand, the compressor’s hub too: a locked one throws a belt.",
    kinds=("belt_drive", "hub_turn"),
)  # fmt: skip
BEARING = Need(
    "bearing", "Turn the pulley by hand, belt off, and listen.", kinds=("pulley_bearing", "noise"),
)  # fmt: skip
LIMITER = Need(
    "limiter", "Turn the shaft by hand first: a limiter shears when the shaft locks.",
    kinds=("limiter", "hub_turn"),
)  # fmt: skip
CHARGE_KNOWN = Need(
    "charge_known", "Know the charge and the command before a part is named from pressures.",
    kinds=("recovered_share", "control_valve_duty"),
)  # fmt: skip
ACROSS = Need(
    "across", "Measure the drop in temperature across the part before it is named.",
    kinds=("line_temperatures",),
)  # fmt: skip
FAN = Need(
    "fan", "Watch each fan run and feel which way it blows; supply measured before a motor is"
    " ordered.", kinds=("condenser_fan",),
)  # fmt: skip
FACE = Need(
    "face", "Look at the face with a lamp and pour water over it.", kinds=("condenser_face",),
)  # fmt: skip
AIR = Need(
    "air", "Compare the air with filter and doors as they should be.",
    kinds=("cabin_airflow", "air_doors"),
)  # fmt: skip
ICE = Need(
    "ice", "Compare the sensor with a thermometer at the evaporator.", kinds=("evaporator_sensor",),
)  # fmt: skip
BRANCHES = Need(
    "branches", "Label charge and oil with every branch counted.",
    on={"branches": ("rear", "battery")},
)  # fmt: skip
SAID = Need("said", "Tell the customer what stays off, and write it down.")
LOOP = (GAS, LEAK_STOP, SEARCH, CLOSED, OIL, MAKER_OIL, BRANCHES)

# What part sellers make a condition of their warranty.
NEW_DRIER = "a new drier or accumulator"
NEW_DEVICE = "a new expansion device"
RIGHT_OIL = "the right oil, in the right amount"
BY_WEIGHT = "the charge by weight"
FLUSHED = "a loop flushed or renewed after debris"

# What a choice rests on: smooth shaft, dry nose, charge proven.
SETTLED = 0.05  # a shaft that was turned may be locked or rough in no more of such cars: judged
NOT_TURNED = Ground(
    "mechanics", ("locked",), ("proved", "likely", "open"),
    "No test has shown that the shaft turns smooth.",
)  # fmt: skip
NOT_SMOOTH = Ground(
    "mechanics", ("locked", "stiff"), ("proved", "likely", "open"),
    "That the shaft turns smooth is not settled.", above=SETTLED,
)  # fmt: skip
SHAFT_NOT_SHOWN = (NOT_TURNED, NOT_SMOOTH)
NOSE_NOT_SHOWN = Ground(
    "seal", ("wet",), ("proved", "likely", "open"), "No test has shown that the shaft seal is dry.",
)  # fmt: skip
CHARGE_NOT_SHOWN = Ground(
    "amount", ("ok",), ("open", "ruled_out"), "The charge is not shown to be right.",
)  # fmt: skip
CLEAN_NOT_SHOWN = Ground(
    "dirt", ("metal",), ("proved", "likely", "open"),
    "No test has shown that the loop is free of metal.",
)  # fmt: skip
LEAK_LEFT = Ground(
    "tightness", ("leaks",), ("proved", "likely"), "It leaks at a place: filled again, it loses it"
    " again.",
)  # fmt: skip
# What argues against a dearer choice. How it was ruled out is told by the steps, not here.
NOT_LOCKED = Ground(
    "mechanics", ("locked",), ("ruled_out",),
    "A locked shaft, which would ask for a compressor, is ruled out by test.",
)  # fmt: skip
NOT_ROUGH = Ground(
    "mechanics", ("stiff",), ("ruled_out",),
    "A rough shaft, which would ask for a compressor, is ruled out by test.",
)  # fmt: skip
NOSE_DRY = Ground("seal", ("wet",), ("ruled_out",), "A leaking shaft seal is ruled out by test.")
LOOP_CLEAN = Ground("dirt", ("metal",), ("ruled_out",), "Metal in the loop is ruled out by test.")
PUMPS = Ground(
    "mechanics", ("not_pumping",), ("ruled_out",),
    "That it turns and does not pump is ruled out by test.",
)  # fmt: skip
GAS_RIGHT = Ground(
    "gas", ("mixed",), ("ruled_out",), "Gas that is mixed or not known is ruled out by test.",
)  # fmt: skip
NO_LEAK_STOP = Ground("dirt", ("leak_stop",), ("ruled_out",), "Leak-stop is ruled out by test.")
# What is said to a customer who drives on.
SEIZES = Ground("mechanics", ("locked", "stiff"), ("proved", "likely"), STOP_DRIVING)
BEARING_GOES = Ground("clutch", ("bearing",), ("proved", "likely"), STOP_DRIVING)
DRIVES_ON = (SEIZES, BEARING_GOES)
