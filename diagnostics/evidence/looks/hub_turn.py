"""The hub turned by hand, engine off: the one look at the shaft itself."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, Row, Rows

LOOKS = Looks(
    kind="hub_turn",
    outcomes=(
        "free", "free_no_resistance", "broken_inside", "rough", "locked", "frees_backwards",
        "drive_broken",
    ),
    normal=("free",),
    direct={
        "mechanics": ("ok", "locked", "stiff", "not_pumping"),
        "clutch": ("hub_broken",),
    },
    rows=Rows(
        ("mechanics", "clutch"),
        (
            Row({"mechanics": ("locked",)}, {"locked": 0.90, "rough": 0.04, "frees_backwards": 0.04}, "a locked shaft does not turn", COMMON),
            Row({"mechanics": ("stiff",)}, {"rough": 0.84, "free": 0.08, "frees_backwards": 0.04}, "notchy or gritty is felt", COMMON),
            Row({"clutch": ("hub_broken",)}, {"drive_broken": 0.70, "free": 0.22, "free_no_resistance": 0.06}, "the hub turns, the shaft does not come along", COMMON),
            Row({"mechanics": ("not_pumping",)}, {"free": 0.62, "free_no_resistance": 0.20, "broken_inside": 0.14}, "worn inside can turn freely; no resistance at all is broken inside", COMMON),
            Row({"mechanics": ("valve",)}, {"free": 0.62, "free_no_resistance": 0.36}, "at its smallest stroke there is hardly any resistance", COMMON),
            Row({}, {"free": 0.95, "free_no_resistance": 0.035, "frees_backwards": 0.006}, "smooth, with even resistance", COMMON),
        ),
    ),
)  # fmt: skip
