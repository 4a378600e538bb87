"""The shape of a drawing in a record's frozen data: numbers and words, no places on a sheet."""

from typing import Literal, TypedDict


class Tick(TypedDict):
    """A number at an axis, and where it stands."""

    text: str
    value: float


class Axis(TypedDict):
    """One axis of a drawing, in `unit`; `log`: each power of ten takes the same room."""

    text: str
    unit: str
    low: float
    high: float
    log: bool
    ticks: list[Tick]


class Line(TypedDict):
    """A drawn line: its corners (x, y), and the words that stand at its end."""

    text: str
    looks: Literal["curve", "fit", "edge", "limit", "water"]
    corners: list[list[float]]


class Spot(TypedDict):
    """A measured point with the half widths of its error; 0: not known."""

    text: str
    x: float
    y: float
    error_x: float
    error_y: float


class Drawing(TypedDict):
    """A curve with what was measured, each in its axis's unit; `alone` tells it without a look."""

    text: str
    alone: str
    x: Axis
    y: Axis
    lines: list[Line]
    spots: list[Spot]
