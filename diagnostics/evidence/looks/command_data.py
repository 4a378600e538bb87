"""What the control unit says of the command. A refusal is a finding, and mostly right.

One by a lock or slip sensor points at what can lock or slip: clutch and shaft, and the belt, which
is not in this table. A command in a list is no voltage: of fuse, relay and wire it says nothing.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

SLIPS = (
    "coil_open",
    "melt_open",
    "fails_hot",
    "gap_wide",
    "worn",
    "oily",
    "hub_broken",
    "other",
)
# What is a refusal comes from no other cause but a sensor that lies or a wrong line read.
SELDOM = {
    "not_asked": 0.001, "refused_cold": 0.0003, "refused_low": 0.0005, "refused_high": 0.0005,
    "refused_engine": 0.001, "refused_lock": 0.0001, "value_false": 0.0005,
    "commanded_unasked": 0.003,
}  # fmt: skip

LOOKS = Looks(
    kind="command_data",
    outcomes=(
        "commanded", "commanded_unasked", "not_asked", "refused_cold", "refused_low",
        "refused_high", "refused_engine", "refused_lock", "refused_evaporator", "refused_other",
        "value_false",
    ),
    normal=("commanded",),
    direct={
        "command": (
            "not_asked", "refused_cold", "refused_low", "refused_high", "refused_engine",
            "refused_lock", "switch_false",
        ),
    },
    # A line of a list is read; seldom it is the wrong one.
    misses=0.01,
    alarms=0.002,
    rows=Rows(
        ("command", "clutch", "mechanics"),
        (
            Row({"command": ("not_asked",)}, {**SELDOM, "not_asked": 0.90, "refused_other": 0.04, "commanded": 0.02, "commanded_unasked": 0.005}, "the list says whether it is asked for", COMMON),
            Row({"command": ("refused_cold",)}, {**SELDOM, "refused_cold": 0.81, "refused_evaporator": 0.06, "refused_other": 0.05, "commanded": 0.03, "value_false": 0.002}, "the list mostly gives its reason", COMMON),
            Row({"command": ("refused_low",)}, {**SELDOM, "refused_low": 0.82, "refused_other": 0.06, "refused_cold": 0.002, "commanded": 0.08, "value_false": 0.004}, "the list mostly gives its reason; a switch in the relay’s own wire it does not see", COMMON),
            Row({"command": ("refused_high",)}, {**SELDOM, "refused_high": 0.81, "refused_other": 0.06, "commanded": 0.08, "value_false": 0.004}, "the list mostly gives its reason", COMMON),
            Row({"command": ("refused_engine",)}, {**SELDOM, "refused_engine": 0.83, "refused_other": 0.07, "commanded": 0.05}, "load, idle, coolant or battery", COMMON),
            Row({"command": ("refused_lock",), "mechanics": ("locked", "stiff", "inverter", "other")}, {**SELDOM, "refused_lock": 0.88, "refused_other": 0.07, "commanded": 0.03}, "a shaft that locks or turns hard is what the sensor looks for", COMMON),
            Row({"command": ("refused_lock",), "clutch": SLIPS}, {**SELDOM, "refused_lock": 0.88, "refused_other": 0.07, "commanded": 0.03}, "a clutch that slips or does not come looks the same to the sensor", COMMON),
            # A sensor that sees no slip refuses nothing: where nothing slips, the sensor or belt is left.
            Row({"command": ("refused_lock",)}, {**SELDOM, "refused_lock": 0.09, "refused_other": 0.40, "commanded": 0.45}, "where clutch and shaft are in order, only its belt or the sensor itself", JUDGED),
            Row({"command": ("switch_false",)}, {"value_false": 0.30, "commanded": 0.22, "refused_other": 0.14, "refused_evaporator": 0.10, "refused_low": 0.07, "refused_high": 0.05, "refused_engine": 0.02, "refused_cold": 0.012, "not_asked": 0.02, "commanded_unasked": 0.004, "refused_lock": 0.003}, "it refuses on a value that is not so; one in the relay’s own wire it does not see", COMMON),
            Row({"command": ("driver",)}, {**SELDOM, "refused_other": 0.60, "commanded": 0.28, "not_asked": 0.03, "refused_evaporator": 0.02, "refused_engine": 0.02}, "it does not command, or says so and does not", COMMON),
            Row({"command": ("other",)}, {**SELDOM, "commanded": 0.50, "refused_other": 0.28, "not_asked": 0.04, "refused_evaporator": 0.03, "refused_engine": 0.03, "commanded_unasked": 0.02, "value_false": 0.02}, "anything", JUDGED),
            Row({"command": ("relay_stuck",)}, {**SELDOM, "commanded": 0.94, "refused_evaporator": 0.015, "refused_engine": 0.005, "refused_other": 0.015, "commanded_unasked": 0.004}, "the list knows nothing of the contacts", COMMON),
            Row({}, {**SELDOM, "commanded": 0.945, "refused_evaporator": 0.018, "refused_engine": 0.003, "refused_other": 0.012, "commanded_unasked": 0.005}, "commanded, whatever becomes of it behind; cycling is seen now and then", COMMON),
        ),
    ),
)  # fmt: skip
