"""High voltage isolated, waited for, proven dead; and the insulation where it was measured.

Only by a person qualified for it: that nobody here is, is an honest end. The order isolate, wait,
prove dead is from trade articles; proving the tester before and after is common practice, no
source. UN Regulation No. 100, 5.1.3, asks for approval of a whole vehicle at least 100 ohm per volt
of its DC side and 500 where AC and DC are joined without further measures: no service limit, and
never enough to call a part good.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.cautions import HIGH_VOLTAGE, LOCAL
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import LOW_48, MOTOR_NOT_SURE, NO_MOTOR
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import PROVEN_DEAD
from diagnostics.evidence.problems import FieldGate
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number, taps
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place
from diagnostics.physics.units import shown, with_unit

HAZARD = 60.0  # V: above it is high voltage (trade articles)
REMAINS = 5.0  # V: dead is below it, the meter's error counted against it; our judgement
LEAST_WAIT = 60.0  # s: makers name minutes, so what is shorter is no waiting time; our judgement
TESTERS = 500.0  # V: what such testers are set to where the car's own is not told; our judgement
DC_LEAST = 100.0  # ohm per volt: UN Regulation No. 100, 5.1.3.1
DEAD = When("proof", ("dead",))
AFTER_DEAD = "Measured only after it was proven dead."
MINUTES = Span(
    1, 60, 0, 1440, "Less than a minute, or longer than any maker asks for.",
    "No time is below zero.",
)  # fmt: skip
VOLTS = Span(
    0, 900, -2000, 2000, "Below zero, or above what cars have: a voltage all the same.",
    "No car has that.",
)  # fmt: skip
TEST_VOLTS = Span(1, 1000, 0.5, 5000, "Outside what such testers give.", "No such tester.")

FIELDS = (
    Choice(
        "qualified", "Done by a person qualified for high voltage?",
        "If nobody here is: say so, that is an honest end.",
        (Answer("yes", "Yes"), Answer("no", "No")), condition=True,
    ),
    Choice(
        "plug", "Service plug or disconnect", "Taken out, and kept by that person.",
        (
            Answer("out", "Out and kept"),
            Answer("none", "None here: as the maker says"),
            Answer("in", "Not out"),
        ),
    ),
    Number(
        "waited", "Waited", "From taking it out.", "min", MINUTES, ("s", "h"), instrument="watch",
        compact=True,
    ),
    Number(
        "figure", "Maker’s waiting time", "Look it up; there is no general one.", "min", MINUTES,
        ("s", "h"), instrument="watch", condition=True, compact=True,
    ),
    Choice(
        "proof", "Proven dead", "Tester on a known source, on the part, on the source again.",
        (
            Answer("dead", "Tester proven, dead, tester proven again"),
            Answer("dead_once", "Dead, tester not proven both times"),
            Answer("alive", "Voltage is there"),
            Answer("not_done", "Not done"),
        ),
    ),
    Number(
        "volts", "Highest voltage read", "Between all terminals and to the body.", "V", VOLTS,
        instrument="dc_volts", compact=True,
    ),
    Number(
        "insulation", "Insulation to the body", "Over range: type the tester’s highest.", "MΩ",
        Span(0.01, 2000, 0, 1_000_000, "Outside what such testers show.", "None is below zero."),
        ("kΩ",), when=(DEAD,), why_not=AFTER_DEAD, instrument="insulation_tester", compact=True,
        group="Insulation, if it was measured",
    ),
    Number(
        "least", "Maker’s least", "Look it up.", "MΩ",
        Span(0.01, 1000, 0.000001, 1_000_000, "Outside what makers ask.", "None is zero."),
        ("kΩ",), when=(DEAD,), why_not=AFTER_DEAD, instrument="insulation_tester",
        condition=True, compact=True,
    ),
    Number(
        "system_volts", "The car’s high voltage", "As marked.", "V",
        Span(24, 900, 1, 2000, "Outside what cars have.", "No car has that."),
        when=(DEAD,), why_not=AFTER_DEAD, instrument="dc_volts", condition=True, compact=True,
    ),
    Number(
        "test_volts", "Tester’s voltage", "As set.", "V", TEST_VOLTS, when=(DEAD,),
        why_not=AFTER_DEAD, instrument="dc_volts", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("isolated_dead", "isolated and proven dead", normal=True),
    OutcomeWords("dead_insulation_inside", "dead, insulation above the maker’s least", normal=True),
    OutcomeWords("dead_insulation_low", "dead, insulation below what is asked"),
    OutcomeWords("dead_insulation_recorded", "dead, insulation recorded, not judged"),
    OutcomeWords("not_dead", "voltage is there"),
    OutcomeWords("not_proven", "not proven dead"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


@dataclass(frozen=True)
class Seen:
    """The readings by name."""

    taps: dict[str, str]
    numbers: dict[str, Reading | None]
    aside: dict[str, str]

    @property
    def alive(self) -> bool:
        """Whether a dangerous voltage was told or read; the meter's error counts against it."""
        return self.left >= HAZARD or self.taps.get("proof") == "alive"

    @property
    def left(self) -> float:
        """What may be left in V, the meter's error counted against it; 0 where it was not read."""
        volts = self.numbers["volts"]
        if volts is None:
            return 0.0
        read = measured(abs(volts.si), volts.last_digit, "dc_volts")
        return read.value + read.expanded

    @property
    def lacks(self) -> tuple[str, ...]:
        """What is missing before it counts as proven dead."""
        waited, figure = self.numbers["waited"], self.numbers["figure"]
        told, volts = self.taps, self.numbers["volts"]
        rows = (
            (told.get("qualified") != "yes", "that a qualified person did it was not told"),
            (told.get("plug") not in ("out", "none"), "the plug was not told to be out"),
            (waited is None, "how long was waited was not told"),
            (
                waited is not None and waited.si < LEAST_WAIT,
                "it was waited for less than a minute, which no maker asks (our judgement)",
            ),
            (figure is None, "how long its maker asks to wait was not told"),
            (
                figure is not None and figure.si < LEAST_WAIT,
                "less than a minute is no maker’s waiting time (our judgement): look it up again",
            ),
            (
                bool(waited and figure and waited.si < figure.si),
                "the wait was shorter than the maker’s",
            ),
            (told.get("proof") != "dead", "the tester was not proven before and after"),
            ("volts" in self.aside, "the voltage read is kept as typed, not used"),
            (
                volts is None and "volts" not in self.aside,
                "the highest voltage left was not read",
            ),
            (
                self.left >= REMAINS,
                f"{volts.shown if volts else ''} remain",
            ),
        )
        return tuple(words for missing, words in rows if missing)


