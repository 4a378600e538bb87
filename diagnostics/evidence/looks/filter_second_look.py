"""The filter or screen looked at again after running: whether debris still comes, not what kind."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="filter_second_look",
    outcomes=("debris", "specks", "clean"),
    normal=("clean",),
    direct={"dirt": ("metal", "burnt")},
    rows=Rows(
        ("dirt", "mechanics"),
        (
            Row({"dirt": ("metal",), "mechanics": ("locked", "stiff", "not_pumping")}, {"debris": 0.56, "specks": 0.18, "clean": 0.26}, "a compressor that wears sheds on", COMMON),
            Row({"dirt": ("metal",)}, {"debris": 0.34, "specks": 0.24, "clean": 0.42}, "old debris travels for hours, or lies where oil is slow", COMMON),
            Row({"dirt": ("burnt",)}, {"debris": 0.32, "specks": 0.24, "clean": 0.44}, "paste comes loose by and by", COMMON),
            Row({"dirt": ("other",)}, {"debris": 0.34, "specks": 0.24, "clean": 0.42}, "beads and crumbs come on", COMMON),
            Row({"dirt": ("leak_stop",)}, {"debris": 0.12, "specks": 0.16, "clean": 0.72}, "jelly is caught at times", JUDGED),
            Row({"dirt": ("moisture",)}, {"debris": 0.006, "specks": 0.06, "clean": 0.934}, "moisture is caught by no screen", COMMON),
            Row({}, {"debris": 0.002, "specks": 0.055, "clean": 0.943}, "a few specks come with any work on a loop", COMMON),
        ),
    ),
)  # fmt: skip
