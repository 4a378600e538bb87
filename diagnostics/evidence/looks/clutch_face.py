"""The friction faces, looked at: heat, smear and oil stand there for anybody to see."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="clutch_face",
    outcomes=(
        "loop_oil", "melted", "overheated", "other_oil", "oily", "dusty", "rusty", "clean",
    ),
    normal=("clean",),
    direct={"clutch": ("worn", "oily"), "seal": ("wet",)},
    less={"oily": ("loop_oil", "other_oil")},
    rows=Rows(
        ("clutch", "seal"),
        (
            Row({"clutch": ("oily",), "seal": ("wet",)}, {"loop_oil": 0.60, "oily": 0.25, "overheated": 0.07, "melted": 0.03, "other_oil": 0.03}, "a wet seal throws the loop’s oil on the faces", COMMON),
            Row({"clutch": ("oily",)}, {"other_oil": 0.43, "oily": 0.37, "overheated": 0.11, "melted": 0.03, "loop_oil": 0.02}, "oil from the engine drips on it; where it slipped, heat is told first", COMMON),
            Row({"clutch": ("worn",)}, {"overheated": 0.38, "melted": 0.19, "dusty": 0.20, "clean": 0.17, "rusty": 0.04}, "slipping burns, smears and dusts; with the plate on only the edges are seen", COMMON),
            Row({"seal": ("wet",)}, {"clean": 0.78, "loop_oil": 0.015, "oily": 0.04, "dusty": 0.06}, "a seal that leaks slowly need not reach the faces; oil that is seen on them is on them", JUDGED),
            Row({"clutch": ("gap_wide", "gap_small", "bearing", "hub_broken")}, {"clean": 0.60, "overheated": 0.16, "dusty": 0.14, "rusty": 0.06}, "it may have slipped before", COMMON),
            Row({}, {"clean": 0.90, "rusty": 0.045, "dusty": 0.035, "oily": 0.008, "overheated": 0.006}, "some rust and dust is on any clutch", COMMON),
        ),
    ),
)  # fmt: skip