def _strained(seen: Seen) -> bool:
    """Whether the tester put as much on the insulation as the car does.

    A reading that is low at less is low; one that is good at less says nothing of more.
    """
    tester, car = seen.numbers["test_volts"], seen.numbers["system_volts"]
    return tester is not None and tester.si >= (car.si if car else TESTERS)


def _insulation(seen: Seen) -> tuple[str, str]:
    """(outcome's code, basis) by the insulation: the maker's least goes before what is general."""
    read, least, volts = (seen.numbers[one] for one in ("insulation", "least", "system_volts"))
    if read is None:
        return "isolated_dead", ""
    strained = _strained(seen)
    ohm = measured(read.si, read.last_digit, "insulation_tester")
    if least:
        where = place(ohm, least.si, math.inf)
        codes = {"below": "dead_insulation_low"}
        if strained:
            codes["inside"] = "dead_insulation_inside"
        return codes.get(where, "dead_insulation_recorded"), "vehicle"
    if volts and ohm.value + ohm.expanded < DC_LEAST * volts.si:
        return "dead_insulation_low", "general"
    return "dead_insulation_recorded", ""


def _code(seen: Seen) -> tuple[str, str]:
    """(code, basis): a voltage that is there goes before everything."""
    if seen.alive:
        return "not_dead", ""
    if seen.taps.get("qualified") == "no" or not (seen.taps.get("proof") or seen.taps.get("plug")):
        return "nothing_told", ""
    return ("not_proven", "") if seen.lacks else _insulation(seen)


