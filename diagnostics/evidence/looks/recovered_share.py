"""Recovered grams against the label: at least so much was in it, by what such a machine leaves.

How far low it is tells of the way, too: tight cars lose a little with age, a leak or a short fill
any amount. Which of the two it was grams never tell.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# Weighed: a scale not at zero, a label read wrong, a number typed wrong. Our judgement.
MISSES = 0.002
ALARMS = 0.002
LEFT = "tests told in SAE J2762: an older machine leaves 18 to 30 %; shares: our judgement"

LOOKS = Looks(
    kind="recovered_share",
    outcomes=(
        "nothing_came", "nearly_empty", "far_low", "clearly_low", "low", "low_as_age",
        "near_label", "above", "cannot_tell",
    ),
    normal=("near_label",),
    direct={"amount": ("ok", "low", "empty", "too_much")},
    vague=("cannot_tell",),
    misses=MISSES,
    alarms=ALARMS,
    rows=Rows(
        ("amount", "tightness"),
        (
            Row({"amount": ("empty",)}, {"nothing_came": 0.56, "nearly_empty": 0.32, "cannot_tell": 0.06, "far_low": 0.035, "clearly_low": 0.01, "low": 0.003, "low_as_age": 0.003, "near_label": 0.001, "above": 0.0003}, "next to nothing comes out, or what gas and oil still held", COMMON),
            Row({"amount": ("low",), "tightness": ("ok",)}, {"low": 0.26, "low_as_age": 0.25, "cannot_tell": 0.365, "near_label": 0.03, "clearly_low": 0.05, "far_low": 0.015, "nearly_empty": 0.002, "nothing_came": 0.010, "above": 0.0003}, "a tight loop loses a little with the years", "fleet reports: 15.1 g a year, trade article"),
            Row({"amount": ("low",)}, {"far_low": 0.25, "clearly_low": 0.18, "low": 0.13, "nearly_empty": 0.03, "low_as_age": 0.06, "cannot_tell": 0.332, "near_label": 0.001, "nothing_came": 0.010, "above": 0.0003}, "what is missing shows where it is more than the machine leaves behind; what came out was in it, so near the label it is not low enough to matter", LEFT),
            Row({"amount": ("too_much",)}, {"above": 0.52, "cannot_tell": 0.375, "near_label": 0.085, "nothing_came": 0.010, "low_as_age": 0.002, "low": 0.001, "clearly_low": 0.0008, "far_low": 0.0008, "nearly_empty": 0.0005}, "more than the label came out; a little too much hides in what the machine leaves", LEFT),
            Row({}, {"near_label": 0.485, "cannot_tell": 0.43, "low_as_age": 0.05, "low": 0.015, "nothing_came": 0.010, "clearly_low": 0.0025, "above": 0.0015, "far_low": 0.0008, "nearly_empty": 0.0005}, "a newer machine tells it, an older one cannot; cars lose a little with age; through a coupler that does not open next to nothing comes", JUDGED),
        ),
    ),
)  # fmt: skip
