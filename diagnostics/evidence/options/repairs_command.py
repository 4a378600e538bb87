"""Repairs of the way from "cold is asked for" to the coil. Common practice, no source."""

from diagnostics.evidence.inference.network import ELECTRIC
from diagnostics.evidence.options import needs
from diagnostics.evidence.options.option import Option

BYPASSED = "All that was not measured with current in it, and whatever overloaded the part."

COMMAND = (
    Option(
        "fuse", "Fuse", "The fuse is blown or open.",
        "What blew it, if that is not found: a coil with low resistance or a chafed wire blows the"
        " next one.",
        (needs.FUSE,), 1,
        cures={"command": ("fuse",)}, operations=("fuse",), parts=("fuse",),
    ),
    Option(
        "relay", "Relay", "The relay does not close, or does not open again.", BYPASSED,
        (needs.COIL,), 2,
        cures={"command": ("relay_open", "relay_stuck")}, operations=("relay",), parts=("relay",),
    ),
    Option(
        "feed_wire", "Feed wire repaired",
        "The feed is open, touches ground, or loses voltage under current.",
        "The rest of the harness, and contacts in the feed that were not measured with current.",
        (needs.CURRENT,), 3,
        cures={"command": ("wire_open", "short_ground", "feed_resistance")},
        operations=("feed",), parts=("wiring",),
    ),
    Option(
        "ground_wire", "Ground repaired", "The ground loses voltage under current.",
        "The feed, and other grounds that were not measured with current.",
        (needs.CURRENT,), 2,
        cures={"command": ("ground_resistance",)}, operations=("ground",), parts=("wiring",),
    ),
    Option(
        "switch", "Switch or sensor", "A switch or sensor tells something that is not so.",
        "The wires to it. One that does not sit on a valve opens the loop: then recovery and charge"
        " are added.",
        (needs.SWITCH,), 4,
        cures={"command": ("switch_false",)}, operations=("switch",), parts=("pressure_switch",),
    ),
    Option(
        "control_unit", "Control unit",
        "Cold is asked for, nothing forbids it, and the unit does not command.",
        "What ended its driver, if the coil is not measured.",
        (needs.ASKED, needs.COIL), 6,
        cures={"command": ("driver",)}, operations=("control_unit",), parts=("control_unit",),
    ),
    Option(
        "motor_command", "Command of the electric compressor repaired",
        "The compressor’s electronics are not commanded.",
        "The compressor and its electronics as they are.",
        (needs.DEAD, needs.LOW_VOLTAGE, needs.ASKED), 5,
        cures={"mechanics": ("not_commanded",)},
        operations=("isolate", "motor_command"), parts=("wiring",), on={"drive": ELECTRIC},
    ),
)  # fmt: skip
