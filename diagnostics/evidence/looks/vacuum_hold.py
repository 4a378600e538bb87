"""A vacuum held: a gross check. What leaks a kilogram a year hardly moves it in a quarter hour.

Worked out for a loop of 3 L: 14 g a year adds about 0.2 micron in 5 minutes, 1 kg a year about 13.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

WORKED_OUT = "worked out for a loop of 3 L; share of gross leaks: our judgement"

LOOKS = Looks(
    kind="vacuum_hold",
    outcomes=(
        "held", "held_shallow", "leak", "moisture", "rises", "cannot_tell", "deep", "near_target",
        "not_deep", "needle_back",
    ),
    normal=("held", "deep"),
    direct={"tightness": ("leaks", "leaks_hidden"), "dirt": ("moisture",)},
    vague=("cannot_tell",),
    less={"rises": ("leak", "moisture"), "deep": ("held", "leak", "moisture", "rises")},
    rows=Rows(
        ("tightness", "dirt"),
        (
            Row({"tightness": ("leaks",), "dirt": ("moisture",)}, {"held": 0.15, "deep": 0.07, "moisture": 0.36, "leak": 0.10, "rises": 0.12, "not_deep": 0.08, "held_shallow": 0.04, "near_target": 0.02, "cannot_tell": 0.03, "needle_back": 0.02}, "water that boils off hides the leak", JUDGED),
            Row({"dirt": ("moisture",)}, {"held": 0.19, "deep": 0.09, "moisture": 0.43, "rises": 0.10, "not_deep": 0.07, "held_shallow": 0.04, "near_target": 0.02, "cannot_tell": 0.035, "leak": 0.01, "needle_back": 0.005}, "water boils off and flattens the rise, until it is pumped out", COMMON),
            Row({"tightness": ("leaks",)}, {"held": 0.375, "deep": 0.14, "leak": 0.14, "rises": 0.08, "needle_back": 0.05, "not_deep": 0.05, "held_shallow": 0.045, "near_target": 0.03, "cannot_tell": 0.06, "moisture": 0.025}, "only a gross leak is seen", WORKED_OUT),
            Row({"tightness": ("leaks_hidden",)}, {"held": 0.46, "deep": 0.165, "leak": 0.06, "rises": 0.07, "needle_back": 0.02, "not_deep": 0.045, "held_shallow": 0.045, "near_target": 0.035, "cannot_tell": 0.065, "moisture": 0.025}, "the same, and slower ones", WORKED_OUT),
            Row({}, {"held": 0.52, "deep": 0.178, "rises": 0.06, "cannot_tell": 0.07, "held_shallow": 0.045, "near_target": 0.04, "not_deep": 0.035, "moisture": 0.025, "leak": 0.012, "needle_back": 0.006}, "it holds; hoses, couplers, the pump and gas out of the oil spoil some", COMMON),
        ),
    ),
)  # fmt: skip
