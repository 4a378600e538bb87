"""Any kind of test, tried with readings as a technician would type and tap them."""

from dataclasses import dataclass

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Field, Number
from diagnostics.evidence.findings import Meaning
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Reading, parse
from diagnostics.evidence.system import System, can_be_such


def words_of(result: Meaning) -> list[str]:
    """Every text of a meaning that a person reads."""
    outcome = result.outcome
    marks = [text for mark in outcome.marks for text in (mark.subject, mark.sentence)]
    values = [text for value in result.values for text in (value.words, value.shown)]
    drawn = [result.plot.words, result.plot.caption] if result.plot else []
    told = [result.lead, outcome.sentence, result.band, *marks, *outcome.not_tested]
    return [text for text in (*told, *result.notes, *result.onward, *values, *drawn) if text]


def asked_on(kind: Kind, system: System) -> dict[str, Field]:
    """The fields that such a system asks for, by name."""
    return {one.name: one for one in kind.fields if can_be_such(one.on, system)}


def is_elsewhere(asked: Field, told: object, system: System) -> bool:
    """Whether it is an answer that such a system does not offer."""
    answer = asked.answer(str(told)) if isinstance(asked, Choice) else None
    return answer is not None and not can_be_such(answer.on, system)


def fine_on(kind: Kind, system: System) -> dict[str, str]:
    """What the button for fine sets on such a system's page; nothing without such a button."""
    asked = asked_on(kind, system)
    taps = kind.fine.taps if kind.fine else {}
    return {name: code for name, code in taps.items() if name in asked}


@dataclass(frozen=True)
class Trial:
    """A kind by name, with what its readings mean."""

    name: str

    @property
    def kind(self) -> Kind:
        """The kind as the catalogue has it."""
        return KINDS[self.name]

    @property
    def fine(self) -> dict[str, str]:
        """The taps that its button for "fine" sets."""
        return dict(self.kind.fine.taps) if self.kind.fine else {}

    def readings(self, **typed: str) -> dict[str, Reading | str]:
        """Each text read as the form reads it; presets stand where nothing is typed."""
        read: dict[str, Reading | str] = {
            one.name: one.preset for one in self.kind.choices if one.preset
        }
        for name, text in typed.items():
            asked = self.kind.asked(name)
            assert asked is not None, name
            read[name] = text
            if text and isinstance(asked, Number):
                read[name] = parse(text, asked.units, asked.unit)
        return {name: told for name, told in read.items() if told != ""}

    def meaning(self, system: System | None = None, /, failing: str = "", **typed: str) -> Meaning:
        """What the readings show on such a system."""
        around = Circumstances(system or {}, failing)
        return self.kind.meaning(self.readings(**typed), around)

    def code(self, system: System | None = None, /, **typed: str) -> str:
        """The outcome's code."""
        return self.meaning(system, **typed).outcome.code

    def words(self, system: System | None = None, /, **typed: str) -> str:
        """All that is said, in one text."""
        return " ".join(words_of(self.meaning(system, **typed)))

    def asks(self, system: System | None = None, /, **typed: str) -> dict[str, list[str]]:
        """The sentences of what is odd, by field."""
        found = self.kind.problems(self.readings(**typed), Circumstances(system or {}))
        return {name: [one.sentence for one in problems] for name, problems in found.items()}


def standing(result: Meaning, words: str) -> str:
    """The standing of the mark whose subject starts with these words."""
    found = [mark.standing for mark in result.outcome.marks if mark.subject.startswith(words)]
    assert len(found) == 1, result.outcome.marks
    return found[0]


def subjects(result: Meaning, *standings: str) -> list[str]:
    """The subjects of the marks that stand so."""
    return [mark.subject for mark in result.outcome.marks if mark.standing in standings]
