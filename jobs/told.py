"""What forms say, in the shape in which actions write it. Neither of the two imports the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Required, TypedDict
from uuid import UUID

NOT_KNOWN = object()  # instead of a value: what stood there was wrong and is taken out


class Mark(TypedDict, total=False):
    """What is odd about an entry, as data; jobs.models.marks says it in words.

    `code` says what, `field` about which field or column. `figures` are numbers and codes that its
    words need. `stood` and `told` are {column: value}, and nothing that a person typed stands
    anywhere else in it. `teller` is the key of the entry that told what stands, `job` that of a job
    which was here before, `person` that of somebody named in it.
    """

    code: Required[str]
    field: str
    figures: Mapping[str, int | str]
    stood: Mapping[str, Any]
    told: Mapping[str, Any]
    teller: str | None
    job: str
    person: str


@dataclass(frozen=True)
class Agreed:
    """One time that somebody was asked to agree: names as the columns of Consent.

    Money counts the currency's smallest unit. `text` is the exact text of a consent to find the
    fault; of another it is made of what is told, with the wording `wording`. `estimate` and
    `named` are keys, `chosen` says what becomes of the old parts (empty: not asked).
    """

    amount: int | None
    currency: str
    given_by: str
    how: str
    text: str
    about: str = "find_fault"
    outcome: str = "agreed"
    estimate: UUID | None = None
    work: str = ""
    added: int | None = None
    before: int | None = None
    giver: str = ""
    named: UUID | None = None
    number_called: str = ""
    tries: Sequence[datetime] = ()
    strokes: Sequence[Sequence[int]] = ()
    signed_name: str = ""
    wording: str = ""
    chosen: str = ""
    marks: Sequence[Mark] = ()


@dataclass(frozen=True)
class Showing:
    """How a form shows rows that are here: by it an entry is held against what has changed since.

    `now` is {field: value} as the rows stand, `named` {column: field} where the names differ,
    `together` {field: fields that are one answer with it}, such as a number and its unit.
    """

    now: Mapping[str, Any]
    named: Mapping[str, str]
    together: Mapping[str, Sequence[str]]


@dataclass(frozen=True)
class Before:
    """What was said of an earlier visit of the car: its job's key, and a code of jobs.BEFORE."""

    job: UUID | None = None
    told: str = ""


@dataclass(frozen=True)
class Intake:
    """What an intake says, by row: {column: value}; and what is odd about it.

    By `showing` one that corrects another is held against it.
    """

    customer: Mapping[str, Any]
    car: Mapping[str, Any]
    system: Mapping[str, Any]
    job: Mapping[str, Any]
    consent: Agreed | None
    showing: Showing
    before: Before
    marks: Sequence[Mark]


@dataclass(frozen=True)
class Merged:
    """Two rows that are one: "customer" or "vehicle", and the keys."""

    about: str
    stays: UUID
    goes: UUID


@dataclass(frozen=True)
class Changed:
    """A change on the car as told: names as the columns of Change."""

    what: str
    part: str
    branch: str
    also: Sequence[Mapping[str, str]]
    source: str
    serial: str
    part_number: str
    seller: str
    proof: str
    old_serial: str
    old_part_number: str
    flushed_how: str
    gap_um: Sequence[int]
    where: str
    corrected_why: str
    marks: Sequence[Mark]


@dataclass(frozen=True)
class TakenOutTold:
    """Where an old part went: names as the columns of TakenOut."""

    change_key: UUID
    went: str
    core_minor: int | None
    currency: str
    note: str


@dataclass(frozen=True)
class LoopSeen:
    """What was told of one part of the loop: names as the columns of LoopTold."""

    part: str
    branch: str
    told: str
    note: str


@dataclass(frozen=True)
class Waited:
    """What a car waits for as told: names as the columns of Waiting.

    `person` is a key; `minutes` count from when it happened.
    """

    what: str
    words: str = ""
    person: str = ""
    minutes: int | None = None
    until: datetime | None = None
    due_on: date | None = None


@dataclass(frozen=True)
class HandedOver:
    """A hand-over note as told: names as the columns of Handover, `to` by the person's key."""

    to: UUID | None
    to_name: str
    stands: Sequence[str]
    next_test: str
    next_words: str
    said: str


@dataclass(frozen=True)
class Filed:
    """Where a photo is filed: codes of a place and of what it is of, words, a step's key."""

    place: str
    about: str
    note: str
    personal: bool
    step_key: UUID | None


@dataclass(frozen=True)
class PricedTold:
    """Lines and what they come to; names and shapes as the columns of Priced."""

    currency: str
    lines: Sequence[dict[str, Any]]
    taxes: Sequence[dict[str, Any]]
    tax_rounding: str
    tax_halves: str
    subtotal: int | None
    tax: int | None
    total: int | None
    note: str


@dataclass(frozen=True)
class Proposed:
    """Lines to begin an estimate with, where they come from, and the decision's key."""

    lines: Sequence[dict[str, Any]]
    words: str
    plan: str = ""
    decision: UUID | None = None


@dataclass(frozen=True)
class Moved:
    """One move as told: codes of places, cylinders by their keys, whole mg or µL."""

    substance: str
    amount: int
    from_place: str
    to_place: str
    gas: str = ""
    from_cylinder: UUID | None = None
    to_cylinder: UUID | None = None


SETTLED = "settled"  # a field: names of conflicts where what stands is right
WAS = "was_"  # before a field's name: its value as shown when the form was opened


def as_key(told: object) -> UUID | None:
    """The key that a text is; None: it is none."""
    try:
        return UUID(str(told))
    except ValueError:
        return None


def one_line(text: str) -> str:
    """Text on one line: runs of blanks, line ends and control characters become one blank."""
    seen = "".join(letter if letter.isprintable() else " " for letter in text)
    return " ".join(seen.split())


def one_text(value: Any) -> str:
    """A field's value, or its texts in an entry, as one text; several taps in one order."""
    if isinstance(value, list | tuple):
        return ",".join(sorted(str(one).strip() for one in value if str(one).strip()))
    return "" if value is None else str(value).strip()
