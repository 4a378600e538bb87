"""The compressor's nose, looked at: whether the loop's oil comes out there."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, Row, Rows

LOOKS = Looks(
    kind="shaft_seal",
    outcomes=(
        "dry", "trace", "wet", "loop_oil", "loop_oil_again", "alarm_only", "other_oil", "old_stain",
    ),
    normal=("dry",),
    direct={"seal": ("wet",)},  # a dry nose does not show a small leak, so "ok" is not named
    less={"trace": ("wet", "loop_oil", "loop_oil_again", "other_oil", "old_stain"), "wet": ("loop_oil", "loop_oil_again", "other_oil", "old_stain"), "loop_oil": ("loop_oil_again",)},
    alarms=0.003,  # lamp, mirror and a wipe: looked at from close by
    rows=Rows(
        ("seal",),
        (
            Row({"seal": ("wet",)}, {"loop_oil": 0.33, "loop_oil_again": 0.22, "wet": 0.13, "trace": 0.12, "dry": 0.10, "alarm_only": 0.05, "old_stain": 0.03}, "what leaks at the seal takes oil along; a small leak shows only to a detector", COMMON),
            Row({}, {"dry": 0.85, "trace": 0.07, "other_oil": 0.032, "old_stain": 0.018, "wet": 0.013, "alarm_only": 0.012, "loop_oil": 0.004, "loop_oil_again": 0.0003}, "some seals sweat, other oil drips there; what comes again after wiping came from it", COMMON),
        ),
    ),
)  # fmt: skip
