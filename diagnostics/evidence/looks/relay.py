"""The clutch's relay: felt, tried under load, swapped or bridged, as each technician does it.

A bridge or a like relay tells of what lies behind as well: it takes hold only where a clutch does.
"""

from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.network import NO_POWER
from diagnostics.evidence.inference.rows import COMMON, JUDGED, Row, Rows

DEAD = ("coil_open", "melt_open")
WEAK = ("gap_wide", "worn", "fails_hot", "hub_broken", "other")
NOT_COMMANDED = tuple(one for one in NO_POWER if one.startswith(("not_asked", "refused", "driver")))

SELDOM = {"coil_open": 0.0002, "stuck_on": 0.0003}  # what its own fault alone looks like

LOOKS = Looks(
    kind="relay",
    outcomes=(
        "carries", "clicks_only", "loses", "no_output", "dead_output", "does_not_move", "stuck_on",
        "coil_open", "swap_cures", "swap_same", "bridge_works", "bridge_nothing",
    ),
    normal=("carries", "clicks_only"),
    direct={"command": ("relay_open", "relay_stuck")},
    tries=(("swap_cures", "swap_same"), ("bridge_works", "bridge_nothing")),
    less={"clicks_only": ("carries", "loses", "no_output", "stuck_on"), "dead_output": ("no_output", "does_not_move")},
    misses=0.006,  # the neighbor's click is felt, the wrong socket pin probed
    rows=Rows(
        ("command", "clutch"),
        (
            Row({"command": ("relay_stuck",)}, {"stuck_on": 0.86, "carries": 0.08, "clicks_only": 0.03}, "it stays on; with A/C on it looks right", COMMON),
            Row({"command": ("relay_open",), "clutch": DEAD}, {"no_output": 0.30, "does_not_move": 0.24, "coil_open": 0.07, "dead_output": 0.06, "swap_same": 0.14, "bridge_nothing": 0.12, "clicks_only": 0.035, "stuck_on": 0.0003, "carries": 0.004}, "neither a like relay nor a bridge gets past an open coil", COMMON),
            Row({"command": ("relay_open",)}, {"no_output": 0.27, "does_not_move": 0.20, "swap_cures": 0.18, "bridge_works": 0.13, "coil_open": 0.07, "dead_output": 0.04, "clicks_only": 0.03, "loses": 0.01, "swap_same": 0.045, "bridge_nothing": 0.010, "stuck_on": 0.0003, "carries": 0.002}, "contacts or coil are open; a like one cures it", COMMON),
            Row({"command": NOT_COMMANDED, "clutch": DEAD}, {**SELDOM, "swap_cures": 0.002, "does_not_move": 0.50, "bridge_nothing": 0.19, "swap_same": 0.16, "dead_output": 0.10, "no_output": 0.004, "carries": 0.002, "clicks_only": 0.006}, "what is not commanded does not move", COMMON),
            Row({"command": NOT_COMMANDED}, {**SELDOM, "does_not_move": 0.50, "bridge_works": 0.19, "swap_same": 0.14, "dead_output": 0.09, "no_output": 0.004, "bridge_nothing": 0.03, "swap_cures": 0.001, "carries": 0.002, "clicks_only": 0.006}, "what is not commanded does not move, and no like one moves either; bridged, the clutch takes hold", COMMON),
            Row({"command": ("fuse", "short_ground")}, {**SELDOM, "swap_cures": 0.002, "no_output": 0.40, "bridge_nothing": 0.18, "swap_same": 0.14, "does_not_move": 0.13, "dead_output": 0.08, "clicks_only": 0.05, "carries": 0.001}, "with its feed dead it moves and nothing comes out", COMMON),
            Row({"command": ("wire_open",)}, {**SELDOM, "swap_cures": 0.002, "no_output": 0.16, "carries": 0.38, "bridge_nothing": 0.17, "swap_same": 0.12, "clicks_only": 0.08, "dead_output": 0.04, "does_not_move": 0.04}, "the wire is open behind it, where the engine moves the harness, sooner than before it", COMMON),
            Row({"command": ("switch_false",)}, {**SELDOM, "swap_cures": 0.002, "does_not_move": 0.40, "bridge_works": 0.17, "swap_same": 0.13, "carries": 0.09, "dead_output": 0.07, "clicks_only": 0.04, "no_output": 0.02}, "a switch that lies keeps it off, or comes and goes", COMMON),
            Row({"command": ("feed_resistance",)}, {**SELDOM, "carries": 0.44, "loses": 0.20, "clicks_only": 0.13, "swap_same": 0.08, "swap_cures": 0.02, "bridge_works": 0.05, "bridge_nothing": 0.03}, "burnt contacts are one of its places", COMMON),
            Row({"command": ("other",)}, {**SELDOM, "swap_cures": 0.002, "carries": 0.25, "does_not_move": 0.18, "no_output": 0.15, "swap_same": 0.12, "clicks_only": 0.10, "dead_output": 0.06, "bridge_works": 0.05, "bridge_nothing": 0.05}, "anything", JUDGED),
            Row({"clutch": DEAD}, {**SELDOM, "swap_cures": 0.002, "carries": 0.44, "clicks_only": 0.18, "bridge_nothing": 0.18, "swap_same": 0.16, "no_output": 0.008}, "a lamp at its output lights, the open coil behind it does nothing", COMMON),
            Row({"command": ("ground_resistance",)}, {**SELDOM, "swap_cures": 0.002, "carries": 0.48, "clicks_only": 0.17, "bridge_nothing": 0.10, "bridge_works": 0.07, "swap_same": 0.13, "no_output": 0.02}, "the relay is before the ground", COMMON),
            Row({"clutch": WEAK}, {**SELDOM, "swap_cures": 0.002, "carries": 0.52, "clicks_only": 0.17, "bridge_nothing": 0.09, "bridge_works": 0.06, "swap_same": 0.13}, "the clutch does not come, whoever feeds it", COMMON),
            Row({}, {**SELDOM, "carries": 0.64, "clicks_only": 0.17, "bridge_works": 0.08, "swap_same": 0.08, "bridge_nothing": 0.004, "no_output": 0.002, "does_not_move": 0.003, "dead_output": 0.002, "swap_cures": 0.0015, "loses": 0.002}, "its output carries; some only feel the click; where it is good a like one cures by chance only", COMMON),
        ),
    ),
)  # fmt: skip
