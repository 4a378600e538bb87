"""Fill limits of a recovery cylinder, and when liquid would fill it."""

import math

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    REFRIGERANT,
    basis,
    name_of,
    number,
    plain,
    text,
    words,
)
from diagnostics.physics.cylinder import (
    AT_25,
    HOTTEST,
    FillLimits,
    fill_limits,
    liquid_full_temperature,
    most_that_fits,
    net_mass,
    specific_gravity,
)
from diagnostics.physics.errors import Impossible
from diagnostics.physics.saturation import ZERO_C
from diagnostics.physics.units import shown

RULES = ("lower", "water", "density")
WATER_CAPACITY = Input("water_capacity", "Water capacity (WC) on the cylinder", "kg", 0.1, 2_000)
RULE = Input(
    "rule",
    "lower of both, water (0.8 x WC) or density (0.8 x WC x specific gravity at 25 °C)",
    answers=RULES,
    default="lower",
)
SOURCE = "0.8 x WC x SG at 25 °C: AHRI Guideline K; 0.8 x WC: common practice, no source"
CODES = "Local codes and the marks on the cylinder come first."
NAMES = {"water": "0.8 x water capacity", "density": "0.8 x water capacity x specific gravity"}


def _limit(limits: FillLimits, rule: str) -> Result:
    used = limits.rule if rule == "lower" else rule
    value = limits.by_water if used == "water" else limits.by_density
    return Result(
        value,
        "kg",
        meaning=f"At most {words(_down(value), 'kg', 2)} net, by {NAMES[used]}. {CODES}",
        basis=SOURCE,
        more={
            "by_water": Result(limits.by_water, "kg", at_most=True),
            "by_density": Result(limits.by_density, "kg", at_most=True),
        },
        at_most=True,
    )


def _down(kilogram: float) -> float:
    """Down to 10 g: a limit is never told larger than it is."""
    return math.floor(kilogram * 100 + 1e-6) / 100


def _fill(inputs: Inputs) -> Result:
    gravity = specific_gravity(text(inputs, "refrigerant"))
    return _limit(fill_limits(number(inputs, "water_capacity"), gravity), text(inputs, "rule"))


def _fill_by_gravity(inputs: Inputs) -> Result:
    limits = fill_limits(number(inputs, "water_capacity"), number(inputs, "specific_gravity"))
    return _limit(limits, text(inputs, "rule"))


def _room(inputs: Inputs) -> Result:
    limit = _fill(inputs)
    net = net_mass(number(inputs, "scale_reading"), number(inputs, "tare"))
    most = most_that_fits(text(inputs, "refrigerant"), number(inputs, "water_capacity"))
    if net > most:
        raise Impossible(
            f"{words(net, 'kg', 1)} do not fit: full of liquid, and as cold as the table goes, it "
            f"holds {words(most, 'kg', 1)}. Scale, tare or water capacity is not what was said."
        )
    room = limit.value - net
    return Result(
        room,
        "kg",
        meaning=(
            f"{words(-room, 'kg', 2)} over the limit: take refrigerant out. {CODES}"
            if room < 0
            else f"Room for {words(_down(room), 'kg', 2)} more. {limit.meaning}"
        ),
        basis=SOURCE,
        more={"net": plain(net, "kg"), "limit": Result(limit.value, "kg", at_most=True)},
        at_most=True,
    )


def _gravity(inputs: Inputs) -> Result:
    value = specific_gravity(text(inputs, "refrigerant"), number(inputs, "temperature"))
    return Result(
        value,
        "",
        meaning=f"Liquid {name_of(inputs)} weighs {shown(value, 3)} times as much as water.",
        basis=f"water at 1000 kg/m³; {basis(inputs)}",
    )


def _liquid_full(inputs: Inputs) -> Result:
    kelvin = liquid_full_temperature(
        text(inputs, "refrigerant"), number(inputs, "mass"), number(inputs, "water_capacity")
    )
    danger = (
        f"Cylinders can become as warm as {words(HOTTEST, '°C', 0)}: take refrigerant out."
        if kelvin <= HOTTEST
        else f"Keep it below {words(HOTTEST, '°C', 0)} all the same."
    )
    return Result(
        kelvin,
        "°C",
        meaning=f"At {words(kelvin, '°C', 1)} liquid fills it to the last corner. {danger}",
        basis=f"steel taken as stiff; {basis(inputs)}",
    )


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "fill_limit",
        "Net mass to which a recovery cylinder may be filled",
        (REFRIGERANT, WATER_CAPACITY, RULE),
        "kg",
        SOURCE,
        _fill,
    ),
    Computation(
        "fill_limit_by_gravity",
        "The same for a liquid of known specific gravity",
        (WATER_CAPACITY, Input("specific_gravity", "Specific gravity at 25 °C", "", 0.3, 2), RULE),
        "kg",
        SOURCE,
        _fill_by_gravity,
    ),
    Computation(
        "cylinder_room",
        "How much more a recovery cylinder may take",
        (
            REFRIGERANT,
            WATER_CAPACITY,
            Input("scale_reading", "Scale reading with the cylinder on it", "kg", 0, 4_000),
            Input("tare", "Tare (TW) on the cylinder", "kg", 0.05, 2_000),
            RULE,
        ),
        "kg",
        SOURCE,
        _room,
    ),
    Computation(
        "specific_gravity",
        "Density of the liquid over that of water",
        (
            REFRIGERANT,
            Input(
                "temperature", "Temperature of the liquid", "°C", -60, 113, default=AT_25 - ZERO_C
            ),
        ),
        "",
        "saturation table of the refrigerant",
        _gravity,
    ),
    Computation(
        "liquid_full_temperature",
        "Temperature at which liquid fills a cylinder to the last corner",
        (REFRIGERANT, Input("mass", "Refrigerant in it", "kg", 0.001, 4_000), WATER_CAPACITY),
        "°C",
        "saturation table of the refrigerant; water capacity at 1000 kg/m³",
        _liquid_full,
    ),
)
