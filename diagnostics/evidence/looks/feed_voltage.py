"""Voltage at the coil's plug while current flows: what clears the way to the coil.

Its limits are those of the drop over the feed. Read without current it carries nothing, so it is
not here; on a car switched on the ground side the feed stands always, and so says less.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.network import NO_POWER
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="feed_voltage",
    outcomes=(
        "full", "full_not_coil", "edge", "cannot_tell", "above", "far", "far_feed",
        "weak", "stands", "no_voltage", "uncommanded",
    ),
    normal=("full", "full_not_coil", "stands"),
    direct={"command": ("ok", "feed_resistance", "relay_stuck")},
    vague=("cannot_tell",),
    less={"stands": ("full", "full_not_coil", "edge", "above", "far", "far_feed", "weak"), "far": ("far_feed",)},
    # A plug that is dead drives no current: full voltage under current is hardly ever misread.
    misses=0.001,
    alarms=0.001,
    rows=Rows(
        ("command", "clutch", "driven"),
        (
            Row({"command": ("relay_stuck",)}, {"uncommanded": 0.72, "full": 0.16, "full_not_coil": 0.04, "stands": 0.03, "weak": 0.01, "edge": 0.015, "cannot_tell": 0.02, "above": 0.001, "far": 0.0002, "far_feed": 0.0001, "no_voltage": 0.0005}, "it stands there with A/C off, too", COMMON),
            Row({"command": ("fuse", "wire_open", "short_ground")}, {"no_voltage": 0.95, "weak": 0.012, "full": 0.0003, "full_not_coil": 0.008, "stands": 0.001, "edge": 0.002, "cannot_tell": 0.002, "above": 0.003, "far": 0.004, "far_feed": 0.002, "uncommanded": 0.0005}, "nothing stands at the plug", COMMON),
            Row({"command": NO_POWER}, {"no_voltage": 0.885, "weak": 0.012, "full": 0.0003, "full_not_coil": 0.075, "stands": 0.003, "edge": 0.002, "cannot_tell": 0.002, "above": 0.003, "far": 0.004, "far_feed": 0.002, "uncommanded": 0.0005}, "nothing stands at the plug; where the ground is switched a lamp to battery minus lights all the same", COMMON),
            Row({"command": ("switch_false", "other"), "driven": ("none",), "clutch": ("ok",)}, {"no_voltage": 0.90, "above": 0.02, "far": 0.012, "far_feed": 0.008, "weak": 0.02, "full": 0.003, "full_not_coil": 0.005, "stands": 0.003, "uncommanded": 0.001}, "where it keeps a whole clutch off, no voltage comes", COMMON),
            Row({"command": ("switch_false",)}, {"no_voltage": 0.81, "full": 0.04, "full_not_coil": 0.015, "stands": 0.015, "above": 0.03, "far": 0.010, "far_feed": 0.005, "weak": 0.02, "edge": 0.02, "cannot_tell": 0.02, "uncommanded": 0.001}, "open, or it comes and goes", COMMON),
            Row({"command": ("feed_resistance",)}, {"far": 0.215, "far_feed": 0.15, "above": 0.34, "weak": 0.07, "edge": 0.045, "cannot_tell": 0.045, "stands": 0.05, "full": 0.010, "full_not_coil": 0.06, "no_voltage": 0.010, "uncommanded": 0.0003}, "volts are lost on the way as soon as current flows; a small lamp draws little, and without the battery’s reading no loss is told", "trade articles: above 0.20 to 0.30 V trace it"),
            Row({"command": ("ground_resistance",)}, {"full": 0.31, "full_not_coil": 0.08, "far": 0.18, "far_feed": 0.0008, "above": 0.17, "weak": 0.05, "stands": 0.06, "no_voltage": 0.06, "edge": 0.035, "cannot_tell": 0.035, "uncommanded": 0.001}, "seen only where the black lead is on the coil’s other pin", COMMON),
            Row({"command": ("other",)}, {"no_voltage": 0.56, "full": 0.06, "full_not_coil": 0.04, "above": 0.07, "far": 0.04, "far_feed": 0.02, "weak": 0.06, "uncommanded": 0.02, "stands": 0.04, "edge": 0.03, "cannot_tell": 0.03}, "anything", JUDGED),
            Row({"clutch": ("coil_open", "melt_open")}, {"full_not_coil": 0.72, "full": 0.02, "stands": 0.13, "edge": 0.045, "cannot_tell": 0.045, "above": 0.004, "far": 0.0003, "far_feed": 0.0002, "weak": 0.02, "no_voltage": 0.0008, "uncommanded": 0.0005}, "an open coil draws nothing: a lamp has to stand in for it", COMMON),
            Row({"clutch": ("coil_shorted",)}, {"full": 0.52, "full_not_coil": 0.12, "above": 0.08, "edge": 0.10, "cannot_tell": 0.05, "weak": 0.05, "stands": 0.06, "far": 0.004, "far_feed": 0.002, "no_voltage": 0.001, "uncommanded": 0.0005}, "more current loses more on a sound feed", COMMON),
            Row({}, {"full": 0.66, "full_not_coil": 0.15, "stands": 0.08, "edge": 0.045, "cannot_tell": 0.045, "above": 0.004, "far": 0.00025, "far_feed": 0.00015, "weak": 0.012, "no_voltage": 0.0006, "uncommanded": 0.0005}, "what a feed in order loses stays inside the limit", "trade articles: above 0.20 to 0.30 V trace it"),
        ),
    ),
)  # fmt: skip
