"""Drawings made on the server: places in percent, so that text keeps its size on every screen."""

from typing import Any

from django import template

from diagnostics.evidence.findings import Axis, Line, Plot, Spot, Strip, tick_words

register = template.Library()
# The axis lies between these shares of the drawing's width, so that end labels stay inside.
LEFT, WIDTH = 4.0, 92.0
# Where a point past the break stands; the axis then ends at AXIS_END. Mirrored for one below.
OFF_SCALE = 97.0
AXIS_END = 78.0
BREAK = ((79.0, 81.0), (83.0, 85.0), (84.0, 100.0))  # two slanted lines, and the axis past them
# The box of a plot, in percent of the drawing; left of it and below stand the numbers.
PLOT_LEFT, PLOT_WIDTH = 13.0, 84.0
PLOT_TOP, PLOT_HEIGHT = 10.0, 70.0


@register.inclusion_tag("diagnostics/_strip.html")
def strip(drawn: Strip) -> dict[str, Any]:
    """A linear strip with its band, its point and the point's error."""
    width = AXIS_END - LEFT if drawn.beyond else WIDTH
    left = 100 - AXIS_END if drawn.below else LEFT

    def at(value: float) -> float:
        return round(left + drawn.percent(value) * width / 100, 2)

    def past(place: float) -> float:
        return 100 - place if drawn.below else place

    point = past(OFF_SCALE) if drawn.beyond else at(drawn.point)
    said: dict[str, Any] = {
        "drawn": drawn,
        "left": left,
        "right": left + width,
        "break": [(past(start), past(end)) for start, end in BREAK] if drawn.beyond else [],
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


@register.inclusion_tag("diagnostics/_plot.html")
def plot(drawn: Plot) -> dict[str, Any]:
    """Curves and what was measured: texts and points in percent, curves in a stretched box."""
    return {
        "drawn": drawn,
        "left": PLOT_LEFT,
        "top": PLOT_TOP,
        "width": PLOT_WIDTH,
        "height": PLOT_HEIGHT,
        "right": PLOT_LEFT + PLOT_WIDTH,
        "bottom": PLOT_TOP + PLOT_HEIGHT,
        "x_ticks": [
            (across(drawn.x, one), tick_words(one, drawn.x.ticks)) for one in drawn.x.ticks
        ],
        "y_ticks": [(down(drawn.y, one), tick_words(one, drawn.y.ticks)) for one in drawn.y.ticks],
        "lines": [line_places(drawn, line) for line in drawn.lines],
        "spots": [spot_places(drawn, spot) for spot in drawn.spots],
    }


def across(axis: Axis, value: float) -> float:
    """A value's place from the left, in percent of the drawing."""
    return round(PLOT_LEFT + axis.percent(value) * PLOT_WIDTH / 100, 2)


def down(axis: Axis, value: float) -> float:
    """A value's place from the top, in percent of the drawing."""
    return round(PLOT_TOP + (100 - axis.percent(value)) * PLOT_HEIGHT / 100, 2)


def line_places(drawn: Plot, line: Line) -> dict[str, Any]:
    """The corners of a line within the stretched box, and where its words stand: at its end."""
    corners = [(drawn.x.percent(x), 100 - drawn.y.percent(y)) for x, y in line.points]
    x, y = line.points[-1]
    return {
        "looks": line.looks,
        "corners": " ".join(f"{x:.2f},{y:.2f}" for x, y in corners),
        "words": line.words,
        "x": across(drawn.x, x),
        "y": down(drawn.y, y),
        "side": side(across(drawn.x, x)),
    }


def spot_places(drawn: Plot, spot: Spot) -> dict[str, Any]:
    """A point, the ends of its error, and its words."""
    x, y = drawn.x, drawn.y
    return {
        "x": across(x, spot.x),
        "y": down(y, spot.y),
        "words": spot.words,
        "side": side(across(x, spot.x)),
        "x_error": (across(x, spot.x - spot.error_x), across(x, spot.x + spot.error_x)),
        "y_error": (down(y, spot.y + spot.error_y), down(y, spot.y - spot.error_y)),
    }


def side(percent: float) -> str:
    """Which way a label hangs on its place so that it stays inside: start, middle or end."""
    return "start" if percent < 25 else "end" if percent > 75 else "middle"
