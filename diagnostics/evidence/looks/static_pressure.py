"""Pressure at rest: whether liquid is there, never how much of it.

From about 100 g on the needle stands where a full loop's stands, so too little, right and too much
have one row. Whether it had soaked is a matter of the day, not of the car.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# A needle that stands at nothing is hardly taken for one that stands full, and two sides are read;
# a coupler that does not open stands in the rows. Our judgement.
MISSES = 0.006
ALARMS = 0.0014

LOOKS = Looks(
    kind="static_pressure",
    outcomes=(
        "as_expected", "a_little_above", "above", "below", "some", "unsoaked_some", "empty",
        "vacuum",
    ),
    normal=("as_expected",),
    direct={"amount": ("empty",)},
    vague=("some", "unsoaked_some"),
    misses=MISSES,
    alarms=ALARMS,
    rows=Rows(
        ("amount", "gas", "tightness"),
        (
            Row({"amount": ("empty",), "tightness": ("leaks", "leaks_hidden")}, {"empty": 0.57, "below": 0.30, "unsoaked_some": 0.07, "some": 0.03, "vacuum": 0.008, "as_expected": 0.004, "a_little_above": 0.002, "above": 0.002}, "without liquid the needle stands below, at nothing, or at a rest that cannot be judged; a leak lets air into a vacuum", COMMON),
            Row({"amount": ("empty",)}, {"empty": 0.38, "below": 0.20, "vacuum": 0.30, "unsoaked_some": 0.07, "some": 0.03, "as_expected": 0.004, "a_little_above": 0.002, "above": 0.002}, "a tight loop that is empty was emptied, and may stand pumped down", JUDGED),
            Row({"gas": ("air",)}, {"above": 0.25, "a_little_above": 0.10, "as_expected": 0.11, "unsoaked_some": 0.44, "some": 0.09, "below": 0.004, "empty": 0.003, "vacuum": 0.0002}, "air stands on top of the refrigerant’s own pressure", COMMON),
            Row({"gas": ("mixed",)}, {"above": 0.14, "a_little_above": 0.07, "as_expected": 0.19, "unsoaked_some": 0.44, "some": 0.09, "below": 0.06, "empty": 0.003, "vacuum": 0.0002}, "other gases rest at another pressure, or at nearly the same", JUDGED),
            Row({"amount": ("low",)}, {"as_expected": 0.40, "a_little_above": 0.035, "above": 0.003, "below": 0.02, "some": 0.09, "unsoaked_some": 0.447, "empty": 0.004, "vacuum": 0.0002}, "with a little liquid left the needle stands as with a full loop", COMMON),
            Row({}, {"as_expected": 0.42, "a_little_above": 0.035, "above": 0.003, "below": 0.004, "some": 0.09, "unsoaked_some": 0.444, "empty": 0.003, "vacuum": 0.0002}, "a loop with liquid rests where its temperature says; a coupler that does not open shows nothing", COMMON),
        ),
    ),
)  # fmt: skip
