"""What a record's data hold of parts, and of before and after under like conditions."""

from typing import Literal, TypedDict

from jobs.paper.frozen_shared import Times


class LoopPart(TypedDict):
    """A part of the loop with what became of it; `code` is empty where nothing is told.

    `change` is the key of the change that replaced or flushed it, null: none did.
    """

    part: str
    branch: str
    name: str
    text: str
    code: str
    change: str | None


class TakenOut(Times):
    """Where the old part of a change went; `change` is its key, `code` that of the place."""

    change: str
    code: str
    went: str
    core_units: int | None
    currency: str
    by: str
    author: str


class OldParts(Times):
    """What the customer chose for the old parts, by code and in words."""

    choice: str
    text: str
    by: str
    author: str
    entry: str


class TwinRow(TypedDict):
    """A reading both times, as text and in SI; `apart` is empty where it was not worked out."""

    field: str
    name: str
    then: str
    now: str
    apart: str
    then_si: float | None
    now_si: float | None


class Condition(TypedDict):
    """A condition both times; `why` says why it is not alike, empty: it is."""

    field: str
    name: str
    then: str
    now: str
    why: str


class Twin(TypedDict):
    """One test on the car as it came and again on the car as it is.

    `now_step` null: it was not made again, `why` says why. `compared`: all its conditions were
    alike.
    """

    kind: str
    name: str
    then_step: int
    then_state: int
    now_step: int | None
    now_state: int | None
    rows: list[TwinRow]
    conditions: list[Condition]
    compared: bool
    why: str


class ToShow(TypedDict):
    """One thing that a repair has to show, how it stands, and by which step or why not."""

    text: str
    stands: Literal["shown", "not_compared", "in_part", "not_fine", "could_not", "not_yet"]
    words: str
    because: str
    step: int | None


class Numbers(TypedDict):
    """The two numbers of page 1, read under like conditions; in SI too.

    `beyond`: they differ by more than the instruments may be off together.
    """

    name: str
    then: str
    now: str
    apart: str
    beyond: bool
    then_si: float
    now_si: float
    steps: list[int]
    states: list[int]
    conditions: list[Condition]


class Verification(TypedDict):
    """Before and after. `numbers` null: no pair compares, `why` says why.

    `several` says that more than one thing was changed between; `cold` that the air was too cold
    to show something.
    """

    numbers: Numbers | None
    why: str
    several: str
    cold: str
    twins: list[Twin]
    to_show: list[ToShow]
