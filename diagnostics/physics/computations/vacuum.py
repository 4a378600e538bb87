"""Depth of a vacuum, the needle at an altitude, and water in a pumped loop, as computations."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    absolute,
    gauge,
    gauge_u,
    in_figures,
    number,
    plain,
    standard,
    text,
    thermometer,
    thermometer_words,
    words,
)
from diagnostics.physics.computations.units import air_of
from diagnostics.physics.errors import Impossible
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, Place, measured
from diagnostics.physics.units import from_si
from diagnostics.physics.vacuum import (
    TARGET,
    WaterState,
    depth_absolute,
    leaves_at,
    needle_best,
    needle_shows,
    reaches,
    water_in,
)
from diagnostics.physics.water import (
    TRIPLE_PRESSURE,
    over_ice,
    over_water,
    vapor_pressure,
    vapor_temperature,
)

IAPWS = "IAPWS R7-97(2012) region 4 over water, R14-08(2011) over ice"
ISO = "ISO 2533:1975 for the air"
OVER = {"either": vapor_pressure, "water": over_water, "ice": over_ice}
MICRON_GAUGE = INSTRUMENTS["micron_gauge"].words
LOOP_AT = Input("temperature", "Temperature of the coldest part of the loop", "°C", -123, 373.9)
DEPTH = Input(
    "pressure",
    "Absolute pressure, as a micron gauge shows it",
    "micron",
    0,
    1_000_000,
    reference="absolute",
)
NEEDLE = Input(
    "depth", "Vacuum as a needle shows it, below the air's pressure; a minus sign or none", "inHg",
    -60, 60, reference="gauge",
)  # fmt: skip
STATES: dict[WaterState, str] = {
    "boils": "Water boils off at this depth.",
    "stays": "Water stays at this depth: it does not boil.",
    "ice_leaves": "It is below freezing: ice leaves as vapor, slowly. Warm the car.",
    "ice_stays": "It is below freezing, and ice stays at this depth. Warm the car.",
    "cannot_tell": "Cannot tell with these instruments whether water boils at this depth.",
}
REACHES: dict[Place, str] = {
    "inside": "Deep enough",
    "above": "Not deep enough",
    "below": "Deep enough",
    "cannot_tell": "Cannot tell with this gauge whether deep enough",
}


def _micron(pascal: float) -> str:
    return words(pascal, "micron", 0)


def pulled(pressure: Absolute) -> Absolute:
    """What a gauge showed behind a pump.

    Raises:
        Impossible: nothing at all.

    """
    if not pressure.pa > 0:
        raise Impossible(
            "Perfect vacuum: no pump reaches that. The gauge is off, unplugged or below its range."
        )
    return pressure


def _vapor(inputs: Inputs) -> Result:
    kelvin, over = number(inputs, "temperature"), text(inputs, "over")
    found = OVER[over](kelvin)
    what = "ice" if over == "ice" or (over == "either" and kelvin < 273.16) else "water"
    verb = "turns to vapor" if what == "ice" else "boils"
    return Result(
        found.pa,
        "Pa",
        meaning=f"At {words(kelvin, '°C', 1)} {what} {verb} below {_micron(found.pa)}.",
        basis=IAPWS,
        more={"micron": plain(found.pa, "micron")},
    )


def _boils_at(inputs: Inputs) -> Result:
    pressure = absolute(inputs, "pressure")
    found = vapor_temperature(pressure)
    if pressure < TRIPLE_PRESSURE:
        meaning = f"Below the ice point ({_micron(TRIPLE_PRESSURE.pa)}): ice leaves above "
    else:
        meaning = "Water boils above "
    under = f" under {in_figures(pressure.pa, 'kPa')} absolute"
    return Result(found, "°C", meaning=f"{meaning}{words(found, '°C', 1)}{under}.", basis=IAPWS)


def _boils_below(inputs: Inputs) -> Result:
    kelvin, air = number(inputs, "temperature"), air_of(inputs)
    line = vapor_pressure(kelvin)
    depth = -needle_shows(line, air.pressure).pa
    best = -needle_best(air.pressure).pa
    boils = f"water of {words(kelvin, '°C', 1)} boils"
    return Result(
        depth,
        "inHg",
        air.u,
        f"A needle shows {words(depth, 'inHg', 2)} of vacuum where {boils}; perfect vacuum would "
        f"be {words(best, 'inHg', 2)}. No needle is that fine: use a micron gauge."
        if depth > 0
        else f"There {boils} above the air's pressure already: no vacuum is needed.",
        f"{IAPWS}; {air.basis}",
        {"absolute": plain(line.pa, "micron")},
    )


def _water(inputs: Inputs) -> Result:
    pressure = measured(number(inputs, "pressure"), 0.0, "micron_gauge")
    kelvin = Measured(number(inputs, "temperature"), standard(inputs, "thermometer"))
    found = water_in(pressure, kelvin)
    ice = (
        f" Below the ice point of {_micron(TRIPLE_PRESSURE.pa)} water can chill itself to ice, "
        "which leaves slowly: warm the car, break with nitrogen, go on."
        if found.chills_to_ice
        else ""
    )
    meaning = f"{STATES[found.state]} The line is {_micron(found.line.pa)}.{ice}"
    more = {"line": plain(found.line.pa, "micron")}
    if found.leaves_at is not None:
        more["leaves_at"] = plain(found.leaves_at, "°C")
    return Result(
        found.line.pa - pressure.value,
        "micron",
        found.u,
        meaning,
        f"{IAPWS}; {MICRON_GAUGE} by default, {thermometer_words(inputs)}",
        more,
    )


def _needle(inputs: Inputs) -> Result:
    air, pressure = air_of(inputs), absolute(inputs, "pressure")
    depth = -needle_shows(pressure, air.pressure).pa
    return Result(
        depth,
        "inHg",
        air.u,
        f"A needle right at zero shows {words(depth, 'inHg', 2)} of vacuum; it cannot be read that "
        f"finely. Perfect vacuum is {words(air.pressure.pa, 'inHg', 2)} here."
        if depth > 0
        else f"That is {in_figures(-depth, 'kPa')} above the air's pressure: no vacuum.",
        air.basis,
        {"perfect": plain(air.pressure.pa, "inHg")},
    )


def _absolute(inputs: Inputs) -> Result:
    air = air_of(inputs)
    found = depth_absolute(Gauge(-abs(number(inputs, "depth"))), air.pressure)
    leaves = leaves_at(found)
    at = "" if leaves is None else f" Water leaves it above {words(leaves, '°C', 0)}."
    return Result(
        found.pa,
        "micron",
        gauge_u(inputs, "gauge"),
        f"{words(abs(number(inputs, 'depth')), 'inHg', 1)} of vacuum are {_micron(found.pa)} "
        f"absolute where the air presses with {words(air.pressure.pa, 'inHg', 1)}. A needle read "
        f"within half an inch is {_micron(1_693)} off.{at}",
        air.basis,
    )


def _best(inputs: Inputs) -> Result:
    air = air_of(inputs)
    best = -needle_best(air.pressure).pa
    return Result(
        best,
        "inHg",
        air.u,
        f"No needle shows more than {words(best, 'inHg', 1)} of vacuum here: that is perfect.",
        air.basis,
    )


def _target(inputs: Inputs) -> Result:
    read = measured(pulled(absolute(inputs, "pressure")).pa, 0.0, "micron_gauge")
    target = Absolute(number(inputs, "target"))
    told = REACHES[reaches(read, target)]
    return Result(
        target.pa - read.value,
        "micron",
        read.u,
        f"{told}: {_micron(read.value)} against {_micron(target.pa)} or lower.",
        f"trade articles: 500 micron or lower at the system; {MICRON_GAUGE} by default",
    )


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "water_vapor_pressure",
        "Pressure below which water boils, or ice leaves, at a temperature",
        (
            Input("temperature", "Temperature of the water or ice", "°C", -223.15, 373.946),
            Input(
                "over",
                "Over water, over ice, or whichever is there",
                answers=tuple(OVER),
                default="either",
            ),
        ),
        "Pa",
        IAPWS,
        _vapor,
    ),
    Computation(
        "water_boiling_temperature",
        "Temperature above which water boils, or ice leaves, at an absolute pressure",
        (Input("pressure", "Absolute pressure", "micron", 1e-20, 165e6, reference="absolute"),),
        "°C",
        IAPWS,
        _boils_at,
    ),
    Computation(
        "water_boiling_depth",
        "What a needle gauge shows where water boils, in inHg of vacuum",
        (LOOP_AT, *AIR),
        "inHg",
        f"{IAPWS}; {ISO}",
        _boils_below,
    ),
    Computation(
        "water_in_vacuum",
        "Whether water boils at this depth: distance to its line, above zero where it does",
        (DEPTH, LOOP_AT, thermometer()),
        "micron",
        IAPWS,
        _water,
    ),
    Computation(
        "needle_shows",
        "What a needle gauge shows of an absolute pressure, in inHg of vacuum",
        (DEPTH, *AIR),
        "inHg",
        ISO,
        _needle,
    ),
    Computation(
        "needle_to_absolute",
        "Absolute pressure of a vacuum that a needle gauge shows",
        (NEEDLE, *AIR, gauge("gauge", "low_side_gauge")),
        "micron",
        ISO,
        _absolute,
    ),
    Computation(
        "needle_best",
        "The most vacuum that a needle gauge can show at an altitude",
        AIR,
        "inHg",
        ISO,
        _best,
    ),
    Computation(
        "vacuum_target",
        "Whether a vacuum is deep enough: distance to the target, above zero where it is",
        (
            DEPTH,
            Input(
                "target",
                "The target, or lower",
                "micron",
                1,
                100_000,
                reference="absolute",
                default=from_si(TARGET.pa, "micron"),
            ),
        ),
        "micron",
        "trade articles: 500 micron or lower",
        _target,
    ),
)
