"""The diode across a clutch coil: what two ohmmeter readings, leads swapped, can and cannot tell.

Coil and diode stand side by side. A diode carries next to nothing until some tenths of a volt stand
across it, and a meter that sends one milliampere through 3.6 ohm puts 4 millivolts there. Most
digital ohmmeters therefore read the coil alone, twice the same, whether the diode is good, open or
not fitted. Trade training texts ask for a meter with more test voltage for that reason.
"""

from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible
from diagnostics.physics.uncertainty import COVERAGE, Measured

# V across a silicon diode from which an ohmmeter sees it carry; textbook figure, from memory.
CONDUCTS_FROM = 0.7
SHORT = 1.0  # Ω with leads: lower than any clutch coil, cold; our judgement
OPEN = 1e4  # Ω: no coil any more; our judgement
TYPICAL_AMPERE = 1e-3  # A that a common digital meter sends through a few ohm; from memory

CoilSeen = Literal["carries", "open", "short"]
DiodeSeen = Literal["one_way", "short", "none_seen", "cannot_tell"]


@dataclass(frozen=True)
class MeterDrive:
    """What an ohmmeter sends: volts with open leads, amps through a few ohm. None: not known."""

    volt: float | None = None
    ampere: float | None = None

    def across(self, ohm: float | None) -> float | None:
        """Volts it puts across so many ohm (None: no path), or None where that is not known."""
        if ohm is None:
            return self.volt
        if self.ampere is None:
            return None
        driven = self.ampere * ohm
        return driven if self.volt is None else min(driven, self.volt)


@dataclass(frozen=True)
class BothWays:
    """What two readings tell of coil and diode; `across` is the meter's voltage on them, in V."""

    coil: CoilSeen
    diode: DiodeSeen
    across: float | None


def read_both_ways(
    one: Measured | None, other: Measured | None, drive: MeterDrive | None = None
) -> BothWays:
    """Two readings in ohm with the leads swapped between them; None: beyond the meter's range.

    "short": diode or coil, the two cannot be told apart until the diode is parted from the coil.
    "none_seen": the meter had voltage enough and nothing conducts: diode open or not fitted.

    Raises:
        Impossible: a resistance below zero.

    """
    meter = drive or MeterDrive()
    ways = [_beyond(one), _beyond(other)]
    paths = [way for way in ways if way is not None]
    if any(way.value < 0 for way in paths):
        raise Impossible("A resistance below zero: some voltage stands on the wire.")
    if len(paths) == 1:  # only the diode carries, and one way
        return BothWays("open", "one_way", meter.volt)
    if not paths:
        return BothWays("open", _unseen(meter.across(None)), meter.across(None))
    lower, higher = sorted(paths, key=lambda way: way.value)
    if higher.value + higher.expanded < SHORT:
        return BothWays("short", "short", meter.across(higher.value))
    across = meter.across(higher.value)
    if higher.value - lower.value > COVERAGE * (lower.u**2 + higher.u**2) ** 0.5:
        return BothWays("carries", "one_way", across)
    return BothWays("carries", _unseen(across), across)


def _beyond(reading: Measured | None) -> Measured | None:
    return None if reading is None or reading.value >= OPEN else reading


def _unseen(across: float | None) -> DiodeSeen:
    """Both ways the same: a diode that is not there, or one that this meter cannot wake."""
    return "cannot_tell" if across is None or across < CONDUCTS_FROM else "none_seen"
