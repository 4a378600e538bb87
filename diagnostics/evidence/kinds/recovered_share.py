"""Grams recovered against the label: a lower bound of what was in the car, and no more.

What each class of machines leaves behind, and what tight cars lose: recovery.py in physics, with
its sources. Label ±15 g: trade article.
"""

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass, replace

from diagnostics.evidence.cautions import EYES_AND_HANDS, KEY_AWAY, LOCAL, NO_FLAME
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Number, Span
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Strip, Value
from diagnostics.evidence.hoses import HV_HOSES, MORE_BRANCHES, NO_VENTING
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.missing import missing, untold
from diagnostics.evidence.orders import OWN_HOSES
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.strips import strip
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.recovery import (
    LABEL_TOLERANCE,
    MACHINES,
    InCar,
    against_label,
    normal_loss,
    was_in_car,
)
from diagnostics.physics.uncertainty import INSTRUMENTS, measured
from diagnostics.physics.units import from_si, shown, shown_range, with_unit

# At most this share of the label was in it: far low; our judgement.
FAR_LOW = 0.5
# At most so much: hardly any liquid, or none (97 g of R-134a in a loop of 3 L at 25 °C); our
# judgement.
NEARLY_EMPTY = 0.2
# So much of it was missing at least: more than age and a label read wrong explain; our judgement.
CLEARLY = 0.25
# The whole band within this share of the label: near it; our judgement. No scale and no machine
# narrows it down to the 15 g that a label asks for.
NEAR = 0.1

NO_CAR = "From 0 up, and no car holds 20\u00a0kg: check the unit, g or kg."
# What the classes of machines leave was tested with R-12 and R-134a; R-744 leaves a loop otherwise,
# and many a machine lets it off. Of a gas that is not listed nothing is known.
NOT_JUDGED = {
    "R-744": "R-744: what stays behind is not known, so it is recorded, not judged.",
    "other": "No refrigerant noted that is known here: recorded, not judged.",
}

