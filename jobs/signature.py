"""A signature as it was drawn: strokes of whole numbers, kept as told and drawn again.

A signature is text, `[[x, y, x, y, …], …]`: one list a stroke, x from 0 to WIDTH, y from 0 to
HEIGHT, from the top left. Small on purpose, so that it fits into an entry and onto a paper.
"""

import json

WIDTH, HEIGHT = 1000, 300
POINTS_MAX = 1200
TEXT_MAX = 16_000
DOT = 40  # what is drawn within so little, both ways, is no name; our judgement
NOT_READ = "The signature cannot be read. Clear it and let it be drawn again."
TOO_LONG = "That is more than a signature has. Clear it and let it be drawn again."

Strokes = list[list[int]]


class NotASignature(ValueError):
    """What came is not of a signature's shape; the sentence says so."""


def read(text: str) -> Strokes:
    """The strokes in a text; of an empty one none.

    Raises:
        NotASignature: it is no list of strokes, a point lies outside, or there are too many.

    """
    if not text.strip():
        return []
    if len(text) > TEXT_MAX:
        raise NotASignature(TOO_LONG)
    try:
        told = json.loads(text)
    except (ValueError, RecursionError):
        raise NotASignature(NOT_READ) from None
    if not isinstance(told, list) or not all(is_stroke(one) for one in told):
        raise NotASignature(NOT_READ)
    if sum(len(one) for one in told) > 2 * POINTS_MAX:
        raise NotASignature(TOO_LONG)
    return told


def is_stroke(told: object) -> bool:
    """Whether it is one stroke: pairs of whole numbers inside the field."""
    if not isinstance(told, list) or not told or len(told) % 2:
        return False
    inside = (
        type(one) is int and 0 <= one <= (HEIGHT if place % 2 else WIDTH)
        for place, one in enumerate(told)
    )
    return all(inside)


def is_a_dot(strokes: Strokes) -> bool:
    """Whether all that was drawn is no larger than a dot."""
    across = [one for stroke in strokes for one in stroke[::2]]
    down = [one for stroke in strokes for one in stroke[1::2]]
    return bool(across) and max(max(across) - min(across), max(down) - min(down)) < DOT


def path(strokes: Strokes) -> str:
    """The strokes as the data of an SVG path, in the field's own units."""
    return " ".join(
        f"M{stroke[0]} {stroke[1]}" + "".join(f"L{x} {y}" for x, y in following(stroke))
        for stroke in strokes
    )


def following(stroke: list[int]) -> list[tuple[int, int]]:
    """The points after the first; of a lone one the same again, so that a dot is drawn too."""
    points = list(zip(stroke[::2], stroke[1::2], strict=True))
    return points[1:] or points
