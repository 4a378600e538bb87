"""What forms say, in the shape in which actions write it. Neither of the two imports the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from jobs.models import Equipment
from jobs.told import Mark


@dataclass(frozen=True)
class ToldStep:
    """What a step's form says: names as the columns of Step; `named` by quantity."""

    kind: str
    kind_version: int
    readings: Mapping[str, Any]
    kept: Mapping[str, str]
    marks: list[dict[str, str]]
    seen: str
    not_done: str
    not_done_words: str
    corrected_why: str = ""
    named: Mapping[str, Equipment] = field(default_factory=dict)


@dataclass(frozen=True)
class Asked:
    """What the issuer asks for, having seen so many entries of the job."""

    issue: int
    entries: int
    changed: str
    address: str


@dataclass(frozen=True)
class Moved:
    """To which stage a job is moved, and from which: it rests on that one. `why` is a code."""

    to: str
    came_from: str
    why: str
    words: str


@dataclass(frozen=True)
class Closed:
    """How a job is closed, and from which stage: it rests on that one."""

    kind: str
    came_from: str
    answers: Mapping[str, Any]
    marks: Sequence[Mark]


@dataclass(frozen=True)
class PricesTold:
    """Prices, hours and terms as typed: by field what is new, None: taken back."""

    currency: str
    values: Mapping[str, Any]


@dataclass(frozen=True)
class Decided:
    """Which way to repair was chosen. `plan` has codes joined by +, or OTHER_WAY with `words`."""

    plan: str
    words: str
    decided_by: str
    told_how: str
    reasons: Sequence[str]
    why: str
    page_saw: int | None
    corrected_why: str = ""


@dataclass(frozen=True)
class Seen:
    """Caps and service label as seen after the work: the columns of Verified."""

    columns: Mapping[str, Any]
    corrected_why: str
    marks: Sequence[Mark]
