"""The air gap of a clutch, as computations."""

from collections.abc import Iterable

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    accuracy,
    plain,
    standard,
    text,
    words,
)
from diagnostics.physics.computations.several import several
from diagnostics.physics.computations.units import LEFT_OUT, optional
from diagnostics.physics.errors import Malformed
from diagnostics.physics.gap import (
    PLAUSIBLE,
    Gap,
    GapLimits,
    GapPlace,
    after_shims,
    plan_shims,
    read_gap,
)
from diagnostics.physics.uncertainty import INSTRUMENTS
from diagnostics.physics.units import from_si, shown, shown_range, with_unit

SOURCE = (
    "plausible band 0.3 to 0.8 mm: trade articles; the vehicle's own limits come first. "
    "Uncertainty: JCGM 100:2008, 4.3.7"
)
LENGTHS = ("mm", "in", "mil", "µm", "cm", "m")
POINTS = Input("points", "Three to six readings in mm, such as 0.35 0.40 0.40")
LIMITS = (
    Input("low", "The vehicle's smallest gap", "mm", 0.01, 10, default=LEFT_OUT),
    Input("high", "The vehicle's largest gap", "mm", 0.01, 10, default=LEFT_OUT),
)
FEELER = accuracy("feeler", "feeler gauge", "mm", from_si(INSTRUMENTS["feeler_gauge"].fixed, "mm"))
PLACES: dict[GapPlace, str] = {
    "inside": "All points inside",
    "too_small": (
        "Too small: a fault too, the clutch may not release, overheats, and its bearing loses "
        "its grease"
    ),
    "too_wide": "Too wide: works cold and quits hot",
    "both": "Too small at one point and too wide at another: hub or pulley does not run true",
    "cannot_tell": "Cannot tell with this feeler gauge whether inside or outside",
}


def _limits(inputs: Inputs) -> tuple[GapLimits, str]:
    low, high = optional(inputs, "low"), optional(inputs, "high")
    if low is None and high is None:
        return PLAUSIBLE, "no figure of this vehicle: plausible band of trade articles, no limit"
    if low is None or high is None:
        raise Malformed("The vehicle's limits are two: the smallest gap and the largest.")
    return GapLimits(low, high), "the vehicle's own limits"


def _gap(inputs: Inputs) -> tuple[Gap, str]:
    limits, basis = _limits(inputs)
    return read_gap(
        several(inputs["points"], "points", LENGTHS), limits, standard(inputs, "feeler")
    ), f"{basis}; feeler gauge ±{words(_feeler(inputs), 'mm', 3)}"


def _feeler(inputs: Inputs) -> float:
    return float(inputs["feeler"])


def _band(gap: Gap) -> str:
    low, high = (from_si(end, "mm") for end in (gap.limits.low, gap.limits.high))
    return with_unit(shown_range(low, high, 2), "mm")


def _more(gap: Gap) -> dict[str, Result]:
    least, most = gap.change
    return {
        "smallest": Result(gap.smallest.value, "mm", gap.smallest.u),
        "largest": Result(gap.largest.value, "mm", gap.largest.u),
        "wobble": Result(gap.wobble.value, "mm", gap.wobble.u),
        "least_change": plain(least, "mm"),
        "most_change": plain(most, "mm"),
    }


def _spread(gap: Gap) -> str:
    low, high = (shown(from_si(one.value, "mm"), 2) for one in (gap.smallest, gap.largest))
    return f"{low} to {with_unit(high, 'mm')}"


def _change(gap: Gap) -> str:
    """What shims have to do, in words."""
    least, most = gap.change
    if not gap.fits:
        return (
            f"No shim brings all points inside: the wobble of {words(gap.wobble.value, 'mm', 2)} "
            "is wider than the limits are apart."
        )
    if gap.where == "inside":
        return ""
    if least > 0:
        return f"Put in {_between(least, most)} of shims."
    if most < 0:
        return f"Take out {_between(-most, -least)} of shims, not more: below is a fault too."
    return "Read again with finer leaves before shims are moved."


def _between(low: float, high: float) -> str:
    return f"{shown(from_si(low, 'mm'), 2)} to {words(high, 'mm', 2)}"


def _air_gap(inputs: Inputs) -> Result:
    gap, basis = _gap(inputs)
    meaning = f"{_spread(gap)}, against {_band(gap)}. {PLACES[gap.where]}. {_change(gap)}".strip()
    return Result(gap.smallest.value, "mm", gap.smallest.u, meaning, basis, _more(gap))


def _list(shims: Iterable[float]) -> str:
    return ", ".join(words(one, "mm", 2) for one in shims) or "none"


def _shims(inputs: Inputs) -> Result:
    gap, basis = _gap(inputs)
    fitted, spare = (_told(inputs, name) for name in ("fitted", "spare"))
    plan = plan_shims(gap, fitted, spare)
    if plan is None:
        meaning = f"These shims do not bring it inside {_band(gap)}. {_change(gap)}".strip()
        return Result(gap.smallest.value, "mm", gap.smallest.u, meaning, basis, _more(gap))
    moved = (
        f"Take out {_list(plan.out)}; put in {_list(plan.put)}"
        if plan.moved
        else "Leave the shims as they are"
    )
    meaning = f"{moved}: {_spread(plan.gap)} would remain. {PLACES[plan.gap.where]}."
    more = _more(plan.gap) | {
        "out": plain(sum(plan.out), "mm"),
        "put_in": plain(sum(plan.put), "mm"),
        "shims_moved": plain(plan.moved, ""),
    }
    return Result(plan.gap.smallest.value, "mm", plan.gap.smallest.u, meaning, basis, more)


def _told(inputs: Inputs, name: str) -> list[float]:
    told = inputs[name]
    return [] if told == LEFT_OUT else several(told, name, LENGTHS)


def _after(inputs: Inputs) -> Result:
    gap, basis = _gap(inputs)
    left = after_shims(gap, _told(inputs, "out"), _told(inputs, "put_in"))
    meaning = f"{_spread(left)} would remain, against {_band(left)}. {PLACES[left.where]}."
    if left.where in ("too_small", "both") and text(inputs, "out"):
        meaning += " Shims are not taken out below the smallest gap."
    return Result(left.smallest.value, "mm", left.smallest.u, meaning, basis, _more(left))


def _shim_input(name: str, said: str) -> Input:
    return Input(name, f"{said}, thickness in mm each, such as 0.1 0.3", default=LEFT_OUT)


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "air_gap",
        "Smallest and largest gap and wobble against the limits, and how much shims have to change",
        (POINTS, *LIMITS, FEELER),
        "mm",
        SOURCE,
        _air_gap,
    ),
    Computation(
        "gap_shims",
        "Which shims to take out and put in, and the smallest gap that would remain",
        (
            POINTS,
            _shim_input("fitted", "Shims now in the clutch"),
            _shim_input("spare", "Shims at hand"),
            *LIMITS,
            FEELER,
        ),
        "mm",
        SOURCE,
        _shims,
    ),
    Computation(
        "gap_after_shims",
        "Smallest gap that remains when shims are taken out and put in",
        (
            POINTS,
            _shim_input("out", "Shims taken out"),
            _shim_input("put_in", "Shims put in"),
            *LIMITS,
            FEELER,
        ),
        "mm",
        SOURCE,
        _after,
    ),
)
