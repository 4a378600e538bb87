"""The coil's resistance, plug off: the winding and its diode, not what pulls or holds."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="coil_resistance",
    outcomes=(
        "intermittent", "to_case", "open", "far_low", "low", "high", "diode_shorted", "diode_open",
        "cannot_tell", "not_held", "inside",
    ),
    normal=("inside",),
    direct={"clutch": ("coil_open", "melt_open", "coil_shorted", "fails_hot")},
    vague=("cannot_tell", "not_held"),
    misses=0.006,  # an open winding gives no number that is taken for a right one
    alarms=0.002,  # measured with the leads held together first
    rows=Rows(
        ("clutch",),
        (
            Row({"clutch": ("coil_open", "melt_open")}, {"open": 0.93, "intermittent": 0.03, "high": 0.01}, "an open winding reads open", COMMON),
            Row({"clutch": ("coil_shorted",)}, {"far_low": 0.45, "low": 0.29, "to_case": 0.10, "diode_shorted": 0.06, "cannot_tell": 0.05, "not_held": 0.025}, "shorted turns read low; a few turns may stay within the meter's error", COMMON),
            Row({"clutch": ("fails_hot",)}, {"inside": 0.52, "intermittent": 0.17, "high": 0.06, "cannot_tell": 0.06, "open": 0.14, "not_held": 0.025}, "a winding that opens hot reads right while it is cold, and open while it fails", COMMON),
            Row({"clutch": ("other",)}, {"inside": 0.42, "diode_shorted": 0.12, "diode_open": 0.12, "high": 0.10, "cannot_tell": 0.08, "open": 0.015, "not_held": 0.025}, "anything", JUDGED),
            Row({}, {"inside": 0.90, "cannot_tell": 0.054, "not_held": 0.025, "high": 0.006, "diode_open": 0.006, "low": 0.002, "intermittent": 0.0015, "diode_shorted": 0.0015, "open": 0.001, "to_case": 0.0008, "far_low": 0.0004}, "a winding in order reads inside; some readings cannot be judged", COMMON),
        ),
    ),
)  # fmt: skip
