"""Signs of earlier work: weak, and dye alone says nearly nothing."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, Row, Rows

LOOKS = Looks(
    kind="opened_before",
    outcomes=("likely", "one_sign", "dye_only", "nothing_seen"),
    normal=("nothing_seen",),
    direct={},  # what was done, and how well, is not told by a look
    # Marks and colors are judged by eye.
    misses=0.05,
    alarms=0.02,
    rows=Rows(
        ("worked_before",),
        (
            Row({"worked_before": ("yes",)}, {"likely": 0.48, "one_sign": 0.22, "dye_only": 0.09, "nothing_seen": 0.21}, "work on a loop mostly leaves marks; careful work leaves none", COMMON),
            Row({}, {"nothing_seen": 0.64, "one_sign": 0.18, "dye_only": 0.13, "likely": 0.05}, "caps are lost and loops are dyed at the factory", COMMON),
        ),
    ),
)  # fmt: skip
