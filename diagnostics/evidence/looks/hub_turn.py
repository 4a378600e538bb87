"""The hub turned by hand, engine off: the one look at the shaft itself."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="hub_turn",
    outcomes=(
        "free", "free_no_resistance", "broken_inside", "rough", "locked", "frees_backwards",
        "drive_broken",
    ),
    normal=("free",),
    # A hub that turns freely does not show that it pumps, so "ok" is not named by it.
    direct={
        "mechanics": ("locked", "stiff", "not_pumping"),
        "clutch": ("hub_broken",),
    },
    rows=Rows(
        ("mechanics", "clutch"),
        (
            Row({"mechanics": ("locked",), "clutch": ("hub_broken",)}, {"locked": 0.66, "drive_broken": 0.26, "rough": 0.02, "frees_backwards": 0.02}, "the shaft stands; where only the broken drive is tried, the hub stands too", COMMON),
            Row({"mechanics": ("locked",)}, {"locked": 0.88, "rough": 0.04, "frees_backwards": 0.05, "free": 0.02}, "a locked shaft does not turn; one that locks hot may turn cold", COMMON),
            Row({"mechanics": ("stiff",)}, {"rough": 0.76, "free": 0.16, "frees_backwards": 0.04}, "notchy or gritty is felt; some are stiff under load or hot only", COMMON),
            Row({"clutch": ("hub_broken",)}, {"drive_broken": 0.45, "free": 0.32, "free_no_resistance": 0.12, "broken_inside": 0.08}, "the shaft does not come along; with a clutch it is felt as no resistance or not at all", COMMON),
            Row({"mechanics": ("not_pumping",)}, {"free": 0.62, "free_no_resistance": 0.20, "broken_inside": 0.14}, "worn inside can turn freely; no resistance at all is broken inside", COMMON),
            Row({"mechanics": ("valve",)}, {"free": 0.62, "free_no_resistance": 0.35}, "at its smallest stroke there is hardly any resistance", COMMON),
            Row({"mechanics": ("other",)}, {"free": 0.72, "free_no_resistance": 0.12, "frees_backwards": 0.06, "rough": 0.05}, "anything", JUDGED),
            Row({}, {"free": 0.84, "free_no_resistance": 0.14, "broken_inside": 0.006, "frees_backwards": 0.008, "rough": 0.002, "locked": 0.0008}, "smooth, with even resistance; a variable one standing has little, as has a loop without gas", COMMON),
        ),
    ),
)  # fmt: skip
