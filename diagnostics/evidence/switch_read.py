"""What was read of a pressure switch or sensor, and which outcome it is."""

import math
from dataclasses import dataclass

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.physics.charge import read_static, static_band, static_pressure
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place
from diagnostics.physics.units import to_si

# A full R-134a loop rests at 202 kPa at 1 °C and has 327 kPa only at 11 °C (property library): no
# click in a cold bay is normal. Where the switch's own figure is not noted, the resting pressure at
# 11 °C stands for it; our judgement, not a limit of any switch.
COLD = to_si(11, "°C")
USUAL = "R-134a"
EMPTY = to_si(50, "kPa")  # gauge: no low-pressure switch belongs closed there; our judgement
NO_REASON = to_si(1500, "kPa")  # gauge: no resting loop below opens a cut-out; our judgement
SENSOR_OFF = to_si(50, "kPa")  # gauge and data apart by more: our judgement
ABSOLUTE_NEAR = to_si(30, "kPa")

LOW, CUT_OUT, SENSOR = "low_switch", "high_cutout", "sensor"


@dataclass(frozen=True)
class Seen:
    """Answers, gauge and data as read. `point` is the switch-on pressure held against, if any."""

    told: dict[str, str]
    rest: Reading | None
    gauge: Measured | None
    warm: Reading | None
    point: Gauge | None
    basis: str

    def is_told(self, name: str, *codes: str) -> bool:
        """Whether the answer is one of these."""
        return self.told.get(name, "") in codes


def look(readings: Readings, around: Circumstances) -> Seen:
    """The readings, with the pressure that an open contact is held against."""
    rest, own = number(readings, "rest"), number(readings, "closes_at")
    gauge = measured(rest.si, rest.last_digit, "low_side_gauge") if rest else None
    warm = number(readings, "temperature")
    point, basis = (Gauge(own.si), "vehicle") if own else (_usual_point(around), "general")
    return Seen(taps(readings), rest, gauge, warm, point, basis)


def _usual_point(around: Circumstances) -> Gauge | None:
    """The pressure that stands for a switch's own figure, none for R-744."""
    gas = around.system.get("refrigerant") or USUAL
    if gas == "R-744":
        return None
    try:
        return static_pressure(gas, COLD, around.air)
    except PhysicsError:
        return None


def liquid_there(seen: Seen, around: Circumstances) -> bool | None:
    """Whether it rests as a loop with liquid does at that temperature; None: cannot be told."""
    gas, warm, gauge = around.system.get("refrigerant", ""), seen.warm, seen.gauge
    if not gas or warm is None or gauge is None:
        return None
    soak = Measured(warm.si, INSTRUMENTS["thermometer"].fixed / math.sqrt(3))
    try:
        band = static_band(gas, soak, gauge.u, around.air)
    except PhysicsError:
        return None
    return read_static(band, Gauge(gauge.value), gauge.u, soaked=True) not in ("none", "below")


def open_code(seen: Seen, around: Circumstances) -> str:
    """What an open contact means beside the pressure it sees."""
    gauge = seen.gauge
    if gauge is None:
        return "open_untold"
    if seen.point is None or not seen.is_told("type", LOW, CUT_OUT):
        return "open_untold"
    where = place(gauge, -math.inf, seen.point.pa)
    if seen.is_told("type", CUT_OUT):  # some open at too little pressure as well
        plain = where == "above" and gauge.value + gauge.expanded < NO_REASON
        return "open_no_reason" if plain else "open_untold"
    if where == "above":
        return "open_no_reason"
    if where != "inside":
        return "open_untold"
    return "open_cold" if liquid_there(seen, around) else "open_low"


def is_empty(seen: Seen) -> bool:
    """Whether there is next to no pressure in the loop."""
    return seen.gauge is not None and seen.gauge.value + seen.gauge.expanded < EMPTY


def _closed_code(seen: Seen) -> str:
    """What a closed contact means: right of a cut-out with next to no pressure, of no other."""
    if not is_empty(seen) or seen.is_told("type", CUT_OUT):
        return "closed"
    return "closed_empty" if seen.is_told("type", LOW) else "closed_untold"


def apart_of(seen: Seen, readings: Readings) -> Measured | None:
    """Data less gauge, in pascal."""
    told = number(readings, "told")
    if told is None or seen.gauge is None:
        return None
    shown_by = measured(told.si, told.last_digit, "scan_data")
    return Measured(told.si - seen.gauge.value, math.hypot(shown_by.u, seen.gauge.u))


def looks_absolute(apart: Measured, around: Circumstances) -> bool:
    """Whether data and gauge stand apart by about the pressure of the air."""
    return abs(apart.value - around.air.pa) < ABSOLUTE_NEAR


def _sensor_code(seen: Seen, readings: Readings, around: Circumstances) -> str:
    apart = apart_of(seen, readings)
    if apart is None:
        return "nothing_told"
    if looks_absolute(apart, around):
        return "sensor_unsure"
    where = place(apart, -SENSOR_OFF, SENSOR_OFF)
    if where == "inside":
        return "sensor_agrees"
    return "sensor_unsure" if where == "cannot_tell" else "sensor_off"


def code_of(seen: Seen, readings: Readings, around: Circumstances) -> str:
    """The outcome's code; a sensor by its data, a bridge before the contacts."""
    if seen.is_told("type", SENSOR):
        return _sensor_code(seen, readings, around)
    if seen.is_told("bridged", "comes_on"):
        plain = open_code(seen, around) == "open_no_reason"
        return "bridged_on_full" if plain else "bridged_on"
    if seen.is_told("bridged", "nothing"):
        return "bridged_nothing"
    if seen.is_told("contacts", "open"):
        return open_code(seen, around)
    return _closed_code(seen) if seen.is_told("contacts", "closed") else "nothing_told"
