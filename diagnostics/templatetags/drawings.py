"""Drawings made on the server: places in percent, so that text keeps its size on every screen."""

from typing import Any

from django import template

from diagnostics.evidence.findings import Strip
from diagnostics.physics.units import shown

register = template.Library()
# The axis lies between these shares of the drawing's width, so that end labels stay inside.
LEFT, WIDTH = 4.0, 92.0
OFF_SCALE = 97.0  # where a point past the break stands; the axis then ends at AXIS_END
AXIS_END = 78.0


@register.inclusion_tag("diagnostics/_strip.html")
def strip(drawn: Strip) -> dict[str, Any]:
    """A linear strip with its band, its point and the point's error."""
    width = AXIS_END - LEFT if drawn.beyond else WIDTH

    def at(value: float) -> float:
        return round(LEFT + drawn.percent(value) * width / 100, 2)

    point = OFF_SCALE if drawn.beyond else at(drawn.point)
    said: dict[str, Any] = {
        "drawn": drawn,
        "left": LEFT,
        "right": LEFT + width,
        "ticks": [(at(tick), tick_words(tick, drawn.ticks)) for tick in drawn.ticks],
        "point": point,
        "point_side": side(point),
        "error": (at(drawn.point - drawn.error), at(drawn.point + drawn.error)),
    }
    if drawn.expected:
        low, high = (at(value) for value in drawn.expected)
        middle = round((low + high) / 2, 2)
        said |= {"band": (low, high), "band_width": round(high - low, 2)}
        said |= {"words_at": middle, "words_side": side(middle)}
    return said


def tick_words(tick: float, ticks: tuple[float, ...]) -> str:
    """A tick's number with as many decimals as its neighbors need."""
    exact = (count for count in range(4) if all(round(t, count) == round(t, 9) for t in ticks))
    return shown(tick, next(exact, 4))


def side(percent: float) -> str:
    """Which way a label hangs on its place so that it stays inside: start, middle or end."""
    return "start" if percent < 25 else "end" if percent > 75 else "middle"
