"""The clutch's air gap, measured around: wear widens it, a wrong shim makes it small."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="air_gap",
    outcomes=("uneven", "far_wide", "too_wide", "too_small", "cannot_tell", "inside"),
    normal=("inside",),
    direct={"clutch": ("gap_wide", "gap_small")},  # wear is seen on the faces, not in the gap
    vague=("cannot_tell",),
    alarms=0.002,  # three points or more, each held to the others
    rows=Rows(
        ("clutch",),
        (
            Row({"clutch": ("gap_wide",)}, {"far_wide": 0.43, "too_wide": 0.43, "cannot_tell": 0.06, "inside": 0.045, "uneven": 0.034, "too_small": 0.0005}, "the gap is what is measured; without this vehicle’s own limits it may pass as usual", COMMON),
            Row({"clutch": ("worn",)}, {"far_wide": 0.40, "too_wide": 0.32, "inside": 0.14, "uneven": 0.078, "cannot_tell": 0.06, "too_small": 0.001}, "wear widens the gap, burnt faces need not", COMMON),
            Row({"clutch": ("gap_small",)}, {"too_small": 0.90, "cannot_tell": 0.05, "uneven": 0.03}, "the gap is what is measured", COMMON),
            Row({"clutch": ("hub_broken", "bearing")}, {"inside": 0.57, "uneven": 0.25, "too_wide": 0.08, "cannot_tell": 0.06, "far_wide": 0.03, "too_small": 0.006}, "play lets the plate stand crooked", JUDGED),
            Row({"clutch": ("fails_hot",)}, {"inside": 0.72, "too_wide": 0.12, "cannot_tell": 0.12, "far_wide": 0.02, "uneven": 0.015, "too_small": 0.002}, "a gap near its limit lets go when the coil is hot", COMMON),
            Row({"clutch": ("other",)}, {"inside": 0.70, "uneven": 0.12, "cannot_tell": 0.08, "too_wide": 0.06, "far_wide": 0.03, "too_small": 0.008}, "anything", JUDGED),
            Row({}, {"inside": 0.926, "cannot_tell": 0.060, "too_wide": 0.006, "uneven": 0.006, "far_wide": 0.0014}, "cars run with gaps at the edge of their limit; where the meter cannot part it from the limit, it says so", COMMON),
        ),
    ),
)  # fmt: skip
