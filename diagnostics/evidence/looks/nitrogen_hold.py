"""Nitrogen held, its pressure corrected for temperature: it falls by a gross leak only."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# Two pressures and two temperatures are read: one more can slip, and hoses and couplers stand in
# the rows. Our judgement.
ALARMS = 0.003
GROSS = "share of gross leaks: our judgement"

LOOKS = Looks(
    kind="nitrogen_hold",
    outcomes=("falls", "falls_far", "held", "rises"),
    normal=("held",),
    direct={"tightness": ("leaks", "leaks_hidden")},
    alarms=ALARMS,
    rows=Rows(
        ("tightness",),
        (
            Row({"tightness": ("leaks",)}, {"held": 0.66, "falls": 0.24, "falls_far": 0.09, "rises": 0.008}, "a gross leak lets it fall within the half hour, a smaller one does not", GROSS),
            Row({"tightness": ("leaks_hidden",)}, {"held": 0.82, "falls": 0.14, "falls_far": 0.03, "rises": 0.008}, "the same, and slower ones", GROSS),
            Row({"tightness": ("other",)}, {"held": 0.90, "falls": 0.06, "falls_far": 0.02, "rises": 0.008}, "anything", JUDGED),
            Row({}, {"held": 0.977, "falls": 0.010, "falls_far": 0.003, "rises": 0.008}, "it holds; hoses and couplers can leak, too", COMMON),
        ),
    ),
)  # fmt: skip
