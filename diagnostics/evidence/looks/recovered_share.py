"""Recovered grams against the label: at least so much was in it, by what such a machine leaves."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# Weighed: a scale not at zero, a label read wrong, a number typed wrong. Our judgement.
MISSES = 0.01
ALARMS = 0.002

LOOKS = Looks(
    kind="recovered_share",
    outcomes=("nothing_came", "far_low", "low", "low_as_age", "near_label", "above", "cannot_tell"),
    normal=("near_label",),
    direct={"amount": ("ok", "low", "empty", "too_much")},
    misses=MISSES,
    alarms=ALARMS,
    rows=Rows(
        ("amount",),
        (
            Row({"amount": ("empty",)}, {"nothing_came": 0.60, "far_low": 0.32, "cannot_tell": 0.06, "low": 0.01}, "next to nothing comes out, or what gas and oil still held", COMMON),
            Row({"amount": ("low",)}, {"far_low": 0.34, "low": 0.27, "low_as_age": 0.05, "cannot_tell": 0.30, "near_label": 0.03, "nothing_came": 0.005}, "what is missing shows where it is more than the machine leaves behind", "tests told in SAE J2762: an older machine leaves 18 to 30 %"),
            Row({"amount": ("too_much",)}, {"above": 0.56, "cannot_tell": 0.34, "near_label": 0.085, "nothing_came": 0.005}, "more than the label came out; a little too much hides in what the machine leaves", COMMON),
            Row({}, {"near_label": 0.46, "cannot_tell": 0.445, "low_as_age": 0.05, "low": 0.03, "nothing_came": 0.005, "above": 0.0015, "far_low": 0.001}, "a newer machine tells it, an older one cannot; cars lose a little with age; through a coupler that does not open next to nothing comes", JUDGED),
        ),
    ),
)  # fmt: skip
