"""The points of a clutch's air gap brought together, and what shims make of it."""

from collections.abc import Iterator
from dataclasses import dataclass
from statistics import median

from diagnostics.evidence.findings import Strip
from diagnostics.evidence.readings import Reading, Readings, number
from diagnostics.evidence.strips import strip
from diagnostics.evidence.system import System
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.gap import (
    FEELER_U,
    PLAUSIBLE,
    POINTS,
    Gap,
    GapLimits,
    ShimPlan,
    plan_shims,
    read_gap,
)
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, place
from diagnostics.physics.units import from_si, shown, shown_range, with_unit

MOST_POINTS = POINTS[1]
GAPS = tuple(f"gap_{index}" for index in range(1, MOST_POINTS + 1))
FITTED = ("fitted_1", "fitted_2", "fitted_3")
SPARE = ("spare_1", "spare_2", "spare_3")
FAR = 1.5  # times the largest allowed; our judgement
OUT_OF_LINE = 5  # times the other points, or a fifth of them: a slipped point; our judgement
ROUNDING = 1 + 1e-9


@dataclass(frozen=True)
class GapRead:
    """What was read around the clutch.

    `gap` is None with fewer than three points; then smallest and largest are of those read.
    """

    read: tuple[Reading, ...]
    smallest: Measured
    largest: Measured
    limits: GapLimits
    basis: str
    limit_words: str
    gap: Gap | None
    fitted: tuple[float, ...]
    spare: tuple[float, ...]

    @property
    def below(self) -> bool:
        """Whether a point lies below the smallest allowed, the feeler gauge's error aside."""
        return self._place(self.smallest) == "below"

    @property
    def above(self) -> bool:
        """Whether a point lies above the largest allowed."""
        return self._place(self.largest) == "above"

    @property
    def inside(self) -> bool:
        """Whether all points lie inside."""
        return self._place(self.smallest) == self._place(self.largest) == "inside"

    @property
    def far(self) -> bool:
        """Whether a point lies far above the largest allowed."""
        return self.largest.value - self.largest.expanded > FAR * self.limits.high

    @property
    def specified(self) -> bool:
        """Whether it was held to the vehicle's own limits."""
        return self.basis == "vehicle"

    @property
    def wobbles(self) -> bool:
        """Whether largest and smallest differ by more than the feeler gauge may be off."""
        return self.gap is not None and self.gap.wobble.value > self.gap.wobble.expanded

    @property
    def plan(self) -> ShimPlan | None:
        """Which of the shims told bring all points inside, or None."""
        if self.gap is None or not (self.fitted or self.spare):
            return None
        return plan_shims(self.gap, self.fitted, self.spare)

    def _place(self, point: Measured) -> str:
        return place(point, self.limits.low, self.limits.high)


def gap_limits(system: System) -> tuple[GapLimits, str, str]:
    """(limits, basis, words): the vehicle's own, else what clutches usually have."""
    low, high = system.get("gap_low_m"), system.get("gap_high_m")
    try:
        if low and high:
            source = system.get("gap_source") or "source not noted"
            return GapLimits(low, high), "vehicle", f"This vehicle’s own, {source}"
    except PhysicsError:  # limits that no gap has are no limits
        pass
    words = "No limits of this vehicle: what clutches usually have (trade articles; not a limit)"
    return PLAUSIBLE, "general", words


def look_at_gap(system: System, readings: Readings) -> GapRead | None:
    """The points read, or None where there is none.

    A leaf is as thick as it is marked, however few digits are typed of it.
    """
    read = tuple(one for name in GAPS if (one := number(readings, name)))
    if not read:
        return None
    points = [one.si for one in read]
    limits, basis, words = gap_limits(system)
    smallest, largest = Measured(min(points), FEELER_U), Measured(max(points), FEELER_U)
    gap = read_gap(points, limits) if len(points) >= POINTS[0] else None
    fitted, spare = _shims(readings, FITTED), _shims(readings, SPARE)
    return GapRead(read, smallest, largest, limits, basis, words, gap, fitted, spare)


def out_of_line(readings: Readings) -> Iterator[tuple[str, Reading, float]]:
    """The point that a slipped decimal may have made, with the median of the others.

    Of several the one farthest off, as it moves what the others are held to; of two points both.
    A point at which nothing fits in is none of them: no slipped decimal makes zero of a gap.
    """
    read = {name: one for name in GAPS if (one := number(readings, name)) and one.si > 0}
    if len(read) < 2:
        return
    usual = {name: median(one.si for other, one in read.items() if other != name) for name in read}
    off = {name: max(one.si / usual[name], usual[name] / one.si) for name, one in read.items()}
    for name, point in read.items():
        if off[name] > OUT_OF_LINE * ROUNDING and off[name] * ROUNDING > max(off.values()):
            yield name, point, usual[name]


def _shims(readings: Readings, names: tuple[str, ...]) -> tuple[float, ...]:
    read = (number(readings, name) for name in names)
    return tuple(one.si for one in read if one and one.si > 0)


def millimeters(meter: float) -> str:
    """Such as 0.45 mm."""
    return with_unit(shown(from_si(meter, "mm"), 2), "mm")


def span_words(low: float, high: float) -> str:
    """Such as 0.35–0.65 mm."""
    return with_unit(shown_range(from_si(low, "mm"), from_si(high, "mm"), 2), "mm")


def gap_band(seen: GapRead) -> str:
    """What it was held to, and whose accuracy stands on its side."""
    held = span_words(seen.limits.low, seen.limits.high)
    return f"{seen.limit_words}: {held}; {INSTRUMENTS['feeler_gauge'].words}, by default."


def gap_strip(seen: GapRead) -> Strip:
    """The point that decides, and the limits, in mm."""
    deciding = seen.smallest if seen.below and not seen.above else seen.largest
    low, high = (from_si(one, "mm") for one in (seen.limits.low, seen.limits.high))
    point, error = from_si(deciding.value, "mm"), from_si(deciding.expanded, "mm")
    return strip("mm", point, millimeters(deciding.value), error, (low, high), 2)


def shim_words(seen: GapRead, *, none_fitted: bool) -> Iterator[str]:
    """How much has to come out or go in, which of the shims told do it, and what remains.

    `none_fitted`: it was told that no shim is left to take out.
    """
    gap = seen.gap
    if gap is None or not (seen.below or seen.above):
        return
    if not seen.specified:  # what clutches usually have is no figure to move shims by
        yield "Look up this vehicle’s own limits before any shim is moved."
        return
    if not gap.fits:
        yield "No shim brings all points inside: the gap differs more than its limits allow."
        return
    least, most = gap.change
    if least >= 0:
        yield f"Shims to put in: {span_words(least, most)} in all."
    elif most <= 0 and not none_fitted:
        yield f"Shims to take out: {span_words(-most, -least)} in all, never more."
    plan = seen.plan
    if plan:
        left = span_words(plan.gap.smallest.value, plan.gap.largest.value)
        yield f"{_moved(plan)}: {left} remains, at least {millimeters(seen.limits.low)} allowed."
    elif seen.fitted or seen.spare:
        yield "None of the shims typed brings it inside; none is taken out below the smallest gap."


def _moved(plan: ShimPlan) -> str:
    moves = (("take out", plan.out), ("put in", plan.put))
    told = [f"{verb} {' and '.join(map(millimeters, shims))}" for verb, shims in moves if shims]
    return ", ".join(told).capitalize()
