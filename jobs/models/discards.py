"""Entries thrown away on a tablet that had reached the shop server all the same, and stand."""

from collections.abc import Iterable, Iterator
from uuid import UUID

from jobs.models.entries import Entry

STANDS = "discarded_stands"
# The kinds that are put right by correcting the entry; of others a later one tells anew.
CORRECTED = ("change", "consent", "named", "old_part", "step")


def thrown_away(entries: Iterable[Entry]) -> Iterator[tuple[Entry, Entry]]:
    """What stands though a discard among these entries names it, and nobody put it right since.

    With the last discard that names it.

    Makes no query where no entry is marked so.
    """
    discards = [one for one in entries if any(mark["code"] == STANDS for mark in one.marks)]
    if not discards:
        return
    begun = {UUID(one.fields["discarded"][0]): one for one in discards}
    here = list(Entry.objects.filter(key__in=list(begun)))
    later = list(Entry.objects.filter(job_key__in={one.job_key for one in here}))
    for entry in here:
        if not any(puts_right(one, entry, begun[entry.key]) for one in later):
            yield entry, begun[entry.key]


def puts_right(later: Entry, entry: Entry, discard: Entry) -> bool:
    """Whether a later entry says anew what was thrown away."""
    if later.corrects == entry.key:
        return True
    same = (later.kind, later.job_key) == (entry.kind, entry.job_key)
    return same and entry.kind not in CORRECTED and later.pk > discard.pk
