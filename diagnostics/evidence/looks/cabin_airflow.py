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
    alarms=0.002,  # felt and heard by anybody
    direct={"cabin": ("airflow", "iced", "rear")},
    rows=Rows(
        ("cabin",),
        (
            Row({"cabin": ("airflow",)}, {"filter": 0.293, "weak": 0.25, "no_air": 0.215, "rear": 0.004, "steps": 0.12, "some": 0.04, "ices": 0.01, "strong_filter": 0.018, "strong": 0.05}, "weak air is felt at any vent", COMMON),
            Row({"cabin": ("iced",)}, {"ices": 0.165, "weak": 0.045, "filter": 0.02, "no_air": 0.012, "some": 0.02, "steps": 0.019, "strong_filter": 0.09, "strong": 0.628}, "it fades after a while, and is strong before; often nobody waits for it", COMMON),
            Row({"cabin": ("rear",)}, {"rear": 0.41, "strong": 0.45, "strong_filter": 0.07, "weak": 0.02, "filter": 0.015, "some": 0.015, "steps": 0.015}, "the rear unit has its own air, if somebody feels for it", COMMON),
            Row({"cabin": ("door",)}, {"some": 0.20, "strong": 0.62, "strong_filter": 0.10, "weak": 0.05, "filter": 0.01, "steps": 0.014, "ices": 0.002, "no_air": 0.002, "rear": 0.002}, "a door sends the air elsewhere", COMMON),
            Row({"cabin": ("other",)}, {"strong": 0.59, "weak": 0.12, "some": 0.10, "strong_filter": 0.09, "steps": 0.03, "filter": 0.03, "rear": 0.01, "ices": 0.01, "no_air": 0.02}, "anything", JUDGED),
            Row({}, {"strong": 0.8357, "strong_filter": 0.13, "steps": 0.014, "some": 0.012, "weak": 0.005, "filter": 0.0015, "rear": 0.0008, "ices": 0.0005, "no_air": 0.0005}, "air in order is strong; filters are dirty on many cars", COMMON),
        ),
    ),
)  # fmt: skip