FIELDS = (
    Number(
        "recovered", "Recovered", "By the scale, oil and hose content aside.", "g",
        Span(0, 3000, 0, 20_000, "Outside what a car holds.", NO_CAR),
        ("oz", "lb", "kg"), instrument="scale",
    ),
    Choice(
        "machine", "The machine", "Its plate names the standard.",
        (
            Answer("older", "Older, SAE J2210"),
            Answer("newer", "Newer, SAE J2788"),
            Answer("not_known", "Not known"),
        ),
        condition=True,
    ),
    Number(
        "temperature", "Temperature in the bay", "", "°C",
        Span(0, 45, -60, 70, "Outside what a bay has.", "No bay is below −60 or above 70 °C."),
        ("°F",), instrument="thermometer", condition=True,
    ),
    Choice(
        "repeated", "Waited, and recovered again?", "Some minutes; pressure that comes back is more"
        " refrigerant.",
        (Answer("yes", "Yes"), Answer("no", "No")), condition=True, compact=True,
    ),
    Number(
        "years", "Years since it was last charged", "If known; else since it was built.", "yr",
        Span(0, 30, 0, 80, "Longer than cars last.", "Less than no time."),
        instrument="watch", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("nothing_came", "next to nothing came out"),
    OutcomeWords("nearly_empty", "at most a fifth of the label was in it"),
    OutcomeWords("far_low", "at most half of the label was in it"),
    OutcomeWords("clearly_low", "a quarter of the label or more was missing"),
    OutcomeWords("low", "less than the label was in it"),
    OutcomeWords("low_as_age", "low, and no more than such an age explains"),
    OutcomeWords("near_label", "near the label, within a tenth either way", normal=True),
    OutcomeWords("above", "more than the label was in it"),
    OutcomeWords("cannot_tell", "cannot tell with this machine"),
    OutcomeWords("nothing_told", "recorded, carries nothing", carries=False),
)

LOW = ("nearly_empty", "far_low", "clearly_low", "low")

AMOUNT = "Amount of refrigerant"
_MARKS = {
    "nothing_came": Mark("likely", AMOUNT, "points at low, if the coupler opens the port’s valve."),
    "nearly_empty": Mark(
        "proved", AMOUNT, "low: it leaked out or was not in it; cannot tell which."
    ),
    "far_low": Mark("proved", AMOUNT, "low: it leaked out or was not in it; cannot tell which."),
    "clearly_low": Mark(
        "likely", AMOUNT, "points at low: it leaked out or was not in it; cannot tell which."
    ),
    "low": Mark(
        "likely", AMOUNT, "points at low: it leaked out or was not in it; cannot tell which."
    ),
    "low_as_age": Mark("open", AMOUNT, "low; that alone is no proof of a fault at such an age."),
    "near_label": Mark("ruled_out", "Amount far off", "ruled out, by more than a tenth."),
    "above": Mark("proved", AMOUNT, "more than the label says was in it."),
    "cannot_tell": Mark("open", AMOUNT, "cannot tell: what such a machine leaves is too much."),
}
BRANCHED = (
    "More than one branch: read whether the label’s charge is for all of them. One that is for the"
    " front alone is held against too much."
)
NOTHING_CAME = (
    "Next to nothing came out: so it is with a full loop, too, where a coupler does not open the"
    " port’s valve. Read the pressure at rest before the loop is opened."
)
_FIND = "Find the place: a leak search under pressure, or ask who charged it last."
_ONWARD: dict[str, tuple[str, ...]] = {
    "nothing_came": ("Make sure that the coupler opens the port’s valve, then recover again.",),
    "nearly_empty": (_FIND,),
    "far_low": (_FIND,),
    "clearly_low": (_FIND,),
    "low": (_FIND,),
    "low_as_age": ("Charge by weight from the label; weigh again at the next visit.",),
    "near_label": (),
    "above": ("Ask who charged it last; read the label, with rear or without.",),
    "cannot_tell": ("Wait, watch the pressure come back, recover again; warm the car.",),
    "nothing_told": ("Weigh what comes out and hold it against the label.",),
}


@dataclass(frozen=True)
class Share:
    """What was recovered, what was in the car by it, and the label's charge in kg."""

    recovered: Reading | None
    machine: str
    temperature: Reading | None
    years: Reading | None
    label: float | None
    in_car: InCar | None
    gas: str
    branched: bool

    @property
    def lost_by_age(self) -> float:
        """What a tight car of that age loses, in kg; 0 where no age was told."""
        return normal_loss(from_si(self.years.si, "yr")) if self.years else 0.0

    @property
    def next_to_nothing(self) -> bool:
        """Whether no more came out than the scale may be off."""
        return self.in_car is not None and self.in_car.low <= 0

    @property
    def known_machine(self) -> bool:
        """Whether it is known what such a machine leaves."""
        return self.machine in MACHINES


def look(readings: Readings, around: Circumstances) -> Share:
    """What was in the car; only a lower end where machine or temperature is not known."""
    recovered, temperature = number(readings, "recovered"), number(readings, "temperature")
    machine = taps(readings).get("machine", "")
    label = around.system.get("label_charge_kg")
    found = None
    if recovered:
        grams = measured(recovered.si, recovered.last_digit, "scale")
        found = InCar(max(grams.value - grams.expanded, 0.0), None)
        known = around.system.get("refrigerant", "") not in NOT_JUDGED
        if known and temperature and machine:
            with contextlib.suppress(PhysicsError):
                found = was_in_car(grams, _taken_as(machine), temperature.si)
    years = number(readings, "years")
    gas = around.system.get("refrigerant", "")
    branched = len(around.system.get("branches", ())) > 1
    return Share(recovered, machine, temperature, years, label or None, found, gas, branched)


def _taken_as(machine: str) -> str:
    """The class of a machine; one that is not known is taken as the one that leaves more."""
    return machine if machine in MACHINES else "older"


def _code(seen: Share) -> str:
    if seen.in_car is None or seen.label is None or seen.gas in NOT_JUDGED:
        return "nothing_told"
    if seen.next_to_nothing:
        return "nothing_came"
    where, high = against_label(seen.in_car, seen.label), seen.in_car.high
    if where == "above" or high is None:
        return where
    if (1 - NEAR) * seen.label <= seen.in_car.low < high <= (1 + NEAR) * seen.label:
        return "near_label"
    return _how_low(high, seen.label, seen.lost_by_age) if where == "low" else "cannot_tell"


def _how_low(most: float, label: float, lost_by_age: float) -> str:
    """How low it is, from what was in it at most, the label's charge and what age explains."""
    if most <= FAR_LOW * label:
        return "nearly_empty" if most <= NEARLY_EMPTY * label else "far_low"
    if label - most <= lost_by_age:
        return "low_as_age"
    return "clearly_low" if label - most >= CLEARLY * label else "low"


def _grams(kilogram: float) -> str:
    return with_unit(shown(from_si(kilogram, "g"), 0), "g")


def _grams_between(low: float, high: float) -> str:
    return with_unit(shown_range(from_si(low, "g"), from_si(high, "g"), 0), "g")


def _was_in_it(seen: Share) -> str:
    """The band of what was in the car, in words."""
    if seen.in_car is None:
        return ""
    if seen.in_car.high is None:
        return f"at least {_grams(seen.in_car.low)}"
    return _grams_between(seen.in_car.low, seen.in_car.high)


def _sentence(seen: Share, code: str) -> str:
    if seen.recovered is None:
        return "What was recovered was not read."
    if seen.gas in NOT_JUDGED:
        return NOT_JUDGED[seen.gas]
    if seen.label is None:
        return f"There was {_was_in_it(seen)} in it; the label’s charge is not noted with the car."
    if code == "nothing_came":
        return "Next to nothing came out."
    label = _grams(seen.label)
    words = {
        "nearly_empty": f"a fifth of the label’s {label} at most",
        "far_low": f"low against the label’s {label}, by half or more",
        "clearly_low": f"low against the label’s {label}, by a quarter or more",
        "low": f"low against the label’s {label}",
        "low_as_age": f"low against the label’s {label}, which a tight car of that age may be",
        "near_label": f"near the label’s {label}",
        "above": f"more than the label’s {label}",
        "cannot_tell": f"whether that is the label’s {label} cannot be told",
    }[code]
    return f"There was {_was_in_it(seen)} in it: {words}."


def _band(seen: Share) -> str:
    if seen.in_car is None:
        return ""
    scale = f"{INSTRUMENTS['scale'].words}, by default"
    if seen.gas in NOT_JUDGED:
        return f"{scale}."
    if seen.in_car.high is not None and seen.temperature:
        machine = MACHINES[_taken_as(seen.machine)]
        taken = "" if seen.known_machine else "Class not known, taken as the one that leaves more: "
        return f"{taken}{machine.words} at {seen.temperature.shown}: {machine.source}; {scale}."
    return f"Recovered grams are a lower bound: how much stayed behind is not known; {scale}."


def _notes(seen: Share, code: str) -> Iterator[str]:
    if seen.branched and code in _MARKS:
        yield BRANCHED
    if seen.next_to_nothing:
        yield NOTHING_CAME
    if seen.recovered and seen.in_car:
        left = "a remainder stayed in the car"
        if seen.in_car.high is not None:
            most = max(seen.in_car.high - seen.recovered.si, 0.0)
            left = f"up to {_grams(most)} stayed in the car"
        yield f"Book {seen.recovered.shown} as recovered, not as the charge: {left}."
    if seen.lost_by_age and seen.years:
        lost = f"{_grams(seen.lost_by_age)} in {seen.years.shown}"
        yield f"Tight cars lose about {lost} (15.1 g a year, a fleet’s average, trade article)."
    if code in LOW and not seen.years:
        yield "Cars leak anyway: 60 to 90 g low on a six-year-old car is no proof of a fault."


def _not_tested(readings: Readings, seen: Share) -> Iterator[str]:
    yield from missing(readings, "recovered", "Recovered")
    yield from untold(readings, "machine", "Which class of machine")
    if seen.machine == "not_known":
        yield "Which class of machine: not known."
    yield from missing(readings, "temperature", "Temperature in the bay")
    open_above = seen.in_car and seen.in_car.high is None and seen.gas not in NOT_JUDGED
    if seen.temperature and seen.machine and open_above:
        yield "What stays behind below 10 °C: no test is known, so only a lower bound is told."
    if taps(readings).get("repeated") != "yes":
        yield "Waited and recovered again: not done."
    if seen.label is None:
        yield "Label charge: not noted with the car."
    yield "Where it went: not told by grams."


def _mark(seen: Share, code: str) -> tuple[Mark, ...]:
    """What it says of the amount; no more than likely where the label may leave out a branch."""
    mark = _MARKS.get(code)
    if mark is None:
        return ()
    weaker = seen.branched and mark.standing == "proved"
    return (replace(mark, standing="likely") if weaker else mark,)


def _strip(seen: Share) -> Strip | None:
    """What was in the car, against the label ±15 g, in grams."""
    if (
        seen.gas in NOT_JUDGED
        or seen.in_car is None
        or seen.in_car.high is None
        or seen.label is None
    ):
        return None
    low, high = (from_si(end, "g") for end in (seen.in_car.low, seen.in_car.high))
    label = tuple(from_si(seen.label + off, "g") for off in (-LABEL_TOLERANCE, LABEL_TOLERANCE))
    middle, half = (low + high) / 2, (high - low) / 2
    return strip("g", middle, _was_in_it(seen), half, (label[0], label[1]), decimals=0)


def _values(seen: Share) -> Iterator[Value]:
    if seen.gas in NOT_JUDGED:
        return
    if seen.in_car is not None:
        yield Value("recovered", "Was in the car", _was_in_it(seen), seen.in_car.low, "kg")
    if seen.in_car is not None and seen.in_car.high is not None and seen.label:
        missing_least = max(seen.label - seen.in_car.high, 0.0)
        missing_most = max(seen.label - seen.in_car.low, 0.0)
        if missing_most == 0:
            return
        text = _grams_between(missing_least, missing_most)
        yield Value("recovered", "Was missing", text, missing_least, "kg")


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = look(readings, around)
    code = _code(seen)
    outcome = Outcome(
        code,
        _sentence(seen, code),
        _mark(seen, code),
        tuple(_not_tested(readings, seen)),
        carries=code != "nothing_told",
        basis="vehicle" if code != "nothing_told" else "",
    )
    lead = f"{seen.recovered.shown} recovered." if seen.recovered else ""
    return Meaning(
        outcome,
        lead,
        _strip(seen),
        _band(seen),
        tuple(_notes(seen, code)),
        () if seen.recovered and seen.gas in NOT_JUDGED else _ONWARD[code],
        tuple(_values(seen)),
    )


RECOVERED_SHARE = Kind(
    name="recovered_share",
    title="Recovered grams against the label",
    question="How much refrigerant came out?",
    version=1,
    minutes=30,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("gauges on", "machine on"),
    cautions=(
        KEY_AWAY,
        EYES_AND_HANDS,
        NO_FLAME,
        NO_VENTING,
        "Cylinder upright, secured, below 52 °C, never above 80 % full.",
        LOCAL,
    ),
    orders=(*OWN_HOSES, "leak_search_first"),
    remarks=(HV_HOSES, MORE_BRANCHES),
    works_out=(
        WorkedOut("recovered", "Recovered", "same", ("recovered",), "oz"),
        WorkedOut("temperature", "Bay", "same", ("temperature",), "°F"),
    ),
)
