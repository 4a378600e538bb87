"""A kind's readings and what they mean, as the paper shows them: text beside the machine value."""

from dataclasses import dataclass
from decimal import Decimal

from diagnostics.evidence.fields import Choice, Field, Number
from diagnostics.evidence.findings import Mark, Meaning
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.physics.units import NO_BREAK, SI, UNITS, from_si, shown, with_unit
from diagnostics.record.words import STANDING_WORDS
from jobs.paper import frozen

# The unit in which a value is shown a second time.
BESIDE = {"°C": "°F"}


@dataclass(frozen=True)
class Shown:
    """What a step's readings put on the paper."""

    finding: str
    readings: list[frozen.Reading]
    bearings: list[frozen.Bearing]
    not_tested: list[str]
    limits: list[str]
    notes: list[str]


def shown_step(kind: Kind, readings: Readings, meaning: Meaning) -> Shown:
    """The paper's texts for one step of this kind."""
    told = [
        reading_of(asked, readings[asked.name]) for asked in kind.fields if asked.name in readings
    ]
    return Shown(
        finding=f"{meaning.lead} {meaning.outcome.sentence}".strip(),
        readings=told,
        bearings=[bearing_of(mark) for mark in meaning.outcome.marks],
        not_tested=list(meaning.outcome.not_tested),
        limits=limits_of(meaning),
        notes=list(meaning.notes),
    )


def reading_of(asked: Field, told: Reading | str) -> frozen.Reading:
    """One reading; a choice has its answer's words, with the code as what was typed."""
    first: frozen.Reading = {
        "name": asked.question,
        "condition": asked.condition,
        "text": "",
        "typed": "",
        "unit": "",
        "si": None,
        "si_unit": "",
    }
    if isinstance(told, str):
        words = asked.words(told) if isinstance(asked, Choice) else told
        return {**first, "text": words, "typed": told}
    return {
        **first,
        "text": number_text(told, asked.unit if isinstance(asked, Number) else told.unit),
        "typed": told.typed,
        "unit": told.unit,
        "si": told.si,
        "si_unit": SI[UNITS[told.unit].quantity],
    }


def number_text(told: Reading, unit: str) -> str:
    """A number in the unit it is asked for in, the other unit beside it.

    12.38 V as typed; 118 °F where °C is asked for: 48 °C (118 °F); 3050 mA: 3.050 A (3050 mA).
    """
    if told.unit == unit:
        other = BESIDE.get(unit)
        return f"{told.shown}{NO_BREAK}({in_unit(told, other)})" if other else told.shown
    return f"{in_unit(told, unit)}{NO_BREAK}({told.shown})"


def in_unit(told: Reading, unit: str) -> str:
    """A reading in another unit, with as many decimals as its last digit was worth."""
    finer = told.last_digit / float(UNITS[unit].factor)
    decimals = max(0, -Decimal(repr(finer)).adjusted())
    return with_unit(shown(from_si(told.si, unit), decimals), unit)


def bearing_of(mark: Mark) -> frozen.Bearing:
    """What the step says of one thing, in the customer's words."""
    return {
        "standing": mark.standing,
        "words": STANDING_WORDS[mark.standing],
        "subject": mark.subject,
        "text": mark.sentence.removeprefix("ruled out, "),
    }


def limits_of(meaning: Meaning) -> list[str]:
    """What the number was held against, and where that comes from."""
    strip = meaning.strip
    expected = with_unit(strip.expected_words, strip.unit) if strip and strip.expected else ""
    return [text for text in (expected, meaning.band) if text]
