"""The diode across a clutch coil, by two ohm readings with the leads swapped, as a computation."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import plain
from diagnostics.physics.computations.units import LEFT_OUT, optional
from diagnostics.physics.diode import CONDUCTS_FROM, OPEN, BothWays, MeterDrive, read_both_ways
from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.uncertainty import Measured, measured
from diagnostics.physics.units import to_si, unit_named

BEYOND = ("ol", "o.l", "open", "inf", "beyond")
LIKE_A_COIL = 50.0  # Ω: a diode alone lets a meter read far more; our judgement
LOST_CONTACT = (
    "One way it reads no more than a coil, the other way nothing: a coil reads the same both ways, "
    "and a diode alone far more. A lead or the plug lost contact: read again."
)


def _reading(inputs: Inputs, name: str) -> Measured | None:
    """Ohm as told, or None where the meter showed that it is beyond its range."""
    told = inputs[name]
    if not isinstance(told, str):
        return measured(told, 0.0, "ohmmeter")
    if told.strip().casefold() in BEYOND:
        return None
    value, unit = split(told)
    symbol = unit_named(unit, ("Ω", "mΩ", "kΩ", "MΩ")) if unit else "Ω"
    if symbol is None:
        raise Malformed(f"{name}: “{unit}” is no unit of resistance; OL is beyond the range.")
    return measured(to_si(value, symbol), 0.0, "ohmmeter")


_DIODE = {
    "one_way": "The two differ: a diode across the coil conducts one way, as it should.",
    "short": (
        "Next to nothing both ways: diode or coil is shorted. Part the diode from the coil to "
        "tell which."
    ),
    "none_seen": (
        "Both ways the same although the meter had voltage enough: no diode conducts, it is open "
        "or none is fitted."
    ),
    "cannot_tell": (
        "Both ways the same: not shorted. Good, open or no diode look alike to a meter that puts "
        "less than 0.7 V across the coil, and most do."
    ),
}
_COIL = {"carries": "", "open": " The coil carries nothing: open.", "short": ""}
_DIODE_CODES = ("one_way", "short", "none_seen", "cannot_tell")


def _diode(inputs: Inputs) -> Result:
    drive = MeterDrive(optional(inputs, "test_voltage"), optional(inputs, "test_current"))
    one, other = _reading(inputs, "forward"), _reading(inputs, "backward")
    found: BothWays = read_both_ways(one, other, drive)
    if _one_way_like_a_coil(one, other) and not _strong(drive):
        code = _DIODE_CODES.index("cannot_tell") + 1
        return Result(code, "", meaning=LOST_CONTACT, basis="our judgement")
    more = {} if found.across is None else {"across": plain(found.across, "V")}
    return Result(
        _DIODE_CODES.index(found.diode) + 1,
        "",
        meaning=f"{_DIODE[found.diode]}{_COIL[found.coil]}",
        basis="a silicon diode conducts from about 0.7 V (from memory)",
        more=more,
    )


def _one_way_like_a_coil(one: Measured | None, other: Measured | None) -> bool:
    told = [way.value for way in (one, other) if way is not None and way.value < OPEN]
    return len(told) == 1 and told[0] < LIKE_A_COIL


def _strong(drive: MeterDrive) -> bool:
    """Whether the meter sends so much that a diode alone reads no more than a coil."""
    return drive.ampere is not None and drive.ampere * LIKE_A_COIL > CONDUCTS_FROM


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "coil_diode",
        "What two readings with the leads swapped tell of the diode across a coil: "
        "1 conducts one way, 2 short, 3 none seen, 4 cannot tell",
        (
            Input("forward", "Ohm one way; OL: beyond the meter's range"),
            Input("backward", "Ohm with the leads swapped; OL: beyond the meter's range"),
            Input(
                "test_voltage",
                "The meter's test voltage with open leads",
                "V",
                0,
                20,
                default=LEFT_OUT,
            ),
            Input(
                "test_current",
                "The meter's test current through a few ohm, often about 1 mA",
                "A",
                0,
                5,
                default=LEFT_OUT,
            ),
        ),
        "",
        "textbook figure of a silicon diode, from memory; trade training text",
        _diode,
    ),
)
