"""Refrigerants at rest and in one phase: what each table and equation gives."""

from collections.abc import Callable
from dataclasses import replace

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    REFERENCE,
    REFRIGERANT,
    absolute,
    absolute_pressure,
    basis,
    name_of,
    number,
    plain,
    reference,
    temperature,
    text,
    words,
)
from diagnostics.physics.computations.units import LEFT_OUT, air_of, optional
from diagnostics.physics.errors import Malformed
from diagnostics.physics.helmholtz import State, equation_of
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.saturation import (
    Saturated,
    saturated,
    saturation_temperature,
    table_of,
)
from diagnostics.physics.single_phase import liquid, phase_at, vapor

SOURCE = "table of the refrigerant's published equation of state; basis names it"
EQUATION = "the refrigerant's published equation of state; basis names it"
DIGITS = {"kg/m³": 2, "m³/kg": 6, "kJ/kg": 2, "kJ/(kg·K)": 4}  # as printed tables have
AT = temperature("temperature", "Temperature of liquid and vapor")
UNDER = absolute_pressure("pressure", "Absolute pressure of liquid and vapor")
EITHER = (
    replace(AT, words=f"{AT.words}; or give the pressure", default=LEFT_OUT),
    replace(UNDER, words=f"{UNDER.words}; or give the temperature", default=LEFT_OUT),
)


def _all(rest: Saturated) -> dict[str, Result]:
    return {
        "pressure": plain(rest.pressure.pa, "kPa"),
        "temperature": plain(rest.kelvin, "°C"),
        "liquid_density": plain(rest.liquid_density, "kg/m³"),
        "vapor_density": plain(rest.vapor_density, "kg/m³"),
        "liquid_enthalpy": plain(rest.liquid_enthalpy, "kJ/kg"),
        "vapor_enthalpy": plain(rest.vapor_enthalpy, "kJ/kg"),
        "liquid_entropy": plain(rest.liquid_entropy, "kJ/(kg·K)"),
        "vapor_entropy": plain(rest.vapor_entropy, "kJ/(kg·K)"),
        "latent_heat": plain(rest.latent_heat, "kJ/kg"),
        "pressure_slope": plain(rest.pressure_slope, "kPa/K"),
    }


def _pressure(inputs: Inputs) -> Result:
    rest = saturated(text(inputs, "refrigerant"), number(inputs, "temperature"), reference(inputs))
    gauge = rest.pressure.gauge(air_of(inputs).pressure)
    return Result(
        rest.pressure.pa,
        "kPa",
        meaning=(
            f"At {words(rest.kelvin, '°C', 1)} {name_of(inputs)} boils and condenses under "
            f"{words(rest.pressure.pa, 'kPa', 1)} absolute; a gauge shows "
            f"{words(gauge.pa, 'kPa', 1)}."
        ),
        basis=basis(inputs),
        more={**_all(rest), "gauge_pressure": plain(gauge.pa, "kPa")},
    )


def _temperature(inputs: Inputs) -> Result:
    name, pressure = text(inputs, "refrigerant"), absolute(inputs, "pressure")
    rest = saturated(name, saturation_temperature(name, pressure), reference(inputs))
    return Result(
        rest.kelvin,
        "°C",
        meaning=(
            f"Under {words(pressure.pa, 'kPa', 1)} absolute {name_of(inputs)} boils and condenses "
            f"at {words(rest.kelvin, '°C', 2)}."
        ),
        basis=basis(inputs),
        more=_all(rest),
    )


def _boiling(inputs: Inputs) -> float:
    """The temperature given, or that of the pressure given."""
    kelvin, pascal = optional(inputs, "temperature"), optional(inputs, "pressure")
    if pascal is None and kelvin is not None:
        return kelvin
    if kelvin is None and pascal is not None:
        return saturation_temperature(text(inputs, "refrigerant"), Absolute(pascal))
    raise Malformed("Give either the temperature or the pressure: one follows from the other.")


def _at_rest(
    name: str,
    said: str,
    unit: str,
    value: Callable[[Saturated], float],
    *inputs: Input,
) -> Computation:
    """One property of liquid and vapor together at a temperature."""

    def run(given: Inputs) -> Result:
        counted = reference(given) if REFERENCE in inputs else "IIR"
        kelvin = _boiling(given)
        found = value(saturated(text(given, "refrigerant"), kelvin, counted))
        about = f", counted by {counted}" if REFERENCE in inputs else ""
        at = words(kelvin, "°C", 1)
        return Result(
            found,
            unit,
            meaning=f"{name_of(given)} at {at}. {said}{about}: {words(found, unit, DIGITS[unit])}.",
            basis=basis(given),
        )

    return Computation(name, said, (REFRIGERANT, *EITHER, *inputs), unit, SOURCE, run)


