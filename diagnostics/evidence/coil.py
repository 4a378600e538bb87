"""What a clutch coil on such a system should draw, and where that expectation comes from."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnostics.evidence.coil_figure import COLDEST, HOTTEST, SPREAD, coil_figure
from diagnostics.evidence.findings import Mark, Strip
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number
from diagnostics.evidence.strips import strip
from diagnostics.evidence.system import System
from diagnostics.physics.electrics import (
    NO_CURRENT,
    current_band,
    grade_current,
)
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, quotient
from diagnostics.physics.units import with_unit

NO_POWER = 1.0  # V: nothing but stray voltage; our judgement
# V by system voltage: below it a weak supply is asked about before anything points at the coil. A
# missing current can hide in "0 A" there, and the pull (as the square of the current) is so weak
# that a clutch which does not take hold says little. Our judgement: no source gives a pull-in
# voltage, so none is used as a limit.
WORKING = {"12": 11.0, "24": 22.0}
MOST_12 = 16.0  # V: no 12 V car shows more, so a system voltage not noted cannot be taken as 12 V
BRING_FULL = "Bring full battery voltage and read again."
GROUND_BAD = "The ground was found bad: put a known ground to the coil, then repeat."


@dataclass(frozen=True)
class Expectation:
    """Current in ampere at the voltage read; `words` say how it came about."""

    low: float
    high: float
    basis: str  # "vehicle" or "general"
    words: str


def expectation(
    system: System, volt: Reading, warm: Reading | None, cold_words: str
) -> Expectation | None:
    """What the coil should draw, or None where nothing is known to expect it from.

    `cold_words` tell why there is no temperature.
    """
    found = coil_figure(system)
    if found is None or volt.si == 0:
        return None
    figure, basis, words = found
    if warm is None:
        coldest, hottest = COLDEST, HOTTEST
        words += f", {cold_words}: taken from −20 to 120\u00a0°C, so the band is wide"
    else:
        coldest, hottest = max(warm.si - SPREAD, COLDEST - 40), min(warm.si + SPREAD, HOTTEST + 80)
        words += f", brought to {warm.shown}"
    words += f"; {INSTRUMENTS['dc_amps'].words} and {INSTRUMENTS['dc_volts'].words}, by default."
    low, high = current_band(abs(volt.si), figure, coldest, hottest)
    return Expectation(low, high, basis, words)


@dataclass(frozen=True)
class CoilCurrent:
    """Volts, amps and warmth as read, and what they make of the current.

    grade: "none", "low", "expected", "high" or "cannot_tell" as electrics grades it; "flows" when
    there is nothing to hold it against; "unread". `voltage` is the system's, empty when not noted.
    `aside` holds, as shown, the numbers that were kept as typed and are not used.
    """

    volts: Reading | None
    amps: Reading | None
    warm: Reading | None
    grade: str
    expected: Expectation | None
    current: Measured | None
    voltage: str
    aside: Mapping[str, str]

    @property
    def flows(self) -> bool:
        """Whether some current was seen."""
        return self.grade in ("expected", "cannot_tell", "flows", "low", "high")

    @property
    def dead(self) -> bool:
        """Whether next to no voltage was read."""
        return self.volts is not None and abs(self.volts.si) < NO_POWER

    @property
    def powered(self) -> bool:
        """Whether voltage was read at its pins."""
        return self.volts is not None and not self.dead

    @property
    def working(self) -> bool:
        """Whether the voltage read is one at which a coil can be judged."""
        lowest = WORKING.get(self.voltage or "12", max(WORKING.values()))
        return self.volts is not None and abs(self.volts.si) >= lowest

    @property
    def weak(self) -> bool:
        """Whether voltage was read, but too little."""
        return self.powered and not self.working

    @property
    def absent(self) -> bool:
        """Whether no current flows: none was read, and what it should be cannot hide in that."""
        if self.grade != "none" or self.current is None:
            return False
        most = self.current.value + self.current.expanded
        return self.expected is None or most < self.expected.low

    def is_open(self, ground: str) -> bool:
        """Whether this points at an open coil; `ground` is the answer about its ground."""
        return self.working and ground == "good" and self.absent

    def asks(self, ground: str) -> str:
        """What comes before anything points at the coil, or empty."""
        if self.weak:
            return BRING_FULL
        return GROUND_BAD if ground == "bad" else ""

    def but(self, ground: str) -> str:
        """What was found that keeps anything from pointing at the coil, or empty."""
        if self.weak:
            return " Little voltage stood there."
        return " Its ground was found bad." if ground == "bad" else ""

    def lacks(self, name: str, words: str) -> str:
        """That a number was not read, or was and is not used; `words` such as "the current"."""
        shown = self.aside.get(name)
        return f"{words}, {shown}, is kept as typed, not used" if shown else f"{words} was not read"

    @property
    def specified(self) -> bool:
        """Whether it was held against the vehicle's own figure."""
        return self.expected is not None and self.expected.basis == "vehicle"


