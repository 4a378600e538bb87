"""A loop at rest: expected pressure, a reading, what could be gone unseen, cold-day lockout."""

from diagnostics.physics.charge import (
    FOREIGN_GAS,
    Static,
    StaticBand,
    last_liquid,
    lockout_temperature,
    read_static,
    static_band,
    unseen_loss,
)
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    REFRIGERANT,
    VOLUME,
    basis,
    basis_in_air,
    gauge,
    gauge_pressure,
    gauge_u,
    name_of,
    number,
    plain,
    standard,
    temperature,
    text,
    thermometer,
    words,
)
from diagnostics.physics.computations.units import air_of
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.saturation import table_of
from diagnostics.physics.uncertainty import COVERAGE, Measured

SOAK = temperature("temperature", "Temperature of the whole loop after a full soak")
SOURCE = "saturation table of the refrigerant; uncertainty by JCGM 100:2008, 5.1.2"
WARMEST_BAY = 313.15  # K: a low-pressure switch lets a loop start on any warm day; our judgement
LIQUID_THERE = "It tells that liquid is there, not how much."
MEANINGS: dict[Static, str] = {
    "none": "The gauge cannot tell this from an empty loop.",
    "some": "Some gas is there. Without a full soak a reading tells no more than some or none.",
    "below": (
        "Below the band: no liquid is left, so the loop is nearly empty, or it is not at one "
        "temperature yet."
    ),
    "expected": f"Inside the band. {LIQUID_THERE}",
    "a_little_above": (
        "A little above the band: cannot tell with these instruments whether air or another gas "
        "is in it."
    ),
    "above": (
        f"Above the band by more than {words(FOREIGN_GAS, 'kPa', 0)}: air or another gas is in "
        "it, or the loop is warmer somewhere than was read."
    ),
}


def _band(inputs: Inputs) -> StaticBand:
    soak = Measured(number(inputs, "temperature"), standard(inputs, "thermometer"))
    return static_band(
        text(inputs, "refrigerant"),
        soak,
        gauge_u(inputs, "gauge"),
        air_of(inputs).pressure,
    )


def _low(inputs: Inputs, band: StaticBand) -> float:
    """Lower end of the band in Pa; no gauge shows less than perfect vacuum."""
    return max(band.low.pa, -air_of(inputs).pressure.pa)


def _ends(inputs: Inputs, band: StaticBand) -> dict[str, Result]:
    return {"low": plain(_low(inputs, band), "kPa"), "high": plain(band.high.pa, "kPa")}


def _static(inputs: Inputs) -> Result:
    band = _band(inputs)
    return Result(
        band.expected.pa,
        "kPa",
        band.u,
        meaning=(
            f"If liquid is there, a gauge shows {words(_low(inputs, band), 'kPa', 0)} to "
            f"{words(band.high.pa, 'kPa', 0)}. {LIQUID_THERE}"
        ),
        basis=basis_in_air(inputs),
        more=_ends(inputs, band),
    )


def _reading(inputs: Inputs) -> Result:
    band, reading = _band(inputs), Gauge(number(inputs, "pressure"))
    soaked = text(inputs, "soaked") == "yes"
    found = read_static(band, reading, standard(inputs, "gauge"), soaked=soaked)
    meaning = _no_loop_at_rest(inputs, reading) or MEANINGS[found]
    return Result(
        reading.pa - band.expected.pa,
        "kPa",
        band.u,
        meaning=meaning,
        basis=basis_in_air(inputs),
        more={"expected": plain(band.expected.pa, "kPa"), **_ends(inputs, band)},
    )


def _no_loop_at_rest(inputs: Inputs, reading: Gauge) -> str:
    """What is told of a reading that no loop with this gas in it has; empty for all others."""
    absolute = reading.absolute(air_of(inputs).pressure)
    if reading.pa + COVERAGE * gauge_u(inputs, "gauge") < 0:
        return (
            "Below the air's pressure by more than the gauge is off: the loop is in a vacuum, with "
            "next to nothing in it, or the gauge is not at zero."
        )
    critical = table_of(text(inputs, "refrigerant")).critical_pressure
    if absolute > critical:
        return (
            f"Above the critical pressure of {name_of(inputs)}, {words(critical.pa, 'kPa', 0)} "
            "absolute: no loop at rest has that. Unit, gauge or gas is not what was said."
        )
    return ""


