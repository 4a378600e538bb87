"""The door: where it is, and every kind of entry there is, whichever room it belongs to."""

from diagnostics.entries import ENTRIES as DIAGNOSTICS
from jobs.entries import ENTRIES as JOBS
from jobs.logbook import EntryKind

ADDRESS = "/entries/"

ENTRIES: dict[str, EntryKind] = {**JOBS, **DIAGNOSTICS}
if len(ENTRIES) != len(JOBS) + len(DIAGNOSTICS):
    raise RuntimeError("Two rooms have an entry kind of the same name.")