def is_untold(system: System, volts: Reading | None) -> bool:
    """Whether the voltage read is more than 12 V systems show, and the system's is not noted."""
    return not system.get("voltage") and volts is not None and abs(volts.si) > MOST_12


def coil_current(system: System, readings: Readings) -> CoilCurrent:
    """Hold the current read against what is expected; the meters' errors stand on its side.

    The direction of current and voltage is left out: a clamp can be put on the other way round.
    """
    volts, amps, warm = (number(readings, name) for name in ("volts", "amps", "temperature"))
    system_voltage, aside = system.get("voltage", ""), kept_aside(readings)
    expected = None
    if volts and not is_untold(system, volts):
        expected = expectation(system, volts, warm, _no_temperature(aside))
    if amps is None:
        return CoilCurrent(volts, None, warm, "unread", expected, None, system_voltage, aside)
    current = measured(abs(amps.si), amps.last_digit, "dc_amps")
    grade: str = "none" if current.value < NO_CURRENT else "flows"
    if volts and abs(volts.si) < NO_POWER and grade == "flows":  # the two do not fit together
        return CoilCurrent(volts, amps, warm, grade, None, current, system_voltage, aside)
    if volts and expected:
        voltage = measured(abs(volts.si), volts.last_digit, "dc_volts")
        per_volt = quotient(current, voltage)  # both errors bear on what is compared
        current = Measured(current.value, per_volt.u * voltage.value)
        grade = grade_current(current, expected.low, expected.high)
    return CoilCurrent(volts, amps, warm, grade, expected, current, system_voltage, aside)


def current_sentence(seen: CoilCurrent) -> str:
    """What the meters said, in words that end without a full stop."""
    if seen.amps is None:
        return _not_read_sentence(seen)
    drawn = seen.amps.shown
    if seen.grade in ("none", "unread"):  # unread: a meter that showed nothing beside a pull
        at = f"{seen.volts.shown} at the coil’s pins" if seen.volts else _not_read_volts(seen)
        flows = "no current flowing" if seen.absent else "no current read"
        return f"{at}, {flows} ({drawn})"
    start = f"With {seen.volts.shown} the coil draws" if seen.volts else "The coil draws"
    coils = f"{with_unit(seen.voltage or '12', 'V')} coils draw"
    should = "it should" if seen.specified else coils
    usual = f"{start} {drawn}, which lies in what {should}"
    missing = _not_judged_by(seen)
    return {
        "flows": f"{start} {drawn}; {missing}, so it is not judged",
        "expected": f"{start} the current it should, {drawn}" if seen.specified else usual,
        "cannot_tell": f"{start} {drawn}; whether that is outside cannot be told with this"
        " instrument",
        "low": f"{start} {drawn}, less than {should}",
        "high": f"{start} {drawn}, more than {should}",
    }[seen.grade]


def _not_judged_by(seen: CoilCurrent) -> str:
    """Why a current that flows is held against nothing."""
    if seen.volts is None:
        return seen.lacks("volts", "the voltage")
    if seen.dead:
        return "the two do not fit together"
    return f"{'this vehicle’s own figure' if seen.voltage else 'the system voltage'} is not noted"


def _not_read_volts(seen: CoilCurrent) -> str:
    return seen.lacks("volts", "Voltage") if seen.aside.get("volts") else "Voltage not read"


def _not_read_sentence(seen: CoilCurrent) -> str:
    current = seen.lacks("amps", "the current")
    if seen.volts:
        alone = "a voltage alone does not show that the coil works"
        return f"{seen.volts.shown} stood at the coil, but {current}: {alone}"
    if {"volts", "amps"} & set(seen.aside):
        return f"{_not_read_volts(seen)}; {current}"
    return "Neither voltage nor current was read"


