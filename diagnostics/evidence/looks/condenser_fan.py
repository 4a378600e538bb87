"""The fans at the condenser: what turns, which way, and whether air is drawn.

A fan that waits for pressure stands rightly on a car whose compressor does not pump.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="condenser_fan",
    outcomes=(
        "all_stand", "one_stands", "push", "backwards", "loose", "hardly", "belt_only",
        "no_faster", "runs", "runs_only",
    ),
    normal=("runs", "runs_only", "belt_only"),
    # "ok" of the outside air is not among them: how much goes through, a fan that turns tells not.
    direct={"outside": ("fan",)},
    less={"runs_only": ("runs", "no_faster", "hardly", "backwards")},
    rows=Rows(
        ("outside", "pumps"),
        (
            Row({"outside": ("fan",)}, {"all_stand": 0.35, "one_stands": 0.23, "push": 0.10, "loose": 0.10, "backwards": 0.03, "hardly": 0.03, "no_faster": 0.05, "runs": 0.05, "runs_only": 0.04, "belt_only": 0.02}, "a fan at fault mostly stands; one that lost a speed, or fails hot, may run", COMMON),
            Row({"pumps": ("none",), "outside": ("face",)}, {"all_stand": 0.20, "one_stands": 0.05, "hardly": 0.16, "runs": 0.30, "runs_only": 0.17, "belt_only": 0.05, "no_faster": 0.05}, "the face lets little through; some fans wait for a pressure", COMMON),
            Row({"pumps": ("none",)}, {"all_stand": 0.18, "one_stands": 0.05, "runs": 0.48, "runs_only": 0.17, "belt_only": 0.05, "no_faster": 0.035, "push": 0.002, "backwards": 0.002, "loose": 0.005, "hardly": 0.006}, "where nothing pumps no pressure rises: some fans wait for it", COMMON),
            Row({"outside": ("face",)}, {"hardly": 0.24, "runs": 0.40, "runs_only": 0.17, "belt_only": 0.05, "no_faster": 0.08, "one_stands": 0.012, "all_stand": 0.003}, "the fan turns, and little comes through the face", COMMON),
            Row({"outside": ("other", "engine_heat")}, {"runs": 0.46, "runs_only": 0.18, "hardly": 0.08, "belt_only": 0.05, "no_faster": 0.10, "one_stands": 0.03, "backwards": 0.01, "all_stand": 0.02, "loose": 0.02, "push": 0.02}, "guides, shroud or heat: the fan may look in order", JUDGED),
            Row({}, {"runs": 0.64, "runs_only": 0.19, "belt_only": 0.06, "no_faster": 0.07, "one_stands": 0.010, "all_stand": 0.002, "hardly": 0.006, "loose": 0.004, "push": 0.001, "backwards": 0.001}, "asked for and pumping, the fan runs; a second one may wait for more pressure", COMMON),
        ),
    ),
)  # fmt: skip
