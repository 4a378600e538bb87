"""A pressure that moves in a closed loop, told as refrigerant a year: a size to think with.

The loop's volume is taken as 3 L, the hole as a narrow crack; see leak.py in physics. Such a figure
is good to a factor of two or three.
"""

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.leak import Loop, gas_flow, refrigerant_flow
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import from_si, shown

DIGITS = 2  # that carry meaning in a leak's size, at most


def loop_of(around: Circumstances) -> Loop:
    """The loop that is taken: of the car's refrigerant, where it is known, else of R-134a."""
    try:
        return Loop(refrigerant=around.system.get("refrigerant", ""), air=around.air)
    except PhysicsError:
        return Loop(air=around.air)


def taken_words(around: Circumstances) -> str:
    """What is taken for a leak's size, said with it."""
    return (
        f"Leaks in grams a year: a loop of 3\u00a0L taken, {loop_of(around).refrigerant} at rest at"
        " 25\u00a0°C, the hole a narrow crack; good to a factor of two or three."
    )


def in_vacuum(rate: float, inside: Absolute, kelvin: float, around: Circumstances) -> float | None:
    """kg/s of refrigerant that a leak lets out, from the rise in Pa/s of the loop pumped down."""
    loop = loop_of(around)
    try:
        return refrigerant_flow(gas_flow(rate, loop.volume), kelvin, inside, around.air, loop)
    except PhysicsError:
        return None


def a_year(kilogram_a_second: float) -> str:
    """Such as 260 g a year or 1.1 kg a year: two digits that count."""
    grams = float(f"{from_si(kilogram_a_second, 'g/yr'):.{DIGITS}g}")
    if abs(grams) >= 1000:
        return f"{_two(grams / 1000)}\u00a0kg a year"
    return f"{_two(grams)}\u00a0g a year"


def _two(amount: float) -> str:
    return shown(amount, 0 if abs(amount) >= 10 else 1)
