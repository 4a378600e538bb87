"""The clutch's air gap, measured around: wear widens it, a wrong shim makes it small."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="air_gap",
    outcomes=("uneven", "far_wide", "too_wide", "too_small", "cannot_tell", "inside"),
    normal=("inside",),
    direct={"clutch": ("gap_wide", "gap_small", "worn")},
    rows=Rows(
        ("clutch",),
        (
            Row({"clutch": ("gap_wide",)}, {"far_wide": 0.44, "too_wide": 0.46, "cannot_tell": 0.05, "uneven": 0.03}, "the gap is what is measured", COMMON),
            Row({"clutch": ("worn",)}, {"far_wide": 0.46, "too_wide": 0.34, "uneven": 0.08, "inside": 0.05, "cannot_tell": 0.05}, "wear widens the gap", COMMON),
            Row({"clutch": ("gap_small",)}, {"too_small": 0.90, "cannot_tell": 0.05, "uneven": 0.03}, "the gap is what is measured", COMMON),
            Row({"clutch": ("hub_broken", "bearing")}, {"inside": 0.55, "uneven": 0.25, "too_wide": 0.08, "cannot_tell": 0.06}, "play lets the plate stand crooked", JUDGED),
            Row({"clutch": ("fails_hot",)}, {"inside": 0.72, "too_wide": 0.12, "cannot_tell": 0.12}, "a gap near its limit lets go when the coil is hot", COMMON),
            Row({"clutch": ("other",)}, {"inside": 0.70, "uneven": 0.12, "cannot_tell": 0.08}, "anything", JUDGED),
            Row({}, {"inside": 0.925, "cannot_tell": 0.055, "too_wide": 0.010, "uneven": 0.006}, "cars run with gaps at the edge of their limit", COMMON),
        ),
    ),
)  # fmt: skip
