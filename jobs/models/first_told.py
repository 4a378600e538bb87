"""Who told of a thing first that was put right later; when it was done is `Entry.done_at`."""

from collections.abc import Iterable
from typing import Any, Protocol, TypeVar

from jobs.models.entries import Entry


class Told(Protocol):
    """A row that an entry made and that another may take the place of."""

    pk: Any
    entry: Any
    superseded_by_id: Any


Row = TypeVar("Row", bound=Told)


def first_told(rows: Iterable[Row]) -> dict[Any, Entry]:
    """By each row's key in the database the entry by which it was told first, its own mostly.

    `rows` come with their entries; those that were superseded have to be among them.
    """
    listed = list(rows)
    before = {one.superseded_by_id: one for one in listed if one.superseded_by_id}
    found = {}
    for row in listed:
        first, passed = row, {row.pk}
        while (earlier := before.get(first.pk)) and earlier.pk not in passed:
            first = earlier
            passed |= {first.pk}
        found[row.pk] = first.entry
    return found
