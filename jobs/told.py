"""What forms say, in the shape in which actions write it. Neither of the two imports the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

NOT_KNOWN = object()  # instead of a value: what stood there was wrong and is taken out


@dataclass(frozen=True)
class Agreed:
    """A consent as told. `amount` counts the currency's smallest unit."""

    amount: int
    currency: str
    given_by: str
    how: str
    text: str


@dataclass(frozen=True)
class Intake:
    """What an intake says, by row: {column: value}; and what is odd about it, in sentences."""

    customer: Mapping[str, Any]
    car: Mapping[str, Any]
    system: Mapping[str, Any]
    job: Mapping[str, Any]
    consent: Agreed | None
    marks: Sequence[str]


@dataclass(frozen=True)
class Changed:
    """A change on the car as told: names as the columns of Change."""

    what: str
    part: str
    source: str
    serial: str
    part_number: str
    where: str
    marks: Sequence[str]


WAS = "was_"  # before a field's name: its value as shown when the form was opened


@dataclass(frozen=True)
class Showing:
    """How a form shows rows that are here: by it an entry is held against what has changed since.

    `now` is {field: value} as the rows stand, `named` {column: field} where the names differ,
    `together` {field: fields that are one answer with it}, such as a number and its unit.
    """

    now: Mapping[str, Any]
    named: Mapping[str, str]
    together: Mapping[str, Sequence[str]]


def one_text(value: Any) -> str:
    """A field's value, or its texts in an entry, as one text; several taps in one order."""
    if isinstance(value, list | tuple):
        return ",".join(sorted(str(one).strip() for one in value if str(one).strip()))
    return "" if value is None else str(value).strip()
