"""What was decided on a job, as its record keeps it: the choice and what was set aside."""

from typing import Literal, TypedDict

from jobs.paper.frozen_shared import Times


class Rested(TypedDict):
    """One thing the choice rested on, as the verdict had it then, in the customer's words."""

    standing: Literal["proved", "likely", "open", "ruled_out"]
    words: str
    text: str
    steps: list[int]


class Way(TypedDict):
    """One way that was offered, at the prices of then.

    `plan` has the codes of its repairs joined by +. `amount` says its total, or that prices were
    missing; `total` is the same in smallest units, null without one. `mark` says of the cheapest
    defensible one that it is also possible, `leaves` what stays with it.
    """

    plan: str
    text: str
    amount: str
    total: int | None
    chosen: bool
    mark: str
    leaves: list[str]


class Decided(Times):
    """One decision. `who` says by whom and how it was told, `why` the reason.

    `entries` is how many entries of the job it rested on. `counts`: it is the last that stands.
    """

    plan: str
    text: str
    decider: str
    who: str
    why: str
    reasons: list[str]
    rested_on: list[Rested]
    ways: list[Way]
    entries: int
    counts: bool
    by: str
    author: str
    entry: str
