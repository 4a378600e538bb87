"""A loop at rest read against its temperature: liquid there or not, never how much."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnostics.evidence.cautions import NEVER_DRY
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.loop_pressures import THERMOMETER_U, absolute, gauge_of
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number, taps
from diagnostics.physics import charge, recovery
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.uncertainty import COVERAGE, Measured, measured
from diagnostics.physics.units import to_si

# A full R-134a loop rests at 202 kPa at 1 °C and has 327 kPa only at 11 °C (property library):
# colder than this a low-pressure switch can keep the clutch off, and nothing is wrong.
COLD_LOOP = to_si(11, "°C")

NO_LIQUID_ANYWAY = (
    "Even with all of the label’s charge a loop of 3 L would have no liquid in it this warm: held"
    " against nothing"
)

_CODES: dict[charge.Static, str] = {
    "below": "below",
    "expected": "as_expected",
    "a_little_above": "a_little_above",
    "above": "above",
    "some": "some",
    "none": "empty",
}


@dataclass(frozen=True)
class Side:
    """One gauge as read at rest: side, reading, class, and its standard uncertainty in Pa."""

    name: str
    reading: Reading
    instrument: str
    u: float

    @property
    def gauge(self) -> Gauge:
        """The pressure it shows."""
        return Gauge(self.reading.si)


@dataclass(frozen=True)
class AtRest:
    """What was read, and the band it was held against, where that can be told.

    `code` is the outcome's, `why` says why the reading is held against nothing.
    """

    low: Side | None
    high: Side | None
    temperature: Reading | None
    taps: Mapping[str, str]
    gas: str
    band: charge.StaticBand | None
    code: str
    why: str
    aside: Mapping[str, str]

    @property
    def side(self) -> Side | None:
        """The gauge that is judged: the low side's is the finer one."""
        return self.low or self.high

    @property
    def apart(self) -> bool:
        """Whether the two sides stand further apart than both gauges' errors: not at rest yet."""
        if not (self.low and self.high):
            return False
        u = math.hypot(self.low.u, self.high.u)
        return abs(self.low.reading.si - self.high.reading.si) > COVERAGE * u

    @property
    def vacuum_beside_pressure(self) -> bool:
        """Whether one side shows pressure and the other stands under vacuum."""
        sides = (self.low, self.high)
        return any(map(_shows, sides)) and any(map(_under_vacuum, sides))

    @property
    def soaked(self) -> bool:
        """Whether it was told to have soaked to one temperature."""
        return self.taps.get("soaked") == "yes"

    @property
    def judged(self) -> bool:
        """Whether the reading was held against what the temperature lets expect."""
        return self.code in ("as_expected", "a_little_above", "above", "below")

    @property
    def cold(self) -> bool:
        """Whether the loop is so cold that a switch may keep the clutch off."""
        return self.temperature is not None and self.temperature.si <= COLD_LOOP


def look(readings: Readings, around: Circumstances) -> AtRest:
    """The readings, and which outcome they are."""
    told = taps(readings)
    gas = around.system.get("refrigerant", "")
    low, high = (_side(name, readings, gas) for name in ("low", "high"))
    temperature = number(readings, "temperature")
    band, why = _band(gas, temperature, low or high, around)
    seen = AtRest(low, high, temperature, told, gas, band, "", why, kept_aside(readings))
    code, why = _code(seen)
    return AtRest(low, high, temperature, told, gas, band, code, why, seen.aside)


def at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """A vacuum that no air allows."""
    for name in ("low", "high"):
        reading = number(readings, name)
        if reading and absolute(reading, around) is None:
            yield name, "Deeper than perfect vacuum at this altitude: no gauge shows that."


def stops(readings: Readings, around: Circumstances) -> Iterator[str]:
    """That nothing is run with one side under vacuum, be the other what it may."""
    gas = around.system.get("refrigerant", "")
    if any(_under_vacuum(_side(name, readings, gas)) for name in ("low", "high")):
        yield NEVER_DRY


