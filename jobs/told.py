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
