"""Wires, drops and a lamp as load, as computations."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    in_figures,
    number,
    plain,
    text,
    words,
)
from diagnostics.physics.computations.units import LEFT_OUT, optional
from diagnostics.physics.errors import Malformed
from diagnostics.physics.lamp import (
    LOWER_EXPONENT,
    TWENTY_ONE_WATT,
    Lamp,
    joint_before_lamp,
    joint_by_lamp,
)
from diagnostics.physics.uncertainty import INSTRUMENTS, measured
from diagnostics.physics.units import shown_range, with_unit
from diagnostics.physics.wiring import (
    FEED_DROP,
    GROUND_DROP,
    DropPlace,
    awg_area,
    awg_diameter,
    drop_resistance,
    joint_before_coil,
    place_drop,
    wire_resistance,
)

COPPER = "ASTM B258 (wire gauge), IEC 60028 (copper: 58 MS/m at 20 °C, 0.00393 per kelvin)"
RERATING = (
    "lamp rerating: power as voltage to 1.6, so current to 0.6; handbook of electrical "
    "engineering (1978) as an encyclopedia quotes it"
)
MOST_FED = 60.0  # V: no car feeds its low-voltage wiring with more
BURNS_AT = 1.5  # times a lamp's voltage; our judgement
GAUGE = Input("awg", "American wire gauge; 4/0 is −3", "", -3, 40)
SUPPLY = Input("voltage", "Voltage fed", "V", 1, 30)
LAMP = (
    Input("lamp_power", "Power of the lamp", "W", 0.5, 200, default=TWENTY_ONE_WATT.watt),
    Input("lamp_voltage", "Voltage at which it has that", "V", 1, 30, default=TWENTY_ONE_WATT.volt),
)
LENGTH = Input("length", "Length of the wire, one way", "m", 0.001, 1_000, default=1)
WIRE_AT = Input("temperature", "Temperature of the wire", "°C", -60, 200, default=20)
SIDES = {
    "feed": (FEED_DROP, "trade articles: traced above 0.20 to 0.30 V"),
    "ground": (GROUND_DROP, "common practice, no source: at most 0.1 V"),
}
PLACES: dict[DropPlace, str] = {
    "inside": "The drop is inside",
    "at_limit": "The drop is at the limit",
    "outside": "The drop is outside",
    "cannot_tell": "Cannot tell with this instrument whether the drop is inside or outside",
}


def _diameter(inputs: Inputs) -> Result:
    gauge = number(inputs, "awg")
    area = plain(awg_area(gauge), "mm²")
    return Result(awg_diameter(gauge), "mm", meaning="Diameter of solid wire.", more={"area": area})


def _wire(inputs: Inputs) -> Result:
    gauge, area = optional(inputs, "awg"), optional(inputs, "area")
    if (gauge is None) == (area is None):
        raise Malformed("Tell the wire gauge or the copper in mm²: one of the two.")
    copper = awg_area(gauge) if gauge is not None else float(area or 0)
    length = number(inputs, "length")
    found = wire_resistance(copper, length, number(inputs, "temperature"))
    more = {"area": plain(copper, "mm²")}
    if length:
        more["per_length"] = plain(found / length, "mΩ/m")
    ampere = optional(inputs, "current")
    lost = ""
    if ampere is not None:
        more["drop"] = plain(ampere * found, "V")
        lost = _lost_words(ampere, ampere * found)
    return Result(
        found,
        "mΩ",
        meaning=f"{words(length, 'm', 1)} of wire have {in_figures(found, 'mΩ')}, one way.{lost}",
        basis="solid wire; stranded cable of the same size has up to 10 % more",
        more=more,
    )


def _lost_words(ampere: float, volt: float) -> str:
    if volt > MOST_FED:
        return (
            f" {words(ampere, 'A', 1)} would need {in_figures(volt, 'V')} along it, more than any "
            "vehicle has: such a current cannot flow."
        )
    return f" {words(ampere, 'A', 1)} lose {in_figures(volt, 'V')} along it."


def _drop(inputs: Inputs) -> Result:
    lost = measured(number(inputs, "drop"), 0.0, "dc_millivolts")
    found = drop_resistance(lost, measured(number(inputs, "current"), 0.0, "dc_amps"))
    side = text(inputs, "side")
    power = lost.value * number(inputs, "current")
    swapped = " Drop and current have opposite signs: one meter's leads are the other way round."
    where = ""
    basis = f"{INSTRUMENTS['dc_millivolts'].words}, {INSTRUMENTS['dc_amps'].words}, by default"
    if side:
        (low, high), source = SIDES[side]
        limit = shown_range(low, high, 2)
        told = PLACES[place_drop(lost, (low, high))]
        where = f" {told}, against {with_unit(limit, 'V')} for 12 V."
        basis = f"{source}; {basis}"
    meaning = f"The stretch has {words(found.value, 'mΩ', 0)}.{where}{swapped if power < 0 else ''}"
    return Result(found.value, "mΩ", found.u, meaning, basis, {"power": plain(abs(power), "W")})


def _coil_load(inputs: Inputs) -> Result:
    volt, ohm = number(inputs, "voltage"), number(inputs, "joint")
    found = joint_before_coil(volt, ohm, number(inputs, "coil"))
    return Result(
        found.load_volt,
        "V",
        meaning=(
            f"Behind a joint of {words(ohm, 'Ω', 2)} the coil gets {words(found.load_volt, 'V', 1)}"
            f" of {words(volt, 'V', 1)} and draws {words(found.ampere, 'A', 2)}. With the plug off "
            "or the coil open all of it shows: no current, no drop."
        ),
        more={"current": plain(found.ampere, "A"), "drop": plain(found.drop, "V")},
    )


def _lamp(inputs: Inputs) -> Lamp:
    return Lamp(number(inputs, "lamp_power"), number(inputs, "lamp_voltage"))


def _rough(lamp: Lamp, volt: float) -> str:
    return "" if lamp.is_followed(volt) else " So dim a filament is followed roughly only."


def _burns(lamp: Lamp, volt: float) -> str:
    if volt <= BURNS_AT * lamp.volt:
        return ""
    return " So far above what it is made for its filament burns through."


def _lamp_load(inputs: Inputs) -> Result:
    lamp, volt, ohm = _lamp(inputs), number(inputs, "voltage"), number(inputs, "joint")
    found = joint_before_lamp(volt, ohm, lamp)
    lower = joint_before_lamp(volt, ohm, lamp, LOWER_EXPONENT)
    constant = joint_before_coil(volt, ohm, lamp.volt**2 / lamp.watt)
    return Result(
        found.load_volt,
        "V",
        meaning=(
            f"Behind a joint of {words(ohm, 'Ω', 1)} the lamp gets "
            f"{words(found.load_volt, 'V', 1)}; a lamp of constant resistance would get "
            f"{words(constant.load_volt, 'V', 1)}, but a dim filament has less."
            f"{_rough(lamp, found.load_volt)}{_burns(lamp, found.load_volt)}"
        ),
        basis="other handbooks take the current as voltage to 0.55: the end named low",
        more={
            "low": plain(lower.load_volt, "V"),
            "constant_resistance": plain(constant.load_volt, "V"),
            "current": plain(found.ampere, "A"),
            "drop": plain(found.drop, "V"),
        },
    )


def _by_lamp(inputs: Inputs) -> Result:
    lamp, at_lamp = _lamp(inputs), number(inputs, "at_lamp")
    found = joint_by_lamp(number(inputs, "voltage"), at_lamp, lamp)
    return Result(
        found.ohm,
        "Ω",
        meaning=(
            f"With {words(found.ampere, 'A', 2)} through the lamp {words(found.drop, 'V', 2)} are "
            f"lost before it.{_rough(lamp, at_lamp)}"
        ),
        more={"current": plain(found.ampere, "A"), "drop": plain(found.drop, "V")},
    )


JOINT = Input("joint", "Resistance of the joint", "Ω", 0, 1_000)
COMPUTATIONS: tuple[Computation, ...] = (
    Computation("wire_diameter", "Diameter of a wire gauge", (GAUGE,), "mm", COPPER, _diameter),
    Computation(
        "wire_resistance",
        "Resistance of so much copper wire, by wire gauge or by its copper in mm²",
        (
            Input("awg", "American wire gauge; 4/0 is −3", "", -3, 40, default=LEFT_OUT),
            Input("area", "Copper in the wire", "mm²", 0.001, 500, default=LEFT_OUT),
            LENGTH,
            WIRE_AT,
            Input("current", "Current through it", "A", 0, 1_000, default=LEFT_OUT),
        ),
        "mΩ",
        COPPER,
        _wire,
    ),
    Computation(
        "voltage_drop",
        "Resistance that a drop under current means, and where the drop stands",
        (
            Input("drop", "Voltage lost along the stretch, current flowing", "V", -60, 60),
            Input("current", "Current that flows", "A", -100, 100),
            Input(
                "side",
                "Which stretch: feed (battery + to coil +) or ground (coil − to battery −)",
                answers=("feed", "ground", LEFT_OUT),
                default=LEFT_OUT,
            ),
        ),
        "mΩ",
        "Ohm's law; uncertainty by JCGM 100:2008, 5.1.2",
        _drop,
    ),
    Computation(
        "joint_with_coil",
        "Voltage at a coil behind a joint",
        (SUPPLY, JOINT, Input("coil", "Resistance of the coil", "Ω", 0.1, 1_000)),
        "V",
        "Ohm's law",
        _coil_load,
    ),
    Computation(
        "joint_with_lamp",
        "Voltage at a filament lamp behind a joint",
        (SUPPLY, JOINT, *LAMP),
        "V",
        RERATING,
        _lamp_load,
    ),
    Computation(
        "joint_by_lamp",
        "Resistance of the joint that leaves so many volts at a filament lamp",
        (SUPPLY, Input("at_lamp", "Voltage at the lamp", "V", 0.1, 30), *LAMP),
        "Ω",
        RERATING,
        _by_lamp,
    ),
)
