"""The clutch coil, as computations: resistance, current, pull, the diode across it."""

from diagnostics.physics.clutch_coil import (
    FULL_VOLT,
    TOLERANCE,
    UNREAD_KELVIN,
    JudgedCoil,
    brought_to_20,
    judge_coil,
    pull,
    unread_temperature,
    vehicle_figure,
)
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    number,
    plain,
    standard,
    text,
    thermometer,
    thermometer_words,
    words,
)
from diagnostics.physics.computations.units import LEFT_OUT, optional
from diagnostics.physics.diode import SHORT
from diagnostics.physics.electrics import (
    PLAUSIBLE_12_V,
    CoilFigure,
    coil_resistance,
    copper_factor,
    current_band,
    expected_current,
    resistance_at,
)
from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, Place, measured, quotient
from diagnostics.physics.units import (
    EN_DASH,
    from_si,
    shown,
    shown_range,
    with_unit,
)

COPPER = "IEC 60028: annealed copper, 0.00393 per kelvin referred to 20 °C"
OHM_METER = INSTRUMENTS["ohmmeter"].words

MOST_FED = 1.5  # times the vehicle's voltage, charging and cold; our judgement

AT = Input("temperature", "Temperature of the copper", "°C", -60, 200)
AT_IF_READ = Input(
    "temperature",
    "Temperature of the coil; left out: anything from −20 to 120 °C",
    "°C",
    -60,
    200,
    default=LEFT_OUT,
)
RESISTANCE = Input("resistance", "Resistance as read", "Ω", 0, 1_000)
VOLTS = Input("voltage", "Voltage at the coil's pins", "V", 0, 60)
AMPS = Input("current", "Current through the coil", "A", 0, 100)
FIGURE = (
    Input(
        "figure",
        "The vehicle's own figure at 20 °C; left out: what 12 V coils have",
        "Ω",
        0.1,
        200,
        default=LEFT_OUT,
    ),
    Input(
        "tolerance", "Tolerance of the figure, plus or minus", "%", 0, 90, default=TOLERANCE * 100
    ),
    Input("system", "Voltage of the vehicle", answers=("12", "24"), default="12"),
)


def figure_told(inputs: Inputs) -> tuple[CoilFigure, str]:
    """The band at 20 °C that a coil is held against, and where it comes from.

    Raises:
        OutOfRange: 24 V without the vehicle's own figure, or a figure that no coil has.

    """
    own = optional(inputs, "figure")
    if own is not None:
        share = number(inputs, "tolerance")
        told = f"the vehicle's own figure, {words(own, 'Ω', 2)} ±{words(share, '%', 0)}"
        return vehicle_figure(own, share), told
    if text(inputs, "system") == "24":
        raise OutOfRange("24 V coils are judged by the vehicle's own figure only: it is needed.")
    return PLAUSIBLE_12_V, "what 12 V coils have; trade articles, a plausible band and no limit"


def warmth(inputs: Inputs) -> tuple[Measured, str]:
    """Temperature of the coil with its uncertainty, and words for it."""
    kelvin = optional(inputs, "temperature")
    if kelvin is None:
        low, high = (shown(from_si(end, "°C"), 0) for end in UNREAD_KELVIN)
        return unread_temperature(), f"temperature not read: taken from {low} to {high} °C"
    read = Measured(kelvin, standard(inputs, "thermometer"))
    return read, f"read at {words(kelvin, '°C', 0)}, {thermometer_words(inputs)}"


def _band(figure: CoilFigure) -> str:
    return with_unit(shown_range(figure.low, figure.high, 2), "Ω")


def _ratio(inputs: Inputs) -> Result:
    ratio = copper_factor(number(inputs, "temperature"))
    cold = number(inputs, "reference")
    return Result(
        ratio / copper_factor(cold),
        "",
        meaning=f"Copper has so many times its resistance of {words(cold, '°C', 0)}.",
        basis=COPPER,
    )


def _nothing(read: Measured) -> str:
    if read.value + read.expanded >= SHORT:
        return ""
    return " No clutch coil has so little: the leads touch, or the coil is shorted."


