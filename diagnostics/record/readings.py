"""A kind's readings and what they mean, as the paper shows them: text beside the machine value."""

from dataclasses import dataclass
from decimal import Decimal

from diagnostics.evidence.fields import Choice, Field, Number
from diagnostics.evidence.findings import Mark, Meaning, Value
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import EN_DASH, NO_BREAK, SI, UNITS, from_si, shown, with_unit
from diagnostics.record.drawing import drawing_of
from diagnostics.record.words import STANDING_WORDS, in_parts
from jobs.paper import frozen
from jobs.paper.frozen_drawing import Drawing

# The unit in which a value is shown a second time, where the shop has no other.
BESIDE = {"°C": "°F"}
USUAL = ShownIn()


@dataclass(frozen=True)
class Shown:
    """What the meaning of a step puts on the paper."""

    outcome: frozen.Outcome | None
    worked_out: list[frozen.Worked]
    drawing: Drawing | None
    bearings: list[frozen.Bearing]
    not_tested: list[str]
    limits: list[frozen.Limit]
    source: str
    notes: list[str]


def shown_meaning(meaning: Meaning | None, *, normal: bool = False) -> Shown:
    """The paper's texts for what a step means; nothing where no meaning is known.

    Shares are said in parts: no percent sign stands on the paper, so that none is read as a chance.
    A band is no number that was worked out; what a number was held against stands as such.
    `normal`: nothing wrong was seen.
    """
    if meaning is None:
        return Shown(None, [], None, [], [], [], "", [])
    came_out = meaning.outcome
    return Shown(
        outcome={
            "code": came_out.code,
            "carries": came_out.carries,
            "normal": normal,
            "basis": came_out.basis,
        },
        worked_out=[worked(one) for one in meaning.computed if EN_DASH not in one.shown],
        drawing=drawing_of(meaning.plot) if meaning.plot else None,
        bearings=[bearing_of(mark) for mark in meaning.outcome.marks],
        not_tested=list(meaning.outcome.not_tested),
        limits=limits_of(meaning),
        source=in_parts(meaning.band),
        notes=list(meaning.notes),
    )


def shown_readings(
    kind: Kind | None, readings: Readings, units: ShownIn = USUAL
) -> list[frozen.Reading]:
    """Every reading in the order of its form; one the kind does not know any more comes last."""
    fields = {asked.name: asked for asked in (kind.fields if kind else ())}
    names = [name for name in fields if name in readings]
    names += [name for name in readings if name not in fields]
    return [reading_of(name, fields.get(name), readings[name], units) for name in names]


def reading_of(
    name: str, asked: Field | None, told: Reading | str, units: ShownIn = USUAL
) -> frozen.Reading:
    """One reading; a choice has its answer's words and its code, which was what was typed."""
    reading: frozen.Reading = {
        "field": name,
        "name": asked.question if asked else name,
        "condition": bool(asked and asked.condition),
        "text": "",
        "typed": "",
        "unit": "",
        "si": None,
        "si_unit": "",
        "code": None,
    }
    if isinstance(told, str) and isinstance(asked, Choice):
        return {**reading, "text": asked.words(told), "typed": told, "code": told}
    if isinstance(told, str):
        return {**reading, "text": told, "typed": told}
    return {
        **reading,
        "text": in_parts(number_text(told, *units_of(asked, told, units))),
        "typed": told.typed,
        "unit": told.unit,
        "si": told.si,
        "si_unit": SI[UNITS[told.unit].quantity],
    }


def units_of(asked: Field | None, told: Reading, units: ShownIn) -> tuple[str, str]:
    """The unit a number is asked in by the shop's choice, and by anybody's."""
    if not isinstance(asked, Number):
        return told.unit, told.unit
    return asked.starts(units), asked.unit


def number_text(told: Reading, unit: str, usual: str = "") -> str:
    """A number in the unit the shop asks it in, and beside it as typed and in the usual unit.

    12.38 V as typed; 118 °F where °C is asked for: 48 °C (118 °F); 3050 mA: 3.050 A (3050 mA);
    66.7 psi where a shop asks for psi: 66.7 psi (460 kPa).
    """
    first = told.shown if told.unit == unit else in_unit(told, unit)
    others = [told.unit] if told.unit != unit else []
    if usual and usual not in (unit, *others):
        others.append(usual)
    if not others and unit in BESIDE:
        others.append(BESIDE[unit])
    if not others:
        return first
    said = (told.shown if other == told.unit else in_unit(told, other) for other in others)
    return f"{first}{NO_BREAK}({', '.join(said)})"


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


def limits_of(meaning: Meaning) -> list[frozen.Limit]:
    """What the number was held against."""
    strip = meaning.strip
    if not strip or not strip.expected:
        return []
    low, high = strip.expected
    text = with_unit(strip.expected_words, strip.unit)
    return [{"text": text, "low": low, "high": high, "unit": strip.unit}]


def worked(value: Value) -> frozen.Worked:
    """A number that was worked out."""
    return {
        "field": value.about,
        "name": value.words,
        "text": in_parts(value.shown),
        "si": value.si,
        "si_unit": value.si_unit,
        "u": value.u,
    }
