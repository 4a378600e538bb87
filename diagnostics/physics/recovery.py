"""What recovered grams tell of the charge, and where else refrigerant is: hose, loop, air."""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.charge import LOOP_VOLUME
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.helmholtz import equation_of
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.saturation import ZERO_C, above_zero, saturated
from diagnostics.physics.single_phase import THINNEST, phase_at, vapor
from diagnostics.physics.uncertainty import Measured

# Fleet reports, trade article: what tight cars lost a year on average, about 10 % of the charge in
# four years.
NORMAL_LOSS = 0.0151  # kg a year
SHORTEST = 1 / 24  # days: over less, no loss a day is told
LABEL_TOLERANCE = 0.015  # kg: what a charge by weight may be off, trade article

MORE_OUT = (
    "it was filled in between or overfilled, air, another gas or oil came with it, or a weight is "
    "not what was said."
)

Against = Literal["low", "as_label", "above", "cannot_tell"]


@dataclass(frozen=True)
class Machine:
    """A class of recovery machines: the least share of the charge it took out, by temperature.

    `least`: (kelvin, share) in ascending order; between them a straight line, above the last the
    same, below the first nothing is known.
    """

    words: str
    least: tuple[tuple[float, float], ...]
    source: str


_OLDER = ((ZERO_C + 10, 0.70), (ZERO_C + 21, 0.82))
MACHINES: Mapping[str, Machine] = {
    "older": Machine(
        "older machine (SAE J2210 class)",
        _OLDER,
        "tests told in SAE J2762: over 18 % stayed in the system at 21 °C, nearly 30 % at 10 °C",
    ),
    # Colder than its test it is taken as no worse than the older class: our judgement.
    "newer": Machine(
        "newer machine (SAE J2788 class)",
        (*_OLDER, (ZERO_C + 21, 0.95)),
        "SAE J2788:2020: at least 95 % in 30 minutes at 21 to 24 °C; colder as the older class",
    ),
}


@dataclass(frozen=True)
class InCar:
    """What was in the car before recovery, in kg. `high` None: no upper end is known."""

    low: float
    high: float | None


def least_share(machine: str, kelvin: float) -> float | None:
    """Least share of the charge that a class of machines takes out at a temperature in K.

    None below 10 °C: no test is known. Source: beside each class.

    Raises:
        Malformed: a class that is not known here.
        Impossible: below absolute zero.

    """
    if machine not in MACHINES:
        raise Malformed(f"“{machine}” is none of the machine classes: {', '.join(MACHINES)}.")
    above_zero(kelvin)
    points = MACHINES[machine].least
    if kelvin < points[0][0]:
        return None
    if kelvin >= points[-1][0]:
        return points[-1][1]
    for (cold, less), (warm, more) in itertools.pairwise(points):
        if cold <= kelvin < warm:
            return less + (more - less) * (kelvin - cold) / (warm - cold)
    return points[-1][1]


def was_in_car(recovered: Measured, machine: str, kelvin: float) -> InCar:
    """What was in the car, from recovered kg: those at least, and what such a machine leaves.

    Raises:
        Malformed: a class of machines that is not known here.
        Impossible: below absolute zero.
        OutOfRange: recovered grams below zero.

    """
    if not recovered.value >= 0:
        raise OutOfRange("Less than nothing recovered: the scale was set to zero too late.")
    share = least_share(machine, kelvin)
    low = max(recovered.value - recovered.expanded, 0.0)
    high = None if share is None else (recovered.value + recovered.expanded) / share
    return InCar(low, high)


def against_label(found: InCar, label: float, tolerance: float = LABEL_TOLERANCE) -> Against:
    """Where the band of what was in the car stands to the label charge, both in kg.

    Raises:
        OutOfRange: a label charge that is not above zero.

    """
    if not label > 0:
        raise OutOfRange("A label charge is more than nothing.")
    if found.high is not None and found.high < label - tolerance:
        return "low"
    if found.low > label + tolerance:
        return "above"
    if found.high is not None and found.low >= label - tolerance:
        return "as_label" if found.high <= label + tolerance else "cannot_tell"
    return "cannot_tell"


def normal_loss(years: float) -> float:
    """What a tight car loses in kg over some years: 15.1 g a year, a fleet's average.

    Raises:
        OutOfRange: years below zero.

    """
    if not years >= 0:
        raise OutOfRange("Less than no time since the charge.")
    return NORMAL_LOSS * years


def loss_per_day(charged: Measured, found: InCar, days: float) -> tuple[float, float]:
    """Least and most kg lost a day between a known charge and what was in the car.

    Raises:
        Impossible: more was in the car than was charged, by more than the scale may be off.
        OutOfRange: less than an hour between them.

    """
    if not days >= SHORTEST:
        raise OutOfRange("Loss per day needs an hour at least between the charge and now.")
    if found.low > charged.value + charged.expanded:
        raise Impossible(
            "More came out than was charged, beyond what the scale may be off, so no loss can be "
            f"told: {MORE_OUT}"
        )
    most = max(charged.value + charged.expanded - found.low, 0.0)
    left = math.inf if found.high is None else found.high
    return max(charged.value - charged.expanded - left, 0.0) / days, most / days


def hose_content(
    refrigerant: str, length: float, bore: float, kelvin: float
) -> tuple[float, float]:
    """What a hose holds in kg, full of liquid and full of saturated vapor; length and bore in m.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: outside the table, or a hose of no size.

    """
    if not (length > 0 and bore > 0):
        raise OutOfRange("A hose has some length and some bore: more than nothing.")
    volume = math.pi / 4 * bore * bore * length
    rest = saturated(refrigerant, kelvin)
    return volume * rest.liquid_density, volume * rest.vapor_density


def residual_gas(
    refrigerant: str, kelvin: float, absolute: Absolute, volume: float = LOOP_VOLUME
) -> float:
    """What a loop without liquid still holds in kg, from temperature, pressure and volume in m³.

    Refrigerant dissolved in the oil is not counted. Source: the equation of state.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: a pressure at which liquid is there, or outside the range.

    """
    if not volume > 0:
        raise OutOfRange("A loop has some volume: more than nothing.")
    if absolute < THINNEST and kelvin > 0:  # an ideal gas, to all digits
        return volume * absolute.pa / equation_of(refrigerant).gas_constant / kelvin
    if phase_at(refrigerant, kelvin, absolute) == "liquid":
        raise OutOfRange(
            "At this pressure liquid is in the loop (or another gas): the pressure does not tell "
            "how much."
        )
    return volume * vapor(refrigerant, kelvin, absolute).density
