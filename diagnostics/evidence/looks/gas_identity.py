"""Which gas is in the loop, by an instrument that names it."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# It names the gas itself: what it calls by a wrong name is seldom, and gone when it is repeated;
# oil in the sample and a hose not purged stand in the rows. Our judgement.
ALARMS = 0.0008

LOOKS = Looks(
    kind="gas_identity",
    outcomes=("as_label", "air", "mixed", "other", "flammable"),
    normal=("as_label",),
    direct={"gas": ("ok", "air", "mixed")},
    misses=0.004,  # it is read off, and mostly printed
    alarms=ALARMS,
    rows=Rows(
        ("gas",),
        (
            Row({"gas": ("mixed",)}, {"mixed": 0.67, "other": 0.15, "flammable": 0.12, "as_label": 0.025, "air": 0.012}, "a mixture, another gas or one that burns is shown; some gases the instrument does not know", COMMON),
            Row({"gas": ("air",)}, {"air": 0.945, "as_label": 0.045, "mixed": 0.004, "other": 0.0005, "flammable": 0.0002}, "air is shown beside the label’s gas; a little stays within what the instrument may be off", COMMON),
            Row({}, {"as_label": 0.9976, "air": 0.002, "mixed": 0.0001}, "the label’s gas is shown as such; a hose that was not purged shows air", JUDGED),
        ),
    ),
)  # fmt: skip
