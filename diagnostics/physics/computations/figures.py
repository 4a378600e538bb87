"""How many digits of a result are shown: no more than what was read had, but three at least.

What is uncertain ends at the second digit of its uncertainty (JCGM 100:2008, 7.2.6), what is not at
the figures of the coarsest reading. Temperatures count from absolute zero; differences of two
readings end where the readings did.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.told import number_and_unit
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.units import UNITS

LEAST = 3
LEAST_KELVIN = 4  # tenths of a degree, as thermometers show
OF_TABLES = 6  # where no number was told
MOST = 12  # what is behind them comes from converting
OF_UNCERTAINTY = 2
AROUND = ("altitude", "barometer", "reported")  # they count little: the air's pressure is small
WARMTH = ("temperature", "temperature difference")
SUBTRACTED = (*WARMTH, "pressure")
_NUMBER = re.compile(r"\d[\d.,]*")


@dataclass(frozen=True)
class Figures:
    """Figures of the coarsest reading, and the largest reading of each quantity, in SI."""

    count: int = OF_TABLES
    largest: Mapping[str, float] = field(default_factory=dict)

    def rounded(self, result: Result, shown: float, u: float | None = None) -> float:
        """A result's number in the unit shown, with its standard uncertainty `u` in that unit."""
        place = self._place(shown, result)
        if u:
            place = max(place, _leading(u) - OF_UNCERTAINTY + 1)
        return _to_place(shown, place, ROUND_FLOOR if result.at_most else ROUND_HALF_UP)

    def _place(self, shown: float, result: Result) -> int:
        """The power of ten of the last digit."""
        known = UNITS[result.unit] if result.unit else None
        quantity = known.quantity if known else ""
        size, count = abs(shown), min(self.count, result.figures or MOST)
        if known and quantity in SUBTRACTED:
            size = abs(shown + float(known.zero)) or abs(shown)
            size = max(size, self.largest.get(quantity, 0.0) / float(known.factor))
        if quantity in WARMTH:
            count = max(count, LEAST_KELVIN)
        return _leading(size) - count + 1 if size else 0


def figures_told(computation: Computation, told: Mapping[str, object], inputs: Inputs) -> Figures:
    """What the readings that were told allow; limits of error and the air around are left out."""
    counts: list[int] = []
    largest: dict[str, float] = {}
    for one in computation.inputs:
        if one.answers or one.limit_of_error or (one.name in AROUND and one.default == ""):
            continue
        si = inputs[one.name]
        counts += _counted(one, told.get(one.name), si)
        if one.unit and told.get(one.name) is not None and not isinstance(si, str):
            for quantity in _alike(UNITS[one.unit].quantity):
                largest[quantity] = max(abs(si), largest.get(quantity, 0.0))
    count = min(counts, default=OF_TABLES)
    return Figures(min(max(count, computation.least_figures), MOST), largest)


def two_digits(u: float | None) -> float | None:
    """A standard uncertainty as it is shown."""
    return u if not u else _to_place(u, _leading(u) - OF_UNCERTAINTY + 1)


def _alike(quantity: str) -> tuple[str, ...]:
    return WARMTH if quantity == "temperature" else (quantity,)


def _counted(one: Input, typed: object, si: float | str) -> list[int]:
    """Figures of what was typed: one count, or none where nothing can be counted."""
    if isinstance(si, str):  # several readings in one text: the finest
        numbers = [len(re.sub(r"^[0.,]+|\D", "", found)) for found in _NUMBER.findall(si)]
        return [max(numbers)] if any(numbers) else []
    if typed is None or not si:
        return []
    number = _decimal(typed)
    if number is None:
        return []
    if not (one.unit and UNITS[one.unit].quantity == "temperature"):
        return [len(number.as_tuple().digits)]
    exponent = number.as_tuple().exponent
    return [_leading(si) - int(exponent) + 1] if isinstance(exponent, int) else []


def _decimal(typed: object) -> Decimal | None:
    try:
        return number_and_unit(typed)[0] if isinstance(typed, str) else Decimal(repr(typed))
    except (PhysicsError, ArithmeticError):
        return None


def _leading(number: float) -> int:
    """The power of ten of the first digit."""
    return math.floor(math.log10(abs(number)))


def _to_place(number: float, place: int, rounding: str = ROUND_HALF_UP) -> float:
    if not -300 < place < 300:
        return number
    clean = Decimal(f"{number:.{MOST}g}")  # 17.28 where binary has a little less
    return float(clean.quantize(Decimal(1).scaleb(place), rounding)) or 0.0  # no minus before it
