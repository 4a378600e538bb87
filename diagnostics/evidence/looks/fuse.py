"""The fuse, in the hand and under load: whether it is open, never what opened it."""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

LOOKS = Looks(
    kind="fuse",
    outcomes=(
        "carries", "whole", "loses", "open", "blown", "blows_again", "not_fitted", "no_feed",
        "wrong_rating",
    ),
    normal=("carries", "whole"),
    direct={"command": ("fuse",)},
    less={"whole": ("carries", "loses", "open"), "blown": ("blows_again",)},
    # A blown one in the hand is not mistaken; the wrong one is pulled now and then.
    misses=0.03,
    alarms=0.001,
    rows=Rows(
        ("command", "clutch"),
        (
            Row({"command": ("fuse",), "clutch": ("coil_shorted",)}, {"blown": 0.50, "blows_again": 0.45, "open": 0.02}, "a shorted coil blows it, and the next one", COMMON),
            Row({"command": ("fuse",)}, {"blown": 0.56, "open": 0.11, "whole": 0.18, "not_fitted": 0.04, "blows_again": 0.006, "no_feed": 0.035, "wrong_rating": 0.02, "carries": 0.003, "loses": 0.005}, "blown is seen; a crack or a loose holder looks whole; where nothing blew it a new one holds", COMMON),
            Row({"command": ("short_ground",)}, {"blown": 0.51, "blows_again": 0.42, "open": 0.025, "not_fitted": 0.01, "no_feed": 0.01, "whole": 0.005, "carries": 0.002}, "a wire on ground blows it, and the next one", COMMON),
            Row({"command": ("wire_open",)}, {"carries": 0.44, "whole": 0.37, "no_feed": 0.14, "wrong_rating": 0.012, "blows_again": 0.002, "blown": 0.006}, "the wire may be open before the fuse; an open one blows none, a torn one may have", COMMON),
            Row({"command": ("feed_resistance",)}, {"carries": 0.51, "whole": 0.36, "loses": 0.09, "no_feed": 0.015, "wrong_rating": 0.012}, "blades and holders burn; mostly it lies elsewhere", COMMON),
            Row({"command": ("other",)}, {"carries": 0.47, "whole": 0.36, "no_feed": 0.07, "wrong_rating": 0.03, "loses": 0.03}, "anything", JUDGED),
            Row({}, {"carries": 0.54, "whole": 0.40, "no_feed": 0.035, "wrong_rating": 0.016, "loses": 0.004, "open": 0.0002, "blown": 0.0001, "blows_again": 0.0001, "not_fitted": 0.0001}, "it is whole; on both sides dark where the circuit was off", COMMON),
        ),
    ),
)  # fmt: skip
