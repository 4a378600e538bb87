"""Both pressures running: a pattern of what is moved, of how much there is, and of where it sticks.

A loop in which nothing pumps reads as one at rest, whatever keeps it from pumping. The patterns and
their suspects are from trade articles; how often each comes is our judgement.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

PATTERNS = "trade articles: patterns of running pressures; shares our judgement"
BLOCKED = {"flow": ("device_blocked", "drier_hose")}

LOOKS = Looks(
    kind="running_pressures",
    outcomes=(
        "inside", "inside_vents_warm", "low_low", "high_high", "high_low", "close_together",
        "starved", "one_side_off", "at_the_edge",
    ),
    normal=("inside",),
    # That it pumps is seen by two sides that stand apart; what keeps it from pumping is not.
    direct={"mechanics": ("ok", "not_pumping")},
    vague=("at_the_edge",),
    # The shaft is seen turning, or nothing is made of two sides that stand alike.
    can_be_read={"driven": {"none": 0.03}},
    alarms=0.006,  # a hose not quite open or a gauge off its zero makes a pattern, too
    rows=Rows(
        ("driven", "pumps", "amount", "flow", "outside"),
        (
            Row({"pumps": ("none",)}, {"close_together": 0.93, "high_low": 0.03, "at_the_edge": 0.02}, "nothing is moved: both sides stand near the pressure at rest", COMMON),
            Row({"amount": ("empty",)}, {"low_low": 0.60, "close_together": 0.31, "starved": 0.03, "one_side_off": 0.02}, "next to nothing is in it: both low, and often hardly apart", COMMON),
            Row({"pumps": ("weak",), "amount": ("low",)}, {"low_low": 0.40, "high_low": 0.17, "close_together": 0.15, "one_side_off": 0.12, "at_the_edge": 0.09}, "too little in it, and little of it moved", JUDGED),
            Row({"pumps": ("weak",), "flow": ("device_blocked", "drier_hose")}, {"starved": 0.28, "one_side_off": 0.22, "inside": 0.08, "at_the_edge": 0.14, "low_low": 0.14}, "what passes little and what moves little hide each other", JUDGED),
            Row({"driven": ("part",), "pumps": ("weak",), "outside": ("ok",)}, {"inside": 0.24, "high_low": 0.20, "at_the_edge": 0.16, "inside_vents_warm": 0.15, "one_side_off": 0.14, "close_together": 0.05, "low_low": 0.02}, "driven at times it reads right at times; where clutch or belt slips, little is moved", JUDGED),
            Row({"pumps": ("weak",)}, {"high_low": 0.44, "one_side_off": 0.16, "at_the_edge": 0.13, "close_together": 0.11, "inside_vents_warm": 0.07, "inside": 0.05, "low_low": 0.02}, "little is moved: low side high, high side low", PATTERNS),
            Row({"amount": ("low",), **BLOCKED}, {"starved": 0.40, "low_low": 0.40, "one_side_off": 0.09, "at_the_edge": 0.06}, "both pull the low side down, little in it also the high side", JUDGED),
            Row({"amount": ("low",), "flow": ("device_open",)}, {"high_low": 0.30, "low_low": 0.20, "one_side_off": 0.20, "at_the_edge": 0.12, "close_together": 0.06}, "an open device lifts the low side, little in it lowers both", JUDGED),
            Row({"amount": ("low",), "outside": ("fan", "face", "engine_heat")}, {"one_side_off": 0.32, "low_low": 0.22, "inside_vents_warm": 0.12, "inside": 0.08, "at_the_edge": 0.12, "starved": 0.06}, "the high side is lowered by the one and lifted by the other", JUDGED),
            Row({"amount": ("low",)}, {"low_low": 0.56, "one_side_off": 0.18, "at_the_edge": 0.09, "inside": 0.06, "inside_vents_warm": 0.05, "starved": 0.03}, "too little in it: both low; a little too little shows on one side or not at all", PATTERNS),
            Row({**BLOCKED}, {"starved": 0.66, "low_low": 0.10, "one_side_off": 0.11, "at_the_edge": 0.06, "inside_vents_warm": 0.02}, "what is pumped off does not come back through: low side toward vacuum", PATTERNS),
            Row({"flow": ("device_open",), "outside": ("fan", "face")}, {"high_high": 0.55, "one_side_off": 0.20, "at_the_edge": 0.08, "high_low": 0.06, "inside_vents_warm": 0.05}, "too much passes, and its heat is not taken off", JUDGED),
            Row({"flow": ("device_open",)}, {"high_low": 0.34, "one_side_off": 0.23, "high_high": 0.11, "at_the_edge": 0.10, "inside_vents_warm": 0.08, "inside": 0.05, "close_together": 0.04}, "too much passes: low side high, high side not", PATTERNS),
            Row({"flow": ("condenser_blocked",)}, {"high_high": 0.50, "one_side_off": 0.24, "at_the_edge": 0.08, "starved": 0.06, "inside": 0.05, "inside_vents_warm": 0.05}, "heat is not taken off", PATTERNS),
            Row({"outside": ("fan", "face")}, {"high_high": 0.58, "one_side_off": 0.18, "at_the_edge": 0.08, "inside": 0.08, "inside_vents_warm": 0.05}, "heat is not taken off: both high", PATTERNS),
            Row({"amount": ("too_much",)}, {"high_high": 0.56, "one_side_off": 0.20, "at_the_edge": 0.09, "inside": 0.09, "inside_vents_warm": 0.04}, "liquid fills the condenser: both high", PATTERNS),
            Row({"outside": ("engine_heat",)}, {"high_high": 0.30, "one_side_off": 0.18, "inside": 0.22, "inside_vents_warm": 0.14, "at_the_edge": 0.12}, "the engine warms the condenser at some loads", PATTERNS),
            Row({"flow": ("other",)}, {"inside": 0.22, "inside_vents_warm": 0.18, "one_side_off": 0.20, "at_the_edge": 0.12, "starved": 0.10, "low_low": 0.08}, "anything", JUDGED),
            Row({"outside": ("other",)}, {"inside": 0.28, "inside_vents_warm": 0.14, "high_high": 0.24, "one_side_off": 0.15, "at_the_edge": 0.12}, "anything", JUDGED),
            Row({}, {"inside": 0.615, "inside_vents_warm": 0.15, "at_the_edge": 0.10, "one_side_off": 0.065, "high_high": 0.035, "low_low": 0.020, "starved": 0.003, "high_low": 0.004, "close_together": 0.003}, "pumped, right and free: inside; little heat shows low, air in it high, a hand valve left open both alike", PATTERNS),
        ),
    ),
)  # fmt: skip
