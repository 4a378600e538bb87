"""Published values for refrigerants (refrigerants.json), and what the program computes for them."""

import json
from pathlib import Path
from typing import Any

from diagnostics.physics.cycle import Cycle, estimate
from diagnostics.physics.helmholtz import State
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.saturation import (
    Saturated,
    saturated,
    saturation_pressure,
    saturation_temperature,
    table_of,
)
from diagnostics.physics.single_phase import liquid, phase_at, vapor

Row = dict[str, Any]

ROWS: list[Row] = json.loads((Path(__file__).parent / "refrigerants.json").read_text("utf-8"))
NAMES = {
    "r134a": "R-134a", "r1234yf": "R-1234yf", "r12": "R-12", "r152a": "R-152a", "r744": "R-744",
    "cycle": "R-134a",
}  # fmt: skip
CYCLES = ("cycle-A", "cycle-B", "cycle-D-R134a", "cycle-D-R1234yf")
MINUTE, TON = 60, 211 / 60  # kW: the page with cycle B counts a ton as 211 kJ/min


def rows(*roles: str, group: str = "") -> list[Row]:
    return [row for row in ROWS if row["role"] in roles and row["group"].startswith(group)]


def refrigerant(row: Row) -> str:
    return "R-1234yf" if row["group"] == "cycle-D-R1234yf" else NAMES[row["group"].split("-")[0]]


def kelvin(row: Row) -> float:
    if "p_kPa" in row["input"] and "T_K" not in row["input"] and "t_C" not in row["input"]:
        return saturation_temperature(refrigerant(row), absolute(row))
    return row["input"].get("T_K") or row["input"]["t_C"] + 273.15


def absolute(row: Row) -> Absolute:
    return Absolute(row["input"]["p_kPa"] * 1000)


def reference(row: Row) -> Any:
    return row["input"].get("ref", "IIR").split()[0]


def at_rest(row: Row) -> Saturated:
    return saturated(refrigerant(row), kelvin(row), reference(row))


def alone(row: Row) -> State:
    """One phase, by temperature and pressure."""
    phase = phase_at(refrigerant(row), kelvin(row), absolute(row))
    state = liquid if phase == "liquid" else vapor
    return state(refrigerant(row), kelvin(row), absolute(row), reference(row))


PROPERTIES = {
    "saturation pressure": lambda row: saturation_pressure(refrigerant(row), kelvin(row)).pa,
    "vapour pressure": lambda row: saturation_pressure(refrigerant(row), kelvin(row)).pa,
    "saturation temperature": kelvin,
    "normal boiling point": lambda row: kelvin(row) - 273.15,
    "critical temperature": lambda row: table_of(refrigerant(row)).critical_kelvin - 273.15,
    "critical pressure": lambda row: table_of(refrigerant(row)).critical_pressure.pa,
    "saturated liquid density": lambda row: at_rest(row).liquid_density,
    "liquid density": lambda row: at_rest(row).liquid_density,
    "saturated liquid specific volume": lambda row: 1 / at_rest(row).liquid_density,
    "saturated vapor density": lambda row: at_rest(row).vapor_density,
    "latent heat": lambda row: at_rest(row).latent_heat,
    "sat. liquid enthalpy": lambda row: at_rest(row).liquid_enthalpy,
    "sat. vapour enthalpy": lambda row: at_rest(row).vapor_enthalpy,
    "sat. liquid entropy": lambda row: at_rest(row).liquid_entropy,
    "sat. vapor entropy": lambda row: at_rest(row).vapor_entropy,
    "gain of entropy": lambda row: at_rest(row).vapor_entropy - at_rest(row).liquid_entropy,
    "hf at": lambda row: at_rest(row).liquid_enthalpy,
    "hg at": lambda row: at_rest(row).vapor_enthalpy,
    "superheated enthalpy": lambda row: alone(row).enthalpy,
    "enthalpy": lambda row: alone(row).enthalpy,
    "entropy": lambda row: alone(row).entropy,
    "superheated volume": lambda row: 1 / alone(row).density,
    "density": lambda row: alone(row).density,
}
SCALES = {"kPa abs": 1e3, "kPa": 1e3, "MPa": 1e6, "kJ/kg": 1e3, "kJ/kgK": 1e3, "kW": 1e3}


def cycle(row: Row) -> Cycle:
    given, name = row["input"], refrigerant(row)
    sides = [
        Absolute(given[f"p_{side}_kPa"] * 1000)
        if f"p_{side}_kPa" in given
        else saturation_pressure(name, given[f"t_{side}_C"] + 273.15)
        for side in ("evap", "cond")
    ]
    return estimate(
        name,
        *sides,
        superheated=given.get("superheat_K", 0),
        subcooled=given.get("subcooling_K", 0),
        efficiency=given.get("eta_is", 1),
        reference=reference(row),
    )


def of_cycle(row: Row) -> float:
    found, given = cycle(row), row["input"]
    flow = given.get("m_kg_s") or given["m_kg_min"] / MINUTE
    last = row["quantity"].split("cycle ")[1]
    return {
        "h1": found.suction.enthalpy,
        "s1": found.suction.entropy,
        "h2 (isentropic)": found.ideal_enthalpy,
        "h2": found.discharge.enthalpy,
        "h3": found.liquid.enthalpy,
        "h4": found.liquid.enthalpy,
        "t2 discharge": found.discharge.kelvin - 273.15,
        "p_evap": found.suction.pressure.pa,
        "p_cond": found.discharge.pressure.pa,
        "W_in": found.work * flow,
        "W": found.work * flow,
        "Q_cond": found.rejected * flow,
        "Q_evap": found.cooling * flow,
        "refrigerating capacity": found.cooling * flow / 1000 / TON,
        "COP": found.cop,
        "mean quality at evaporator inlet": found.quality,
    }[last]


def computed(row: Row) -> float:
    """In the row's own unit."""
    if row["group"] in CYCLES:
        value = of_cycle(row)
    else:
        name = max((one for one in PROPERTIES if row["quantity"].startswith(one)), key=len)
        value = PROPERTIES[name](row)
    return value / SCALES.get(row["units"], 1)


def deviation(row: Row, value: float) -> float:
    """Distance to the published value as a share of the tolerance."""
    distance = abs(value - row["expected"])
    if row["tolerance_kind"] == "rel":
        distance /= abs(row["expected"])
    return distance / row["tolerance"] if row["tolerance"] else distance
