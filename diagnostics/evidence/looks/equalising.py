"""How fast both sides meet after switching off: it hints at what holds them apart, no more.

Only made after the sides stood apart: it looks at the compressor's inside, not at what drives it.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="equalising",
    outcomes=("at_once", "quick", "usual", "slow", "between"),
    normal=("usual",),
    direct={},  # a time names no part
    vague=("between",),
    misses=0.05,  # nobody sees to the second when two needles stop creeping
    alarms=0.02,
    rows=Rows(
        ("mechanics", "amount", "flow"),
        (
            Row({"flow": ("device_blocked", "drier_hose")}, {"slow": 0.42, "usual": 0.36, "between": 0.12, "quick": 0.07}, "what is blocked lets the sides meet slowly", COMMON),
            Row({"mechanics": ("not_pumping",)}, {"at_once": 0.26, "quick": 0.30, "usual": 0.28, "between": 0.11}, "plates that leak let the gas back", COMMON),
            Row({"flow": ("device_open",)}, {"at_once": 0.22, "quick": 0.36, "usual": 0.27, "between": 0.11}, "what stays open lets the sides meet", COMMON),
            Row({"amount": ("empty", "low")}, {"at_once": 0.12, "quick": 0.30, "usual": 0.40, "between": 0.11}, "little in it has little to even out", COMMON),
            Row({}, {"usual": 0.62, "quick": 0.14, "slow": 0.10, "between": 0.10}, "loops differ, and some devices close at rest", JUDGED),
        ),
    ),
)  # fmt: skip
