"""A coil's resistance as read both ways round, brought to 20 °C and held to what it should have."""

from dataclasses import dataclass
from typing import Literal

from diagnostics.evidence.coil_figure import AT_20, coil_figure
from diagnostics.evidence.findings import Strip
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number
from diagnostics.evidence.strips import strip
from diagnostics.evidence.system import System
from diagnostics.physics.clutch_coil import JudgedCoil, judge_coil, unread_temperature
from diagnostics.physics.diode import OPEN, SHORT, BothWays, read_both_ways
from diagnostics.physics.electrics import KELVIN_20
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import shown, with_unit

FAR_SHARE = 0.5  # of the lowest figure: half the turns bypassed or more; our judgement

OhmGrade = Literal["unread", "open", "short", "far_low", "low", "inside", "high", "edge", "unheld"]
_BY_WAYS: dict[str, OhmGrade] = {"open": "open", "short": "short"}


@dataclass(frozen=True)
class CoilOhm:
    """What was read between the coil's pins, and where it stands.

    grade: "short": next to nothing, coil or diode; "edge": cannot be told with these readings;
    "unheld": nothing is known to hold it to. `basis` is "vehicle", "general" or "".
    """

    one: Reading | None
    other: Reading | None
    warm: Reading | None
    ways: BothWays | None
    grade: OhmGrade
    judged: JudgedCoil | None
    basis: str
    figure_words: str
    warm_aside: str

    @property
    def higher(self) -> Reading | None:
        """The reading that is the coil's: a diode that carries lowers the other one."""
        read = [one for one in (self.one, self.other) if one]
        return max(read, key=lambda one: one.si, default=None)

    @property
    def specified(self) -> bool:
        """Whether it was held to the vehicle's own figure."""
        return self.basis == "vehicle"

    @property
    def no_warmth(self) -> str:
        """Why it has no temperature."""
        return "kept as typed, not used" if self.warm_aside else "not read"


def coil_ohm(system: System, readings: Readings) -> CoilOhm:
    """Hold what was read to the vehicle's figure, else to what such coils have.

    A coil carries as much one way as the other, so one beyond the range one way is open.
    """
    one, other, warm = (number(readings, name) for name in ("one", "other", "temperature"))
    aside = kept_aside(readings).get("temperature", "")
    ways = _ways(one, other, str(readings.get("beyond", "")))
    figure, basis, words = coil_figure(system) or (None, "", "")
    grade: OhmGrade = "unread"
    judged = None
    if ways:
        higher = max((_ohm(read) for read in (one, other) if read), key=_value, default=None)
        grade = _BY_WAYS.get(ways.coil, "unheld")
        if higher and figure and grade != "open":
            kelvin = measured(warm.si, warm.last_digit, "thermometer") if warm else None
            judged = judge_coil(higher, kelvin or unread_temperature(), figure)
            grade = grade if grade == "short" else _grade(judged)
    held = basis if judged else ""
    return CoilOhm(one, other, warm, ways, grade, judged, held, words if judged else "", aside)


def _ways(one: Reading | None, other: Reading | None, beyond: str) -> BothWays | None:
    """The two ways round; one alone stands for both, as far as the coil goes."""
    read = [_ohm(way) for way in (one, other) if way]
    if beyond in ("both", "one"):
        within = read[0] if beyond == "one" and read else None
        return read_both_ways(within, None)
    if not read:
        return None
    return read_both_ways(read[0], read[-1])


def _ohm(reading: Reading) -> Measured:
    return measured(reading.si, reading.last_digit, "ohmmeter")


def _value(one: Measured) -> float:
    return one.value


def _grade(judged: JudgedCoil) -> OhmGrade:
    if judged.where == "below":
        most = judged.at_20.value + judged.at_20.expanded
        return "far_low" if most < FAR_SHARE * judged.figure.low else "low"
    grades: dict[str, OhmGrade] = {"inside": "inside", "above": "high"}
    return grades.get(judged.where, "edge")


def ohm_sentence(seen: CoilOhm) -> str:
    """What the meter said, without a full stop."""
    if seen.grade == "unread":
        return "The coil’s resistance was not read"
    if seen.grade == "open":
        paths = [way.shown for way in (seen.one, seen.other) if way and way.si < OPEN]
        if paths:
            return f"Beyond the meter’s range one way, {paths[0]} the other"
        return f"{seen.higher.shown} at least" if seen.higher else "Beyond the meter’s range"
    ways = [way.shown for way in (seen.one, seen.other) if way]
    told = f"{ways[0]} both ways round" if len(ways) == 2 and len(set(ways)) == 1 else ""
    if not told:
        told = f"{ways[0]}, and {ways[1]} with the leads swapped" if len(ways) == 2 else ways[0]
    return f"{told} between the pins{_brought(seen)}"


def _brought(seen: CoilOhm) -> str:
    if seen.warm is None:
        return f", coil temperature {seen.no_warmth}"
    at = f" at {seen.warm.shown}"
    if seen.judged is None or abs(seen.warm.si - KELVIN_20) < 0.5:
        return at
    return f"{at}, which is {with_unit(shown(seen.judged.at_20.value, 1), 'Ω')} at {AT_20}"


def ohm_band(seen: CoilOhm) -> str:
    """Where the expected band came from, and whose accuracy stands on its side."""
    if seen.judged is None:
        return ""
    if seen.warm:
        warmth = f"brought to {AT_20} from {seen.warm.shown}"
        meters = f"{INSTRUMENTS['ohmmeter'].words}, {INSTRUMENTS['thermometer'].words}"
    else:
        warmth = f"coil temperature {seen.no_warmth}: taken from −20 to 120\u00a0°C"
        warmth += ", so the band is wide"
        meters = INSTRUMENTS["ohmmeter"].words
    return f"{seen.figure_words}; {warmth}; {meters}, by default."


def ohm_strip(seen: CoilOhm) -> Strip | None:
    """Resistance at 20 °C and what it should be, in ohm; none without a temperature."""
    if seen.judged is None or seen.warm is None:
        return None
    at_20, figure = seen.judged.at_20, seen.judged.figure
    words = f"{with_unit(shown(at_20.value, 1), 'Ω')} at {AT_20}"
    return strip("Ω", at_20.value, words, at_20.expanded, (figure.low, figure.high))


def is_to_case(ohm: Reading | None, told: str) -> bool:
    """Whether a path to the case was read that is no mere dirt."""
    return told == "reads" and (ohm is None or ohm.si < OPEN)


SHORT_WORDS = with_unit(shown(SHORT, 0), "Ω")
