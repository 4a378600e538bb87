"""What is seen of the complaint now: whether it engages, never why not."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="complaint_seen",
    outcomes=(
        "not_engaging", "at_times", "seen_engages", "seen", "only_then", "blower_dead", "not_now",
        "engages",
    ),
    normal=("engages", "not_now"),
    direct={},  # it sees a consequence: which part keeps it off is not told
    rows=Rows(
        ("driven", "pumps", "cabin", "mechanics"),
        (
            Row({"driven": ("none",)}, {"not_engaging": 0.84, "seen": 0.07, "at_times": 0.03, "only_then": 0.02, "not_now": 0.015, "seen_engages": 0.01}, "what is not driven does not engage; not everybody looks", COMMON),
            Row({"driven": ("part",)}, {"at_times": 0.32, "only_then": 0.18, "seen_engages": 0.20, "not_engaging": 0.14, "not_now": 0.07, "seen": 0.05}, "it comes and goes, or slips while it engages", COMMON),
            Row({"mechanics": ("not_commanded", "isolation", "inverter")}, {"not_engaging": 0.74, "seen": 0.10, "at_times": 0.05, "only_then": 0.02, "not_now": 0.03, "seen_engages": 0.02}, "an electric compressor whose own electronics fail does not run, whatever commands it", COMMON),
            Row({"mechanics": ("locked",)}, {"not_engaging": 0.28, "at_times": 0.10, "seen_engages": 0.38, "seen": 0.14, "engages": 0.04}, "a motor that cannot turn stands; a clutch may take hold for a moment, with the belt squealing", JUDGED),
            Row({"cabin": ("airflow",)}, {"seen_engages": 0.56, "blower_dead": 0.12, "seen": 0.12, "engages": 0.07, "not_now": 0.05, "only_then": 0.04}, "too little air is felt while it engages", COMMON),
            Row({"pumps": ("none",)}, {"seen_engages": 0.66, "seen": 0.14, "not_engaging": 0.08, "engages": 0.06, "at_times": 0.03}, "driven, and no cold; a shaft that stands can look like it", JUDGED),
            Row({}, {"seen_engages": 0.52, "not_now": 0.13, "engages": 0.12, "seen": 0.10, "only_then": 0.06, "at_times": 0.045, "blower_dead": 0.008}, "it engages; cycling is automatic, and is taken for now and then", COMMON),
        ),
    ),
)  # fmt: skip
