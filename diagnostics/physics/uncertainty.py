"""How far a reading may be off, and what that leaves of a limit.

First order, independent inputs: JCGM 100:2008 (GUM), 5.1.2; a limit of error +-a counts as a
uniform spread, u = a / sqrt(3) (4.3.7); coverage factor 2 (6.3).
"""

import math
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.units import NO_BREAK

COVERAGE = 2.0
Place = Literal["below", "inside", "above", "cannot_tell"]


@dataclass(frozen=True)
class Measured:
    """A value with its standard uncertainty, both in the same unit."""

    value: float
    u: float

    @property
    def expanded(self) -> float:
        """Half width of the interval that holds the true value in about 95 of 100 cases."""
        return COVERAGE * self.u


@dataclass(frozen=True)
class Accuracy:
    """Default accuracy of a class of instruments, in SI; the shop's own figure is better."""

    words: str
    share: float  # of the reading
    fixed: float
    basis: str


_BASIS = "our judgement, after what data sheets of hand meters promise; from memory"
_GAUGE_BASIS = "our judgement: class 1.6 of EN 837-1 on a scale of 1 or 3 MPa; from memory"
_R744_BASIS = "our judgement: class 1.6 of EN 837-1 on a scale of 16 MPa; from memory"
_SCALE_BASIS = "our judgement: the 0.5 oz that trade articles accept for a charge by weight"
_GAS_BASIS = "our judgement, after what identifiers promise of a gas named; from memory"
_MICRON_BASIS = "our judgement, after what data sheets of thermistor gauges promise; from memory"
_FEELER_BASIS = "our judgement: leaves in steps of 0.05 mm, the nearest one is read"
_CUP_BASIS = "our judgement: a line of 10 mL on the cup, the nearest one is read; oil clings"
_WATCH_BASIS = "our judgement, common practice, no source"
_SCAN_BASIS = "our judgement: what a control unit reports of itself carries no stated accuracy"
INSTRUMENTS: dict[str, Accuracy] = {
    "dc_volts": Accuracy(f"volts ±0.5{NO_BREAK}%", 0.005, 0.02, _BASIS),
    "dc_millivolts": Accuracy(f"millivolts ±0.5{NO_BREAK}%", 0.005, 0.5e-3, _BASIS),
    "dc_amps": Accuracy(f"amps ±2{NO_BREAK}%", 0.02, 0.03, _BASIS),
    "thermometer": Accuracy(f"thermometer ±2{NO_BREAK}°C", 0.0, 2.0, _BASIS),
    "low_side_gauge": Accuracy(f"low-side gauge ±16{NO_BREAK}kPa", 0.0, 16e3, _GAUGE_BASIS),
    "high_side_gauge": Accuracy(f"high-side gauge ±48{NO_BREAK}kPa", 0.0, 48e3, _GAUGE_BASIS),
    "r744_gauge": Accuracy(f"R-744 gauge ±256{NO_BREAK}kPa", 0.0, 256e3, _R744_BASIS),
    "ohmmeter": Accuracy(f"ohmmeter ±1{NO_BREAK}% and ±0.1{NO_BREAK}Ω", 0.01, 0.1, _BASIS),
    "insulation_tester": Accuracy(f"insulation tester ±5{NO_BREAK}%", 0.05, 0.0, _BASIS),
    "watch": Accuracy(f"watch and eye ±2{NO_BREAK}s", 0.0, 2.0, _WATCH_BASIS),
    "scan_data": Accuracy(f"scan data ±2{NO_BREAK}%", 0.02, 0.0, _SCAN_BASIS),
    "gas_identifier": Accuracy(f"identifier ±2{NO_BREAK}% of the whole", 0.0, 0.02, _GAS_BASIS),
    "micron_gauge": Accuracy(
        f"micron gauge ±10{NO_BREAK}% and ±10{NO_BREAK}micron", 0.1, 1.333, _MICRON_BASIS
    ),
    "feeler_gauge": Accuracy(f"feeler gauge ±0.025{NO_BREAK}mm", 0.0, 0.025e-3, _FEELER_BASIS),
    "scale": Accuracy(f"scale ±15{NO_BREAK}g", 0.0, 0.015, _SCALE_BASIS),
    "measuring_cup": Accuracy(f"measuring cup ±5{NO_BREAK}mL", 0.0, 5e-6, _CUP_BASIS),
}


def measured(si: float, last_digit: float, instrument: str) -> Measured:
    """A reading in SI with its uncertainty: the instrument's, and half of the last digit typed."""
    accuracy = INSTRUMENTS[instrument]
    limit = accuracy.share * abs(si) + accuracy.fixed
    return Measured(si, math.hypot(limit / math.sqrt(3), last_digit / 2 / math.sqrt(3)))


def quotient(a: Measured, b: Measured) -> Measured:
    """The quotient a / b; `b` is not zero."""
    value = a.value / b.value
    return Measured(value, math.hypot(a.u / b.value, value * b.u / b.value))


def place(point: Measured, low: float, high: float) -> Place:
    """Where a value stands to a band, with its expanded uncertainty."""
    if point.value + point.expanded < low:
        return "below"
    if point.value - point.expanded > high:
        return "above"
    if point.value - point.expanded >= low and point.value + point.expanded <= high:
        return "inside"
    return "cannot_tell"
