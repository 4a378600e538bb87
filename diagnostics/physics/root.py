"""Where a function crosses zero between two given places."""

from collections.abc import Callable

STEPS = 200


def crossing(function: Callable[[float], float], low: float, high: float) -> float:
    """The place between `low` and `high` where `function` changes its sign, to 13 digits.

    False position with the Illinois rule: Dowell and Jarratt 1971, BIT 11:168 (from memory).
    The caller sees to it that the signs at both ends differ; else the end that is nearer to zero.
    """
    at_low, at_high = function(low), function(high)
    if (at_low > 0) == (at_high > 0):
        return low if abs(at_low) < abs(at_high) else high
    middle = low
    for _ in range(STEPS):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        at_middle = function(middle)
        if at_middle == 0:
            return middle
        if (at_middle > 0) == (at_high > 0):
            at_low = at_low / 2
        else:
            low, at_low = high, at_high
        moved, high, at_high = abs(middle - high), middle, at_middle
        if moved <= 1e-13 * abs(middle):
            break
    return middle
