"""What a record's data holds: the shape that is frozen at issue, and its exact text and hash.

Every figure stands twice: as the text that is shown (`text`, `amount`, `when`) and as the machine
value beside it (SI readings, integers of the currency's smallest unit, ISO 8601 times). The text
is what a reader of the paper saw; the machine value is what a program may compute with.
"""

import hashlib
import json
from typing import Literal, TypedDict

SCHEMA = 1


class Label(TypedDict):
    """A fact with its name: label and one text a line."""

    label: str
    lines: list[str]


class Issue(TypedDict):
    """Which paper this is. `changed` says what changed since the issue before.

    `address` opens the job (empty: no code is printed), `zone` is that of every time in the texts.
    """

    number: str
    issue: int
    job: str
    plate: str
    at: str
    when: str
    issued_by: str
    changed: str
    address: str
    zone: str
    paper: Literal["a4", "us-letter"]


class Shop(TypedDict):
    """Who issues it."""

    name: str
    lines: list[str]


class Stands(TypedDict):
    """How the job stands, in one statement and a line under it."""

    head: str
    detail: str


class Said(TypedDict):
    """What the customer told: the exact words, and the tapped answers."""

    complaint: str
    answers: list[Label]


class CarState(TypedDict):
    """One numbered state of the car and what opened it."""

    number: int
    what: str
    at: str
    when: str


class Reading(TypedDict):
    """One reading: shown text, as typed with its unit, and SI.

    `si` is null for an answer that was tapped; `typed` is then its code. `condition` marks a
    circumstance of the test, which is printed with the method.
    """

    name: str
    condition: bool
    text: str
    typed: str
    unit: str
    si: float | None
    si_unit: str


class Bearing(TypedDict):
    """What one step says of one thing: its standing, as code and in the customer's words."""

    standing: Literal["proved", "likely", "open", "ruled_out"]
    words: str
    subject: str
    text: str


class Times(TypedDict):
    """When it happened and when it arrived at the shop server.

    `arrived` is a text only where the two differ by more than ten minutes, else empty.
    """

    at: str
    when: str
    arrived_at: str
    arrived: str


class Step(Times):
    """One test made once.

    `conditions` are circumstances and method, `limits` what a number was held against, `source` how
    that came about, `notes` what else its reader has to know, `remark` is in the technician's own
    words, `marks` say what was odd and kept all the same.
    """

    number: int
    key: str
    kind: str
    version: int
    state: int
    failing: str
    test: str
    finding: str
    readings: list[Reading]
    bearings: list[Bearing]
    not_tested: list[str]
    conditions: list[str]
    limits: list[str]
    source: str
    notes: list[str]
    remark: str
    marks: list[str]
    by: str


class NotDone(Times):
    """A test that was begun or wanted and could not be made; `marks` as of a step."""

    number: int
    key: str
    state: int
    test: str
    why: str
    marks: list[str]
    by: str


class NotTested(TypedDict):
    """What nobody looked at, and why."""

    what: str
    why: str


class Consent(Times):
    """What the customer agreed to: the exact text with its hash."""

    number: int
    given_by: str
    how: str
    asked_by: str
    text: str
    sha256: str
    amount: str
    smallest_units: int
    currency: str


class Human(TypedDict):
    """Who did what, with which qualification."""

    name: str
    did: str
    qualification: str


class Correction(Times):
    """An entry that replaced an earlier one (both stand in the logbook), or a mark on an entry."""

    what: str
    by: str


class Photo(TypedDict):
    """One picture of the job, told by the hash of the bytes that were sent.

    `of` names the entry it came with, `step` is that step's number (null: another entry's), `why`
    says why it cannot be shown (empty: it can).
    """

    number: int
    of: str
    step: int | None
    sha256: str
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
    said: Said
    cautions: list[str]
    system: list[Label]
    states: list[CarState]
    steps: list[Step]
    not_done: list[NotDone]
    not_tested: list[NotTested]
    photos: list[Photo]
    open_points: list[str]
    consents: list[Consent]
    people: list[Human]
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
