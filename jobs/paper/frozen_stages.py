"""How a job went, as its record keeps it: its end, its stages, what an owner let go."""

from typing import Literal

from jobs.paper.frozen_shared import Label, Times


class Closing(Times):
    """How the job was closed: its code, what the customer reads, what that does not say.

    `answers` is what was told with it. `odometer` is that at handing over, null: not read.
    """

    kind: str
    text: str
    sentence: str
    not_said: str
    answers: list[Label]
    odometer: int | None
    odometer_unit: str | None
    by: str
    author: str
    entry: str


class Moved(Times):
    """One stage that the job went into; `why` in words, empty where nobody was asked.

    `back`: it went to an earlier one. `closing_kind` is empty where it was not closed with it.
    """

    stage: str
    came_from: str
    back: bool
    closing_kind: str
    text: str
    why: str
    why_code: str
    by: str
    author: str
    entry: str


class Let(Times):
    """What an owner waived or overrode: `code` is the point's or the order's.

    `text` says which, `reason` why, `said` both with who and when. `counts`: the job has the point
    still, or the order is still open by it; what does not is told all the same. `what` is "waived"
    or "overridden".
    """

    what: Literal["waived", "overridden"]
    code: str
    text: str
    reason: str
    said: str
    counts: bool
    by: str
    author: str
    entry: str
