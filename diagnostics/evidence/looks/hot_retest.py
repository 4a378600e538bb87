"""The same test again when hot: a pattern that parts what heat opens from what is always open."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="hot_retest",
    outcomes=(
        "quits_hot", "early", "at_times", "quits", "dead_both", "only_hot", "not_made_to_quit",
    ),
    normal=("not_made_to_quit",),
    direct={},  # coil, gap, relay, wiring and control can all open by heat: it parts none of them
    less={"quits": ("quits_hot", "early", "dead_both")},
    # It may quit in another way, on another road.
    misses=0.06,
    alarms=0.01,
    rows=Rows(
        ("command", "clutch"),
        (
            Row({"command": ("not_asked", "refused_low", "fuse", "wire_open", "short_ground")}, {"dead_both": 0.74, "quits": 0.12, "not_made_to_quit": 0.05, "at_times": 0.03, "quits_hot": 0.03}, "what is always open is so cold as well", COMMON),
            Row({"clutch": ("coil_open", "melt_open", "hub_broken")}, {"dead_both": 0.74, "quits": 0.12, "not_made_to_quit": 0.04, "quits_hot": 0.05, "at_times": 0.03}, "what is always open is so cold as well", COMMON),
            Row({"command": ("refused_cold",)}, {"only_hot": 0.52, "dead_both": 0.24, "not_made_to_quit": 0.14, "quits": 0.04}, "what the cold keeps off comes on when it is warm", COMMON),
            Row({"command": ("refused_high", "refused_engine")}, {"quits_hot": 0.46, "at_times": 0.16, "early": 0.10, "quits": 0.08, "not_made_to_quit": 0.12, "dead_both": 0.06}, "heat is what brings these refusals about", COMMON),
            Row({"clutch": ("fails_hot",)}, {"quits_hot": 0.66, "quits": 0.10, "at_times": 0.09, "early": 0.04, "not_made_to_quit": 0.08, "dead_both": 0.02}, "it works cold and quits hot", COMMON),
            Row({"clutch": ("gap_wide", "worn")}, {"quits_hot": 0.36, "dead_both": 0.16, "not_made_to_quit": 0.22, "at_times": 0.09, "early": 0.06, "quits": 0.07}, "a hot coil pulls less, so a gap near its end lets go hot", COMMON),
            Row({"command": ("feed_resistance", "ground_resistance", "switch_false", "relay_open", "driver", "refused_lock", "other")}, {"quits_hot": 0.24, "at_times": 0.17, "dead_both": 0.27, "early": 0.06, "quits": 0.08, "not_made_to_quit": 0.16}, "joints, relays and control come and go with heat, or not", COMMON),
            Row({"clutch": ("coil_shorted", "oily", "other")}, {"not_made_to_quit": 0.44, "quits_hot": 0.22, "at_times": 0.10, "dead_both": 0.10, "quits": 0.06}, "less pull or less grip when hot", JUDGED),
            Row({}, {"not_made_to_quit": 0.86, "quits_hot": 0.03, "at_times": 0.03, "dead_both": 0.02, "early": 0.02, "quits": 0.02, "only_hot": 0.01}, "what is in order works hot too; other things stop it at times", COMMON),
        ),
    ),
)  # fmt: skip