def coil_marks(seen: CoilCurrent, pull: str, ground: str) -> tuple[Mark, ...]:
    """What the current shows of the coil alone.

    `pull` tells what showed that it pulls, or is empty; `ground` is the answer about its ground.
    """
    if seen.grade == "none":
        return (_no_current(seen, ground),)
    if seen.grade == "unread":
        unread = "no current was read" if seen.amps else seen.lacks("amps", "the current")
        if pull:
            return (
                Mark("ruled_out", "Coil open", f"ruled out, {pull}."),
                Mark("open", "Coil shorted in part", f"{unread}, so it cannot be told."),
            )
        return (Mark("open", "Coil open or shorted", f"{unread}, so it is not told."),)
    if seen.grade == "low":
        joined = f"this step cannot tell them apart.{seen.but(ground)}"
        return (
            Mark("ruled_out", "Coil open", "ruled out, some current flows."),
            Mark("open", "Hot coil, a joint in its lead, its ground", joined),
        )
    if seen.grade == "high":
        return (_too_much(seen, ground),)
    return (_not_open_not_short(seen), *_short_not_told(seen))


def _no_current(seen: CoilCurrent, ground: str) -> Mark:
    if seen.is_open(ground):
        words = "points here; this step cannot tell them apart."
        return Mark("likely", "Coil, its melt fuse or its lead open", words)
    subject, _first = not_shown(seen, ground)
    return Mark("open", subject, "this step cannot tell them apart.")


def not_shown(seen: CoilCurrent, ground: str) -> tuple[str, str]:
    """No current, and not enough shown to point at the coil: (what may be, what to do about it)."""
    may_be, first = ["Coil open"], []
    if seen.weak:
        may_be.append("power too weak")
        first.append(BRING_FULL)
    elif not seen.working:
        may_be.append("power missing")
        first.append("Read the voltage at the coil’s pins, then repeat.")
    if ground == "bad":
        may_be.append("its bad ground")
        first.append(GROUND_BAD)
    elif ground != "good":
        may_be.append("ground missing")
        first.append("The ground was not checked: put a known ground to the coil, then repeat.")
    if not first:  # the current it should draw could hide in what was read
        may_be.append("a current too small for this reading")
        first.append("Read the current again, with more digits.")
    return ", or ".join(may_be), " ".join(first)


def _too_much(seen: CoilCurrent, ground: str) -> Mark:
    subject = "Coil shorted in part, or its diode"
    if seen.asks(ground):
        return Mark("open", subject, f"cannot be named yet.{seen.but(ground)}")
    if seen.specified:
        words = "points here. Measure the resistance, both polarities, before relay or driver are"
        return Mark("likely", subject, f"{words} replaced.")
    words = "cannot be named yet. Look up this vehicle’s own figure, measure the resistance, both"
    return Mark("open", subject, f"{words} polarities.")


def _not_open_not_short(seen: CoilCurrent) -> Mark:
    if seen.grade == "expected" and seen.specified and seen.warm:
        return Mark("ruled_out", "Coil open, coil shorted", f"ruled out, at {seen.warm.shown}.")
    return Mark("ruled_out", "Coil open", f"ruled out, {temperature_words(seen)}.")


def _short_not_told(seen: CoilCurrent) -> tuple[Mark, ...]:
    if seen.grade == "cannot_tell":
        words = "the reading reaches over the edge of what is expected: cannot tell with this"
        return (Mark("open", "Coil shorted in part", f"{words} instrument."),)
    if not seen.specified:
        words = "cannot be told without this vehicle’s own figure."
    elif not seen.warm:
        unread = "not used" if seen.aside.get("temperature") else "not read"
        words = f"cannot be told while the coil’s temperature is {unread}."
    else:
        return ()
    return (Mark("open", "Coil shorted in part", words),)


def current_strip(seen: CoilCurrent) -> Strip | None:
    """Current read and current expected on one axis, in ampere."""
    if seen.amps is None or seen.current is None or seen.expected is None:
        return None
    decimals = seen.amps.decimals + (3 if seen.amps.unit == "mA" else 0)
    return strip(
        "A",
        seen.current.value,
        seen.amps.shown,
        seen.current.expanded,
        (seen.expected.low, seen.expected.high),
        min(2, max(1, decimals)),
    )


def temperature_words(seen: CoilCurrent) -> str:
    """Such as "at 48 °C", or that it was not read or is not used."""
    return f"at {seen.warm.shown}" if seen.warm else _no_temperature(seen.aside)


def _no_temperature(aside: Mapping[str, str]) -> str:
    return f"coil temperature {'kept as typed, not used' if 'temperature' in aside else 'not read'}"
