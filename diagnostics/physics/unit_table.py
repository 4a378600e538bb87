"""Every unit in which a number may be typed or shown.

Factors are exact where the unit is defined exactly: NIST SP 811 (2008), Appendix B.8 and B.9, which
rest on 1 in = 0.0254 m, 1 lb = 0.45359237 kg, g = 9.80665 m/s², 1 Btu (IT) = 1055.05585262 J and a
conventional mercury column of 13595.1 kg/m³. A unit that is none of these says so beside it.
"""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Unit:
    """SI value = (value + zero) x factor. `spellings` are accepted when typed; see units.py.

    A symbol that begins with Δ is that of a difference, which has no zero: ΔK, Δ°C, Δ°F.
    """

    symbol: str
    quantity: str
    factor: Fraction
    zero: Fraction = Fraction(0)
    spellings: tuple[str, ...] = ()


F = Fraction
ONE = F(1)
INCH, FOOT = F("0.0254"), F("0.3048")  # m
POUND = F("0.45359237")  # kg
PSI = POUND * F("9.80665") / INCH**2  # Pa
MERCURY = F("13595.1") * F("9.80665")  # Pa for one meter, conventional
MICRON = MERCURY / 10**6
TORR = F(101_325, 760)
CUBIC_INCH, CUBIC_FOOT = INCH**3, FOOT**3  # m³
FLUID_OUNCE = CUBIC_INCH * 231 / 128  # US: the gallon of 231 in³ in 128 parts
BTU = F("1055.05585262")  # J, International Table
MINUTE, HOUR, DAY = F(60), F(3_600), F(86_400)  # s
YEAR = 365 * DAY  # NIST SP 811's "year (365 days)"
RANKINE = F(5, 9)  # K
MILLI, KILO, MEGA, MICRO = F(1, 1_000), F(1_000), F(10**6), F(1, 10**6)

