"""The air gap of a clutch: smallest, largest, wobble, limits, and what shims make of it."""

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, Place, place
from diagnostics.physics.units import from_si, shown, with_unit

POINTS = (3, 6)
FEELER_U = INSTRUMENTS["feeler_gauge"].fixed / math.sqrt(3)
WIDEST = 10e-3  # m: no clutch has more
MOST_MOVED = 4  # shims in and out together
EXACT = 1e-9  # m: what rounding may take

# inside, too_small, too_wide: against the limits. both: too small at one point and too wide at
# another. cannot_tell: with this feeler gauge.
GapPlace = Literal["inside", "too_small", "too_wide", "both", "cannot_tell"]


@dataclass(frozen=True)
class GapLimits:
    """What the gap may be, from low to high, in m.

    Raises:
        OutOfRange: no gap, or the high limit not above the low one.

    """

    low: float
    high: float

    def __post_init__(self) -> None:
        if not 0 < self.low < self.high <= WIDEST:
            raise OutOfRange("Limits of a gap: the low one is above nothing and below the high.")


# Trade articles. A plausible band, not a limit: the vehicle's own figure always comes first.
PLAUSIBLE = GapLimits(0.3e-3, 0.8e-3)


@dataclass(frozen=True)
class Gap:
    """Readings around the clutch brought together, in m."""

    smallest: Measured
    largest: Measured
    limits: GapLimits
    where: GapPlace

    @property
    def wobble(self) -> Measured:
        """Largest minus smallest: hub or pulley does not run true."""
        return Measured(
            self.largest.value - self.smallest.value, math.hypot(self.smallest.u, self.largest.u)
        )

    @property
    def change(self) -> tuple[float, float]:
        """Least and most by which the gap has to grow (below zero: shrink) to come inside, in m.

        Least above most: no shim brings all points inside, the wobble is wider than the limits.
        """
        return self.limits.low - self.smallest.value, self.limits.high - self.largest.value

    @property
    def fits(self) -> bool:
        """Whether shims alone can bring all points inside."""
        least, most = self.change
        return least <= most + EXACT


@dataclass(frozen=True)
class ShimPlan:
    """Shims to take out and to put in, thickness in m each, and the gap that remains."""

    out: tuple[float, ...]
    put: tuple[float, ...]
    gap: Gap

    @property
    def moved(self) -> int:
        """How many shims are taken in hand."""
        return len(self.out) + len(self.put)


def read_gap(points: Sequence[float], limits: GapLimits = PLAUSIBLE, u: float = FEELER_U) -> Gap:
    """Three to six readings in m against limits; `u` is the feeler gauge's standard uncertainty.

    Raises:
        Malformed: not a finite number.
        Impossible: a gap below zero.
        OutOfRange: fewer than three or more than six points, or wider than any clutch.

    """
    if not POINTS[0] <= len(points) <= POINTS[1]:
        raise OutOfRange("A gap is read at three to six points around: one does not show wobble.")
    for point in points:
        _gap(point)
    return _gap_of(Measured(min(points), u), Measured(max(points), u), limits)


def after_shims(gap: Gap, out: Iterable[float] = (), put: Iterable[float] = ()) -> Gap:
    """The gap that remains when shims (m each) are taken out and put in. A shim in widens it.

    Raises:
        Malformed: not a finite number.
        Impossible: a shim of no thickness, or more taken out than there is gap.

    """
    change = _total(put) - _total(out)
    smallest = gap.smallest.value + change
    if smallest < -EXACT:
        raise Impossible(
            f"Taking out {_millimeters(-change)} of shims where the gap is "
            f"{_millimeters(gap.smallest.value)}: the plate would rub before it is pulled."
        )
    return _gap_of(
        Measured(max(smallest, 0.0), gap.smallest.u),
        Measured(gap.largest.value + change, gap.largest.u),
        gap.limits,
    )


def plan_shims(gap: Gap, fitted: Sequence[float], spare: Sequence[float] = ()) -> ShimPlan | None:
    """Which shims (m each) to take out of those fitted and put in of those spare to come inside.

    The fewest moved; among as many, the one nearest to the middle of the limits. None: none of the
    ways to move up to four does it. Nothing is taken out below the smallest gap allowed.

    Raises:
        Malformed: not a finite number.
        Impossible: a shim of no thickness.

    """
    _total(fitted), _total(spare)
    if not gap.fits:
        return None
    least, most = gap.change
    inside = (
        way
        for way in _ways(fitted, spare)
        if least - EXACT <= sum(way[1]) - sum(way[0]) <= most + EXACT
    )
    middle = (least + most) / 2
    best = min(
        inside,
        key=lambda way: (
            len(way[0]) + len(way[1]),
            round(abs(sum(way[1]) - sum(way[0]) - middle) / EXACT),
        ),
        default=None,
    )
    return None if best is None else ShimPlan(*best, after_shims(gap, *best))


def _ways(
    fitted: Sequence[float], spare: Sequence[float]
) -> Iterator[tuple[tuple[float, ...], tuple[float, ...]]]:
    """All ways to take out and put in up to four shims, each kind once."""
    for out, put in itertools.product(_choices(fitted), _choices(spare)):
        if len(out) + len(put) <= MOST_MOVED:
            yield out, put


def _choices(shims: Sequence[float]) -> list[tuple[float, ...]]:
    chosen = itertools.chain.from_iterable(
        itertools.combinations(sorted(shims), count) for count in range(MOST_MOVED + 1)
    )
    return list(dict.fromkeys(chosen))


def _gap_of(smallest: Measured, largest: Measured, limits: GapLimits) -> Gap:
    low, high = (place(one, limits.low, limits.high) for one in (smallest, largest))
    return Gap(smallest, largest, limits, _where(low, high))


def _where(low: Place, high: Place) -> GapPlace:
    """From where the smallest and the largest stand."""
    if low == "below" and high == "above":
        return "both"
    if low == "below":
        return "too_small"
    if high == "above":
        return "too_wide"
    return "inside" if low == high == "inside" else "cannot_tell"


def _gap(gap: float) -> None:
    if not math.isfinite(gap):
        raise Malformed("That is no number.")
    if gap < 0:
        raise Impossible("A gap below nothing: the plate would stand inside the pulley.")
    if gap > WIDEST:
        raise OutOfRange("A gap wider than a centimeter: no clutch has that. Check the unit.")


def _total(shims: Iterable[float]) -> float:
    total = 0.0
    for shim in shims:
        if not math.isfinite(shim):
            raise Malformed("That is no number.")
        if not shim > 0:
            raise Impossible("A shim has some thickness: more than nothing.")
        if shim > WIDEST:
            raise OutOfRange(
                "A shim thicker than a centimeter: no clutch has that. Check the unit."
            )
        total += shim
    return total


def _millimeters(meter: float) -> str:
    return with_unit(shown(from_si(meter, "mm"), 2), "mm")
