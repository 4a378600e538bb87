"""The running loop: superheat, subcooling, ratio of pressures, and an estimate of the cycle."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    REFERENCE,
    REFRIGERANT,
    absolute,
    absolute_pressure,
    basis,
    basis_in_air,
    gauge,
    gauge_pressure,
    gauge_u,
    in_figures,
    name_of,
    number,
    plain,
    read_gauge,
    reference,
    standard,
    temperature,
    text,
    thermometer,
    words,
)
from diagnostics.physics.computations.units import air_of
from diagnostics.physics.cycle import (
    NOT_PUMPING,
    Cycle,
    Ratio,
    difference_u,
    estimate,
    exchanged,
    isentropic_efficiency,
    judge_ratio,
    pressure_ratio,
    ratio_band,
    ratio_u,
    subcooling,
    superheat,
)
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.saturation import saturation_pressure, saturation_temperature
from diagnostics.physics.uncertainty import COVERAGE, Measured
from diagnostics.physics.units import shown

SOURCE = "saturation table of the refrigerant; uncertainty by JCGM 100:2008, 5.1.2"
NO_NORM = "No normal range has a source: judge it by the vehicle's specification only."
FAR = 60.0  # K from saturation: farther off is no suction and no liquid line; our judgement
WRONG = "Gauge, thermometer, line or gas is not what was said."
ASSUMED = "no pressure drop in pipes, no heat through the compressor's wall"
SPAN = "evaporator at 2 °C, condenser 15 to 25 K over ambient, from memory"
RATIOS: dict[Ratio, str] = {
    "not_pumping": "Near 1 to 2 with the shaft turning: not pumping.",
    "below": "Below the band of a loop under load on such a day.",
    "inside": "Inside the band of a loop under load on such a day.",
    "above": "Above the band of a loop under load on such a day.",
    "cannot_tell": "Cannot tell with these instruments.",
}
EXCHANGED = (
    "The high side reads below the low side by more than the gauges are off: no compressor does "
    "that. The two readings are exchanged, or one of them is wrong."
)
IN_VACUUM = (
    "The high side reads below the air's pressure: no running loop does. It is empty, or the gauge "
    "is not at zero."
)
NEAR_NOTHING = (
    "Cannot tell: the low side stands no farther from perfect vacuum than its gauge may be off."
)
ALIKE = (
    "Both sides read the same, as far as these gauges can tell: at rest, or not pumping with the "
    "shaft turning."
)
LINE = temperature("temperature", "Temperature of the line")
LOW = gauge_pressure("low", "Low-side gauge reading")
HIGH = gauge_pressure("high", "High-side gauge reading")
AMBIENT = Input("ambient", "Temperature of the air at the condenser", "°C", 20, 40)
LOW_GAUGE, HIGH_GAUGE = (
    gauge("low_gauge", "low_side_gauge"),
    gauge("high_gauge", "high_side_gauge"),
)


def _superheat(inputs: Inputs) -> Result:
    name, pressure = text(inputs, "refrigerant"), read_gauge(inputs, "pressure")
    value = superheat(name, number(inputs, "temperature"), pressure)
    u = difference_u(name, pressure, standard(inputs, "thermometer"), gauge_u(inputs, "gauge"))
    if value + 2 * u < 0:
        meaning = (
            "Below zero by more than the instruments are off: the line cannot be colder than the "
            "refrigerant boils. Gauge, thermometer or gas is not what was said."
        )
    elif value - 2 * u <= 0:
        meaning = f"Cannot tell with these instruments whether liquid comes back. {NO_NORM}"
    elif value - 2 * u > FAR:
        meaning = f"No suction line is so far above where the refrigerant boils. {WRONG}"
    else:
        meaning = f"The gas is dry there. {NO_NORM}"
    return _difference(inputs, value, u, meaning, pressure)


def _subcooling(inputs: Inputs) -> Result:
    name, pressure = text(inputs, "refrigerant"), read_gauge(inputs, "pressure")
    value = subcooling(name, number(inputs, "temperature"), pressure)
    u = difference_u(name, pressure, standard(inputs, "thermometer"), gauge_u(inputs, "gauge"))
    if value + 2 * u < 0:
        meaning = "Warmer than it condenses: at that place there is gas, no liquid."
    elif value - 2 * u <= 0:
        meaning = f"Cannot tell with these instruments whether it is all liquid. {NO_NORM}"
    elif value - 2 * u > FAR:
        meaning = f"No liquid line is so far below where the refrigerant condenses. {WRONG}"
    else:
        meaning = f"All liquid there. {NO_NORM}"
    return _difference(inputs, value, u, meaning, pressure)


def _difference(inputs: Inputs, value: float, u: float, meaning: str, pressure: Absolute) -> Result:
    boiling = saturation_temperature(text(inputs, "refrigerant"), pressure)
    return Result(
        value,
        "ΔK",
        u,
        meaning=meaning,
        basis=basis_in_air(inputs),
        more={
            "saturation_temperature": plain(boiling, "°C"),
            "absolute_pressure": plain(pressure.pa, "kPa"),
        },
    )


def _ratio(inputs: Inputs) -> Measured:
    high, low = read_gauge(inputs, "high"), read_gauge(inputs, "low")
    u = ratio_u(high, low, gauge_u(inputs, "high_gauge"), gauge_u(inputs, "low_gauge"))
    return Measured(pressure_ratio(high, low), u)


def _close(inputs: Inputs, ratio: Measured) -> str:
    """What no running loop has, or only one that does not pump, whatever the day; else empty."""
    if number(inputs, "high") + COVERAGE * standard(inputs, "high_gauge") < 0:
        return IN_VACUUM
    if exchanged(ratio):
        return EXCHANGED
    if ratio.expanded >= ratio.value:
        return NEAR_NOTHING
    if ratio.value - ratio.expanded <= 1 and ratio.value + ratio.expanded < NOT_PUMPING:
        return ALIKE
    return RATIOS["not_pumping"] if ratio.value + ratio.expanded < NOT_PUMPING else ""


def _air(inputs: Inputs) -> str:
    return f"air: {air_of(inputs).basis}"


def _pressure_ratio(inputs: Inputs) -> Result:
    ratio = _ratio(inputs)
    meaning = (
        _close(inputs, ratio)
        or "High over low side, both absolute. What it should be depends on the day's heat."
    )
    return Result(
        ratio.value, "", ratio.u, meaning=meaning, basis=f"trade articles; {_air(inputs)}"
    )


def _ratio_band(inputs: Inputs) -> Result:
    low, high = ratio_band(text(inputs, "refrigerant"), number(inputs, "ambient"))
    return Result(
        (low + high) / 2,
        "",
        meaning=f"{shown(low, 1)} to {shown(high, 1)} under load: no pass or fail by itself.",
        basis=f"{SPAN}; {basis(inputs)}",
        more={"low": plain(low, ""), "high": plain(high, "")},
    )


def _ratio_reading(inputs: Inputs) -> Result:
    ratio = _ratio(inputs)
    low, high = ratio_band(text(inputs, "refrigerant"), number(inputs, "ambient"))
    return Result(
        ratio.value,
        "",
        ratio.u,
        meaning=_close(inputs, ratio) or RATIOS[judge_ratio(ratio, (low, high))],
        basis=f"{SPAN}; {basis_in_air(inputs)}",
        more={"low": plain(low, ""), "high": plain(high, "")},
    )


def _elsewhere(found: Cycle) -> str:
    if found.suction.kelvin <= found.condensing_kelvin:
        return ""
    return (
        " The suction gas is warmer than the refrigerant condenses: so much of that heat is not "
        "from the cabin, and the estimate is too good."
    )


def _shown_cycle(inputs: Inputs, found: Cycle) -> Result:
    flow = number(inputs, "mass_flow")
    return Result(
        found.cop,
        "",
        meaning=(
            f"{shown(found.cop, 2)} times the compressor's work is taken from the cabin: "
            f"{in_figures(found.cooling * flow, 'kW')} with "
            f"{in_figures(found.work * flow, 'kW')}. An estimate for the desk.{_elsewhere(found)}"
        ),
        basis=f"{ASSUMED}; {basis(inputs)}",
        more={
            "suction_enthalpy": plain(found.suction.enthalpy, "kJ/kg"),
            "suction_entropy": plain(found.suction.entropy, "kJ/(kg·K)"),
            "suction_temperature": plain(found.suction.kelvin, "°C"),
            "suction_density": plain(found.suction.density, "kg/m³"),
            "ideal_discharge_enthalpy": plain(found.ideal_enthalpy, "kJ/kg"),
            "discharge_enthalpy": plain(found.discharge.enthalpy, "kJ/kg"),
            "discharge_temperature": plain(found.discharge.kelvin, "°C"),
            "liquid_enthalpy": plain(found.liquid.enthalpy, "kJ/kg"),
            "evaporator_inlet_enthalpy": plain(found.liquid.enthalpy, "kJ/kg"),
            "evaporator_inlet_quality": plain(found.quality, ""),
            "evaporating_pressure": plain(found.suction.pressure.pa, "kPa"),
            "condensing_pressure": plain(found.discharge.pressure.pa, "kPa"),
            "evaporating_temperature": plain(found.evaporating_kelvin, "°C"),
            "condensing_temperature": plain(found.condensing_kelvin, "°C"),
            "cooling_per_kg": plain(found.cooling, "kJ/kg"),
            "work_per_kg": plain(found.work, "kJ/kg"),
            "cooling": plain(found.cooling * flow, "kW"),
            "work": plain(found.work * flow, "kW"),
            "rejected": plain(found.rejected * flow, "kW"),
        },
    )


def _estimated(inputs: Inputs, evaporating: Absolute, condensing: Absolute) -> Result:
    found = estimate(
        text(inputs, "refrigerant"),
        evaporating,
        condensing,
        superheated=number(inputs, "superheat"),
        subcooled=number(inputs, "subcooling"),
        efficiency=number(inputs, "efficiency"),
        reference=reference(inputs),
    )
    return _shown_cycle(inputs, found)


def _cycle(inputs: Inputs) -> Result:
    return _estimated(
        inputs, absolute(inputs, "evaporating_pressure"), absolute(inputs, "condensing_pressure")
    )


def _cycle_by_temperature(inputs: Inputs) -> Result:
    name = text(inputs, "refrigerant")
    evaporating, condensing = (
        saturation_pressure(name, number(inputs, f"{side}_temperature"))
        for side in ("evaporating", "condensing")
    )
    return _estimated(inputs, evaporating, condensing)


def _efficiency(inputs: Inputs) -> Result:
    suction, discharge = (
        (number(inputs, f"{line}_temperature"), absolute(inputs, f"{line}_pressure"))
        for line in ("suction", "discharge")
    )
    value = isentropic_efficiency(text(inputs, "refrigerant"), suction, discharge)
    percent = words(value, "%", 0)
    meaning = (
        f"{percent}: more than any compressor that loses no heat. A line was read far from it, or "
        "it is cooled."
        if value > 1
        else f"The compressor's work is {percent} of what went into the gas."
    )
    return Result(
        value,
        "%",
        meaning=meaning,
        basis=f"{ASSUMED}; {name_of(inputs)}: {basis(inputs)}",
    )


GIVEN = (
    Input("superheat", "Superheat of the suction gas", "ΔK", 0, 100, default=0.0),
    Input("subcooling", "Subcooling of the liquid", "ΔK", 0, 100, default=0.0),
    Input("efficiency", "Isentropic efficiency of the compressor", "%", 1, 100, default=100.0),
    Input("mass_flow", "Refrigerant that circulates", "kg/s", 1e-4, 10, default=1.0),
    REFERENCE,
)
BOTH_GAUGES = (HIGH, LOW, *AIR, HIGH_GAUGE, LOW_GAUGE)
ESTIMATE = "thermodynamics of the vapor compression cycle; states by the equation of state"
COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "superheat",
        "How much warmer the suction line is than the refrigerant boils",
        (
            REFRIGERANT,
            LINE,
            gauge_pressure("pressure", "Low-side gauge reading"),
            *AIR,
            thermometer(),
            gauge("gauge", "low_side_gauge"),
        ),
        "ΔK",
        SOURCE,
        _superheat,
    ),
    Computation(
        "subcooling",
        "How much colder the liquid line is than the refrigerant condenses",
        (
            REFRIGERANT,
            LINE,
            gauge_pressure("pressure", "High-side gauge reading"),
            *AIR,
            thermometer(),
            gauge("gauge", "high_side_gauge"),
        ),
        "ΔK",
        SOURCE,
        _subcooling,
    ),
    Computation(
        "pressure_ratio",
        "High over low side as absolute pressures",
        BOTH_GAUGES,
        "",
        "uncertainty by JCGM 100:2008, 5.1.6",
        _pressure_ratio,
    ),
    Computation(
        "pressure_ratio_expected",
        "Absolute pressure ratio of a loop under load on such a day: middle of its band",
        (REFRIGERANT, AMBIENT),
        "",
        "trade facts, computed; the span over ambient is from memory",
        _ratio_band,
    ),
    Computation(
        "pressure_ratio_reading",
        "Absolute pressure ratio, held to the band of such a day",
        (REFRIGERANT, AMBIENT, *BOTH_GAUGES),
        "",
        "trade facts, computed; the span over ambient is from memory",
        _ratio_reading,
    ),
    Computation(
        "cycle",
        "Estimate of the cycle between two absolute pressures: cooling over work",
        (
            REFRIGERANT,
            absolute_pressure("evaporating_pressure", "Absolute pressure in the evaporator"),
            absolute_pressure("condensing_pressure", "Absolute pressure in the condenser"),
            *GIVEN,
        ),
        "",
        ESTIMATE,
        _cycle,
    ),
    Computation(
        "cycle_by_temperature",
        "Estimate of the cycle between two saturation temperatures: cooling over work",
        (
            REFRIGERANT,
            temperature("evaporating_temperature", "Saturation temperature in the evaporator"),
            temperature("condensing_temperature", "Saturation temperature in the condenser"),
            *GIVEN,
        ),
        "",
        ESTIMATE,
        _cycle_by_temperature,
    ),
    Computation(
        "isentropic_efficiency",
        "Ideal over real work of the compressor, from both its lines",
        (
            REFRIGERANT,
            temperature("suction_temperature", "Temperature of the suction line"),
            absolute_pressure("suction_pressure", "Absolute pressure of the suction line"),
            temperature("discharge_temperature", "Temperature of the discharge line"),
            absolute_pressure("discharge_pressure", "Absolute pressure of the discharge line"),
        ),
        "%",
        ESTIMATE,
        _efficiency,
    ),
)
