"""What a record's data holds: the shape that is frozen at issue, and its exact text and hash.

Every sentence and figure stands twice: as the text that is shown (`text`, `lines`, `amount` or
`when`) and as the machine value beside it: codes of answers, outcomes and standings, SI readings
with the unit and digits typed, integers of milligrams and of the currency's smallest unit, the
odometer as a whole number with its unit, ISO 8601 times with their offset, keys of entries. The
text is what a reader of the paper saw; the machine value is what a program may compute with.
`schema` says which shape this is; another shape gets another number once one was released.
"""

import hashlib
import json
from typing import Literal, TypedDict

from jobs.paper.frozen_amounts import Amounts
from jobs.paper.frozen_consents import Consent as Consent  # noqa: PLC0414
from jobs.paper.frozen_customer import Concluded, Customer
from jobs.paper.frozen_decisions import Decided
from jobs.paper.frozen_drawing import Drawing
from jobs.paper.frozen_people import Equipment, Human, ReadWith
from jobs.paper.frozen_priced import Priced
from jobs.paper.frozen_repair import LoopPart, OldParts, TakenOut, Verification
from jobs.paper.frozen_shared import DoneTimes as DoneTimes  # noqa: PLC0414
from jobs.paper.frozen_shared import Label as Label  # noqa: PLC0414  named from here elsewhere
from jobs.paper.frozen_shared import Times as Times  # noqa: PLC0414
from jobs.paper.frozen_shared import Value as Value  # noqa: PLC0414
from jobs.paper.frozen_stages import Closing, Let, Moved

SCHEMA = 2


class Issue(TypedDict):
    """Which paper this is. `changed` says what changed since the issue before.

    `address` opens the job (empty: no code is printed), `zone` is that of every time in the texts,
    `author` the key of who issues it.
    """

    number: str
    issue: int
    job: str
    plate: str
    at: str
    when: str
    issued_by: str
    author: str
    role: str
    changed: str
    address: str
    zone: str
    paper: Literal["a4", "us-letter"]


class Setting(TypedDict):
    """The entry by which a part of the shop's settings stood."""

    part: str
    entry: str


class Shop(TypedDict):
    """Who issues it; `law` is the wording that the shop typed for its place, "" for none."""

    name: str
    lines: list[str]
    law: str
    settings: list[Setting]


class Loop(TypedDict):
    """What was last seen of the loop or done to it, by the code of that and when; null: nothing.

    `run` says what must not or must first be done before it is run, or is empty.
    """

    text: str
    run: str
    not_told: list[str]
    code: str
    seen_at: str | None


class Stands(TypedDict):
    """How the job stands, in one statement and a line under it, and what that line counts."""

    head: str
    detail: str
    stage: str
    tests: int
    not_done: int
    points: int
    changes: int
    loop: Loop


class Said(TypedDict):
    """What the customer told: the exact words, and the tapped answers."""

    complaint: str
    answers: list[Label]


class Reading(TypedDict):
    """One reading: shown text, as typed with its unit, and SI.

    `field` is its name in the kind. `si` is null for an answer that was tapped, `code` for a number
    and for words. `condition` marks a circumstance of the test, which is printed with the method.
    """

    field: str
    name: str
    condition: bool
    text: str
    typed: str
    unit: str
    si: float | None
    si_unit: str
    code: str | None


class Worked(TypedDict):
    """A number worked out from readings; `field` names the one under which it stands.

    `u` is its standard uncertainty in `si_unit`, null where it is not known.
    """

    field: str
    name: str
    text: str
    si: float
    si_unit: str
    u: float | None


class Limit(TypedDict):
    """What a number was held against: from `low` to `high` in `unit`."""

    text: str
    low: float
    high: float
    unit: str


class Outcome(TypedDict):
    """The code of what came out of a test.

    `carries`: it bears on a question. `normal`: nothing wrong was seen. `basis` says what a number
    was held against: "vehicle" (its own specification), "general" (what such parts show) or "".
    """

    code: str
    carries: bool
    normal: bool
    basis: str


class Kept(TypedDict):
    """Something odd that was kept all the same, with its code and the field it is about."""

    text: str
    code: str
    field: str


class Bearing(TypedDict):
    """What one step says of one thing: its standing, as code and in the customer's words."""

    standing: Literal["proved", "likely", "open", "ruled_out"]
    words: str
    subject: str
    text: str


class Change(DoneTimes):
    """What was changed on the car, as one person told it.

    `text` says it in words; `lines` are its details, each with its name: place, source, numbers.
    `values` has codes and texts by column. `counts`: it stands; false where another took its place.
    """

    text: str
    lines: list[str]
    values: dict[str, Value]
    key: str
    counts: bool
    by: str
    author: str


