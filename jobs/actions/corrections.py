"""Which of several rows stands when they correct one another.

Tablets bring corrections in any order: the last to happen stands, not the last to arrive. What was
corrected comes before what corrects it, whatever a clock says. All of them are of the moment of the
first (jobs/models/corrected.py): that is no matter of which stands.
"""

from collections.abc import Iterable, Sequence
from typing import Any, Protocol, TypeVar

from jobs.models.corrected import entries_in_order


class Correctable(Protocol):
    """A row that an entry made and that another may take the place of."""

    pk: Any
    entry: Any
    superseded_by: Any

    def save(self, *, update_fields: Iterable[str]) -> None:
        """Write some columns."""


Row = TypeVar("Row", bound=Correctable)


def in_order(rows: Sequence[Row], row: Row) -> list[Row]:
    """Those of `rows` that correct one another with `row`, each in the place of the one before.

    `row` is one of them, and all come with their entries. Who corrects what is not among them
    corrects nothing.
    """
    by_key = {one.entry.key: one for one in rows}
    entry = next(one.entry for one in rows if one.pk == row.pk)
    return [by_key[one.key] for one in entries_in_order([one.entry for one in rows], entry)]


def link(rows: Sequence[Row]) -> None:
    """Let each row be superseded by the next; the last stands."""
    next_to = zip(rows, [*rows[1:], None], strict=True)
    changed = [(row, after) for row, after in next_to if row.superseded_by != after]
    for row, _ in changed:  # first all apart: no two may stand in one's place at any moment
        put(row, None)
    for row, after in changed:
        put(row, after)


def put(row: Row, after: Row | None) -> None:
    """Name what stands in a row's place."""
    row.superseded_by = after
    row.save(update_fields=["superseded_by"])
