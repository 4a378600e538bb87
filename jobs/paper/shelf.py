"""Where records' files lie, and whether they are still what was frozen."""

from jobs.models.records import Record
from jobs.paper.frozen import sha256
from jobs.photos import place, store

FOLDER, ENDING = "records", ".pdf"


class NotAsFrozen(RuntimeError):
    """The file or the data of an issue is not what was frozen; the sentence says how."""


def put_away(pdf: bytes) -> str:
    """Write a record's file under its own SHA-256 (returned), all of it or nothing."""
    return store(FOLDER, pdf, ENDING)


def file_of(record: Record) -> bytes:
    """The file of an issue, byte for byte as it was frozen.

    Raises:
        NotAsFrozen: it is gone, cannot be read, or has other bytes.

    """
    name = f"The file of record {record.job.number}, issue {record.issue},"
    try:
        pdf = place(FOLDER, record.pdf_sha256, ENDING).read_bytes()
    except FileNotFoundError:
        raise NotAsFrozen(f"{name} is not on the shop server’s disk any more. {BRING}") from None
    except OSError as trouble:
        raise NotAsFrozen(f"{name} cannot be read: {trouble.strerror}. {BRING}") from None
    if sha256(pdf) != record.pdf_sha256:
        raise NotAsFrozen(f"{name} is damaged: its bytes are not those that were frozen. {BRING}")
    return pdf


def data_is_as_frozen(record: Record) -> bool:
    """Whether the frozen data still has the hash it was frozen with."""
    return sha256(record.data) == record.data_sha256


BRING = "Bring it back from a backup, or from the copy that was handed over."
