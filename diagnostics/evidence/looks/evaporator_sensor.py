"""The evaporator's sensor beside a thermometer, and ice there: seen, or suspected.

Only ice that was seen shows it; a sensor that tells right rules out no ice and no other sensor.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="evaporator_sensor",
    outcomes=(
        "too_cold", "too_warm", "outside", "iced", "may_ice", "refused_cold", "agrees", "inside",
        "cannot_tell",
    ),
    normal=("agrees", "inside"),
    # What the car refuses is named by its data; here only that it is cold there.
    direct={"command": ("switch_false",), "cabin": ("iced",)},
    tries=(("outside", "inside"),),
    # Two numbers are held against each other, and ice is seen or not: a wrong tap is rare.
    alarms=0.002,
    rows=Rows(
        ("command", "cabin"),
        (
            Row({"command": ("refused_cold",)}, {"refused_cold": 0.40, "agrees": 0.34, "inside": 0.05, "cannot_tell": 0.19, "too_cold": 0.005}, "it is cold there, and the car says so", COMMON),
            Row({"command": ("switch_false",), "cabin": ("iced",)}, {"too_warm": 0.36, "iced": 0.16, "may_ice": 0.10, "outside": 0.10, "agrees": 0.12, "inside": 0.03, "cannot_tell": 0.11, "too_cold": 0.01, "refused_cold": 0.01}, "a sensor that tells too warm lets it ice up", COMMON),
            Row({"command": ("switch_false",)}, {"too_cold": 0.20, "too_warm": 0.05, "outside": 0.12, "agrees": 0.36, "inside": 0.06, "cannot_tell": 0.20}, "it is this sensor, or another one", JUDGED),
            Row({"cabin": ("iced",)}, {"iced": 0.18, "may_ice": 0.10, "too_warm": 0.01, "agrees": 0.43, "inside": 0.075, "cannot_tell": 0.19, "too_cold": 0.004, "refused_cold": 0.005, "outside": 0.006}, "ice comes and goes, and is behind a cover", COMMON),
            Row({"cabin": ("airflow",)}, {"iced": 0.004, "may_ice": 0.04, "agrees": 0.577, "inside": 0.10, "cannot_tell": 0.263, "too_cold": 0.003, "too_warm": 0.003, "outside": 0.006, "refused_cold": 0.004}, "weak air is taken for air that fades; behind a clogged filter it ices", COMMON),
            Row({}, {"agrees": 0.5987, "inside": 0.105, "cannot_tell": 0.27, "may_ice": 0.012, "iced": 0.0003, "too_cold": 0.0025, "too_warm": 0.0025, "outside": 0.006, "refused_cold": 0.003}, "a sensor in order tells what is there", COMMON),
        ),
    ),
)  # fmt: skip
