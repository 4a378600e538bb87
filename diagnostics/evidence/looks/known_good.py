"""A part that is known to work, at the car's own plug: it parts the load from what is before it."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.network import NO_POWER
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="known_good",
    outcomes=("plug_works", "plug_unasked", "plug_dead", "plug_dead_not_known"),
    normal=("plug_works",),
    direct={"command": ("ok", "relay_stuck")},
    vague=("plug_dead_not_known",),
    rows=Rows(
        ("command",),
        (
            Row({"command": ("relay_stuck",)}, {"plug_unasked": 0.90, "plug_works": 0.08}, "power stands there unasked", COMMON),
            Row({"command": ("relay_open",)}, {"plug_dead": 0.58, "plug_works": 0.32, "plug_dead_not_known": 0.08}, "a relay that is tried at its own socket cures it, any other part stays dead", COMMON),
            Row({"command": NO_POWER}, {"plug_dead": 0.86, "plug_dead_not_known": 0.11, "plug_works": 0.01}, "no power reaches the plug", COMMON),
            Row({"command": ("switch_false", "feed_resistance", "ground_resistance", "other")}, {"plug_dead": 0.48, "plug_works": 0.40, "plug_dead_not_known": 0.09}, "not, or at times", JUDGED),
            Row({}, {"plug_works": 0.965, "plug_dead_not_known": 0.02}, "power and ground carry a load", COMMON),
        ),
    ),
)  # fmt: skip
