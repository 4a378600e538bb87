"""What a clutch coil on such a system should draw, and where that expectation comes from."""

from dataclasses import dataclass

from diagnostics.evidence.findings import Mark, Strip
from diagnostics.evidence.readings import Reading
from diagnostics.evidence.strips import strip
from diagnostics.evidence.system import System
from diagnostics.physics.electrics import (
    NO_CURRENT,
    PLAUSIBLE_12_V,
    CoilFigure,
    current_band,
    grade_current,
)
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, quotient
from diagnostics.physics.units import EN_DASH, shown, to_si, with_unit

NO_POWER = 1.0  # V: nothing but stray voltage; our judgement
# Where a specification names no tolerance; our judgement.
TOLERANCE = 0.1
# A coil whose temperature was not read can be anything from winter to a hot bay after a long run.
AT_20 = with_unit("20", "°C")
COLDEST, HOTTEST = to_si(-20, "°C"), to_si(120, "°C")
SPREAD = INSTRUMENTS["thermometer"].fixed


@dataclass(frozen=True)
class Expectation:
    """Current in ampere at the voltage read; `words` say how it came about."""

    low: float
    high: float
    basis: str  # "vehicle" or "general"
    words: str


def coil_figure(system: System) -> tuple[CoilFigure, str, str] | None:
    """(figure at 20 °C, basis, words), or None where nothing general can be said."""
    ohm = system.get("coil_ohm")
    if ohm:
        share = system.get("coil_ohm_tolerance")
        tolerance = TOLERANCE if share is None else share
        source = system.get("coil_ohm_source") or "source not noted"
        words = f"Expected from {with_unit(f'{ohm:g}', 'Ω')} at {AT_20} ({source}), "
        words += f"±{with_unit(shown(100 * tolerance, 0), '%')}"
        if share is None:
            words += " (our judgement: no tolerance is given)"
        return CoilFigure(ohm * (1 - tolerance), ohm * (1 + tolerance)), "vehicle", words
    if system.get("voltage") == "24":
        return None
    band = f"{shown(PLAUSIBLE_12_V.low, 0)}{EN_DASH}{shown(PLAUSIBLE_12_V.high, 0)}"
    coils = f"{with_unit('12', 'V')} coils have, {with_unit(band, 'Ω')} at {AT_20}"
    words = f"No figure of this vehicle: expected from what {coils}"
    words += " (trade articles; not a limit)"
    return PLAUSIBLE_12_V, "general", words


def expectation(system: System, volt: Reading, warm: Reading | None) -> Expectation | None:
    """What the coil should draw, or None where nothing is known to expect it from."""
    found = coil_figure(system)
    if found is None or volt.si == 0:
        return None
    figure, basis, words = found
    if warm is None:
        coldest, hottest = COLDEST, HOTTEST
        words += ", coil temperature not read: taken from −20 to 120\u00a0°C, so the band is wide"
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
    there is nothing to hold it against; "unread".
    """

    volts: Reading | None
    amps: Reading | None
    warm: Reading | None
    grade: str
    expected: Expectation | None
    current: Measured | None

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
    def specified(self) -> bool:
        """Whether it was held against the vehicle's own figure."""
        return self.expected is not None and self.expected.basis == "vehicle"


def coil_current(
    system: System, volts: Reading | None, amps: Reading | None, warm: Reading | None
) -> CoilCurrent:
    """Hold the current read against what is expected; the meters' errors stand on its side.

    The direction of current and voltage is left out: a clamp can be put on the other way round.
    """
    expected = expectation(system, volts, warm) if volts else None
    if amps is None:
        return CoilCurrent(volts, None, warm, "unread", expected, None)
    current = measured(abs(amps.si), amps.last_digit, "dc_amps")
    grade: str = "none" if current.value < NO_CURRENT else "flows"
    if volts and abs(volts.si) < NO_POWER and grade == "flows":  # the two do not fit together
        return CoilCurrent(volts, amps, warm, grade, None, current)
    if volts and expected:
        voltage = measured(abs(volts.si), volts.last_digit, "dc_volts")
        per_volt = quotient(current, voltage)  # both errors bear on what is compared
        current = Measured(current.value, per_volt.u * voltage.value)
        grade = grade_current(current, expected.low, expected.high)
    return CoilCurrent(volts, amps, warm, grade, expected, current)


