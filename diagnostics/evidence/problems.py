"""What is odd about readings that were taken: asked about or marked, never refused."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from diagnostics.evidence.circumstances import Circumstances
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
from diagnostics.evidence.system import System, can_be_such

Code = Literal[
    "outside", "impossible", "not_asked", "not_offered", "unknown_answer", "at_odds", "gate"
]
Weight = Literal["ask", "mark"]
NOT_HERE = "Not asked on an A/C like this car’s; see there how it is noted."
OTHER_PAGE = "Typed on an older or newer page:"


@dataclass(frozen=True)
class FieldGate:
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


# What is odd about several readings together: (name of the field that asks, sentence).
AtOdds = Callable[[Readings, Circumstances], Iterator[tuple[str, str]]]


# What one reading alone asks to be stopped or left off, whatever the others say; in sentences.
Stops = Callable[[Readings, Circumstances], Iterator[str]]


def nothing_to_stop(_readings: Readings, _around: Circumstances) -> Iterator[str]:
    """Of a kind that stops nothing."""
    return iter(())


def none_at_odds(_readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    """Of a kind whose readings stand each for itself."""
    return iter(())


def _number_problem(number: Number, reading: Reading, system: System) -> tuple[Code, str] | None:
    span = number.span_for(system)
    if not number.is_possible(reading, system):
        return "impossible", span.impossible
    if not number.is_plausible(reading, system):
        return "outside", span.outside
    return None


def _choice_problem(
    choice: Choice, code: str, readings: Readings, system: System
) -> tuple[Code, str] | None:
    answer = choice.answer(code)
    if answer is None:
        return "unknown_answer", unlisted(choice.question, code)
    if not can_be_such(answer.on, system):
        return "not_offered", NOT_HERE
    if not all_hold(answer.when, readings):
        return "not_offered", answer.why_not
    return None


def unlisted(question: str, told: str) -> str:
    """The sentence about an answer that its question does not list, or does not list any more."""
    listed = f"“{told}” is not among the answers to “{question}”"
    return f"{OTHER_PAGE} {listed}; it is kept as typed and used for nothing."


def is_unlisted(asked: Field, readings: Readings) -> bool:
    """Whether a choice was answered by what it does not list."""
    told = readings.get(asked.name)
    return isinstance(asked, Choice) and bool(told) and asked.answer(str(told)) is None


def field_problem(asked: Field, readings: Readings, system: System) -> tuple[Code, str] | None:
    """The code and sentence of what is odd about one field's reading, or None."""
    told = readings.get(asked.name)
    if told is None or told == "":
        return None
    if not can_be_such(asked.on, system):
        return "not_asked", NOT_HERE
    if not all_hold(asked.when, readings):
        return "not_asked", asked.why_not
    if isinstance(asked, Number):
        return _number_problem(asked, told, system) if isinstance(told, Reading) else None
    if isinstance(asked, Choice) and isinstance(told, str):
        return _choice_problem(asked, told, readings, system)
    return None


def field_problems(
    fields: tuple[Field, ...], readings: Readings, system: System, kept: Mapping[str, str]
) -> Iterator[Problem]:
    """What is odd about single readings; `kept` holds reasons by field.

    Of an answer that is not listed nothing is asked, nor of what hangs on it: whoever typed it had
    another page before them.
    """
    of_other_page = {asked.name for asked in fields if is_unlisted(asked, readings)}
    for asked in fields:
        found = field_problem(asked, readings, system)
        if found:
            code, sentence = found
            told = {asked.name, *hangs_on(asked, readings)}
            stays = kept.get(asked.name) or told & of_other_page
            weight: Weight = "mark" if stays else "ask"
            asks = TYPE_AGAIN if isinstance(asked, Number) else ANSWER_AGAIN
            yield Problem(asked.name, code, sentence, weight, asks)


def joint_problems(
    at_odds: AtOdds, readings: Readings, around: Circumstances, kept: Mapping[str, str]
) -> Iterator[Problem]:
    """Readings that cannot be true together; the reason is given at the field named."""
    for name, sentence in at_odds(readings, around):
        weight: Weight = "mark" if kept.get(name) else "ask"
        yield Problem(name, "at_odds", sentence, weight, TYPE_AGAIN)


def hangs_on(asked: Field, readings: Readings) -> set[str]:
    """The fields whose answers decide whether this one, as answered, is asked at all."""
    told = readings.get(asked.name)
    answer = asked.answer(told) if isinstance(asked, Choice) and isinstance(told, str) else None
    return {when.field for when in (*asked.when, *(answer.when if answer else ()))}


def gate_problems(gates: tuple[FieldGate, ...], readings: Readings) -> Iterator[Problem]:
    """The orders that were broken."""
    for gate in gates:
        if gate.is_broken(readings):
            yield Problem(gate.field, "gate", gate.broken, "mark")


def usable(fields: tuple[Field, ...], readings: Readings, system: System) -> Readings:
    """The readings a computation may use.

    A value merely outside the usual is used; one that cannot be stays, marked as not used, so that
    it is not taken for one nobody read. An answer that cannot be under its condition is left out.
    """
    found: dict[str, Reading | str] = {}
    for asked in fields:
        told = readings.get(asked.name)
        code = (field_problem(asked, readings, system) or ("outside", ""))[0]
        if told is not None and code == "outside":
            found[asked.name] = told
        elif isinstance(told, Reading) and code == "impossible":
            found[asked.name] = replace(told, used=False)
    return found