def _sentence(seen: Seen, code: str) -> str:
    if code == "not_proven":
        return f"It is not proven dead: {'; '.join(seen.lacks)}."
    if code == "nothing_told" and seen.taps.get("qualified") == "no":
        return "Nobody qualified for high voltage did it, so nothing is taken as isolated."
    return {
        "isolated_dead": "Isolated, waited for and proven dead.",
        "dead_insulation_inside": "Proven dead; the insulation lies above the maker’s least.",
        "dead_insulation_low": "Proven dead; the insulation lies below what is asked.",
        "dead_insulation_recorded": "Proven dead; the insulation is recorded, not judged.",
        "not_dead": "Voltage is there: it is not dead.",
        "nothing_told": "Whether it is isolated was not told.",
    }[code]


def _not_judged(seen: Seen) -> tuple[str, str]:
    """Why the insulation is not judged, and what comes next."""
    if seen.numbers["least"] is None:
        return "not judged without the maker’s least.", "Look up the maker’s least for this part."
    if not _strained(seen):
        return (
            "not judged by a tester that was too weak for it, or whose voltage was not told.",
            "Measure again with an insulation tester at the test voltage its maker names.",
        )
    return "on which side of the maker’s least: not told with this instrument.", "Measure it again."


def _marks(seen: Seen, code: str, basis: str) -> Iterator[Mark]:
    if code in PROVEN_DEAD:
        words = "shown with a tester proven before and after; only where it was measured, only now."
        yield Mark("proved", "High voltage dead", words)
    if code == "dead_insulation_inside":
        words = "ruled out where it was measured, as cold or warm as now."
        yield Mark("ruled_out", "Insulation low", words)
    elif code == "dead_insulation_low":
        whose = "the maker’s least" if basis == "vehicle" else "what approval of a whole car asks"
        words = f"measured below {whose}; which part it is, is not told by one reading."
        yield Mark("proved", "Insulation low", words)
    elif code == "dead_insulation_recorded":
        yield Mark("open", "Insulation", _not_judged(seen)[0])
    elif code in ("not_dead", "not_proven"):
        yield Mark("open", "High voltage", "taken as live: hands off.")


def _not_tested(seen: Seen, code: str) -> Iterator[str]:
    if seen.numbers["figure"] is None:
        yield f"Maker’s waiting time: {_no_reading(seen, 'figure')}"
    if seen.numbers["insulation"] and seen.numbers["test_volts"] is None:
        yield f"Tester’s voltage: {_no_reading(seen, 'test_volts')}"
    if seen.numbers["volts"] is None:
        yield f"Highest voltage: {_no_reading(seen, 'volts')}"
    if seen.numbers["insulation"] is None:
        yield f"Insulation: {_no_reading(seen, 'insulation')}"
    elif code in PROVEN_DEAD:
        yield "Insulation running, hot or wet: not tested."


def _no_reading(seen: Seen, name: str) -> str:
    return "kept as typed, not used." if name in seen.aside else "no reading to go by."


def _notes(seen: Seen, code: str) -> Iterator[str]:
    volts = seen.numbers["volts"]
    if volts and code == "not_dead" and seen.taps.get("proof") in ("dead", "dead_once"):
        yield f"Told as dead, yet {volts.shown} was read: taken as live until it is settled."
    if volts and code == "not_proven" and seen.left >= REMAINS:
        yield f"{volts.shown} remain: find where they come from before anything is touched."
    if code == "dead_insulation_recorded" and not _strained(seen):
        yield (
            "The tester put less on the insulation than the car does, or how much was not told: a"
            " good reading says nothing then."
        )
    if code == "dead_insulation_low":
        yield "Wrong oil in the loop can spoil it: a share of 1 % can do (trade articles)."


DEAD_IS = (
    f"Dead is less than {REMAINS:g}\u00a0V counting the meter’s accuracy (our judgement), far below"
    f" the {HAZARD:g}\u00a0V above which it is high voltage (trade articles). The maker’s own"
    " procedure goes first."
)


