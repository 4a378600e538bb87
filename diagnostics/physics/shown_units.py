"""The units that numbers are asked and shown in: each quantity's usual one, or another chosen.

Sentences are written once, in the usual units; `sentence` tells their figures in the chosen ones.
The factors are those of unit_table.py (NIST SP 811). What was chosen is passed in, never looked up.
Resistance, voltage and current have no choice.
"""

import math
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from diagnostics.physics.units import EN_DASH, MINUS, NO_BREAK, UNITS, from_si, shown, with_unit


@dataclass(frozen=True)
class UnitChoice:
    """What can be chosen for one quantity: the first unit is the usual one."""

    words: str
    units: tuple[str, ...]
    hint: str = ""


UNIT_CHOICES: dict[str, UnitChoice] = {
    "pressure": UnitChoice("Pressure", ("kPa", "bar", "psi"), "By gauge, air pressure is zero."),
    "vacuum": UnitChoice("Deep vacuum", ("micron", "Pa", "mbar"), "Absolute, while evacuating."),
    "temperature": UnitChoice("Temperature", ("°C", "°F")),
    "mass": UnitChoice("Mass of refrigerant", ("g", "oz")),
    "oil": UnitChoice("Oil volume", ("mL", "fl oz")),
    "gap": UnitChoice("Air gap", ("mm", "in")),
    "air_speed": UnitChoice("Air speed", ("m/s", "ft/min"), "No test asks for it yet."),
    "distance": UnitChoice("Distance driven", ("km", "mi")),
}
USUAL = {one.units[0]: name for name, one in UNIT_CHOICES.items()}
# A difference goes with its temperature, a large mass with a small one.
DIFFERENCE = {"°C": "ΔK", "°F": "Δ°F"}
LARGE = {"g": "kg", "oz": "lb"}
FOLLOWING = {"ΔK": ("°C", DIFFERENCE), "kg": ("g", LARGE)}


@dataclass(frozen=True)
class ShownIn:
    """What was chosen: {quantity: unit}. Empty, everything is shown in its usual unit."""

    chosen: Mapping[str, str] = field(default_factory=dict)

    def unit(self, usual: str) -> str:
        """The unit in which what is usually told in `usual` is shown."""
        if usual in FOLLOWING:
            leader, follows = FOLLOWING[usual]
            return follows[self.unit(leader)]
        name = USUAL.get(usual, "")
        told = self.chosen.get(name, usual)
        return told if name and told in UNIT_CHOICES[name].units else usual

    def start(self, units: tuple[str, ...]) -> str:
        """The unit a field begins with that takes `units`, its usual one first."""
        meant = self.unit(units[0])
        return meant if meant in units else units[0]

    def decimals(self, usual: str, decimals: int) -> int:
        """As many as do not show more than `decimals` of the usual unit tell."""
        unit = self.unit(usual)
        if unit == usual:
            return decimals
        step = float(UNITS[usual].factor / UNITS[unit].factor) * 10.0**-decimals
        return max(0, math.floor(-math.log10(step) + 1e-9))

    def value(self, si: float, usual: str) -> float:
        """An SI value in the unit it is shown in."""
        return from_si(si, self.unit(usual))

    def number(self, si: float, usual: str, decimals: int) -> str:
        """An SI value as text without its unit."""
        return shown(self.value(si, usual), self.decimals(usual, decimals))

    def text(self, si: float, usual: str, decimals: int = 0) -> str:
        """An SI value as text with its unit."""
        return with_unit(self.number(si, usual, decimals), self.unit(usual))

    def in_usual(self, value: float, usual: str) -> float:
        """A value of the usual unit in the unit it is shown in, such as a place on an axis."""
        unit = self.unit(usual)
        if unit == usual:
            return value
        one, other = UNITS[usual], UNITS[unit]
        exact = (Fraction(repr(float(value))) + one.zero) * one.factor
        return float(exact / other.factor - other.zero)

    def beside(self, unit: str) -> str:
        """The unit in its place: the chosen one for a usual one, and the other way round.

        So a number that stands in two units still does.
        """
        return self.as_json().get(unit, unit)

    def as_json(self) -> dict[str, str]:
        """For a page's script: each unit that trades its place, with the one it trades with."""
        pairs = {usual: self.unit(usual) for usual in (*USUAL, *FOLLOWING)}
        traded = {usual: unit for usual, unit in pairs.items() if unit != usual}
        return traded | {unit: usual for usual, unit in traded.items()}

    def sentence(self, text: str, typed: Collection[str] = ()) -> str:
        """A sentence with its figures in the units chosen, but for those as `typed`."""
        if not self.as_json() or not text:
            return text
        if not typed:
            return _FIGURE.sub(self._figure, text)
        kept = "|".join(re.escape(one) for one in sorted(typed, key=len, reverse=True))
        parts = re.split(rf"((?<![\d.,{NO_BREAK}])(?:{kept})(?!\w))", text)
        return "".join(
            part if index % 2 else _FIGURE.sub(self._figure, part)
            for index, part in enumerate(parts)
        )

    def _figure(self, found: re.Match[str]) -> str:
        """One number, or two with a dash or word between, in the unit chosen."""
        differs = found["unit"] == "K" or (found["unit"] == "°C" and found["mark"])
        usual = "ΔK" if differs else found["unit"]
        unit = self.unit(usual)
        if unit == usual:
            return found[0]
        ends = [self._told(found[one], usual) for one in ("low", "high") if found[one]]
        dash = found["dash"] or ""
        if dash == EN_DASH and any(one.startswith(MINUS) for one in ends):
            dash = f"{NO_BREAK}to{NO_BREAK}"
        return f"{found['mark'] or ''}{with_unit(dash.join(dict.fromkeys(ends)), unit)}"

    def _told(self, text: str, usual: str) -> str:
        """A number out of a sentence in the unit chosen, with no more digits than it had."""
        plain = text.replace(NO_BREAK, "").replace(" ", "").replace(MINUS, "-")
        decimals = len(plain.partition(".")[2])
        return shown(self.in_usual(float(plain), usual), self.decimals(usual, decimals))


_NUMBER = rf"[{MINUS}-]?\d+(?:[{NO_BREAK} ]\d{{3}})*(?:\.\d+)?"
_FIGURE = re.compile(
    rf"(?<![\w.,])(?P<mark>[±]?)(?P<low>{_NUMBER})"
    rf"(?:(?P<dash>{EN_DASH}|[ {NO_BREAK}](?:to|and)[ {NO_BREAK}])(?P<high>{_NUMBER}))?"
    rf"[ {NO_BREAK}](?P<unit>kPa|micron|°C|K|kg|g|mL|mm|m/s)(?![\w/·²³°])"
)
