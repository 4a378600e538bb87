"""The saturation curve of a refrigerant with what was measured, in °C and gauge kPa."""

import math
from collections.abc import Iterable

from diagnostics.evidence.findings import Axis, Line, Plot, Spot
from diagnostics.evidence.strips import axis
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.saturation import saturation_pressure, table_of
from diagnostics.physics.units import from_si, to_si

COLDEST, HOTTEST = -30.0, 80.0  # °C drawn at least this far apart, where the table reaches
STEP = 2.0  # K between two corners of the curve


def kpa(pascal: float) -> float:
    """In kPa."""
    return from_si(pascal, "kPa")


def curve(
    refrigerant: str, low: float, high: float, air: Absolute
) -> Iterable[tuple[float, float]]:
    """Corners (°C, gauge kPa) from `low` to `high`, both in °C and as far as the table reaches."""
    table = table_of(refrigerant)
    first = max(low, math.ceil(from_si(table.lowest, "°C")))
    last = min(high, math.floor(from_si(table.highest, "°C")))
    count = max(1, math.ceil((last - first) / STEP))
    for index in range(count + 1):
        celsius = first + (last - first) * index / count
        pressure = saturation_pressure(refrigerant, to_si(celsius, "°C"))
        yield celsius, kpa(pressure.gauge(air).pa)


def saturation_plot(
    refrigerant: str,
    air: Absolute,
    spots: tuple[Spot, ...],
    words: str,
    caption: str,
    lines: tuple[Line, ...] = (),
) -> Plot | None:
    """The curve with spots in °C and gauge kPa; None where no table of the refrigerant is known.

    `lines` are drawn too; one that ends above the axis is cut there.
    """
    if not spots:
        return None
    low, high = min(COLDEST, *(spot.x for spot in spots)), max(HOTTEST, *(spot.x for spot in spots))
    try:
        corners = tuple(curve(refrigerant, low, high, air))
    except PhysicsError:
        return None
    top = max([spot.y + spot.error_y for spot in spots] + [0.0]) * 1.15 + 100
    drawn = tuple(corner for corner in corners if corner[1] <= top)
    if not drawn:
        return None
    left, right, x_ticks = axis(
        min([spot.x for spot in spots] + [drawn[0][0]]),
        max([spot.x for spot in spots] + [drawn[-1][0]]),
    )
    bottom, ceiling, y_ticks = axis(min([spot.y for spot in spots] + [drawn[0][1], 0.0]), top)
    return Plot(
        Axis("temperature", "°C", left, right, x_ticks),
        Axis("gauge pressure", "kPa", bottom, ceiling, y_ticks),
        (Line(drawn, f"{refrigerant} boils"), *lines),
        spots,
        words,
        caption,
    )
