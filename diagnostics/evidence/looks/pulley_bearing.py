"""The pulley's bearing by hand, belt off."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="pulley_bearing",
    outcomes=("play", "rough", "noisy", "noise_running", "grease", "not_parted", "smooth"),
    normal=("smooth",),
    direct={"clutch": ("bearing",)},
    vague=("not_parted",),
    rows=Rows(
        ("clutch",),
        (
            Row({"clutch": ("bearing",)}, {"rough": 0.28, "noisy": 0.25, "play": 0.17, "noise_running": 0.07, "grease": 0.05, "not_parted": 0.11, "smooth": 0.06}, "a worn bearing is felt and heard by hand; where the pulley turns the shaft the two are not parted", COMMON),
            Row({"clutch": ("gap_small", "worn")}, {"smooth": 0.72, "grease": 0.08, "noisy": 0.07, "rough": 0.05}, "a clutch that drags or slips heats the bearing", COMMON),
            Row({"clutch": ("other",)}, {"smooth": 0.65, "noise_running": 0.08, "not_parted": 0.10}, "anything", JUDGED),
            Row({}, {"smooth": 0.935, "not_parted": 0.03, "noise_running": 0.012, "noisy": 0.008}, "a bearing in order turns smooth", COMMON),
        ),
    ),
)  # fmt: skip
