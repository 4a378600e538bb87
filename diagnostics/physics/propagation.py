"""How far a worked-out value may be off, for any function of what was read.

JCGM 100:2008 (GUM), 5.1.3 note 2: each reading is moved by its standard uncertainty up and down,
half of what the value moves is its part, independent parts add as squares.
"""

import math
from collections.abc import Callable, Sequence

from diagnostics.physics.errors import PhysicsError

Function = Callable[[Sequence[float]], float]


def propagated(function: Function, read: Sequence[float], us: Sequence[float]) -> float | None:
    """Standard uncertainty of `function(read)`, in its unit; `us` are those of the readings.

    Where one of the two moved readings cannot be (more than 100 % humidity) the other side counts
    alone; where neither can, None: not known.

    Raises:
        PhysicsError: what the function raises for the readings themselves.

    """
    middle, parts = function(read), []
    for index, u in enumerate(us):
        if not u:
            continue
        ends = [end for step in (-u, u) if (end := _moved(function, read, index, step)) is not None]
        if not ends:
            return None
        parts.append(
            (ends[1] - ends[0]) / 2 if len(ends) == 2 else ends[0] - middle  # one side alone
        )
    return math.hypot(*parts)


def _moved(function: Function, read: Sequence[float], index: int, step: float) -> float | None:
    moved = [one + step * (place == index) for place, one in enumerate(read)]
    try:
        return function(moved)
    except PhysicsError:
        return None
