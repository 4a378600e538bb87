"""What is odd about readings that were taken: asked about or marked, never refused."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from diagnostics.evidence.fields import (
    ANSWER_AGAIN,
    TYPE_AGAIN,
    Choice,
    Field,
    Number,
    When,
    all_hold,
)
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.system import System

Code = Literal["outside", "impossible", "not_asked", "not_offered", "unknown_answer", "gate"]
Weight = Literal["ask", "mark"]


@dataclass(frozen=True)
class Gate:
    """An order that must not be broken: with every `when` true, `field` must be among `passes`.

    It bars what is offered; what was done all the same is recorded and marked.
    """

    code: str
    when: tuple[When, ...]
    field: str
    passes: tuple[str, ...]
    bars: str  # the sentence on the form
    broken: str  # the sentence of the open point

    def is_broken(self, readings: Readings) -> bool:
        """Whether what was done went against the order."""
        return all_hold(self.when, readings) and readings.get(self.field) not in self.passes


@dataclass(frozen=True)
class Problem:
    """Something odd about one field.

    `weight` "ask": the form asks once, with the words `asks` behind the sentence, and a reason
    turns it into a mark. "mark": recorded and shown, nothing to ask.
    """

    field: str
    code: Code
    sentence: str
    weight: Weight
    asks: str = ""


def _number_problem(number: Number, reading: Reading, system: System) -> tuple[Code, str] | None:
    span = number.span_for(system)
    if not number.is_possible(reading, system):
        return "impossible", span.impossible
    if not number.is_plausible(reading, system):
        return "outside", span.outside
    return None


def _choice_problem(choice: Choice, code: str, readings: Readings) -> tuple[Code, str] | None:
    answer = choice.answer(code)
    if answer is None:
        return "unknown_answer", "This answer is not in the list."
    if not all_hold(answer.when, readings):
        return "not_offered", answer.why_not
    return None


def field_problem(asked: Field, readings: Readings, system: System) -> tuple[Code, str] | None:
    """The code and sentence of what is odd about one field's reading, or None."""
    told = readings.get(asked.name)
    if told is None or told == "":
        return None
    if not all_hold(asked.when, readings):
        return "not_asked", asked.why_not
    if isinstance(asked, Number):
        return _number_problem(asked, told, system) if isinstance(told, Reading) else None
    return _choice_problem(asked, told, readings) if isinstance(told, str) else None


def field_problems(
    fields: tuple[Field, ...], readings: Readings, system: System, kept: Mapping[str, str]
) -> Iterator[Problem]:
    """What is odd about single readings; `kept` holds reasons by field."""
    for asked in fields:
        found = field_problem(asked, readings, system)
        if found:
            code, sentence = found
            weight: Weight = "mark" if kept.get(asked.name) else "ask"
            asks = TYPE_AGAIN if isinstance(asked, Number) else ANSWER_AGAIN
            yield Problem(asked.name, code, sentence, weight, asks)


def gate_problems(gates: tuple[Gate, ...], readings: Readings) -> Iterator[Problem]:
    """The orders that were broken."""
    for gate in gates:
        if gate.is_broken(readings):
            yield Problem(gate.field, "gate", gate.broken, "mark")


def usable(fields: tuple[Field, ...], readings: Readings, system: System) -> Readings:
    """The readings a computation may use.

    A value merely outside the usual is used; one that cannot be, or an answer that cannot be under
    its condition, is not.
    """
    return {
        asked.name: readings[asked.name]
        for asked in fields
        if asked.name in readings
        and (field_problem(asked, readings, system) or ("outside", ""))[0] == "outside"
    }
