"""What a test step asks: numbers and choices, as data that a page, a tablet and a test can read."""

import math
from dataclasses import dataclass, field
from decimal import Decimal

from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.system import System, SystemIs, is_such
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import EN_DASH, MINUS, NO_BREAK, shown, to_si

TYPE_AGAIN = "Type it again, or keep it and say why."
ANSWER_AGAIN = "Answer again, or keep it and say why."


@dataclass(frozen=True)
class When:
    """Holds when the field named has one of these answers."""

    field: str
    values: tuple[str, ...]

    def holds(self, readings: Readings) -> bool:
        """Whether it holds for these readings."""
        return (readings.get(self.field) or "") in self.values


def all_hold(conditions: tuple[When, ...], readings: Readings) -> bool:
    """Whether every condition holds; true when there is none."""
    return all(condition.holds(readings) for condition in conditions)


@dataclass(frozen=True)
class Answer:
    """One answer to a choice; offered only when every `when` holds, else `why_not` is shown.

    `on` names the systems on which it is offered, as with a question.
    """

    code: str
    words: str
    when: tuple[When, ...] = ()
    why_not: str = ""
    on: SystemIs = field(default_factory=dict)


@dataclass(frozen=True)
class Choice:
    """A question answered by a tap.

    `on` names the systems on which it is asked; one of which that is not known counts among them.
    `group` is the heading above it and those that follow. `compact`: question and answers on one
    line, for rows of alike questions.
    """

    name: str
    question: str
    hint: str
    answers: tuple[Answer, ...]
    preset: str = ""
    when: tuple[When, ...] = ()
    why_not: str = ""  # the sentence when it was answered although `when` does not hold
    condition: bool = False  # a circumstance of the test, not a finding
    on: SystemIs = field(default_factory=dict)
    group: str = ""
    compact: bool = False

    def answer(self, code: str) -> Answer | None:
        """The answer of that code, or None."""
        return next((answer for answer in self.answers if answer.code == code), None)

    def words(self, code: str) -> str:
        """The words on the button; a code that is not listed stays as it is."""
        answer = self.answer(code)
        return answer.words if answer else code


@dataclass(frozen=True)
class Span:
    """Limits in the number's own unit.

    Outside low..high the page asks; outside least..most the value cannot be, and even when it is
    kept no computation uses it.
    """

    low: float
    high: float
    least: float
    most: float
    outside: str  # "Outside what a 12 V car shows."
    impossible: str  # names the physical fault


@dataclass(frozen=True)
class SpanOn:
    """Other limits, on such a system."""

    when: SystemIs
    span: Span


@dataclass(frozen=True)
class Number:
    """A quantity to read. `unit` is the one asked for, `others` may be chosen or typed too.

    `reference` says of a pressure whether it is "gauge" or "absolute". `after` names the field
    that is filled first: on a screen with script this one shows up then. `on` and `group` as with a
    choice; `compact`: a small field beside its neighbors.
    """

    name: str
    question: str
    hint: str
    unit: str
    span: Span
    others: tuple[str, ...] = ()
    spans: tuple[SpanOn, ...] = ()  # the first that holds goes before `span`
    when: tuple[When, ...] = ()
    why_not: str = ""
    instrument: str = ""  # a key of the table of instruments' default accuracy
    condition: bool = False
    reference: str = ""
    after: str = ""
    on: SystemIs = field(default_factory=dict)
    group: str = ""
    compact: bool = False

    @property
    def units(self) -> tuple[str, ...]:
        """All units it may be typed in, the one asked for first."""
        return (self.unit, *self.others)

    def span_for(self, system: System) -> Span:
        """The limits on such a system."""
        return next((one.span for one in self.spans if is_such(one.when, system)), self.span)

    def range_words(self, system: System, units: ShownIn | None = None) -> str:
        """Such as 0–16 V, or −40 to 150 °C; in the unit the field begins with."""
        span = self.span_for(system)
        decimals = 0 if abs(span.high) >= 10 else max(map(decimals_of, (span.low, span.high)))
        low, high = shown(span.low, decimals), shown(span.high, decimals)
        if units and self.starts(units) != self.unit:
            ends = [units.in_usual(end, self.unit) for end in (span.low, span.high)]
            decimals = 0 if abs(ends[1]) >= 10 else 1 - math.floor(math.log10(abs(ends[1])))
            low, high = (shown(end, decimals if end else 0) for end in ends)
        dash = f"{NO_BREAK}to{NO_BREAK}" if low.startswith(MINUS) else EN_DASH
        return f"{low}{dash}{high}{NO_BREAK}{self.starts(units) if units else self.unit}"

    def starts(self, units: ShownIn) -> str:
        """The unit the field begins with: the shop's, where it can be typed in that."""
        return units.start(self.units)

    def is_possible(self, reading: Reading, system: System) -> bool:
        """Whether such a value can be at all."""
        span = self.span_for(system)
        return to_si(span.least, self.unit) <= reading.si <= to_si(span.most, self.unit)

    def is_plausible(self, reading: Reading, system: System) -> bool:
        """Whether it lies in what such a system shows."""
        span = self.span_for(system)
        return to_si(span.low, self.unit) <= reading.si <= to_si(span.high, self.unit)


@dataclass(frozen=True)
class Text:
    """Something written down as it is: a trouble code, a part number, a place."""

    name: str
    question: str
    hint: str
    length: int = 200
    when: tuple[When, ...] = ()
    why_not: str = ""
    condition: bool = False
    on: SystemIs = field(default_factory=dict)
    group: str = ""


Field = Number | Choice | Text


def decimals_of(edge: float) -> int:
    """How many decimals a limit was written with."""
    return max(0, -Decimal(repr(edge)).normalize().as_tuple().exponent)  # type: ignore[operator]


def shown_reading(asked: Field, told: Reading | str) -> str:
    """A reading as people read it: the digits typed and the unit, or the words of the answer."""
    if isinstance(told, Reading):
        return told.shown
    return asked.words(told) if isinstance(asked, Choice) else told