def _last_liquid(inputs: Inputs) -> Result:
    kilogram = last_liquid(
        text(inputs, "refrigerant"), number(inputs, "temperature"), number(inputs, "volume")
    )
    return Result(
        kilogram,
        "g",
        meaning=(
            f"The pressure at rest stays full until {words(kilogram, 'g', 0)} {name_of(inputs)} "
            f"are left in {words(number(inputs, 'volume'), 'L', 1)}."
        ),
        basis=f"volume x density of the saturated vapor; {basis(inputs)}",
    )


def _unseen(inputs: Inputs) -> Result:
    label = number(inputs, "label_charge")
    loop = (text(inputs, "refrigerant"), number(inputs, "temperature"), number(inputs, "volume"))
    gone = unseen_loss(loop[0], label, *loop[1:])
    last = last_liquid(*loop)
    return Result(
        gone,
        "g",
        meaning=(
            f"Up to {words(gone, 'g', 0)} of {words(label, 'g', 0)} can be gone while the "
            "pressure at rest still shows full."
            if gone > 0
            else f"{words(label, 'g', 0)} leave no liquid in {words(loop[2], 'L', 1)} at this "
            "temperature: the pressure at rest falls with the first gram. If that is not so, the "
            "volume or the charge is not what was said."
        ),
        basis=f"volume x density of the saturated vapor; {basis(inputs)}",
        more={"last_liquid": plain(last, "g")},
    )


def _lockout(inputs: Inputs) -> Result:
    switch = Gauge(number(inputs, "pressure"))
    kelvin = lockout_temperature(text(inputs, "refrigerant"), switch, air_of(inputs).pressure)
    return Result(
        kelvin,
        "°C",
        meaning=(
            f"A loop of {name_of(inputs)} rests at {words(switch.pa, 'kPa', 0)} only at "
            f"{words(kelvin, '°C', 1)}, warmer than any bay: no low-pressure switch closes so "
            "high. Unit or switch is not what was said."
            if kelvin > WARMEST_BAY
            else f"Colder than {words(kelvin, '°C', 1)} even a full loop of {name_of(inputs)} "
            f"rests under {words(switch.pa, 'kPa', 0)}: no click in a cold bay is normal."
        ),
        basis=basis_in_air(inputs),
    )


BAND = (SOAK, *AIR, thermometer(), gauge("gauge", "low_side_gauge"))
COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "static_pressure",
        "Gauge pressure expected of a loop at rest, with its band",
        (REFRIGERANT, *BAND),
        "kPa",
        SOURCE,
        _static,
    ),
    Computation(
        "static_reading",
        "What a gauge reading at rest shows: its distance to the expected pressure",
        (
            REFRIGERANT,
            gauge_pressure("pressure", "Gauge reading at rest"),
            Input("soaked", "All at one temperature?", answers=("yes", "no")),
            *BAND,
        ),
        "kPa",
        SOURCE,
        _reading,
    ),
    Computation(
        "last_liquid",
        "Grams in the loop when the last liquid is gone",
        (REFRIGERANT, SOAK, VOLUME),
        "g",
        SOURCE,
        _last_liquid,
    ),
    Computation(
        "unseen_loss",
        "Grams that can be gone while the pressure at rest still shows full",
        (REFRIGERANT, Input("label_charge", "Charge on the label", "g", 1, 20_000), SOAK, VOLUME),
        "g",
        SOURCE,
        _unseen,
    ),
    Computation(
        "cold_day_lockout",
        "Temperature below which even a full loop rests under a switch's pressure",
        (REFRIGERANT, gauge_pressure("pressure", "Pressure at which the switch closes"), *AIR),
        "°C",
        SOURCE,
        _lockout,
    ),
)
