"""How the demo tells: one line an entry, and short ways to write the lines that come often."""

import uuid
from collections.abc import Mapping, Sequence

from diagnostics.evidence.catalogue import KINDS

# Keys of a demo are always the same, so one that was interrupted goes on where it stopped.
NAMES = uuid.UUID("6f0d3a52-51f3-4c0e-9f1f-3d0c2a7f8b11")
DESK, SAND, QUIST = "Noor Abanti", "R. Sand", "E. Quist"
FIRST_OWNER = "T. Okafor-Lindqvist"
Fields = Mapping[str, str | Sequence[str]]
# (name in this list, hours ago, who, entry kind, job, fields)
Line = tuple[str, float, str, str, str, Fields]
CONSENT: Fields = {
    "consent_amount": "160",
    "consent_how": "in_person",
    "consent_text": "find_fault_1",
    "payer": "customer",
}
# How most cars of the demo are built.
USUAL: Fields = {
    "drive": "belt_clutch",
    "displacement": "fixed",
    "voltage": "12",
    "switched_side": "feed",
    "refrigerant": "R-134a",
    "label_charge_source": "label",
    "branches": ["front"],
    "topped_up": "no",
    "accident": "no",
    "other_work": "no",
}


def key_of(name: str) -> uuid.UUID:
    """The key of a thing of the demo."""
    return uuid.uuid5(NAMES, name)


def taken_in(job: str, hours: float, **fields: str | Sequence[str]) -> Line:
    """A car taken in at the desk, built as most are where nothing else is told."""
    return (job, hours, DESK, "intake", job, {**USUAL, **CONSENT, **fields})


def fails(job: str, hours: float, failing: str = "yes", who: str = SAND) -> Line:
    """The job's switch: whether the trouble is there now."""
    return (f"{job} failing {failing}", hours, who, "failing_now", job, {"failing": failing})


def step(
    job: str, kind: str, hours: float, who: str = SAND, **readings: str | Sequence[str]
) -> Line:
    """A test of the version that is used now."""
    told = {"test_kind": kind, "test_version": str(KINDS[kind].version), **readings}
    return (f"{job} {kind} {hours}", hours, who, "step", job, told)


def entry(job: str, kind: str, hours: float, who: str, **fields: str | Sequence[str]) -> Line:
    """Any other entry on a job."""
    return (f"{job} {kind} {hours}", hours, who, kind, job, fields)
