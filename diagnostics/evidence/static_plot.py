"""The saturation curve around a loop at rest, with what was read on it. °C and gauge kPa."""

from diagnostics.evidence.findings import Axis, Line, Plot, Spot
from diagnostics.evidence.saturation_plot import curve, kpa
from diagnostics.evidence.strips import axis
from diagnostics.physics.charge import FOREIGN_GAS
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Absolute

WINDOW = 12.0  # K to each side of what was read


def static_plot(gas: str, air: Absolute, spot: Spot, words: str, caption: str) -> Plot | None:
    """The curve with the edges that air or another gas would lie beyond; None without a table."""
    try:
        corners = tuple(curve(gas, spot.x - WINDOW, spot.x + WINDOW, air))
    except PhysicsError:
        return None
    room = kpa(FOREIGN_GAS)
    above = tuple((x, y + room) for x, y in corners)
    below = tuple((x, y - room) for x, y in corners)
    heights = [y for _x, y in (*above, *below)] + [spot.y - spot.error_y, spot.y + spot.error_y]
    left, right, x_ticks = axis(
        min(corners[0][0], spot.x - spot.error_x), max(corners[-1][0], spot.x + spot.error_x)
    )
    bottom, ceiling, y_ticks = axis(min(heights), max(heights))
    return Plot(
        Axis("temperature", "°C", left, right, x_ticks),
        Axis("gauge pressure", "kPa", bottom, ceiling, y_ticks),
        (
            Line(above, "", "edge"),
            Line(below, "", "edge"),
            Line(corners, f"{gas} at rest, ±30\u00a0kPa"),
        ),
        (spot,),
        words,
        caption,
    )
