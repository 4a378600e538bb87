"""High voltage isolated and proven dead, and the insulation where it was measured.

Whether anybody measured it, and whether it was proven dead, is the person's doing: that tells
nothing of the compressor. A low insulation is one of the whole side until the compressor is parted
from it.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, Row, Rows

LOOKS = Looks(
    kind="hv_isolation",
    outcomes=(
        "isolated_dead", "dead_insulation_inside", "dead_insulation_low",
        "dead_insulation_recorded", "not_dead", "not_proven",
    ),
    normal=("isolated_dead", "dead_insulation_inside"),
    direct={"mechanics": ("isolation",)},
    less={"isolated_dead": ("dead_insulation_inside", "dead_insulation_low", "dead_insulation_recorded"), "dead_insulation_recorded": ("dead_insulation_inside", "dead_insulation_low")},
    misses=0.004,  # a low insulation is read off a meter; no slip turns it into "not measured"
    rows=Rows(
        ("mechanics",),
        (
            Row({"mechanics": ("isolation",)}, {"isolated_dead": 0.40, "dead_insulation_low": 0.36, "dead_insulation_recorded": 0.12, "dead_insulation_inside": 0.02, "not_proven": 0.07, "not_dead": 0.03}, "low where it is measured; hot or wet ones may read right cold", COMMON),
            Row({}, {"isolated_dead": 0.40, "dead_insulation_inside": 0.343, "dead_insulation_recorded": 0.145, "dead_insulation_low": 0.012, "not_proven": 0.07, "not_dead": 0.03}, "above the least where it is measured; another part of that side can be low", COMMON),
        ),
    ),
)  # fmt: skip
