"""The belt and its pulleys, looked at and tried under load.

A stiff or locked shaft makes a sound belt slip: that is counted among what a belt in order does,
and says nothing of the shaft itself, which the hub tells.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="belt_drive",
    outcomes=("missing", "slips", "slips_seen_why", "wobbles", "loose", "oily", "worn", "fine", "holds"),
    normal=("fine", "holds"),
    direct={"belt": ("ok", "slips", "off")},
    tries=(("slips", "slips_seen_why", "holds"),),
    alarms=0.0002,  # nobody takes a belt that is there for one that is not
    rows=Rows(
        ("belt", "clutch"),
        (
            Row({"belt": ("off",)}, {"missing": 0.975, "loose": 0.01, "worn": 0.005}, "a belt that is off is seen", COMMON),
            Row({"belt": ("slips",)}, {"slips": 0.18, "slips_seen_why": 0.25, "loose": 0.16, "oily": 0.06, "worn": 0.08, "fine": 0.21, "wobbles": 0.025, "holds": 0.01, "missing": 0.0001}, "slip shows under load; a look alone finds only its usual reasons", COMMON),
            Row({"belt": ("other",)}, {"wobbles": 0.22, "worn": 0.18, "loose": 0.12, "fine": 0.32, "holds": 0.06, "slips": 0.05, "slips_seen_why": 0.01, "missing": 0.0001}, "anything", JUDGED),
            Row({"clutch": ("bearing",)}, {"wobbles": 0.34, "fine": 0.38, "holds": 0.12, "worn": 0.11, "loose": 0.02, "oily": 0.02, "slips_seen_why": 0.0005, "missing": 0.0001}, "a worn bearing lets the pulley wobble", COMMON),
            Row({}, {"fine": 0.52, "holds": 0.30, "worn": 0.12, "oily": 0.025, "loose": 0.015, "wobbles": 0.008, "slips": 0.006, "slips_seen_why": 0.0003, "missing": 0.0001}, "belts are often worn and drive all the same; a shaft that turns hard makes a sound one slip", COMMON),
        ),
    ),
)  # fmt: skip
