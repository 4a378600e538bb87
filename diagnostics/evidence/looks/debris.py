"""Debris in the open loop: what is seen is there; what was not opened may hold it all the same."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

TRADE = "trade articles on what each kind of debris comes from"

LOOKS = Looks(
    kind="debris",
    outcomes=(
        "metal", "leak_stop", "paste", "desiccant", "hose", "several", "found", "clean",
        "part_clean",
    ),
    normal=("part_clean", "clean"),
    # "ok" is not among them: moisture and what is too fine for the eye are not seen. Nor is
    # "other": what nobody thought of is never ruled out by a look at one place.
    direct={"dirt": ("metal", "burnt", "leak_stop")},
    less={"found": ("metal", "leak_stop", "paste", "desiccant", "hose", "several"), "part_clean": ("clean", "found", "metal", "leak_stop", "paste", "desiccant", "hose", "several")},
    # Each kind is told apart by the eye and tapped by its name: a wrong tap is rare.
    alarms=0.002,
    rows=Rows(
        ("dirt",),
        (
            Row({"dirt": ("metal",)}, {"metal": 0.44, "several": 0.10, "found": 0.04, "paste": 0.02, "part_clean": 0.36, "clean": 0.03}, "flakes gather at the inlet of the expansion device; elsewhere they are easily missed", TRADE),
            Row({"dirt": ("burnt",)}, {"paste": 0.42, "several": 0.09, "found": 0.04, "metal": 0.01, "part_clean": 0.39, "clean": 0.04}, "burnt oil leaves black paste, not everywhere", TRADE),
            Row({"dirt": ("leak_stop",)}, {"leak_stop": 0.22, "several": 0.03, "found": 0.03, "part_clean": 0.57, "clean": 0.14}, "leak-stop that has not met air stays liquid and is not seen", TRADE),
            Row({"dirt": ("other",)}, {"desiccant": 0.26, "hose": 0.24, "found": 0.10, "several": 0.04, "part_clean": 0.31, "clean": 0.04}, "beads, crumbs of a hose, or what nobody knows", TRADE),
            Row({"dirt": ("moisture",)}, {"part_clean": 0.742, "clean": 0.20, "paste": 0.04, "several": 0.004, "found": 0.01, "metal": 0.001, "leak_stop": 0.001, "desiccant": 0.001, "hose": 0.001}, "moisture is not seen; with time it turns the oil to paste", COMMON),
            Row({}, {"part_clean": 0.785, "clean": 0.207, "metal": 0.0006, "paste": 0.001, "leak_stop": 0.0003, "desiccant": 0.0001, "hose": 0.0006, "several": 0.0004, "found": 0.005}, "a clean loop looks clean; a crumb of a seal can lie at an opened end", JUDGED),
        ),
    ),
)  # fmt: skip
