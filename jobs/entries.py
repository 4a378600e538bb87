"""The entry kinds of this room."""

from jobs.logbook import EntryKind

ENTRIES: dict[str, EntryKind] = {}
