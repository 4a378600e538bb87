"""A plot as the record keeps it: numbers in the units of its axes, and the texts beside them."""

from diagnostics.evidence.findings import Axis, Line, Plot, Spot, tick_words
from diagnostics.record.words import in_parts
from jobs.paper import frozen_drawing

DIGITS = 6  # of a drawn number; a hair's breadth on paper is coarser


def drawing_of(plot: Plot) -> frozen_drawing.Drawing:
    """The whole drawing."""
    return {
        "text": in_parts(plot.caption),
        "alone": in_parts(plot.words),
        "x": axis_of(plot.x),
        "y": axis_of(plot.y),
        "lines": [line_of(one) for one in plot.lines],
        "spots": [spot_of(one) for one in plot.spots],
    }


def axis_of(axis: Axis) -> frozen_drawing.Axis:
    """An axis with its numbers."""
    return {
        "text": axis.words,
        "unit": axis.unit,
        "low": drawn(axis.low),
        "high": drawn(axis.high),
        "log": axis.log,
        "ticks": [
            {"text": tick_words(tick, axis.ticks), "value": drawn(tick)} for tick in axis.ticks
        ],
    }


def line_of(line: Line) -> frozen_drawing.Line:
    """A line with its corners."""
    corners = [[drawn(x), drawn(y)] for x, y in line.points]
    return {"text": in_parts(line.words), "looks": line.looks, "corners": corners}


def spot_of(spot: Spot) -> frozen_drawing.Spot:
    """A measured point."""
    return {
        "text": in_parts(spot.words),
        "x": drawn(spot.x),
        "y": drawn(spot.y),
        "error_x": drawn(spot.error_x),
        "error_y": drawn(spot.error_y),
    }


def drawn(number: float) -> float:
    """A number as fine as it can be drawn."""
    return float(f"{number:.{DIGITS}g}")
