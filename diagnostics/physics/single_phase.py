"""Superheated vapor and subcooled liquid: density, enthalpy, entropy. For the desk."""

from dataclasses import replace
from typing import Literal

from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.helmholtz import Equation, State, equation_of, pressure, state
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.root import crossing
from diagnostics.physics.saturation import (
    ZERO_C,
    Reference,
    inside,
    offset,
    saturated,
    saturation_temperature,
    table_of,
)
from diagnostics.physics.units import shown

Property = Literal["enthalpy", "entropy"]

AT_REST = 5e-5  # share: table and equation differ by less where both phases stand
DENSEST = Absolute(10e6)  # pressures above this meet no car
THINNEST = Absolute(1.0)
WALL = 1e-3  # share beyond the saturated density that a search may reach into


def vapor(
    refrigerant: str, kelvin: float, absolute: Absolute, reference: Reference = "IIR"
) -> State:
    """Superheated or saturated vapor at a temperature and an absolute pressure.

    From -60 °C (R-744: -56.5 °C) to what the formulation covers, at most 227 °C; below the
    critical pressure. Source: the equation's.

    Raises:
        Malformed: a refrigerant or reference that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: no vapor there, or outside the range.

    """
    equation, table = equation_of(refrigerant), table_of(refrigerant)
    if kelvin > equation.highest:
        raise OutOfRange(
            f"{shown(kelvin - ZERO_C, 1)} °C is hotter than {equation.refrigerant} is followed: to "
            f"{shown(equation.highest - ZERO_C, 0)} °C."
        )
    if absolute < THINNEST:
        raise OutOfRange("Vapor is followed from 1 Pa absolute up: deeper there is next to none.")
    if absolute > table.critical_pressure:
        raise OutOfRange(_above_critical(refrigerant))
    start = absolute.pa / equation.gas_constant / kelvin if kelvin > 0 else 0.0
    if kelvin > table.highest:
        dense = start
        while pressure(equation, kelvin, dense) < absolute.pa:
            dense *= 1.5
    else:
        rest = saturated(refrigerant, inside(table, kelvin))
        if absolute.pa > rest.pressure.pa * (1 + AT_REST):
            raise OutOfRange(_says(refrigerant, kelvin, absolute, "liquid", "vapor"))
        dense = rest.vapor_density * (1 + WALL)
    found = _solved(equation, kelvin, absolute, start * 0.9, dense)
    return _referred(refrigerant, found, reference)


def liquid(
    refrigerant: str, kelvin: float, absolute: Absolute, reference: Reference = "IIR"
) -> State:
    """Subcooled or saturated liquid at a temperature and an absolute pressure.

    From -60 °C (R-744: -56.5 °C) to 0.1 K below the critical point, up to 10 MPa.

    Raises:
        Malformed: a refrigerant or reference that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: no liquid there, or outside the range.

    """
    equation = equation_of(refrigerant)
    rest = saturated(refrigerant, kelvin)
    if absolute.pa < rest.pressure.pa * (1 - AT_REST):
        raise OutOfRange(_says(refrigerant, kelvin, absolute, "vapor", "liquid"))
    if absolute > DENSEST:
        raise OutOfRange("Liquid is followed to 10 MPa absolute only.")
    thin = rest.liquid_density * (1 - WALL)
    dense = rest.liquid_density
    while pressure(equation, kelvin, dense) < absolute.pa:
        dense *= 1.02
    return _referred(refrigerant, _solved(equation, kelvin, absolute, thin, dense), reference)


def phase_at(refrigerant: str, kelvin: float, absolute: Absolute) -> Literal["liquid", "vapor"]:
    """Which phase stands at a temperature and an absolute pressure; saturated counts as vapor.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: outside the tables.

    """
    table = table_of(refrigerant)
    if kelvin > table.highest and absolute <= table.critical_pressure:
        return "vapor"
    at_rest = saturated(refrigerant, kelvin).pressure
    return "liquid" if absolute.pa > at_rest.pa * (1 + AT_REST) else "vapor"


def at_pressure(
    refrigerant: str,
    absolute: Absolute,
    which: Property,
    value: float,
    reference: Reference = "IIR",
) -> State:
    """The vapor, dry or still wet, that has an enthalpy or entropy under an absolute pressure.

    Wet vapor has the temperature of saturation and the mean density of both phases.

    Raises:
        Malformed: a refrigerant or reference that is not known here.
        OutOfRange: liquid alone, or hotter than the equation is followed.

    """
    equation = equation_of(refrigerant)
    boiling = saturation_temperature(refrigerant, absolute)
    rest = saturated(refrigerant, boiling, reference)
    wet_to = getattr(rest, f"vapor_{which}")
    wet_from = getattr(rest, f"liquid_{which}")
    if value < wet_from:
        raise OutOfRange(f"With so little {which} {equation.refrigerant} is liquid, not vapor.")
    if value <= wet_to:
        share = (value - wet_from) / (wet_to - wet_from)
        return State(
            kelvin=boiling,
            pressure=absolute,
            density=1 / ((1 - share) / rest.liquid_density + share / rest.vapor_density),
            enthalpy=rest.liquid_enthalpy + share * rest.latent_heat,
            entropy=rest.liquid_entropy + share * (rest.vapor_entropy - rest.liquid_entropy),
        )

    def missing(kelvin: float) -> float:
        found: float = getattr(vapor(refrigerant, kelvin, absolute, reference), which)
        return found - value

    if missing(equation.highest) < 0:
        raise OutOfRange(
            f"That would be hotter than {equation.refrigerant} is followed: above "
            f"{shown(equation.highest - ZERO_C, 0)} °C."
        )
    return vapor(refrigerant, crossing(missing, boiling, equation.highest), absolute, reference)


def _solved(
    equation: Equation, kelvin: float, absolute: Absolute, thin: float, dense: float
) -> State:
    """The state between two densities that has the pressure."""
    density = crossing(
        lambda density: pressure(equation, kelvin, density) - absolute.pa, thin, dense
    )
    return replace(state(equation, kelvin, density), pressure=absolute)


def _referred(refrigerant: str, found: State, reference: Reference) -> State:
    enthalpy, entropy = offset(table_of(refrigerant), reference)
    return replace(found, enthalpy=found.enthalpy - enthalpy, entropy=found.entropy - entropy)


def _above_critical(refrigerant: str) -> str:
    table = table_of(refrigerant)
    return (
        f"Above {shown(table.critical_pressure.pa / 1000, 0)} kPa absolute, its critical "
        f"pressure, {table.refrigerant} is recorded, not judged."
    )


def _says(refrigerant: str, kelvin: float, absolute: Absolute, found: str, wanted: str) -> str:
    return (
        f"At {shown(kelvin - ZERO_C, 1)} °C and {shown(absolute.pa / 1000, 0)} kPa absolute "
        f"{refrigerant} is {found}, not {wanted}: gauge, thermometer or gas is not what was said."
    )