class CarState(TypedDict):
    """One numbered state of the car and the codes of the questions it touches.

    `told` is what opened it, with what was corrected of that; none opened the car as it came in.
    """

    number: int
    what: str
    touches: list[str]
    told: list[Change]
    entry: str
    at: str
    when: str


class Step(DoneTimes):
    """One test made once.

    `outcome` is null where no meaning is known or it was superseded (by the step of that number),
    `drawing` where there is nothing to draw.
    `failing_now` is the switch's code, empty where nobody had told. `limits` are what a number was
    held against, `source` how that came about, `notes` what else its reader has to know, `remark`
    is in the technician's own words, `marks` say what was odd and kept all the same.
    """

    number: int
    key: str
    kind: str
    version: int
    state: int
    failing: str
    failing_now: str
    test: str
    finding: str
    outcome: Outcome | None
    superseded_by: int | None
    readings: list[Reading]
    read_with: list[ReadWith]
    worked_out: list[Worked]
    drawing: Drawing | None
    bearings: list[Bearing]
    not_tested: list[str]
    limits: list[Limit]
    source: str
    notes: list[str]
    remark: str
    marks: list[Kept]
    by: str
    author: str


class NotDone(DoneTimes):
    """A test that was begun or wanted and could not be made; `marks` as of a step.

    `code` is the reason's, `readings` were taken before; `why` says both.
    """

    number: int
    key: str
    kind: str
    version: int
    state: int
    test: str
    why: str
    code: str
    superseded_by: int | None
    readings: list[Reading]
    marks: list[Kept]
    by: str
    author: str


class NotTested(TypedDict):
    """A kind of test that nobody made, and why."""

    kind: str
    what: str
    why: str


class Point(TypedDict):
    """What is open, with its code and, where it is about one, the step's number.

    `waived` says by whom it was waived, when and why; empty: it was not.
    """

    text: str
    code: str
    step: int | None
    waived: str


class Correction(Times):
    """An entry that replaced an earlier one (both stand in the logbook), or a mark on an entry.

    `code` is "replaces" (then `replaced` is the earlier one's key) or the mark's; `entry` is the
    key of the entry.
    """

    what: str
    code: str
    field: str
    entry: str
    replaced: str | None
    by: str


class Photo(TypedDict):
    """One picture of the job, told by the hash of the bytes that were sent.

    `of` names the entry it came with (`entry` is its key), `step` is the number of the step it
    tells of (null: of none), `why` says why it cannot be shown (empty: it can). `shown` is the hash
    of the picture as it is kept to be shown, empty where there is none or where it is `personal`:
    then it is not on the paper. `place` and `about` are codes, their words stand beside them; one
    that is filed at no place is told by the work it came with.
    """

    number: int
    of: str
    entry: str
    step: int | None
    sha256: str
    shown: str
    personal: bool
    place: str
    place_text: str
    about: str
    about_text: str
    why: str
    by: str
    at: str
    when: str


class RecordData(TypedDict):
    """The whole of a record's data."""

    schema: int
    record: Issue
    shop: Shop
    facts: list[Label]
    stands: Stands
    customer: Customer
    closing: Closing | None
    stages: list[Moved]
    let: list[Let]
    decisions: list[Decided]
    said: Said
    cautions: list[str]
    system: list[Label]
    states: list[CarState]
    steps: list[Step]
    opinion: list[Concluded]
    not_done: list[NotDone]
    not_tested: list[NotTested]
    photos: list[Photo]
    verification: Verification | None
    loop_parts: list[LoopPart]
    old_parts: list[TakenOut]
    old_parts_chosen: OldParts | None
    amounts: Amounts
    estimates: list[Priced]
    invoices: list[Priced]
    open_points: list[Point]
    consents: list[Consent]
    people: list[Human]
    equipment: Equipment
    corrections: list[Correction]


def exact_text(data: RecordData) -> str:
    r"""The data as the text that is frozen, attached and hashed: the same for the same data.

    JSON, keys sorted, one value a line so that a person can read it, ASCII only: everything else
    is escaped (\u00e9), so no editor, mail program or database can change it unseen.

    Raises:
        ValueError: a number is infinite or not a number.

    """
    return json.dumps(data, ensure_ascii=True, sort_keys=True, indent=1, allow_nan=False) + "\n"


def sha256(content: str | bytes) -> str:
    """SHA-256 (hex) of bytes, or of a text's UTF-8 bytes."""
    raw = content.encode() if isinstance(content, str) else content
    return hashlib.sha256(raw).hexdigest()