_ELECTRIC = (
    Unit("V", "voltage", ONE, spellings=("volt", "volts", "v dc")),
    Unit("mV", "voltage", MILLI, spellings=("millivolt", "millivolts", "mv dc")),
    Unit("A", "current", ONE, spellings=("amp", "amps", "ampere", "amperes", "a dc")),
    Unit("mA", "current", MILLI, spellings=("milliamp", "milliamps", "ma dc")),
    Unit("Ω", "resistance", ONE, spellings=("ohm", "ohms", "r")),
    Unit("mΩ", "resistance", MILLI, spellings=("mω", "mohm", "mohms", "milliohm", "milliohms")),
    Unit(
        "kΩ", "resistance", KILO, spellings=("k", "kohm", "kohms", "kiloohm", "kilohm", "kilohms")
    ),
    Unit("MΩ", "resistance", MEGA, spellings=("Mω", "Mohm", "Mohms", "megohm", "megohms", "meg")),
    Unit("Ω/m", "resistance per length", ONE, spellings=("ohm/m",)),
    Unit("mΩ/m", "resistance per length", MILLI, spellings=("mohm/m", "Ω/km", "ohm/km")),
    Unit("Ω/kft", "resistance per length", 1 / (KILO * FOOT), spellings=("ohm/kft", "Ω/1000ft")),
    Unit("Hz", "frequency", ONE, spellings=("1/s", "hertz")),
    Unit("kHz", "frequency", KILO, spellings=("kilohertz",)),
    Unit("rpm", "frequency", 1 / MINUTE, spellings=("r/min", "rev/min", "1/min", "u/min")),
)
_TEMPERATURE = (
    Unit("K", "temperature", ONE, spellings=("kelvin",)),
    Unit("°C", "temperature", ONE, F("273.15"), ("c", "deg c", "celsius", "degrees c", "gr c")),
    Unit("°F", "temperature", RANKINE, F("459.67"), ("f", "deg f", "fahrenheit", "degrees f")),
    Unit("ΔK", "temperature difference", ONE, spellings=("k", "kelvin", "delta k")),
    Unit(
        "Δ°C",
        "temperature difference",
        ONE,
        spellings=("°c", "c", "deg c", "celsius", "degrees c", "delta c", "Δc", "c°"),
    ),
    Unit(
        "Δ°F",
        "temperature difference",
        RANKINE,
        spellings=("°f", "f", "deg f", "fahrenheit", "degrees f", "delta f", "Δf", "f°"),
    ),
)
_PRESSURE = (
    Unit("Pa", "pressure", ONE, spellings=("pascal", "pascals")),
    Unit("hPa", "pressure", F(100), spellings=("hectopascal",)),
    Unit("kPa", "pressure", KILO, spellings=("kilopascal", "kilopascals")),
    Unit("MPa", "pressure", MEGA, spellings=("megapascal", "megapascals")),
    Unit("mbar", "pressure", F(100), spellings=("mb", "millibar", "millibars")),
    Unit("bar", "pressure", F(10**5), spellings=("bars",)),
    Unit("psi", "pressure", PSI, spellings=("lb/in2", "lbs/in2", "lbf/in2", "pounds", "#")),
    Unit("kgf/cm²", "pressure", F("98066.5"), spellings=("kg/cm2", "kp/cm2", "at")),
    Unit("atm", "pressure", F(101_325), spellings=("atmosphere", "atmospheres")),
    Unit("inHg", "pressure", MERCURY * INCH, spellings=("hg", '"hg', "″hg", "in", "inches hg")),
    # Mercury at 60 °F; NIST SP 811 gives these six digits, the figure is not exact.
    Unit("inHg (60 °F)", "pressure", F("3376.85"), spellings=("inhg 60f", "in hg 60 f", "inhg60")),
    Unit("mmHg", "pressure", MERCURY * MILLI, spellings=("hg",)),
    Unit("Torr", "pressure", TORR, spellings=("torrs",)),
    Unit("mTorr", "pressure", TORR * MILLI, spellings=("millitorr",)),
    # The vacuum micron: a thousandth of a millimeter of mercury, not of a meter.
    Unit("micron", "pressure", MICRON, spellings=("microns", "µmHg", "umhg", "µ", "mic")),
    Unit("inH₂O", "pressure", F("249.08891"), spellings=("inwc", "in wg", '"wc')),  # conventional
    Unit("Pa/s", "pressure rate", ONE),
    Unit("kPa/K", "pressure per temperature", KILO),
    Unit("Pa/K", "pressure per temperature", ONE),
    Unit("micron/min", "pressure rate", MICRON / MINUTE, spellings=("microns/min",)),
    Unit("micron/s", "pressure rate", MICRON, spellings=("microns/s",)),
    Unit("mbar/min", "pressure rate", 100 / MINUTE),
    Unit("Pa·m³/s", "gas flow", ONE),
    Unit("mbar·L/s", "gas flow", F(1, 10)),
)
_SPACE = (
    Unit("m", "length", ONE, spellings=("meter", "meters", "metre", "metres")),
    Unit("km", "length", KILO, spellings=("kilometer", "kilometers")),
    Unit("cm", "length", F(1, 100), spellings=("centimeter", "centimeters")),
    Unit("mm", "length", MILLI, spellings=("millimeter", "millimeters", "millimetre")),
    Unit("µm", "length", MICRO, spellings=("um", "micrometer", "micrometers")),
    Unit("in", "length", INCH, spellings=("inch", "inches", '"', "″", "”")),
    Unit("mil", "length", INCH * MILLI, spellings=("mils", "thou", "thousandths")),
    Unit("ft", "length", FOOT, spellings=("foot", "feet", "′")),
    Unit("m²", "area", ONE, spellings=("sqm",)),
    Unit("mm²", "area", MICRO, spellings=("sqmm",)),
    Unit("m³", "volume", ONE, spellings=("cubic meter", "cubic meters")),
    Unit("L", "volume", MILLI, spellings=("liter", "liters", "litre", "litres", "ltr")),
    Unit("mL", "volume", MICRO, spellings=("cc", "ccm", "cm3", "milliliter", "milliliters")),
    Unit("µL", "volume", MICRO * MILLI, spellings=("ul", "mm3", "microliter")),
    Unit(
        "fl oz", "volume", FLUID_OUNCE, spellings=("oz", "fluid ounce", "fluid ounces", "us fl oz")
    ),
    Unit("in³", "volume", CUBIC_INCH, spellings=("cu in", "cubic inch", "cubic inches", "cid")),
    Unit("ft³", "volume", CUBIC_FOOT, spellings=("cu ft", "cubic foot", "cubic feet")),
    Unit("m/s", "speed", ONE),
    Unit("ft/min", "speed", FOOT / MINUTE, spellings=("fpm",)),
    Unit("m³/s", "volume flow", ONE),
    Unit("m³/h", "volume flow", 1 / HOUR),
    Unit("L/s", "volume flow", MILLI),
    Unit("L/min", "volume flow", MILLI / MINUTE),
    Unit("cfm", "volume flow", CUBIC_FOOT / MINUTE, spellings=("ft3/min",)),
)
_MASS = (
    Unit("kg", "mass", ONE, spellings=("kilo", "kilos", "kilogram", "kilograms")),
    Unit("g", "mass", MILLI, spellings=("gr", "gram", "grams")),
    Unit("mg", "mass", MICRO, spellings=("milligram", "milligrams")),
    Unit("t", "mass", KILO, spellings=("tonne", "tonnes", "metric ton", "metric tons")),
    Unit("oz", "mass", POUND / 16, spellings=("ounce", "ounces", "ozs")),
    Unit("lb", "mass", POUND, spellings=("lbs", "pound", "pounds")),
    Unit("kg/s", "mass flow", ONE),
    Unit("g/s", "mass flow", MILLI),
    Unit("g/min", "mass flow", MILLI / MINUTE),
    Unit("kg/h", "mass flow", 1 / HOUR, spellings=("kg/hr",)),
    Unit("kg/min", "mass flow", 1 / MINUTE),
    Unit("lb/min", "mass flow", POUND / MINUTE),
    Unit("lb/h", "mass flow", POUND / HOUR, spellings=("lb/hr",)),
    Unit("g/d", "mass flow", MILLI / DAY, spellings=("g/day", "g per day")),
    Unit("g/yr", "mass flow", MILLI / YEAR, spellings=("g/a", "g/y", "g/year", "g per year")),
    Unit("kg/yr", "mass flow", 1 / YEAR, spellings=("kg/a", "kg/y", "kg/year")),
    Unit("oz/yr", "mass flow", POUND / 16 / YEAR, spellings=("oz/y", "oz/year", "oz per year")),
    Unit("kg/m³", "density", ONE),
    Unit("g/L", "density", ONE),
    Unit("kg/L", "density", KILO, spellings=("g/ml", "g/cm3")),
    Unit("lb/ft³", "density", POUND / CUBIC_FOOT, spellings=("lb/cuft",)),
    Unit("m³/kg", "specific volume", ONE),
    Unit("L/kg", "specific volume", MILLI),
    Unit("ft³/lb", "specific volume", CUBIC_FOOT / POUND),
)
_ENERGY = (
    Unit("J", "energy", ONE, spellings=("joule", "joules")),
    Unit("kJ", "energy", KILO, spellings=("kilojoule", "kilojoules")),
    Unit("Wh", "energy", HOUR),
    Unit("kWh", "energy", KILO * HOUR),
    Unit("Btu", "energy", BTU),
    Unit("W", "power", ONE, spellings=("watt", "watts")),
    Unit("kW", "power", KILO, spellings=("kilowatt", "kilowatts")),
    Unit("Btu/h", "power", BTU / HOUR, spellings=("btu/hr", "btuh")),
    # 12 000 Btu (IT) an hour
    Unit(
        "ton", "power", 12_000 * BTU / HOUR, spellings=("tons", "tr", "rt", "ton of refrigeration")
    ),
    Unit("J/kg", "specific energy", ONE),
    Unit("kJ/kg", "specific energy", KILO),
    Unit("Btu/lb", "specific energy", BTU / POUND),
    Unit("J/(kg·K)", "specific entropy", ONE, spellings=("j/kg/k",)),
    Unit("kJ/(kg·K)", "specific entropy", KILO, spellings=("kj/kg/k",)),
    Unit(
        "Btu/(lb·°F)", "specific entropy", BTU / POUND / RANKINE, spellings=("btu/lbf", "btu/lbr")
    ),
)
_REST = (
    Unit("s", "time", ONE, spellings=("sec", "secs", "second", "seconds")),
    Unit("min", "time", MINUTE, spellings=("mins", "minute", "minutes")),
    Unit("h", "time", HOUR, spellings=("hr", "hrs", "hour", "hours")),
    Unit("d", "time", DAY, spellings=("day", "days")),
    Unit("yr", "time", YEAR, spellings=("y", "year", "years")),
    Unit("1", "share", ONE),
    Unit("%", "share", F(1, 100), spellings=("percent", "pct", "%rh", "rh", "% rh")),
    Unit("g/kg", "share", MILLI),
    Unit("gr/lb", "share", F(1, 7_000), spellings=("grains/lb",)),  # 7000 grains are a pound
    Unit("ppm", "share", MICRO),
    Unit("kg/kg", "share", ONE),
)
UNITS: dict[str, Unit] = {
    unit.symbol: unit
    for unit in (*_ELECTRIC, *_TEMPERATURE, *_PRESSURE, *_SPACE, *_MASS, *_ENERGY, *_REST)
}
# By quantity: the unit of factor one that stands first.
SI: dict[str, str] = {
    unit.quantity: unit.symbol
    for unit in reversed(UNITS.values())
    if unit.factor == 1 and not unit.zero
}
