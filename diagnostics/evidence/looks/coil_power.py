"""Battery power straight at the coil: the last word on coil and clutch, not on what feeds them."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="coil_power",
    outcomes=(
        "takes_hold", "takes_hold_slow_release", "slips", "drops_out", "holds_when_pushed",
        "magnet_no_hold", "current_no_pull", "does_not_hold", "no_current", "no_current_unsure",
        "low_current", "high_current", "current_only",
    ),
    normal=("takes_hold", "current_only"),
    # It names the coil’s circuit and that it holds; gap, face and hub it cannot tell apart, and
    # shorted turns can hold as well as others.
    direct={"clutch": ("ok", "coil_open", "melt_open", "fails_hot")},
    vague=("no_current_unsure",),
    less={"does_not_hold": ("holds_when_pushed", "magnet_no_hold", "current_no_pull", "no_current", "low_current", "high_current"), "magnet_no_hold": ("holds_when_pushed",), "current_only": ("takes_hold", "takes_hold_slow_release", "slips", "drops_out", "holds_when_pushed", "magnet_no_hold", "current_no_pull")},
    misses=0.008,  # a plate that comes is seen and heard
    rows=Rows(
        ("clutch",),
        (
            Row({"clutch": ("coil_open", "melt_open")}, {"no_current": 0.66, "no_current_unsure": 0.19, "does_not_hold": 0.14}, "nothing flows through an open coil; not everybody reads the current", COMMON),
            Row({"clutch": ("coil_shorted",)}, {"high_current": 0.76, "takes_hold": 0.17, "does_not_hold": 0.04, "magnet_no_hold": 0.01}, "shorted turns draw more; they can hold, and not everybody reads the current", COMMON),
            Row({"clutch": ("fails_hot",)}, {"takes_hold": 0.44, "drops_out": 0.27, "low_current": 0.05, "holds_when_pushed": 0.04, "no_current": 0.11, "no_current_unsure": 0.02, "does_not_hold": 0.02, "current_only": 0.02}, "a coil that fails hot drops out, is dead while it is hot, or holds while it is cold", COMMON),
            Row({"clutch": ("gap_wide",)}, {"holds_when_pushed": 0.52, "takes_hold": 0.20, "magnet_no_hold": 0.12, "does_not_hold": 0.06, "current_only": 0.03, "current_no_pull": 0.02, "drops_out": 0.03, "no_current": 0.001}, "the pull does not reach over a wide gap, when pushed it holds; cold it may still come", COMMON),
            Row({"clutch": ("worn",)}, {"holds_when_pushed": 0.28, "takes_hold": 0.36, "slips": 0.16, "magnet_no_hold": 0.08, "does_not_hold": 0.06, "current_only": 0.03, "drops_out": 0.01, "no_current": 0.001}, "wear widens the gap; standing still a burnt face holds, and slips under load", COMMON),
            Row({"clutch": ("gap_small",)}, {"takes_hold_slow_release": 0.62, "takes_hold": 0.33, "current_only": 0.03}, "too small a gap does not let go", COMMON),
            Row({"clutch": ("oily",)}, {"takes_hold": 0.64, "slips": 0.26, "takes_hold_slow_release": 0.04, "current_only": 0.03}, "oil lets it slip under load only", COMMON),
            Row({"clutch": ("hub_broken",)}, {"takes_hold": 0.60, "magnet_no_hold": 0.18, "holds_when_pushed": 0.08, "slips": 0.05, "current_only": 0.03, "does_not_hold": 0.03}, "the plate may still come", JUDGED),
            Row({"clutch": ("other",)}, {"takes_hold": 0.30, "magnet_no_hold": 0.18, "does_not_hold": 0.12, "current_no_pull": 0.12, "low_current": 0.08, "current_only": 0.03, "slips": 0.04, "drops_out": 0.04, "no_current": 0.01}, "anything", JUDGED),
            Row({}, {"takes_hold": 0.935, "current_only": 0.03, "no_current_unsure": 0.012, "high_current": 0.004, "low_current": 0.004, "does_not_hold": 0.003, "current_no_pull": 0.003, "no_current": 0.001, "drops_out": 0.001, "magnet_no_hold": 0.001, "holds_when_pushed": 0.001, "takes_hold_slow_release": 0.003, "slips": 0.0015}, "a clutch in order takes hold by itself; a clip that slips, a ground nobody checked or crossed wires look like the coil", COMMON),
        ),
    ),
)  # fmt: skip
