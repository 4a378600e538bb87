"""Twins: one test made on the car as it came in, and the same test on the car as it is now.

Where the conditions were not alike, or were not told, both readings stand and no difference is
worked out (twin_rules.py has the conditions).
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from diagnostics.evidence.fields import Field, Number, shown_reading
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.system import System, can_be_such, is_such
from diagnostics.evidence.twin_rules import AROUND, LIKE, MEASURED, PARTED_BY, SPREAD, Like
from diagnostics.evidence.twin_words import apart_words, limit_words, spread, typed
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.uncertainty import COVERAGE, INSTRUMENTS, measured


@dataclass(frozen=True)
class Once:
    """A test as it was made once. `taken` are the readings that something was made of.

    `around` are the conditions told on the job in that hour, `failing_note` why a normal result
    says little.
    """

    step: int
    state: int
    came_out: str
    readings: Readings
    taken: Readings
    around: Readings = field(default_factory=dict)
    failing_note: str = ""

    def told(self, name: str) -> Reading | str | None:
        """A condition, by the test itself before what was told beside it."""
        return self.readings.get(name) or self.around.get(name) or None


@dataclass(frozen=True)
class Row:
    """A reading both times, as text and in SI; `unit` is the one in which it is asked.

    `apart` says how far they are apart, empty: not worked out. `beyond`: by more than the
    instruments may be off together.
    """

    field: str
    words: str
    then: str
    now: str
    apart: str = ""
    beyond: bool = False
    then_si: float | None = None
    now_si: float | None = None
    unit: str = ""


@dataclass(frozen=True)
class Condition:
    """A condition both times in words; "not told" where it was not. `why`: why it is not alike."""

    field: str
    words: str
    then: str
    now: str
    why: str = ""
    of: tuple[str, ...] = ()  # the readings that hang on it; empty: all

    @property
    def alike(self) -> bool:
        """Whether a difference of the readings may be worked out, as far as this goes."""
        return not self.why


@dataclass(frozen=True)
class Twin:
    """Both tests beside each other. `now` None: it was not made again, `why_not` says why."""

    kind: str
    title: str
    part: str
    then: Once
    now: Once | None
    rows: tuple[Row, ...] = ()
    conditions: tuple[Condition, ...] = ()
    why_not: str = ""

    @property
    def unlike(self) -> tuple[Condition, ...]:
        """The conditions that were not alike, or not told."""
        return tuple(one for one in self.conditions if not one.alike)

    @property
    def told_beside(self) -> tuple[Condition, ...]:
        """The conditions without those that stand among the readings already, and are alike."""
        read = {row.field for row in self.rows}
        return tuple(one for one in self.conditions if not (one.alike and one.field in read))

    @property
    def compared(self) -> bool:
        """Whether every condition was alike that a reading hangs on, so that they compare."""
        return self.now is not None and not self.unlike

    @property
    def name(self) -> str:
        """What was tested, with its branch."""
        return f"{self.title}: {self.part[:1].lower()}{self.part[1:]}" if self.part else self.title


def parts_of(kind: Kind, once: Once) -> str:
    """Which of a kind's tests it is: a branch's vent is no twin of another branch's."""
    told = once.readings.get(PARTED_BY.get(kind.name, ""), "")
    return told if isinstance(told, str) else ""


def twin(
    kind: Kind,
    first: Sequence[Once],
    last: Sequence[Once],
    system: System,
    units: ShownIn,
    why_not: str = "",
) -> Twin:
    """The twin of tests of one kind and part: the last made now, and the best of the first.

    Of several made as it came in it is the last that compares with it; where none does, the last.
    `first` is not empty; both are in the order in which they were made.
    """
    now = last[-1] if last else None
    part = part_words(kind, first[-1])
    if now is None:
        rows = rows_of(kind, first[-1], None, (), system, units)
        then = first[-1]
        told = tuple(
            Condition(one.name, words_of(one.name, kind), told_words(asked, read, units), "")
            for one in LIKE[kind.name]
            if (read := then.told(one.name)) is not None
            for asked in (kind.asked(one.name),)
        )
        return Twin(kind.name, kind.title, part, then, None, rows, told, why_not)
    found = [beside(kind, then, now, system, units, part) for then in first]
    return next((one for one in reversed(found) if one.compared), found[-1])


def beside(
    kind: Kind, then: Once, now: Once, system: System, units: ShownIn, part: str = ""
) -> Twin:
    """Two tests of a kind beside each other."""
    read = {name for name in MEASURED[kind.name] if name in then.readings or name in now.readings}
    conditions = tuple(
        condition(one, kind, then, now, units)
        for one in LIKE[kind.name]
        if bears(one, then, now, system) and (not one.of or read & set(one.of))
    )
    rows = rows_of(kind, then, now, conditions, system, units)
    return Twin(kind.name, kind.title, part, then, now, rows, conditions)


def bears(like: Like, then: Once, now: Once, system: System) -> bool:
    """Whether such a car has that condition."""
    if like.noted and not (then.told(like.name) or now.told(like.name)):
        return is_such(like.on, system)
    return can_be_such(like.on, system)


