"""A kind of test step: one frozen description from which form, tablet, record and finding come.

A new kind is one file in `kinds/` that ends in one `Kind`, and one line in `catalogue.py`.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from typing import Any

from diagnostics.evidence.fields import Answer, Choice, Field, Number, shown_reading
from diagnostics.evidence.findings import Meaning, Outcome, OutcomeWords
from diagnostics.evidence.problems import Gate, Problem, field_problems, gate_problems, usable
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.system import System, SystemRule, first_that_holds

NOT_DONE: tuple[Answer, ...] = (
    Answer("no_access", "No access"),
    Answer("no_tool", "No tool"),
    Answer("not_authorized", "Not authorized"),
    Answer("unsafe", "Unsafe"),
    Answer("not_qualified", "Not qualified"),
    Answer("no_time", "No time"),
)


def as_plain(value: object) -> Any:
    """Frozen descriptions as dicts, lists, texts and numbers; a field also says its type."""
    if is_dataclass(value):
        plain = {one.name: as_plain(getattr(value, one.name)) for one in fields(value)}
        if isinstance(value, Number | Choice):
            plain["type"] = type(value).__name__.lower()
        return plain
    if isinstance(value, Mapping):
        return {name: as_plain(part) for name, part in value.items()}
    if isinstance(value, tuple):
        return [as_plain(part) for part in value]
    return value


def _left_out(asked: Field, told: Reading | str) -> str:
    shown = f"{asked.question}: {shown_reading(asked, told)}, kept as"
    return (
        f"{shown} typed, not used."
        if isinstance(told, Reading)
        else (f"{shown} told, is used for nothing.")
    )


@dataclass(frozen=True)
class Fine:
    """The first button of the form: sets taps, never numbers."""

    words: str
    second_line: str
    taps: Mapping[str, str]


@dataclass(frozen=True)
class Kind:
    """`read` turns readings that can be used, and the system, into their meaning."""

    name: str
    title: str
    question: str
    version: int
    minutes: int
    fields: tuple[Field, ...]
    outcomes: tuple[OutcomeWords, ...]
    read: Callable[[Readings, System], Meaning] = field(compare=False)  # code, not data
    setup: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    gates: tuple[Gate, ...] = ()
    bars: tuple[SystemRule, ...] = ()  # where it must not be offered, and why
    asks_first: tuple[SystemRule, ...] = ()  # where it may be, once something is made sure
    remarks: tuple[SystemRule, ...] = ()  # what to mind on such a system
    fine: Fine | None = None
    not_done: tuple[Answer, ...] = NOT_DONE

    def asked(self, name: str) -> Field | None:
        """The field of that name, or None."""
        return next((one for one in self.fields if one.name == name), None)

    @property
    def numbers(self) -> tuple[Number, ...]:
        """The fields that take a number."""
        return tuple(one for one in self.fields if isinstance(one, Number))

    @property
    def choices(self) -> tuple[Choice, ...]:
        """The fields answered by a tap."""
        return tuple(one for one in self.fields if isinstance(one, Choice))

    def tells(self, readings: Readings) -> bool:
        """Whether there is more than circumstances of the test."""
        asked = (self.asked(name) for name in readings)
        return any(one is None or not one.condition for one in asked)

    def forbids(self, system: System) -> str | None:
        """Why this step is not offered on such a system, or None."""
        return first_that_holds(self.bars, system)

    def asks(self, system: System) -> str | None:
        """What has to be made sure before this step is opened, or None."""
        return first_that_holds(self.asks_first, system)

    def remarks_for(self, system: System) -> tuple[str, ...]:
        """What to mind on such a system."""
        return tuple(rule.sentence for rule in self.remarks if rule.holds(system))

    def problems(
        self, readings: Readings, system: System, kept: Mapping[str, str] | None = None
    ) -> dict[str, list[Problem]]:
        """Everything that is odd or against an order, all at once, by field.

        `kept` holds the reasons typed for values that were kept: those are marked and ask no more.
        """
        found: dict[str, list[Problem]] = {}
        for problem in (
            *field_problems(self.fields, readings, system, kept or {}),
            *gate_problems(self.gates, readings),
        ):
            found.setdefault(problem.field, []).append(problem)
        return found

    def meaning(self, readings: Readings, system: System) -> Meaning:
        """What the readings show; those that cannot be are left out, and it says so."""
        used = usable(self.fields, readings, system)
        meaning = self.read(used, system)
        left_out = tuple(
            _left_out(asked, readings[asked.name])
            for asked in self.fields
            if asked.name in readings and used.get(asked.name) != readings[asked.name]
        )
        return replace(meaning, notes=(*left_out, *meaning.notes))

    def outcome(self, readings: Readings, system: System) -> Outcome:
        """Which of the kind's outcomes the readings are."""
        return self.meaning(readings, system).outcome

    def as_json(self) -> dict[str, Any]:
        """The whole description as plain data, for a form page and for a tablet."""
        return {one.name: as_plain(getattr(self, one.name)) for one in fields(self) if one.compare}
