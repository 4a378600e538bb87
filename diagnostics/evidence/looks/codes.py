"""Trouble codes as read: they point at a circuit, and none of them is a fault."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="codes",
    outcomes=("stored_ac", "stored_other", "stored", "no_answer", "none"),
    normal=("none",),
    direct={},  # which circuit a code is about is not read here, and a circuit is no part
    less={"stored": ("stored_ac", "stored_other")},
    # Modules are left out, and whether a code bears on A/C is somebody's word.
    misses=0.04,
    alarms=0.015,
    rows=Rows(
        ("command", "mechanics"),
        (
            Row({"mechanics": ("isolation", "inverter")}, {"stored_ac": 0.82, "stored": 0.07, "no_answer": 0.05, "none": 0.03}, "power electronics watch themselves", COMMON),
            Row({"mechanics": ("not_commanded",)}, {"stored_ac": 0.58, "no_answer": 0.18, "stored": 0.09, "none": 0.10}, "a command that does not arrive is mostly noticed", COMMON),
            Row({"command": ("refused_lock",)}, {"stored_ac": 0.74, "stored": 0.08, "none": 0.10, "stored_other": 0.07}, "a refusal by a lock or slip sensor mostly leaves a code", COMMON),
            Row({"command": ("driver", "switch_false")}, {"stored_ac": 0.48, "stored": 0.09, "no_answer": 0.04, "none": 0.24, "stored_other": 0.15}, "control units watch their sensors and their outputs, not all of them", COMMON),
            Row({"command": ("fuse", "relay_open", "wire_open", "short_ground")}, {"stored_ac": 0.34, "stored": 0.09, "no_answer": 0.02, "none": 0.35, "stored_other": 0.20}, "some control units watch the relay’s circuit", COMMON),
            Row({"command": ("refused_low", "refused_high", "refused_engine")}, {"stored_ac": 0.20, "stored": 0.10, "none": 0.44, "stored_other": 0.25}, "a refusal leaves a code on some cars only", COMMON),
            Row({"mechanics": ("locked", "valve")}, {"stored_ac": 0.24, "stored": 0.09, "none": 0.42, "stored_other": 0.24}, "speed and valve current are watched on some cars only", JUDGED),
            Row({}, {"none": 0.52, "stored_other": 0.28, "stored_ac": 0.10, "stored": 0.09, "no_answer": 0.008}, "codes of other systems, and old ones, are in many cars", COMMON),
        ),
    ),
)  # fmt: skip
