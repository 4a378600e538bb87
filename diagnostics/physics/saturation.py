"""Refrigerants where liquid and vapor stand together: from temperature or absolute pressure.

The numbers come from tables, one a refrigerant, which name the formulation and the library that
made them. The rule of reading a table stands in it, under "rule".
"""

import json
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.refrigerants import refrigerant_named
from diagnostics.physics.root import crossing
from diagnostics.physics.units import shown

FOLDER = Path(__file__).parent / "tables"
ZERO_C = 273.15
Reference = Literal["IIR", "ASHRAE"]
REFERENCES: tuple[Reference, ...] = ("IIR", "ASHRAE")

Column = tuple[tuple[float, ...], tuple[float, ...]]  # values and slopes per step


@dataclass(frozen=True)
class Table:
    """One refrigerant's table. Temperatures in kelvin, pressures in pascal, else SI.

    `first` and `step` count cbrt(1 - T / critical temperature). Enthalpy and entropy are on the
    IIR reference; `ashrae` is what to subtract from them for the other.
    """

    refrigerant: str
    formulation: str
    library: str
    critical_kelvin: float
    critical_pressure: Absolute
    lowest: float
    highest: float
    ashrae: tuple[float, float]
    first: float
    step: float
    columns: dict[str, Column]

    def at(self, column: str, kelvin: float) -> float:
        """A column's value at a temperature inside the table, by cubic Hermite interpolation."""
        values, slopes = self.columns[column]
        steps = (math.cbrt(1 - kelvin / self.critical_kelvin) - self.first) / self.step
        index = min(max(int(steps), 0), len(values) - 2)
        t = steps - index
        s = 1 - t
        return (
            (1 + 2 * t) * s * s * values[index]
            + t * s * s * slopes[index]
            + t * t * (3 - 2 * t) * values[index + 1]
            - t * t * s * slopes[index + 1]
        )

    @property
    def source(self) -> str:
        """Formulation and library in one line."""
        return f"{self.formulation}; table made with {self.library}"


@dataclass(frozen=True)
class Saturated:
    """Liquid and vapor at rest together. K, Pa absolute, kg/m³, J/kg, J/(kg K)."""

    kelvin: float
    pressure: Absolute
    liquid_density: float
    vapor_density: float
    liquid_enthalpy: float
    vapor_enthalpy: float
    liquid_entropy: float
    vapor_entropy: float

    @property
    def latent_heat(self) -> float:
        """Heat in J/kg that turns the liquid into vapor."""
        return self.vapor_enthalpy - self.liquid_enthalpy

    @property
    def pressure_slope(self) -> float:
        """Change of the saturation pressure in Pa per kelvin (Clausius and Clapeyron)."""
        volume = 1 / self.vapor_density - 1 / self.liquid_density
        return self.latent_heat / self.kelvin / volume


@cache
def _read(name: str) -> Table:
    told = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    columns = {
        key: (tuple(value[0]), tuple(value[1]))
        for key, value in told.items()
        if isinstance(value, list)
    }
    return Table(
        refrigerant=name,
        formulation=told["formulation"],
        library=told["library"],
        critical_kelvin=told["critical_temperature"],
        critical_pressure=Absolute(told["critical_pressure"]),
        lowest=told["lowest_temperature"],
        highest=told["highest_temperature"],
        ashrae=(told["ashrae_enthalpy"], told["ashrae_entropy"]),
        first=told["first"],
        step=told["step"],
        columns=columns,
    )


def table_of(refrigerant: str) -> Table:
    """The table of a refrigerant, by any form of its name.

    Raises:
        Malformed: a refrigerant that is not known here.

    """
    return _read(refrigerant_named(refrigerant).name)


def saturation_pressure(refrigerant: str, kelvin: float) -> Absolute:
    """Absolute pressure at which the refrigerant boils or condenses at a temperature.

    From -60 °C (R-744: -56.5 °C) to 0.1 K below the critical point. Source: the table's.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: colder or hotter than the table; above 31 °C R-744 is recorded, not judged.

    """
    table = table_of(refrigerant)
    return Absolute(math.exp(table.at("ln_pressure", inside(table, kelvin))))


