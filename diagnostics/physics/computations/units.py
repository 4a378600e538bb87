"""Units and gauge pressure, as computations."""

from decimal import Decimal

from diagnostics.physics.atmosphere import ALTITUDES, Air, air_around
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.errors import Malformed
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.typed import split
from diagnostics.physics.units import (
    UNITS,
    Reference,
    from_si,
    reference_typed,
    shown,
    to_si,
    units_meant,
    with_unit,
)

NIST = "NIST SP 811 (2008), Appendix B.8"
DIFFERENCES = tuple(
    symbol for symbol, unit in UNITS.items() if unit.quantity == "temperature difference"
)
FACTOR_FIGURES = 7  # as NIST SP 811 tells its factors: who asks for 1 psi asks for the factor
LEFT_OUT = ""  # the default of an input that may be left out
REPORTS = (87.0, 109.0)  # kPa: what reports have told, brought to sea level; from memory
ALTITUDE = Input(
    "altitude", "Altitude of the shop; sea level unless told", "m", *ALTITUDES, default=LEFT_OUT
)
BAROMETER = Input(
    "barometer",
    "Pressure of the air as a barometer in the shop shows it; wins over the altitude",
    "kPa",
    22.7,
    177,
    reference="absolute",
    default=LEFT_OUT,
)
REPORTED = Input(
    "reported",
    "Pressure as a weather report gives it, brought to sea level; needs the altitude",
    "kPa",
    *REPORTS,
    reference="absolute",
    default=LEFT_OUT,
)


def optional(inputs: Inputs, name: str) -> float | None:
    """A number in SI that may have been left out."""
    told = inputs.get(name, LEFT_OUT)
    return None if told == LEFT_OUT else float(told)


def air_of(inputs: Inputs) -> Air:
    """The air around, by barometer, weather report or altitude, whichever is known best."""
    barometer, reported = optional(inputs, "barometer"), optional(inputs, "reported")
    return air_around(
        optional(inputs, "altitude"),
        None if barometer is None else Absolute(barometer),
        None if reported is None else Absolute(reported),
    )


def _convert(inputs: Inputs) -> Result:
    number, unit = _number(inputs)
    told_apart = str(inputs.get("from", LEFT_OUT))
    if unit and told_apart and unit != told_apart:
        raise Malformed(
            f"Behind the number stands “{unit}”, and its unit is told as “{told_apart}”: tell one."
        )
    start = told_apart or unit
    end = str(inputs["to"])
    one, other = _pair(start, end)
    si = to_si(number, one)
    decimals = max(0, -int(number.as_tuple().exponent))
    told = reference_typed(start)
    between = "a difference of temperature" if one in DIFFERENCES else ""
    aside = f"{told} as before" if told else between
    meaning = (
        f"{with_unit(shown(number, decimals), one)} in {other.removeprefix('Δ')}"
        f"{f', {aside}' if aside else ''}."
    )
    return Result(si, other, meaning=meaning, basis=NIST)


def _number(inputs: Inputs) -> tuple[Decimal, str]:
    told = inputs["value"]
    return split(told) if isinstance(told, str) else (Decimal(repr(told)), "")


def _pair(start: str, end: str) -> tuple[str, str]:
    """The two units meant, of one quantity."""
    told = {reference_typed(start), reference_typed(end)} - {""}
    if len(told) > 1:
        raise Malformed("Gauge and absolute pressure differ by the air's: its pressure is needed.")
    reference: Reference = "absolute" if "absolute" in told else "gauge"
    known = DIFFERENCES if "Δ" in start + end else tuple(UNITS)
    ones, others = (units_meant(typed, known, reference) for typed in (start, end))
    for typed, meant in ((start, ones), (end, others)):
        if not meant:
            raise Malformed(f"“{typed}” is no unit that is known here.")
    pairs = [
        (one, other)
        for one in ones
        for other in others
        if UNITS[one].quantity == UNITS[other].quantity
    ]
    points = [pair for pair in pairs if UNITS[pair[0]].quantity != "temperature difference"]
    if len(points or pairs) > 1:
        raise Malformed(f"“{start}” or “{end}” can be read in two ways: write the unit in full.")
    if not pairs:
        one, other = UNITS[ones[0]], UNITS[others[0]]
        raise Malformed(f"{start} is a unit of {one.quantity}, {end} one of {other.quantity}.")
    return (points or pairs)[0]


def _kilopascal(pascal: float) -> str:
    return with_unit(shown(from_si(pascal, "kPa"), 1), "kPa")


def _to_absolute(inputs: Inputs) -> Result:
    air = air_of(inputs)
    found = Gauge(float(inputs["pressure"])).absolute(air.pressure)
    return Result(
        found.pa,
        "kPa",
        air.u,
        f"{_kilopascal(found.pa)} above perfect vacuum, where the air presses with "
        f"{_kilopascal(air.pressure.pa)}.",
        air.basis,
        {"air_pressure": Result(air.pressure.pa, "kPa", air.u, basis=air.basis)},
    )


def _to_gauge(inputs: Inputs) -> Result:
    air = air_of(inputs)
    found = Absolute(float(inputs["pressure"])).gauge(air.pressure)
    side = "below" if found.pa < 0 else "above"
    return Result(
        found.pa,
        "kPa",
        air.u,
        f"A gauge shows {_kilopascal(found.pa)}, {side} the air's {_kilopascal(air.pressure.pa)}.",
        air.basis,
        {"air_pressure": Result(air.pressure.pa, "kPa", air.u, basis=air.basis)},
    )


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "convert",
        "A number from one unit to another of the same quantity",
        (
            Input("value", "The number, or number and unit as one text"),
            Input("from", "Its unit, where it does not stand behind the number", default=LEFT_OUT),
            Input("to", "The unit wanted; Δ°F, ΔK for differences of temperature"),
        ),
        "",
        NIST,
        _convert,
        least_figures=FACTOR_FIGURES,
    ),
    Computation(
        "gauge_to_absolute",
        "Pressure above perfect vacuum, from what a gauge shows",
        (
            Input("pressure", "Gauge reading", "kPa", -178, 40_000, reference="gauge"),
            ALTITUDE,
            BAROMETER,
            REPORTED,
        ),
        "kPa",
        "ISO 2533:1975 for the air",
        _to_absolute,
    ),
    Computation(
        "absolute_to_gauge",
        "What a gauge shows of a pressure above perfect vacuum",
        (
            Input("pressure", "Absolute pressure", "kPa", 0, 40_000, reference="absolute"),
            ALTITUDE,
            BAROMETER,
            REPORTED,
        ),
        "kPa",
        "ISO 2533:1975 for the air",
        _to_gauge,
    ),
)
