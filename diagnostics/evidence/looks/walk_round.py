"""A look round: coarse, but it may stumble over a shaft that does not turn or a wrong gas."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="walk_round",
    outcomes=("gas_not_label", "not_turning", "not_fine", "all_fine", "part_fine"),
    normal=("part_fine", "all_fine"),
    direct={},  # what it stumbles over is tried by a test of its own
    # A quick try by hand and a line on a list are slipped more often than a test of their own.
    misses=0.05,
    alarms=0.012,
    rows=Rows(
        ("mechanics", "gas"),
        (
            Row({"gas": ("mixed",)}, {"gas_not_label": 0.32, "not_fine": 0.22, "part_fine": 0.36, "all_fine": 0.09}, "an identifier shows it, where one is at hand", COMMON),
            Row({"mechanics": ("locked",)}, {"not_turning": 0.50, "not_fine": 0.16, "part_fine": 0.25, "all_fine": 0.08}, "a locked shaft does not turn, where it was tried", COMMON),
            Row({"mechanics": ("stiff",)}, {"not_turning": 0.30, "not_fine": 0.24, "part_fine": 0.32, "all_fine": 0.13}, "a stiff one is felt by some hands", COMMON),
            Row({"gas": ("air",)}, {"gas_not_label": 0.05, "not_fine": 0.28, "part_fine": 0.46, "all_fine": 0.20}, "few lists count air as another gas", JUDGED),
            Row({}, {"part_fine": 0.47, "not_fine": 0.31, "all_fine": 0.21, "not_turning": 0.004, "gas_not_label": 0.003}, "any car has something that is not fine", COMMON),
        ),
    ),
)  # fmt: skip