def _alone(name: str, said: str, unit: str, value: Callable[[State], float]) -> Computation:
    """One property of vapor or liquid alone, by temperature and absolute pressure."""

    def run(given: Inputs) -> Result:
        refrigerant, kelvin = text(given, "refrigerant"), number(given, "temperature")
        pressure, counted = absolute(given, "pressure"), reference(given)
        phase = phase_at(refrigerant, kelvin, pressure)
        state = (liquid if phase == "liquid" else vapor)(refrigerant, kelvin, pressure, counted)
        rest = _rest(refrigerant, kelvin)
        meaning = f"{name_of(given)} is {phase} there{rest}."
        return Result(
            value(state),
            unit,
            meaning=meaning,
            basis=f"{equation_of(refrigerant).formulation}; counted by {counted}",
            more={
                "density": plain(state.density, "kg/m³"),
                "enthalpy": plain(state.enthalpy, "kJ/kg"),
                "entropy": plain(state.entropy, "kJ/(kg·K)"),
            },
        )

    inputs = (
        REFRIGERANT,
        temperature("temperature", "Temperature of the vapor or liquid"),
        absolute_pressure("pressure", "Absolute pressure of the vapor or liquid"),
        REFERENCE,
    )
    return Computation(name, said, inputs, unit, EQUATION, run)


def _rest(refrigerant: str, kelvin: float) -> str:
    if kelvin > table_of(refrigerant).highest:
        return ", above the temperature at which it could condense"
    rest = saturated(refrigerant, kelvin).pressure
    return f"; at this temperature it condenses above {words(rest.pa, 'kPa', 1)} absolute"


def _critical(inputs: Inputs) -> Result:
    table = table_of(text(inputs, "refrigerant"))
    at = words(table.critical_kelvin, "°C", 1)
    return Result(
        table.critical_kelvin,
        "°C",
        meaning=f"Above {at} {table.refrigerant} neither boils nor condenses.",
        basis=table.source,
        more={"pressure": plain(table.critical_pressure.pa, "kPa")},
    )


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "saturation_pressure",
        "Pressure at which a refrigerant boils and condenses",
        (REFRIGERANT, AT, REFERENCE, *AIR),
        "kPa",
        SOURCE,
        _pressure,
    ),
    Computation(
        "saturation_temperature",
        "Temperature at which a refrigerant boils and condenses",
        (REFRIGERANT, UNDER, REFERENCE),
        "°C",
        SOURCE,
        _temperature,
    ),
    _at_rest(
        "saturated_liquid_density", "Density of the liquid", "kg/m³", lambda s: s.liquid_density
    ),
    _at_rest("saturated_vapor_density", "Density of the vapor", "kg/m³", lambda s: s.vapor_density),
    _at_rest(
        "saturated_liquid_volume",
        "Volume of one kilogram of the liquid",
        "m³/kg",
        lambda s: 1 / s.liquid_density,
    ),
    _at_rest(
        "saturated_vapor_volume",
        "Volume of one kilogram of the vapor",
        "m³/kg",
        lambda s: 1 / s.vapor_density,
    ),
    _at_rest(
        "saturated_liquid_enthalpy",
        "Enthalpy of the liquid",
        "kJ/kg",
        lambda s: s.liquid_enthalpy,
        REFERENCE,
    ),
    _at_rest(
        "saturated_vapor_enthalpy",
        "Enthalpy of the vapor",
        "kJ/kg",
        lambda s: s.vapor_enthalpy,
        REFERENCE,
    ),
    _at_rest(
        "saturated_liquid_entropy",
        "Entropy of the liquid",
        "kJ/(kg·K)",
        lambda s: s.liquid_entropy,
        REFERENCE,
    ),
    _at_rest(
        "saturated_vapor_entropy",
        "Entropy of the vapor",
        "kJ/(kg·K)",
        lambda s: s.vapor_entropy,
        REFERENCE,
    ),
    _at_rest(
        "latent_heat", "Heat that turns the liquid into vapor", "kJ/kg", lambda s: s.latent_heat
    ),
    _alone("refrigerant_density", "Density of vapor or liquid alone", "kg/m³", lambda s: s.density),
    _alone(
        "refrigerant_volume",
        "Volume of one kilogram of vapor or liquid alone",
        "m³/kg",
        lambda s: 1 / s.density,
    ),
    _alone(
        "refrigerant_enthalpy", "Enthalpy of vapor or liquid alone", "kJ/kg", lambda s: s.enthalpy
    ),
    _alone(
        "refrigerant_entropy", "Entropy of vapor or liquid alone", "kJ/(kg·K)", lambda s: s.entropy
    ),
    Computation(
        "critical_temperature",
        "Temperature above which a refrigerant neither boils nor condenses",
        (REFRIGERANT,),
        "°C",
        SOURCE,
        _critical,
    ),
)
