"""The oil that came out: black or burnt, milky, dark or clear. How much is held to nothing."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

TRADE = "trade articles: oil broken down by heat or moisture turns black"

LOOKS = Looks(
    kind="oil_condition",
    outcomes=("acid", "burnt", "moist", "dark", "clear", "amount"),
    normal=("clear",),
    # Neither "ok" nor metal: clear oil rules out no wear, and no look tells which oil it is.
    direct={"dirt": ("burnt", "moisture")},
    alarms=0.002,  # black, milky and clear are not mistaken for each other in a cup
    rows=Rows(
        ("dirt", "oil"),
        (
            Row({"dirt": ("burnt",)}, {"burnt": 0.55, "acid": 0.18, "dark": 0.13, "clear": 0.05, "amount": 0.08, "moist": 0.01}, "oil broken down is black and smells", TRADE),
            Row({"dirt": ("metal",)}, {"dark": 0.35, "burnt": 0.11, "acid": 0.02, "clear": 0.38, "amount": 0.13, "moist": 0.01}, "fine wear turns oil dark or gray, or stays behind", COMMON),
            Row({"dirt": ("moisture",)}, {"moist": 0.22, "acid": 0.05, "burnt": 0.03, "dark": 0.08, "clear": 0.50, "amount": 0.12}, "milky only where there is much of it; PAG oil takes up water unseen", COMMON),
            Row({"dirt": ("leak_stop",)}, {"clear": 0.58, "dark": 0.16, "amount": 0.13, "moist": 0.06, "burnt": 0.04, "acid": 0.03}, "leak-stop swims in the oil and need not color it", JUDGED),
            Row({"dirt": ("other",)}, {"clear": 0.52, "dark": 0.22, "amount": 0.13, "burnt": 0.08, "moist": 0.03, "acid": 0.02}, "rubber and desiccant color the oil", JUDGED),
            Row({"oil": ("little",)}, {"clear": 0.682, "dark": 0.16, "amount": 0.14, "burnt": 0.013, "acid": 0.002, "moist": 0.003}, "a little oil works hard and darkens", COMMON),
            Row({"oil": ("wrong",)}, {"clear": 0.692, "dark": 0.13, "amount": 0.14, "moist": 0.025, "burnt": 0.01, "acid": 0.003}, "oils that do not mix can cloud; most look alike", JUDGED),
            Row({}, {"clear": 0.7845, "amount": 0.145, "dark": 0.067, "burnt": 0.0015, "moist": 0.0015, "acid": 0.0005}, "oil in order is clear; dye and age darken it", COMMON),
        ),
    ),
)  # fmt: skip