def _band(seen: Seen, code: str, basis: str) -> str:
    least, volts, read = (seen.numbers[one] for one in ("least", "system_volts", "insulation"))
    if code not in PROVEN_DEAD or read is None:
        return DEAD_IS if seen.numbers["volts"] and code != "nothing_told" else ""
    accuracy = f"{INSTRUMENTS['insulation_tester'].words}, by default."
    if least:
        return f"Held against the maker’s least, {least.shown}; {accuracy}"
    if volts is None:
        return f"No least of this maker told, so it is not judged; {accuracy}"
    told = f"No least of this maker told. UN Regulation No. 100 asks at least {DC_LEAST:g}\u00a0Ω/V"
    told += " of a whole vehicle’s DC side for approval (500\u00a0Ω/V where AC and DC are joined):"
    held = "below it" if basis == "general" else "above it is no proof that a part is good"
    return f"{told} {held}. No service limit; check your local rules; {accuracy}"


def _values(seen: Seen) -> Iterator[Value]:
    read, volts = seen.numbers["insulation"], seen.numbers["system_volts"]
    if read and volts:
        ohm = measured(read.si, read.last_digit, "insulation_tester")
        per_volt = Measured(ohm.value / volts.si, ohm.u / volts.si)
        text = with_unit(shown(per_volt.value, 0), "Ω/V")
        yield Value("insulation", "Insulation per volt", text, per_volt.value, "Ω/V", per_volt.u)


_ONWARD = {
    "dead_insulation_low": "That person parts it: compressor’s plug off, measure both sides again.",
    "not_dead": "Hands off. That person finds out why, waits and proves again.",
    "not_proven": "Hands off until it is proven dead.",
    "nothing_told": "Only a person qualified for high voltage goes on; else hand the job on.",
}


def _onward(seen: Seen, code: str) -> tuple[str, ...]:
    """What comes next; without a plug it is the maker's way of isolating that stays."""
    if code == "not_proven" and seen.numbers["figure"] is None:
        return _ONWARD[code], "Look up how long its maker asks to wait."
    if code not in PROVEN_DEAD:
        return (_ONWARD[code],)
    keep = "Keep the plug with that person until it is closed again."
    if seen.taps.get("plug") == "none":
        keep = "Keep it isolated as its maker says, by that person, until the work is done."
    recorded = code == "dead_insulation_recorded"
    then = _not_judged(seen)[1] if recorded else _ONWARD.get(code, "")
    return tuple(one for one in (then, keep) if one)


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    names = ("waited", "figure", "volts", "insulation", "least", "system_volts", "test_volts")
    seen = Seen(
        taps(readings), {name: number(readings, name) for name in names}, kept_aside(readings)
    )
    code, basis = _code(seen)
    outcome = Outcome(
        code,
        _sentence(seen, code),
        tuple(_marks(seen, code, basis)),
        tuple(_not_tested(seen, code)),
        carries=code != "nothing_told",
        basis=basis,
    )
    return Meaning(
        outcome,
        band=_band(seen, code, basis),
        notes=tuple(_notes(seen, code)),
        onward=_onward(seen, code),
        values=tuple(_values(seen)) if code in PROVEN_DEAD else (),
    )


HV_ISOLATION = Kind(
    name="hv_isolation",
    title="High voltage isolated and dead",
    question="Is the high voltage isolated, waited for and proven dead?",
    version=1,
    minutes=20,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("service plug reached",),
    cautions=(
        HIGH_VOLTAGE,
        "Not qualified: stop here and say so; that is an honest end.",
        "Car off, key locked away, never alone; gloves and tools rated for that voltage.",
        "Capacitors hold it after the plug is out: wait as long as the maker says.",
        "An insulation tester gives high voltage itself: only the one the maker names.",
        LOCAL,
    ),
    gates=(
        FieldGate(
            "qualified_first",
            (When("proof", ("dead", "dead_once", "alive")),),
            "qualified",
            ("yes",),
            "Only a person qualified for high voltage goes on here. Not qualified: say so below.",
            "High voltage was worked on, and that a qualified person did it was not told.",
        ),
    ),
    bars=NO_MOTOR,
    asks_first=MOTOR_NOT_SURE,
    remarks=(LOW_48,),
)
