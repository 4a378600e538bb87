"""Where records' files lie, and whether file and data are still what was frozen.

Both hashes stand twice: in the record's row, and in the result of the logbook's entry that froze
it. So a row that was changed together with its hash differs from the logbook.
"""

import json

from jobs.kept_bytes import place, store
from jobs.models.records import Record
from jobs.models.wordings import shop_day
from jobs.paper.frozen import RecordData, sha256

FOLDER, ENDING = "records", ".pdf"
BRING = "Bring it back from a backup, or from the copy that was handed over."


class NotAsFrozen(RuntimeError):
    """The file or the data of an issue is not what was frozen; the sentence says how."""


def put_away(pdf: bytes) -> str:
    """Write a record's file under its own SHA-256 (returned), all of it or nothing."""
    return store(FOLDER, pdf, ENDING)


def file_of(record: Record) -> bytes:
    """The file of an issue, byte for byte as it was frozen.

    Raises:
        NotAsFrozen: it is gone, cannot be read, has other bytes, or the row names another file.

    """
    if record.let_go_at:
        raise NotAsFrozen(gone(record))
    name = f"The file of record {record.job.number}, issue {record.issue},"
    if record.pdf_sha256 != logged(record, "pdf_sha256"):
        raise NotAsFrozen(f"{name} is not the one that the logbook has as frozen. {BRING}")
    try:
        pdf = place(FOLDER, record.pdf_sha256, ENDING).read_bytes()
    except FileNotFoundError:
        raise NotAsFrozen(f"{name} is not on the shop server’s disk any more. {BRING}") from None
    except OSError as trouble:
        raise NotAsFrozen(f"{name} cannot be read: {trouble.strerror}. {BRING}") from None
    if sha256(pdf) != record.pdf_sha256:
        raise NotAsFrozen(f"{name} is damaged: its bytes are not those that were frozen. {BRING}")
    return pdf


def data_of(record: Record) -> RecordData:
    """The data of an issue as they were frozen.

    Raises:
        NotAsFrozen: they have another hash than the row or the logbook.

    """
    if record.let_go_at:
        raise NotAsFrozen(gone(record))
    found = {sha256(record.data), record.data_sha256, logged(record, "data_sha256")}
    if len(found) > 1:
        raise NotAsFrozen(
            "The frozen data of this issue are not as they were: their hash is another. They are"
            " not shown."
        )
    data: RecordData = json.loads(record.data)
    return data


def gone(record: Record) -> str:
    """That an issue was let go, and what is left of it."""
    when = shop_day(record.let_go_at) if record.let_go_at else ""
    return (
        f"Issue {record.issue} was taken out on {when}: the customer asked to be forgotten, and the"
        f" years for which it was kept are over. Left is its hash: {record.pdf_sha256}."
    )


def logged(record: Record, name: str) -> str:
    """A hash as the entry that froze the issue has it; empty: it has none."""
    return str(record.entry.result.get(name, ""))
