"""A noise by ear: it points somewhere and proves nothing."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="noise",
    outcomes=(
        "none_heard", "pulley", "drive_side", "squeal_on", "knock_on", "on_only", "hiss",
        "not_parted",
    ),
    normal=("none_heard",),
    direct={},  # what is worn is not told by ear
    vague=("not_parted",),
    misses=0.06,  # a bay is loud
    alarms=0.015,
    rows=Rows(
        ("clutch", "belt", "mechanics"),
        (
            Row({"belt": ("off",)}, {"none_heard": 0.92, "hiss": 0.01}, "nothing turns", COMMON),
            Row({"clutch": ("bearing",)}, {"pulley": 0.42, "drive_side": 0.24, "not_parted": 0.12, "none_heard": 0.15}, "the pulley always turns, so its bearing is heard with A/C off", COMMON),
            Row({"mechanics": ("locked",)}, {"squeal_on": 0.40, "none_heard": 0.38, "not_parted": 0.08, "on_only": 0.05, "hiss": 0.01}, "a shaft that stands makes belt or clutch squeal as it takes hold, or nothing turns it any more", COMMON),
            Row({"mechanics": ("stiff",)}, {"none_heard": 0.28, "on_only": 0.26, "squeal_on": 0.20, "knock_on": 0.15, "not_parted": 0.06}, "a worn or stiff inside is heard while it turns", COMMON),
            Row({"belt": ("slips",)}, {"squeal_on": 0.40, "none_heard": 0.30, "drive_side": 0.15, "not_parted": 0.08}, "a belt that slips squeals under load", COMMON),
            Row({"clutch": ("worn", "oily")}, {"none_heard": 0.62, "squeal_on": 0.20, "on_only": 0.05, "not_parted": 0.05}, "a clutch that slips may squeal", COMMON),
            Row({"mechanics": ("not_pumping",)}, {"none_heard": 0.62, "on_only": 0.15, "knock_on": 0.12, "not_parted": 0.05}, "broken plates may rattle, worn ones are quiet", JUDGED),
            Row({"mechanics": ("other",)}, {"none_heard": 0.50, "on_only": 0.16, "knock_on": 0.14, "not_parted": 0.10}, "anything", JUDGED),
            Row({"belt": ("other",)}, {"none_heard": 0.50, "drive_side": 0.26, "squeal_on": 0.10, "not_parted": 0.08}, "anything", JUDGED),
            Row({"clutch": ("hub_broken", "gap_small", "other")}, {"none_heard": 0.66, "on_only": 0.08, "not_parted": 0.09, "squeal_on": 0.05, "pulley": 0.04}, "a plate that drags or hangs may be heard", JUDGED),
            Row({}, {"none_heard": 0.86, "on_only": 0.035, "not_parted": 0.030, "drive_side": 0.025, "hiss": 0.020, "squeal_on": 0.012, "knock_on": 0.012, "pulley": 0.006}, "mounts, idlers and liquid are heard in sound cars, too", COMMON),
        ),
    ),
)  # fmt: skip
