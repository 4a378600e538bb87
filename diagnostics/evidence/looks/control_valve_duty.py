"""The outer control valve: whether it is commanded, whether its coil is whole, and what follows."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

UNASKED = (
    "not_asked", "refused_cold", "refused_low", "refused_high", "refused_engine", "refused_lock",
    "driver",
)  # fmt: skip

LOOKS = Looks(
    kind="control_valve_duty",
    outcomes=(
        "follows", "stays", "stays_fed", "not_commanded", "coil_open", "coil_low", "coil_high", "coil_inside",
        "coil_unsure",
    ),
    normal=("follows", "coil_inside"),
    # A low side that falls as the command rises shows both the command and the valve at work.
    direct={"mechanics": ("valve",), "command": ("ok",)},
    tries=(("coil_open", "coil_low", "coil_high", "coil_inside", "coil_unsure"),),
    alarms=0.003,  # a coil is measured at its own pins, leads held together first
    rows=Rows(
        ("mechanics", "command", "amount"),
        (
            Row({"mechanics": ("valve",), "command": UNASKED}, {"not_commanded": 0.45, "coil_open": 0.15, "stays": 0.10, "stays_fed": 0.02, "coil_inside": 0.10, "coil_high": 0.06, "coil_low": 0.06, "coil_unsure": 0.05}, "what is not commanded is not tried; its coil is measured all the same", JUDGED),
            Row({"mechanics": ("valve",)}, {"stays": 0.27, "stays_fed": 0.27, "coil_open": 0.15, "coil_inside": 0.09, "coil_high": 0.06, "coil_low": 0.06, "coil_unsure": 0.05, "not_commanded": 0.02}, "a valve that sticks does not follow; one in three such has its coil at fault", JUDGED),
            Row({"command": UNASKED}, {"not_commanded": 0.70, "coil_inside": 0.12, "stays": 0.08, "stays_fed": 0.006, "coil_low": 0.003, "coil_high": 0.004, "coil_open": 0.0011, "coil_unsure": 0.05}, "what is not asked for or refused is not commanded", COMMON),
            Row({"command": ("fuse", "relay_open", "wire_open", "short_ground")}, {"stays": 0.53, "stays_fed": 0.006, "not_commanded": 0.22, "coil_inside": 0.14, "coil_low": 0.003, "coil_high": 0.004, "coil_open": 0.0011, "coil_unsure": 0.05}, "a command that does not arrive moves nothing", COMMON),
            Row({"mechanics": ("locked", "not_pumping")}, {"stays": 0.37, "stays_fed": 0.35, "coil_inside": 0.12, "coil_high": 0.004, "coil_low": 0.003, "coil_open": 0.0011, "coil_unsure": 0.045, "not_commanded": 0.05, "follows": 0.04}, "what does not pump follows no command", COMMON),
            Row({"amount": ("empty",)}, {"stays": 0.36, "stays_fed": 0.34, "coil_inside": 0.12, "not_commanded": 0.08, "coil_high": 0.004, "coil_low": 0.003, "coil_open": 0.0011, "coil_unsure": 0.045, "follows": 0.03}, "next to nothing in it does not follow either", COMMON),
            Row({"command": ("switch_false", "feed_resistance", "ground_resistance", "other")}, {"follows": 0.36, "stays": 0.20, "stays_fed": 0.04, "not_commanded": 0.20, "coil_inside": 0.12, "coil_high": 0.004, "coil_low": 0.003, "coil_open": 0.0011, "coil_unsure": 0.045}, "not, or at times", JUDGED),
            Row({"mechanics": ("stiff", "other")}, {"follows": 0.42, "stays": 0.16, "stays_fed": 0.16, "coil_inside": 0.12, "coil_high": 0.004, "coil_low": 0.003, "coil_open": 0.0011, "coil_unsure": 0.045, "not_commanded": 0.04}, "anything", JUDGED),
            Row({"amount": ("low",)}, {"follows": 0.48, "stays": 0.14, "stays_fed": 0.14, "coil_inside": 0.12, "coil_high": 0.004, "coil_low": 0.003, "coil_open": 0.0011, "coil_unsure": 0.045, "not_commanded": 0.04}, "too little in it follows less", COMMON),
            Row({}, {"follows": 0.73, "coil_inside": 0.12, "coil_unsure": 0.05, "stays": 0.027, "stays_fed": 0.023, "not_commanded": 0.035, "coil_high": 0.005, "coil_low": 0.003, "coil_open": 0.0011}, "the low side falls as the command rises; on some cars the share counts the other way", COMMON),
        ),
    ),
)  # fmt: skip
