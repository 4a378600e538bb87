"""The air inside: how much comes, felt at the vents. How cold it is, it does not tell."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="cabin_airflow",
    outcomes=(
        "no_air", "ices", "filter", "weak", "some", "steps", "rear", "strong_filter", "strong",
    ),
    normal=("strong",),
    # "ok" is not among them: strong air can be warm air.
    direct={"cabin": ("airflow", "iced", "rear")},
    rows=Rows(
        ("cabin",),
        (
            Row({"cabin": ("airflow",)}, {"filter": 0.293, "weak": 0.25, "no_air": 0.215, "rear": 0.004, "steps": 0.12, "some": 0.03, "ices": 0.02, "strong_filter": 0.018, "strong": 0.05}, "weak air is felt at any vent", COMMON),
            Row({"cabin": ("iced",)}, {"ices": 0.28, "weak": 0.07, "filter": 0.04, "strong_filter": 0.08, "strong": 0.51}, "it fades after a while, and is strong before", COMMON),
            Row({"cabin": ("rear",)}, {"rear": 0.44, "strong": 0.45, "strong_filter": 0.06, "weak": 0.01, "some": 0.015}, "the rear unit has its own air, if somebody feels for it", COMMON),
            Row({"cabin": ("door",)}, {"some": 0.20, "strong": 0.60, "strong_filter": 0.09, "weak": 0.05, "filter": 0.01, "steps": 0.02}, "a door sends the air elsewhere", COMMON),
            Row({"cabin": ("other",)}, {"strong": 0.50, "weak": 0.15, "some": 0.10, "strong_filter": 0.08, "steps": 0.05, "filter": 0.04, "rear": 0.03, "ices": 0.03, "no_air": 0.02}, "anything", JUDGED),
            Row({}, {"strong": 0.8325, "strong_filter": 0.13, "steps": 0.014, "some": 0.012, "weak": 0.006, "filter": 0.003, "rear": 0.0015, "ices": 0.0005, "no_air": 0.0005}, "air in order is strong; filters are dirty on many cars", COMMON),
        ),
    ),
)  # fmt: skip