def condition(like: Like, kind: Kind, then: Once, now: Once, units: ShownIn) -> Condition:
    """One condition both times, and whether it was alike."""
    name = like.name
    read = then.told(name) or now.told(name)
    if like.instead and not read and then.told(like.instead) and now.told(like.instead):
        return condition(Like(like.instead), kind, then, now, units)
    asked = kind.asked(name)
    was, is_now = then.told(name), now.told(name)
    return Condition(
        name,
        words_of(name, kind),
        told_words(asked, was, units),
        told_words(asked, is_now, units),
        why_unlike(like, was, is_now, units),
        like.of,
    )


def words_of(name: str, kind: Kind) -> str:
    """What a condition is called."""
    asked = kind.asked(name)
    return (asked.question if asked else AROUND.get(name, name)).rstrip("?")


def why_unlike(
    like: Like, was: Reading | str | None, is_now: Reading | str | None, units: ShownIn
) -> str:
    """Why two conditions are not alike; empty: they are."""
    missing = [word for word, one in (("then", was), ("now", is_now)) if one is None]
    if missing:
        return "not told either time" if len(missing) > 1 else f"not told {missing[0]}"
    if isinstance(was, Reading) and isinstance(is_now, Reading):
        within = like.within or 0.0
        if abs(was.si - is_now.si) <= within * (1 + 1e-9):
            return ""
        return f"more than {limit_words(within, was, units)} apart (our limit)"
    if was != is_now:
        return "not the same"
    return "" if not like.only or was in like.only else "says nothing of a difference"


def told_words(asked: Field | None, told: Reading | str | None, units: ShownIn) -> str:
    """A condition in words."""
    if told is None:
        return "not told"
    if isinstance(told, Reading):
        return typed(told, units)
    return shown_reading(asked, told) if asked else told.replace("_", " ").capitalize()


def part_words(kind: Kind, once: Once) -> str:
    """The branch in words; empty for what has none."""
    asked = kind.asked(PARTED_BY.get(kind.name, ""))
    told = parts_of(kind, once)
    return shown_reading(asked, told) if asked and told else ""


def rows_of(
    kind: Kind,
    then: Once,
    now: Once | None,
    conditions: Iterable[Condition],
    system: System,
    units: ShownIn,
) -> tuple[Row, ...]:
    """What was measured, as read both times; the difference where the conditions were alike."""
    if kind.name in SPREAD:
        return tuple(spread_row(kind, then, now))
    unlike = [one for one in conditions if not one.alike]
    rows = []
    for asked in kind.numbers:
        if asked.name in MEASURED[kind.name]:
            found = row(asked, then, now, units)
            hangs = any(not one.of or asked.name in one.of for one in unlike)
            if found and now and not hangs:
                found = with_difference(found, asked, (then, now), system, units)
            rows.append(found)
    return tuple(one for one in rows if one)


def row(asked: Number, then: Once, now: Once | None, units: ShownIn) -> Row | None:
    """One reading both times as read; None where it was read neither time."""
    both = [once.readings.get(asked.name) if once else None for once in (then, now)]
    read = [one if isinstance(one, Reading) else None for one in both]
    if not any(read):
        return None
    texts = [typed(one, units) if one else "not read" for one in read]
    return Row(
        asked.name,
        asked.question.rstrip("?"),
        texts[0],
        texts[1] if now else "",
        then_si=read[0].si if read[0] else None,
        now_si=read[1].si if read[1] else None,
        unit=asked.unit,
    )


def with_difference(
    found: Row, asked: Number, both: tuple[Once, Once], system: System, units: ShownIn
) -> Row:
    """The row with how far apart both are, where each can be used."""
    read = [once.taken.get(asked.name) for once in both]
    was, now = (one if isinstance(one, Reading) else None for one in read)
    if not (was and now):
        return found
    off = COVERAGE * math.hypot(*(doubt(asked, one, system) for one in (was, now)))
    apart = apart_words(asked, was, now, off, units)
    return replace(found, apart=apart, beyond=abs(now.si - was.si) > off)


def doubt(asked: Number, one: Reading, system: System) -> float:
    """Standard uncertainty of a reading by its class of instrument; half a digit where none is."""
    name = asked.instrument
    if name.endswith("_side_gauge") and system.get("refrigerant") == "R-744":
        name = "r744_gauge"
    if name not in INSTRUMENTS:
        return one.last_digit / 2 / math.sqrt(3)
    return measured(one.si, one.last_digit, name).u


def spread_row(kind: Kind, then: Once, now: Once | None) -> Iterator[Row]:
    """Smallest and largest of several points, each time."""
    names = MEASURED[kind.name]
    texts = [
        spread([one for name in names if isinstance(one := once.readings.get(name), Reading)])
        if once
        else ""
        for once in (then, now)
    ]
    if any(texts):
        yield Row(kind.name, SPREAD[kind.name], texts[0], texts[1])