def _at_20(inputs: Inputs) -> Result:
    read = measured(number(inputs, "resistance"), 0.0, "ohmmeter")
    kelvin = Measured(number(inputs, "temperature"), standard(inputs, "thermometer"))
    found = brought_to_20(read, kelvin)
    return Result(
        found.value,
        "Ω",
        found.u,
        f"{words(read.value, 'Ω', 2)} at {words(kelvin.value, '°C', 0)} are "
        f"{words(found.value, 'Ω', 2)} at 20 °C.{_nothing(read)}",
        f"{OHM_METER} by default, {thermometer_words(inputs)}",
    )


def _warm(inputs: Inputs) -> Result:
    cold, kelvin = number(inputs, "resistance_20"), number(inputs, "temperature")
    found = resistance_at(cold, kelvin)
    meaning = f"{words(cold, 'Ω', 2)} at 20 °C read {words(found, 'Ω', 2)} at "
    return Result(found, "Ω", meaning=f"{meaning}{words(kelvin, '°C', 0)}.", basis=COPPER)


def _by_current(inputs: Inputs) -> Result:
    volt, ampere = number(inputs, "voltage"), number(inputs, "current")
    found, read = coil_resistance(volt, ampere), measured(ampere, 0.0, "dc_amps")
    if volt == 0:
        raise Impossible(
            "A current with no voltage across the coil: no copper wire has no resistance. The "
            "voltmeter is not at the coil's pins."
        )
    u = quotient(measured(volt, 0.0, "dc_volts"), read).u
    basis = f"{INSTRUMENTS['dc_volts'].words}, {INSTRUMENTS['dc_amps'].words}, by default"
    if ampere <= read.expanded:
        meaning = "Cannot tell: the current is no more than what the meter may be off."
        return Result(found, "Ω", u, meaning, basis)
    kelvin = optional(inputs, "temperature")
    if kelvin is None:
        meaning = "Of the coil as warm as it is; its temperature was not told."
        return Result(found, "Ω", u, meaning, basis)
    factor = copper_factor(kelvin)
    cold = Result(found / factor, "Ω", u / factor, basis=basis)
    meaning = f"At 20 °C that is {words(found / factor, 'Ω', 2)}."
    return Result(found, "Ω", u, meaning, basis, {"at_20": cold})


def _draws(inputs: Inputs) -> Result:
    volt, kelvin = number(inputs, "voltage"), number(inputs, "temperature")
    warm = resistance_at(number(inputs, "resistance_20"), kelvin)
    found = expected_current(volt, warm)
    meaning = f"At {words(kelvin, '°C', 0)} the coil has {words(warm, 'Ω', 2)} and draws "
    return Result(
        found,
        "A",
        meaning=f"{meaning}{words(found, 'A', 2)}.",
        basis=COPPER,
        more={"resistance": plain(warm, "Ω"), "power": plain(volt * found, "W")},
    )


def _fed(volt: float, system: str) -> float:
    """Volts that can be at a coil of such a vehicle.

    Raises:
        OutOfRange: none, or more than half as much again as the vehicle's voltage.

    """
    if not volt > 0:
        raise OutOfRange("No voltage: where nothing is fed any coil draws nothing.")
    if volt > MOST_FED * float(system):
        raise OutOfRange(
            f"No {system} V vehicle feeds a coil with {words(volt, 'V', 1)}: voltage or vehicle is "
            "not what was said."
        )
    return volt


def _should_draw(inputs: Inputs) -> Result:
    figure, told = figure_told(inputs)
    volt = _fed(number(inputs, "voltage"), text(inputs, "system"))
    kelvin = optional(inputs, "temperature")
    coldest, hottest = UNREAD_KELVIN if kelvin is None else (kelvin, kelvin)
    low, high = current_band(volt, figure, coldest, hottest)
    band = with_unit(shown_range(low, high, 2), "A")
    at = "taken from −20 to 120 °C" if kelvin is None else f"at {words(kelvin, '°C', 0)}"
    return Result(
        (low + high) / 2,
        "A",
        meaning=f"It should draw {band}, {at}.",
        basis=told,
        more={"low": plain(low, "A"), "high": plain(high, "A")},
    )


