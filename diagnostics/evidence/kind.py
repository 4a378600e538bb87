"""A kind of test step: one frozen description from which form, tablet, record and finding come.

A new kind is one file in `kinds/` that ends in one `Kind`, and one line in `catalogue.py`.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from typing import Any

from diagnostics.evidence.bears import NOTHING, Bears, bears
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import (
    Answer,
    Choice,
    Field,
    Number,
    Text,
    When,
    all_hold,
    shown_reading,
)
from diagnostics.evidence.findings import FAILING_NOTES, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.in_units import meaning_in, told_in
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.orders import ORDERS, Made, Order, not_kept
from diagnostics.evidence.problems import (
    AtOdds,
    FieldGate,
    Problem,
    Stops,
    field_problems,
    gate_problems,
    joint_problems,
    none_at_odds,
    nothing_to_stop,
    usable,
)
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.system import System, SystemRule, first_that_holds
from diagnostics.evidence.worked_out import WorkedOut, worked_out

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
        if isinstance(value, Number | Choice | Text):
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
    """The first button of the form: sets taps, never numbers.

    `rest`: it sets only what was not answered before, as in "rest fine".
    """

    words: str
    second_line: str
    taps: Mapping[str, str]
    rest: bool = False


@dataclass(frozen=True)
class Kind:
    """`read` turns readings that can be used, and what they are read against, into their meaning.

    `about` is the part of the job it belongs to, one of catalogue.GROUPS. `setup` names what it
    needs standing, `orders` what must come first (orders.py); with `orders_for`, where only some
    readings need that, it is broken only by one of those fields or answers. `waits` is False where
    it is offered all the same, as most of it needs nothing of that. `by_hoses` names the fields
    read through the shop's own hoses, where the rest needs none: only they break what is about
    these. `at_odds` finds what cannot be true together; what `stops` says stands even then.
    """

    name: str
    title: str
    question: str
    version: int
    minutes: int
    fields: tuple[Field, ...]
    outcomes: tuple[OutcomeWords, ...]
    read: Callable[[Readings, Circumstances], Meaning] = field(compare=False)  # code, not data
    about: str = ""
    setup: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    gates: tuple[FieldGate, ...] = ()
    orders: tuple[str, ...] = ()
    orders_for: tuple[str | When, ...] = ()
    waits: bool = True
    by_hoses: tuple[str, ...] = ()
    at_odds: AtOdds = field(default=none_at_odds, compare=False)
    stops: Stops = field(default=nothing_to_stop, compare=False)
    bars: tuple[SystemRule, ...] = ()  # where it must not be offered, and why
    asks_first: tuple[SystemRule, ...] = ()  # where it may be, once something is made sure
    remarks: tuple[SystemRule, ...] = ()  # what to mind on such a system
    works_out: tuple[WorkedOut, ...] = ()
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

    def not_kept(self, made: Iterable[Made], system: System) -> tuple[Order, ...]:
        """The orders that are still open before this step is offered, after what was made."""
        return not_kept(self.orders, made, system) if self.waits else ()

    def orders_broken(
        self, readings: Readings, made: Iterable[Made], system: System
    ) -> tuple[Order, ...]:
        """The orders that what was read went against, after what was made."""
        needed = (
            all_hold((one,), readings) if isinstance(one, When) else one in readings
            for one in self.orders_for
        )
        if self.orders_for and not any(needed):
            return ()
        hoses = not self.by_hoses or any(name in readings for name in self.by_hoses)
        still_open = not_kept(self.orders, made, system)
        return tuple(order for order in still_open if hoses or not order.hoses)

    def bears(self, readings: Readings, system: System) -> Bears:
        """The orders that what was read opens and shuts, whatever is made of it; none if barred."""
        if self.forbids(system):
            return NOTHING
        return bears(self.name, usable(self.fields, readings, system), system)

    def forbids(self, system: System) -> str | None:
        """Why this step is not offered on such a system, or None."""
        return first_that_holds(self.bars, system)

    def asks(self, system: System) -> str | None:
        """What has to be made sure before this step is opened, or None."""
        return first_that_holds(self.asks_first, system)

    def not_sure(self, system: System) -> str:
        """What nobody noted of the system yet and has to be looked at before it; empty: nothing."""
        unknown = (rule for rule in self.asks_first if ("",) in rule.when.values())
        return first_that_holds(tuple(unknown), system) or ""

    def remarks_for(self, system: System) -> tuple[str, ...]:
        """What to mind on such a system."""
        return tuple(rule.sentence for rule in self.remarks if rule.holds(system))

    def problems(
        self, readings: Readings, around: Circumstances, kept: Mapping[str, str] | None = None
    ) -> dict[str, list[Problem]]:
        """Everything that is odd or against an order, all at once, by field.

        `kept` holds the reasons typed for values that were kept: those are marked and ask no more.
        """
        reasons = kept or {}
        single = tuple(field_problems(self.fields, readings, around.system, reasons))
        used = usable(self.fields, readings, around.system)
        joint = joint_problems(self.at_odds, used, around, reasons)
        found: dict[str, list[Problem]] = {}
        for problem in (*single, *joint, *gate_problems(self.gates, readings)):
            said = told_in(problem, around.units)
            found.setdefault(problem.field, []).append(said)
        return found

    def meaning(self, readings: Readings, around: Circumstances) -> Meaning:
        """What the readings show, told in the units of the shop."""
        return meaning_in(self.meaning_of(readings, around), around.units, readings)

    def meaning_of(self, readings: Readings, around: Circumstances) -> Meaning:
        """What the readings show; those that cannot be are left out, and it says so.

        What was read where the step is barred, and readings that cannot be true together, are held
        back from the kind, and so are normal results of a car that was not failing from bearing on
        anything.
        """
        barred = self.forbids(around.system)
        if barred:
            return self.nothing("This step says nothing here.", barred)
        used = usable(self.fields, readings, around.system)
        at_odds = tuple(sentence for _name, sentence in self.at_odds(used, around))
        if at_odds:
            return self.nothing("Nothing is made of it.", *at_odds, *self.stops(used, around))
        meaning = self.read(used, around)
        sets_aside = around.failing in FAILING_NOTES and self.name not in LASTING
        if sets_aside and self.is_normal(meaning.outcome.code):
            meaning = replace(meaning, outcome=replace(meaning.outcome, carries=False))
        left_out = tuple(
            _left_out(asked, readings[asked.name])
            for asked in self.fields
            if asked.name in readings and used.get(asked.name) != readings[asked.name]
        )
        works_out = tuple(
            replace(one, unit=around.units.beside(one.unit)) for one in self.works_out
        )
        live = (replace(one, live=True) for one in worked_out(works_out, used, around))
        values = (*live, *meaning.values)
        notes = (*left_out, *meaning.notes)
        return replace(meaning, notes=notes, values=values, taken=used)

    def nothing(self, sentence: str, *why: str) -> Meaning:
        """What is said of readings that are not judged: nothing, and why."""
        code = next(one.code for one in self.outcomes if not one.carries)
        missing = (f"{self.title}: not told by this step.",)
        return Meaning(Outcome(code, sentence, (), missing, carries=False), notes=why)

    def is_normal(self, code: str) -> bool:
        """Whether nothing wrong was seen."""
        return any(one.normal for one in self.outcomes if one.code == code)

    def as_json(self) -> dict[str, Any]:
        """The whole description as plain data, for a form page and for a tablet."""
        plain = {one.name: as_plain(getattr(self, one.name)) for one in fields(self) if one.compare}
        return plain | {"orders": [as_plain(ORDERS[code]) for code in self.orders]}
