"""An air gap as typed, in whole micrometers."""

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import scaled, unit_named

# Far wider than the gaps in use (0.3 to 0.8 mm, trade articles): a slipped unit falls out of it,
# since no gap in inches is a gap in millimeters. Our judgement.
GAP_LOW_UM, GAP_HIGH_UM = 100, 2_000
GAP_UNITS = ("mm", "in")


def gap_um(typed: str, asked: str) -> int:
    """A gap, in the unit behind it or in the one that was asked for.

    Raises:
        Malformed: no number, or in another unit.

    """
    number, suffix = split(typed)
    unit = unit_named(suffix, GAP_UNITS) if suffix else asked
    if unit is None:
        raise Malformed(f"“{typed}” is not in mm or in. Type it in one of those.")
    return round(scaled(number, unit) * 1_000_000)


def can_be_a_gap(um: int) -> bool:
    """Whether any clutch may have it."""
    return GAP_LOW_UM <= um <= GAP_HIGH_UM
