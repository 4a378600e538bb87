"""The kit for leak-stop: it reacts to most kinds, and only where gas flowed through it."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# Missed more often than a look: not every kind of leak-stop makes every kit react, which stands in
# the rows. Seldom shown where none is: two kits that show it leave hardly a doubt. Our judgement.
ALARMS = 0.0009

LOOKS = Looks(
    kind="sealant_test",
    outcomes=("clean", "found", "signs", "unclear"),
    normal=("clean",),
    direct={"dirt": ("leak_stop",)},
    vague=("unclear",),
    alarms=ALARMS,
    rows=Rows(
        ("dirt",),
        (
            Row({"dirt": ("leak_stop",)}, {"found": 0.74, "clean": 0.13, "signs": 0.09, "unclear": 0.035}, "the kit reacts to most kinds of leak-stop, not to every one", COMMON),
            Row({"dirt": ("moisture", "burnt", "other")}, {"clean": 0.945, "unclear": 0.04, "signs": 0.014, "found": 0.0003}, "desiccant, dye and dirty oil look alike", JUDGED),
            Row({}, {"clean": 0.974, "unclear": 0.024, "signs": 0.0018, "found": 0.0001}, "without leak-stop the kit shows nothing", COMMON),
        ),
    ),
)  # fmt: skip
