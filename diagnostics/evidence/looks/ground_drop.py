"""Volts lost between the coil's ground and battery minus, current flowing: the ground itself.

Where the ground side is switched, what switches it lies in this stretch and loses some tenths:
above the limit is therefore weaker than over the feed, a volt and more is not.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows
from diagnostics.evidence.looks.feed_drop import FLOWS

LOOKS = Looks(
    kind="ground_drop",
    outcomes=("within", "cannot_tell", "above", "far"),
    normal=("within",),
    direct={"command": ("ground_resistance",)},
    vague=("cannot_tell",),
    # With current shown to flow a volt is not misread; without it the kind carries nothing.
    misses=0.01,
    alarms=0.001,
    can_be_read=FLOWS,
    rows=Rows(
        ("command", "clutch"),
        (
            Row({"command": ("ground_resistance",)}, {"above": 0.46, "far": 0.46, "cannot_tell": 0.05, "within": 0.02}, "volts are lost as soon as current flows", COMMON),
            Row({"command": ("other",)}, {"within": 0.84, "above": 0.05, "far": 0.05, "cannot_tell": 0.06}, "anything", JUDGED),
            Row({"clutch": ("coil_shorted",)}, {"within": 0.90, "cannot_tell": 0.065, "above": 0.03, "far": 0.001}, "more current loses more on a sound ground", COMMON),
            Row({}, {"within": 0.942, "cannot_tell": 0.05, "above": 0.006, "far": 0.0002}, "a ground in order loses at most 0.1 V; a switch in it loses more", COMMON),
        ),
    ),
)  # fmt: skip