def could_be_gone(seen: AtRest, label: float | None) -> float | None:
    """How many kg of the label charge can be gone with the needle where it is; None: not told."""
    if seen.temperature is None or not label or seen.code not in _LIQUID:
        return None
    try:
        return charge.unseen_loss(seen.gas, label, seen.temperature.si)
    except PhysicsError:
        return None


def full_until(seen: AtRest) -> float | None:
    """Down to how many kg the needle stays where it is; None: not told."""
    if seen.temperature is None or seen.code not in _LIQUID:
        return None
    try:
        return charge.last_liquid(seen.gas, seen.temperature.si)
    except PhysicsError:
        return None


def gas_left(seen: AtRest, around: Circumstances) -> float | None:
    """How many kg of gas a loop without liquid still holds; None: not told."""
    side = seen.side
    if seen.code != "below" or seen.temperature is None or side is None:
        return None
    pressure = absolute(side.reading, around)
    if pressure is None:
        return None
    try:
        return recovery.residual_gas(seen.gas, seen.temperature.si, pressure)
    except PhysicsError:
        return None


_UNSOAKED = {
    "no": "it had not soaked to one temperature",
    "cannot_tell": "whether it had soaked to one temperature cannot be told",
    "": "whether it had soaked to one temperature was not told",
}
_LIQUID = ("as_expected", "a_little_above", "above")


def _side(name: str, readings: Readings, gas: str) -> Side | None:
    reading = number(readings, name)
    if reading is None:
        return None
    instrument = gauge_of(name, gas)
    gauge = measured(reading.si, reading.last_digit, instrument)
    return Side(name, reading, instrument, gauge.u)


def _band(
    gas: str, temperature: Reading | None, side: Side | None, around: Circumstances
) -> tuple[charge.StaticBand | None, str]:
    """The band at that temperature, by the gauge that is judged, or why there is none."""
    if temperature is None:
        return None, "The loop’s temperature was not read: held against nothing"
    if not gas or gas == "other":
        return None, "No refrigerant noted that is known here: held against nothing"
    label = around.system.get("label_charge_kg")
    try:
        if label and label < charge.last_liquid(gas, temperature.si):
            return None, NO_LIQUID_ANYWAY
        soak = Measured(temperature.si, THERMOMETER_U)  # as worked_out.py shows it
        return charge.static_band(gas, soak, side.u if side else 0.0, around.air), ""
    except PhysicsError as problem:
        return None, problem.sentence


def _code(seen: AtRest) -> tuple[str, str]:
    """The outcome's code, and why nothing was held against it."""
    side = seen.side
    if side is None:
        return "nothing_told", "no pressure was read"
    if seen.apart and (_shows(seen.low) or _shows(seen.high)):
        return _unmet(seen)
    if not _shows(side):
        return _none(seen, side)
    if seen.soaked and seen.band:
        return _CODES[charge.read_static(seen.band, side.gauge, side.u, soaked=True)], ""
    if not seen.soaked:
        return "unsoaked_some", _UNSOAKED[seen.taps.get("soaked", "")]
    return "some", seen.why


def _unmet(seen: AtRest) -> tuple[str, str]:
    """Two sides that have not met, one of which shows pressure."""
    if seen.vacuum_beside_pressure:
        return "nothing_told", "one side shows pressure, the other stands under vacuum"
    return "unsoaked_some", "the two sides have not met, so it is not at rest"


def _shows(side: Side | None) -> bool:
    """Whether a gauge shows pressure, beyond its own error."""
    return side is not None and side.reading.si > COVERAGE * side.u


def _under_vacuum(side: Side | None) -> bool:
    """Whether a gauge stands below the air's pressure, beyond its own error."""
    return side is not None and side.reading.si < -COVERAGE * side.u


def _none(seen: AtRest, side: Side) -> tuple[str, str]:
    """No more than the gauge may be off: empty, under vacuum, or so cold that it tells nothing."""
    most = side.reading.si + COVERAGE * side.u
    if seen.band and seen.band.low.pa <= most:
        return "nothing_told", "so cold, a loop with liquid in it rests there too"
    return ("vacuum" if most < 0 else "empty"), ""