def saturation_temperature(refrigerant: str, pressure: Absolute) -> float:
    """Temperature in kelvin at which the refrigerant boils or condenses under a pressure.

    Raises:
        Malformed: a refrigerant that is not known here.
        OutOfRange: a pressure below or above the table's.
        TypeError: a gauge pressure.

    """
    table = table_of(refrigerant)
    name, low = table.refrigerant, saturation_pressure(refrigerant, table.lowest)
    high = saturation_pressure(refrigerant, table.highest)
    if pressure < low:
        raise OutOfRange(
            f"{_kpa(pressure)} absolute is less than the table of {name} has: it begins at "
            f"{_kpa(low)}, {_celsius(table.lowest)}."
        )
    if pressure > high:
        raise OutOfRange(
            f"{_kpa(pressure)} absolute is above the critical point of {name} "
            f"({_kpa(table.critical_pressure)}): there it neither boils nor condenses. "
            "Such a pressure is recorded, not judged."
            if pressure > table.critical_pressure
            else _too_near(table)
        )
    return _kelvin_where(table, "ln_pressure", math.log(pressure.pa))


def saturated(refrigerant: str, kelvin: float, reference: Reference = "IIR") -> Saturated:
    """Both phases at a temperature; enthalpy and entropy on the reference asked for.

    Raises:
        Malformed: a refrigerant or reference that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: colder or hotter than the table.

    """
    table = table_of(refrigerant)
    kelvin = inside(table, kelvin)
    enthalpy, entropy = offset(table, reference)
    return Saturated(
        kelvin=kelvin,
        pressure=saturation_pressure(refrigerant, kelvin),
        liquid_density=table.at("liquid_density", kelvin),
        vapor_density=table.at("vapor_density", kelvin),
        liquid_enthalpy=table.at("liquid_enthalpy", kelvin) - enthalpy,
        vapor_enthalpy=table.at("vapor_enthalpy", kelvin) - enthalpy,
        liquid_entropy=table.at("liquid_entropy", kelvin) - entropy,
        vapor_entropy=table.at("vapor_entropy", kelvin) - entropy,
    )


def liquid_density_temperature(refrigerant: str, density: float) -> float:
    """Temperature in kelvin at which the saturated liquid has a density in kg/m³.

    Raises:
        Malformed: a refrigerant that is not known here.
        OutOfRange: denser or thinner than the liquid is anywhere in the table.

    """
    table = table_of(refrigerant)
    dense, thin = (table.at("liquid_density", end) for end in (table.lowest, table.highest))
    if not thin <= density <= dense:
        raise OutOfRange(
            f"Liquid {table.refrigerant} has {shown(thin, 0)} to {shown(dense, 0)} kg/m³ in its "
            f"table, never {shown(density, 0)}."
        )
    return _kelvin_where(table, "liquid_density", density)


def offset(table: Table, reference: str) -> tuple[float, float]:
    """What to subtract from IIR enthalpy (J/kg) and entropy (J/(kg K)) for a reference.

    IIR: saturated liquid at 0 °C has 200 kJ/kg and 1 kJ/(kg K). ASHRAE: at -40 °C it has none.

    Raises:
        Malformed: a reference that is not known here.

    """
    if reference not in REFERENCES:
        raise Malformed(f"“{reference}” is none of the references: {', '.join(REFERENCES)}.")
    return table.ashrae if reference == "ASHRAE" else (0.0, 0.0)


def above_zero(kelvin: float) -> float:
    """The temperature in kelvin, if it can be.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.

    """
    if not math.isfinite(kelvin):
        raise Malformed("That is no number.")
    if kelvin < 0:
        raise Impossible("Below absolute zero: nothing is that cold.")
    return kelvin


def inside(table: Table, kelvin: float) -> float:
    """The temperature, if the table has it.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: colder or hotter than the table.

    """
    if above_zero(kelvin) < table.lowest:
        raise OutOfRange(
            f"{_celsius(kelvin)} is colder than the table of {table.refrigerant}, which begins at "
            f"{_celsius(table.lowest)}."
        )
    if kelvin > table.highest:
        raise OutOfRange(
            f"Above {_celsius(table.critical_kelvin)} {table.refrigerant} neither boils nor "
            "condenses: its pressure is recorded, not judged."
            if kelvin > table.critical_kelvin
            else _too_near(table)
        )
    return kelvin


def _kelvin_where(table: Table, column: str, value: float) -> float:
    def difference(kelvin: float) -> float:
        return table.at(column, kelvin) - value

    return crossing(difference, table.lowest, table.highest)


def _too_near(table: Table) -> str:
    return (
        f"That is too near to the critical point of {table.refrigerant} "
        f"({_celsius(table.critical_kelvin)}): its table ends 0.1 K below."
    )


def _celsius(kelvin: float) -> str:
    return f"{shown(kelvin - ZERO_C, 1)}\u00a0°C"


def _kpa(pressure: Absolute) -> str:
    return f"{shown(pressure.pa / 1000, 0)}\u00a0kPa"