def _pull(inputs: Inputs) -> Result:
    volt, kelvin = number(inputs, "voltage"), number(inputs, "temperature")
    full = number(inputs, "full_voltage")
    if volt > MOST_FED * full:
        raise OutOfRange(
            f"More than half as much again as the {words(full, 'V', 1)} of the full pull: there "
            "the iron is full, and the pull no longer follows the current."
        )
    found = pull(volt, kelvin, full, number(inputs, "full_temperature"))
    band = f"{shown(found.low * 100, 0)}{EN_DASH}{words(found.high, '%', 0)}"
    return Result(
        found.square,
        "%",
        meaning=(
            f"The current is {words(found.straight, '%', 0)} of full, the pull {band}: as the "
            "square of the current, less so where the iron is near saturation. No pull-in "
            "voltage has a source; the gap decides as well."
        ),
        basis="force as the square of the current; as the current alone at the other end",
        more={
            "current_share": plain(found.straight, "%"),
            "low": plain(found.low, "%"),
            "high": plain(found.high, "%"),
        },
    )


def _place_words(where: Place) -> str:
    return {
        "below": "outside, below",
        "inside": "inside",
        "above": "outside, above",
        "cannot_tell": "cannot tell with this instrument whether inside or outside",
    }[where]


def _judged(inputs: Inputs) -> Result:
    figure, told = figure_told(inputs)
    kelvin, how = warmth(inputs)
    found: JudgedCoil = judge_coil(
        measured(number(inputs, "resistance"), 0.0, "ohmmeter"), kelvin, figure
    )
    at_20 = words(found.at_20.value, "Ω", 2)
    return Result(
        found.at_20.value,
        "Ω",
        found.at_20.u,
        f"{at_20} at 20 °C: {_place_words(found.where)} {_band(figure)} ({told}).",
        f"{how}; {OHM_METER} by default",
        {"low": plain(figure.low, "Ω"), "high": plain(figure.high, "Ω")},
    )


COLD = Input("resistance_20", "Resistance at 20 °C", "Ω", 0.1, 1_000)
COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "copper_resistance_ratio",
        "Resistance of copper at a temperature over that at another",
        (
            AT,
            Input("reference", "The temperature compared with", "°C", -60, 200, default=20),
        ),
        "",
        COPPER,
        _ratio,
    ),
    Computation(
        "resistance_at_20",
        "Resistance of a coil brought to 20 °C",
        (RESISTANCE, AT, thermometer()),
        "Ω",
        COPPER,
        _at_20,
    ),
    Computation(
        "resistance_at_temperature",
        "Resistance of a coil at a temperature, from that at 20 °C",
        (COLD, AT),
        "Ω",
        COPPER,
        _warm,
    ),
    Computation(
        "coil_resistance",
        "Resistance of a coil by volts and amps; at 20 °C where its temperature is told",
        (
            VOLTS,
            AMPS,
            Input("temperature", "Temperature of the coil", "°C", -60, 200, default=LEFT_OUT),
        ),
        "Ω",
        f"Ohm's law; {COPPER}",
        _by_current,
    ),
    Computation(
        "coil_current",
        "Current that a coil of known resistance draws",
        (VOLTS, COLD, Input("temperature", "Temperature of the coil", "°C", -60, 200, default=20)),
        "A",
        f"Ohm's law; {COPPER}",
        _draws,
    ),
    Computation(
        "coil_current_band",
        "Current that a coil should draw: middle of the band, and its ends",
        (VOLTS, *FIGURE, AT_IF_READ),
        "A",
        f"Ohm's law; {COPPER}",
        _should_draw,
    ),
    Computation(
        "coil_pull",
        "Pull of a clutch's magnet as a share of full: by the square of the current, and its range",
        (
            VOLTS,
            AT,
            Input("full_voltage", "Voltage of the full pull", "V", 1, 60, default=FULL_VOLT),
            Input("full_temperature", "Temperature of the full pull", "°C", -60, 200, default=20),
        ),
        "%",
        f"force of a magnet as the square of its current, from memory; {COPPER}",
        _pull,
    ),
    Computation(
        "coil_check",
        "Where a coil's resistance stands: inside, outside, or cannot tell",
        (RESISTANCE, *FIGURE, AT_IF_READ, thermometer()),
        "Ω",
        f"{COPPER}; uncertainty by JCGM 100:2008, 5.1.2",
        _judged,
    ),
)
