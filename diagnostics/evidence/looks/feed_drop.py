"""Volts lost between battery plus and the coil, current flowing: the feed itself.

Its limits are those of the voltage at the plug. Where no current flows it carries nothing, so that
one was read speaks for a command that arrives and a coil that draws: weakly, for a bridged relay
lets current flow as well.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.network import NO_POWER
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

# Current flows: with the relay bridged, at times, or never. Common practice.
FLOWS = {
    "command": {
        **dict.fromkeys(NO_POWER, 0.08),
        **dict.fromkeys(("fuse", "wire_open", "short_ground"), 0.02),
        "switch_false": 0.4,
        "other": 0.5,
    },
    "clutch": {"coil_open": 0.03, "melt_open": 0.03, "fails_hot": 0.6},
}

LOOKS = Looks(
    kind="feed_drop",
    outcomes=("within", "edge", "cannot_tell", "above", "far"),
    normal=("within",),
    direct={"command": ("feed_resistance",)},
    vague=("cannot_tell",),
    # With current shown to flow a volt is not misread; without it the kind carries nothing.
    misses=0.01,
    alarms=0.001,
    can_be_read=FLOWS,
    rows=Rows(
        ("command", "clutch"),
        (
            Row({"command": ("feed_resistance",)}, {"far": 0.44, "above": 0.43, "edge": 0.055, "cannot_tell": 0.055, "within": 0.02}, "volts are lost as soon as current flows; one that comes and goes may not now", "trade articles: above 0.20 to 0.30 V trace it"),
            Row({"command": ("switch_false",)}, {"within": 0.86, "above": 0.02, "far": 0.01, "edge": 0.055, "cannot_tell": 0.05}, "a switch that lies loses few volts; worn contacts are a loss in the feed", COMMON),
            Row({"command": ("other",)}, {"within": 0.79, "above": 0.05, "far": 0.04, "edge": 0.06, "cannot_tell": 0.06}, "anything", JUDGED),
            Row({"clutch": ("coil_shorted",)}, {"within": 0.70, "above": 0.08, "far": 0.006, "edge": 0.13, "cannot_tell": 0.08}, "more current loses more on a sound feed", COMMON),
            Row({}, {"within": 0.895, "edge": 0.05, "cannot_tell": 0.05, "above": 0.004, "far": 0.0002}, "a feed in order stays inside the limit", "trade articles: above 0.20 to 0.30 V trace it"),
        ),
    ),
)  # fmt: skip
