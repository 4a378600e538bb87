"""What a record's data hold of people's qualifications and of the shop's instruments."""

from typing import TypedDict


class Card(TypedDict):
    """One qualification of somebody, as entered; `text` says it in words, as of the issue's day.

    Days are ISO 8601; `valid_to` null: no end date stands on it.
    """

    key: str
    kind: str
    text: str
    number: str
    issuer: str
    valid_from: str
    valid_to: str | None


class Human(TypedDict):
    """Who did what, with which qualifications, and the numbers of the steps they made.

    `qualification` has the words of `qualifications`: those that held in the job's time.
    """

    name: str
    author: str
    did: str
    steps: list[int]
    qualification: str
    qualifications: list[Card]


class ReadWith(TypedDict):
    """The instrument with which a quantity was read in one step; `text` as of the step's day."""

    quantity: str
    name: str
    instrument: str
    text: str


class Accuracy(TypedDict):
    """How far an instrument may be off in one quantity, as its maker states it.

    A share of the reading and a fixed part in `si_unit`; null: not noted.
    """

    quantity: str
    text: str
    share: float | None
    fixed: float | None
    si_unit: str


class Instrument(TypedDict):
    """One instrument that a step of the job names.

    `check` says how it stood with its check on the day of the last of `steps`; `checked_on` and
    `until` are ISO days, null: not noted.
    """

    key: str
    name: str
    kind: str
    plate: str
    standard: str
    accuracy: list[Accuracy]
    check: str
    checked_on: str | None
    until: str | None
    steps: list[int]


class Equipment(TypedDict):
    """What was measured with, and the numbers of steps with readings that name no instrument.

    `text` says of the latter, and that findings rest on usual accuracies.
    """

    instruments: list[Instrument]
    not_named: list[int]
    text: str