def current_sentence(seen: CoilCurrent, voltage: str) -> str:
    """What the meters said, in words that end without a full stop."""
    if seen.amps is None:
        return _not_read_sentence(seen.volts)
    drawn = seen.amps.shown
    if seen.grade in ("none", "unread"):  # unread: a meter that showed nothing beside a pull
        at = f"{seen.volts.shown} at the coil’s pins" if seen.volts else "Voltage not read"
        flows = "no current flowing" if seen.grade == "none" else "no current read"
        return f"{at}, {flows} ({drawn})"
    start = f"With {seen.volts.shown} the coil draws" if seen.volts else "The coil draws"
    should = "it should" if seen.specified else f"{with_unit(voltage or '12', 'V')} coils draw"
    usual = f"{start} {drawn}, which lies in what {should}"
    missing = "this vehicle’s own figure is not noted" if seen.volts else "voltage was not read"
    if seen.dead:
        missing = "the two do not fit together"
    return {
        "flows": f"{start} {drawn}; {missing}, so it is not judged",
        "expected": f"{start} the current it should, {drawn}" if seen.specified else usual,
        "cannot_tell": f"{start} {drawn}; whether that is outside cannot be told with this"
        " instrument",
        "low": f"{start} {drawn}, less than {should}",
        "high": f"{start} {drawn}, more than {should}",
    }[seen.grade]


def _not_read_sentence(volts: Reading | None) -> str:
    if volts is None:
        return "Neither voltage nor current was read"
    return (
        f"{volts.shown} stood at the coil, but no current was read: a voltage alone does not show"
        " that the coil works"
    )


def coil_marks(seen: CoilCurrent, pull: str, ground: str) -> tuple[Mark, ...]:
    """What the current shows of the coil alone.

    `pull` tells what showed that it pulls, or is empty; `ground` is the answer about its ground.
    """
    if seen.grade == "none":
        return (_no_current(seen, ground),)
    if seen.grade == "unread":
        if pull:
            return (
                Mark("ruled_out", "Coil open", f"ruled out, {pull}."),
                Mark("open", "Coil shorted in part", "no current was read, so it cannot be told."),
            )
        return (Mark("open", "Coil open or shorted", "no current was read, so it is not told."),)
    if seen.grade == "low":
        joined = "this step cannot tell them apart. Measure the coil’s resistance cold."
        return (
            Mark("ruled_out", "Coil open", "ruled out, some current flows."),
            Mark("open", "Hot coil, a joint in its lead, its ground", joined),
        )
    if seen.grade == "high":
        return (_too_much(seen.specified),)
    return (_not_open_not_short(seen), *_short_not_told(seen))


def _no_current(seen: CoilCurrent, ground: str) -> Mark:
    if seen.powered and ground == "yes":
        subject, words = "Coil, its melt fuse or its lead open", "points here; this step cannot"
        return Mark(
            "likely", subject, f"{words} tell them apart. Measure the coil’s resistance next."
        )
    subject, words = ground_missing(seen, ground)
    return Mark("open", subject, f"this step cannot tell them apart. {words}")


def ground_missing(seen: CoilCurrent, ground: str) -> tuple[str, str]:
    """No current, and voltage, ground or both not shown: (what may be, what to do about it)."""
    if not seen.powered and ground == "yes":
        words = "Read the voltage at the coil’s pins, then repeat."
        return "Coil open, or power missing", words
    if not seen.powered:
        words = "Read the voltage at the coil’s pins and check its ground, then repeat."
        return "Coil open, or power or ground missing", words
    told = "cannot be told" if ground == "cannot_tell" else "was not checked"
    words = f"The ground {told}: put a known ground to the coil, then repeat."
    return "Coil open, or ground missing", words


def _too_much(specified: bool) -> Mark:
    subject = "Coil shorted in part, or its diode"
    if specified:
        words = "points here. Measure the resistance, both polarities, before relay or driver are"
        return Mark("likely", subject, f"{words} replaced.")
    words = "cannot be named yet. Look up this vehicle’s own figure, measure the resistance, both"
    return Mark("open", subject, f"{words} polarities.")


def _not_open_not_short(seen: CoilCurrent) -> Mark:
    if seen.grade == "expected" and seen.specified and seen.warm:
        return Mark("ruled_out", "Coil open, coil shorted", f"ruled out, at {seen.warm.shown}.")
    return Mark("ruled_out", "Coil open", f"ruled out, {temperature_words(seen.warm)}.")


def _short_not_told(seen: CoilCurrent) -> tuple[Mark, ...]:
    if seen.grade == "cannot_tell":
        words = "the reading reaches over the edge of what is expected: cannot tell with this"
        return (Mark("open", "Coil shorted in part", f"{words} instrument."),)
    if not seen.specified:
        words = "cannot be told without this vehicle’s own figure."
    elif not seen.warm:
        words = "cannot be told while the coil’s temperature is not read."
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


def temperature_words(warm: Reading | None) -> str:
    """Such as "at 48 °C", or that it was not read."""
    return f"at {warm.shown}" if warm else "coil temperature not read"
