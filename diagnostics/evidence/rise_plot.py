"""A vacuum behind a shut valve over the minutes, with the curve laid through it. In micron."""

import math

from diagnostics.evidence.findings import Axis, Line, Plot, Spot
from diagnostics.evidence.strips import axis
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.rise_curves import Curve, Timed, spread
from diagnostics.physics.uncertainty import COVERAGE
from diagnostics.physics.units import from_si
from diagnostics.physics.vacuum import TARGET

CORNERS = 24
LEAST = 1.0  # micron: where the scale begins at the least


def micron(pascal: float) -> float:
    """In micron."""
    return from_si(pascal, "micron")


def rise_plot(
    timed: tuple[Timed, ...],
    curve: Curve,
    water: Absolute,
    water_words: str,
    words: str,
    caption: str,
) -> Plot:
    """Readings as dots, the curve, water's line and the target, on a scale of powers of ten."""
    last = timed[-1].second / 60
    left, right, ticks = axis(0.0, max(last, 1e-3))
    heights = [micron(one.pressure.pa) for one in timed] + [micron(TARGET.pa), micron(water.pa)]
    bottom = math.floor(math.log10(max(min(heights), LEAST)))
    top = max(math.ceil(math.log10(max(heights))), bottom + 1)
    powers = tuple(10.0**power for power in range(bottom, top + 1))
    times = [timed[0].second / 60 + (last - timed[0].second / 60) * i / CORNERS for i in range(25)]
    fit = tuple((minute, micron(max(curve.at(minute * 60), 0.0))) for minute in times)
    spots = tuple(
        Spot(
            one.second / 60,
            micron(one.pressure.pa),
            "",
            0.0,
            COVERAGE * micron(spread(one)),
        )
        for one in timed
    )
    ends = (left, right)
    return Plot(
        Axis("minutes after the valve was shut", "min", left, right, ticks),
        Axis("pressure", "micron", powers[0], powers[-1], powers, log=True),
        (
            Line(fit, "", "fit"),
            Line(tuple((end, micron(water.pa)) for end in ends), water_words, "water"),
            Line(
                tuple((end, micron(TARGET.pa)) for end in ends), "target 500\u00a0micron", "limit"
            ),
        ),
        spots,
        words,
        caption,
    )
