"""Writing that an entry was thrown away on a tablet."""

from django.core.exceptions import ValidationError

from jobs.models import Entry
from jobs.models.discards import STANDS


def throw_away(entry: Entry, discarded: str) -> None:
    """Mark it where what was thrown away had reached the shop server all the same.

    The server may have gone down between taking an entry and answering for it: then the tablet
    knows nothing of that, and somebody threw away what stands.
    """
    try:
        here = Entry.objects.filter(key=discarded).exists() if discarded else False
    except ValidationError:  # no key at all
        return
    if here:
        entry.marks = [*entry.marks, {"code": STANDS}]
