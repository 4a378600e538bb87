"""What a shop's instruments measure, and how far one may be off as its maker states it.

A share of the reading and a fixed part, added: common practice of data sheets, no source.
"""

import re
from dataclasses import dataclass

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import NO_BREAK, to_si, unit_named


@dataclass(frozen=True)
class Quantity:
    """Something that is measured. `units` are those in which an accuracy may be stated.

    `used` says how its instrument is used.
    """

    words: str
    units: tuple[str, ...] = ()
    example: str = ""
    used: str = "read with"

    @property
    def used_words(self) -> str:
        """What stands before the instrument's name."""
        return f"{self.words} {self.used}"


TEMPERATURES = ("ΔK", "Δ°C", "Δ°F")
QUANTITIES: dict[str, Quantity] = {
    "pressure": Quantity("Pressure", ("kPa", "bar", "psi", "Pa", "MPa", "mbar"), "16 kPa"),
    "vacuum": Quantity("Vacuum", ("micron", "Pa", "mbar", "mTorr", "Torr"), "10 % + 10 micron"),
    "temperature": Quantity("Temperature", TEMPERATURES, "1 °C"),
    "voltage": Quantity("Voltage", ("V", "mV"), "0.5 % + 20 mV"),
    "current": Quantity("Current", ("A", "mA"), "2 % + 30 mA"),
    "resistance": Quantity("Resistance", ("Ω", "mΩ", "kΩ"), "1 % + 0.1 Ω"),
    "insulation": Quantity("Insulation", ("MΩ", "kΩ"), "5 %"),
    "mass": Quantity("Mass", ("g", "kg", "oz", "lb"), "5 g"),
    "gap": Quantity("Gap", ("mm", "µm", "mil", "in"), "0.02 mm"),
    "gas": Quantity("Share of gas", ("%",), "2 %"),
    # Told by name only: what makers state of these is no accuracy of a reading.
    "leak": Quantity("Leaks", used="searched with"),
    "recovery": Quantity("Recovery", used="made with"),
}
# Which quantity a class of instruments (uncertainty.INSTRUMENTS) reads. A watch, scan data and a
# measuring cup are no instruments that a shop has checked.
OF_INSTRUMENT = {
    "dc_volts": "voltage",
    "dc_millivolts": "voltage",
    "dc_amps": "current",
    "thermometer": "temperature",
    "low_side_gauge": "pressure",
    "high_side_gauge": "pressure",
    "r744_gauge": "pressure",
    "ohmmeter": "resistance",
    "insulation_tester": "insulation",
    "gas_identifier": "gas",
    "micron_gauge": "vacuum",
    "feeler_gauge": "gap",
    "scale": "mass",
}
PARTED = re.compile(r"\s*(?:\+|;|\band\b)\s*", re.IGNORECASE)
SIGNS = re.compile(r"±|\+\s*/\s*[-−–]|\+[-−–]")
SHARE = re.compile(r"%\s*(?:of (?:the )?reading|rdg\.?)?", re.IGNORECASE)


@dataclass(frozen=True)
class Stated:
    """How far an instrument may be off as stated: a share of the reading, and a fixed part in SI.

    `typed` is the statement in its own words, without the sign.
    """

    share: float
    fixed: float
    typed: str

    @property
    def words(self) -> str:
        """As it is shown."""
        return f"±{self.typed}"

    def limit(self, si: float) -> float:
        """The largest error at this reading, both in SI."""
        return self.share * abs(si) + self.fixed


def stated(typed: str, quantity: str) -> Stated:
    """An accuracy from text, such as "1 % + 10 kPa": shares of the reading and fixed parts.

    Raises:
        Malformed: no number, no unit of this quantity, a share of the full scale, or nothing.

    """
    asked = QUANTITIES[quantity]
    text = SIGNS.sub(" ", typed).strip()
    if "scale" in text.lower() or re.search(r"\bf\.?s\b", text, re.IGNORECASE):
        raise Malformed(
            f"A share of the full scale is a fixed amount: work it out and type it, such as"
            f" {asked.example}."
        )
    share = fixed = 0.0
    for part in filter(None, PARTED.split(text)):
        number, unit = split(part)
        if number < 0:
            raise Malformed("An accuracy is not below zero. Type it without a sign.")
        if quantity != "gas" and SHARE.fullmatch(unit):
            share += float(number) / 100
        else:
            meant = unit_named(unit, asked.units) if unit else None
            if meant is None:
                raise Malformed(f"“{part}” needs its unit. Type it such as {asked.example}.")
            fixed += to_si(number, meant)
    if not share and not fixed:
        raise Malformed(f"No instrument is exact. Type it such as {asked.example}.")
    return Stated(share, fixed, re.sub(r"(?<=\d) (?=\S)", NO_BREAK, " ".join(text.split())))
