"""Amounts: whole milligrams, from text as typed and back.

Factors are exact (NIST SP 811, Appendix B.8: 1 lb = 0.453 592 37 kg, 1 oz = 1/16 lb).
"""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.recovery import LABEL_TOLERANCE
from diagnostics.physics.typed import split
from diagnostics.physics.units import NO_BREAK, shown, with_unit

KG = 1_000_000  # mg
POUND_MG = Fraction("453592.37")
MASS_UNITS: dict[str, Fraction] = {
    "g": Fraction(1000),
    "kg": Fraction(KG),
    "oz": POUND_MG / 16,
    "lb": POUND_MG,
}
SPELLINGS = {
    "g": ("g", "gr", "gram", "grams", "gm"),
    "kg": ("kg", "kilo", "kilos", "kilogram", "kilograms"),
    "oz": ("oz", "oz.", "ounce", "ounces"),
    "lb": ("lb", "lbs", "lb.", "lbs.", "pound", "pounds"),
}
# A thousand tonnes: beyond this it is no weight of anything in a shop, and still fits a column.
MASS_MAX_MG = 10**12
CHARGE_TOLERANCE_MG = round(LABEL_TOLERANCE * KG)  # what a charge by weight may be off
BELOW_ZERO = "A mass is not below zero."
BEYOND = "Nothing in a shop weighs that much."


@dataclass(frozen=True)
class Mass:
    """A mass as typed: whole milligrams, and the unit it was given in."""

    mg: int
    unit: str

    @property
    def shown(self) -> str:
        """In the unit it was typed in, to the gram or the tenth of an ounce."""
        return shown_mass(self.mg, self.unit)


def mass(typed: str, unit: str) -> Mass:
    """A mass from text; a unit typed behind the number wins over `unit`.

    Raises:
        Malformed: no number, or not in a unit of mass.
        Impossible: below zero, or more than anything in a shop weighs.

    """
    number, suffix = split(typed)
    meant = named(suffix) if suffix else unit
    if meant not in MASS_UNITS:
        raise Malformed(f"“{typed.strip()}” is not in g, kg, oz or lb. Type it in one of those.")
    if number < 0:
        raise Impossible(BELOW_ZERO)
    exact = Fraction(number) * MASS_UNITS[meant]
    if exact > MASS_MAX_MG:
        raise Impossible(BEYOND)
    milligrams = Decimal(exact.numerator) / Decimal(exact.denominator)
    return Mass(int(milligrams.to_integral_value(ROUND_HALF_UP)), meant)


def named(suffix: str) -> str | None:
    """The unit meant by what stands behind a number, or None."""
    folded = "".join(suffix.casefold().split())
    return next((unit for unit, spelled in SPELLINGS.items() if folded in spelled), None)


def shown_mass(mg: int, unit: str) -> str:
    """Milligrams as text in a unit: g whole, oz with one decimal, kg and lb with three."""
    number = Fraction(mg) / MASS_UNITS[unit]
    decimals = {"g": 0, "oz": 1}.get(unit, 3)
    return with_unit(shown(Decimal(number.numerator) / Decimal(number.denominator), decimals), unit)


def both(mg: int, first: str = "g") -> str:
    """Grams, and ounces beside them; or the other way round."""
    other = "g" if first == "oz" else "oz"
    return f"{shown_mass(mg, first)}{NO_BREAK}({shown_mass(mg, other)})"


def plain_grams(mg: int) -> str:
    """Grams as they are filled into a field: exact, a point, no unit."""
    number = Decimal(mg) / 1000
    return f"{number:f}".rstrip("0").rstrip(".") if mg % 1000 else str(mg // 1000)
