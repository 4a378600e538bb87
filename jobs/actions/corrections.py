"""Which of several rows stands when they correct one another.

Tablets bring corrections in any order: the last to happen stands, not the last to arrive. What was
corrected comes before what corrects it, whatever a clock says.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Protocol, TypeVar
from uuid import UUID

from jobs.models import Entry


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


def entries_in_order(entries: Iterable[Entry], entry: Entry) -> list[Entry]:
    """The same of entries, whether rows came of them or not."""
    listed = list(entries)
    kin = kin_of({one.key: one.corrects for one in listed}, entry.key)
    waiting = sorted((one for one in listed if one.key in kin), key=moment)
    placed: list[Entry] = []
    while waiting:
        behind = {one.key for one in waiting}
        free = (one for one in waiting if one.corrects not in behind - {one.key})
        following = next(free, waiting[0])  # in a ring none is free: the first to happen begins it
        waiting.remove(following)
        placed.append(following)
    return placed


def kin_of(corrects: Mapping[UUID, UUID | None], key: UUID) -> set[UUID]:
    """The keys that are tied to `key` by corrections, its own included."""
    kin = {key}
    while True:
        ties = [(one, other) for one, other in corrects.items() if other and other in corrects]
        new = {end for tie in ties if kin.intersection(tie) for end in tie}
        if new <= kin:
            return kin
        kin |= new


def moment(entry: Entry) -> tuple[Any, ...]:
    """When it happened; of one moment, the tablet's count decides, then which arrived first."""
    return entry.happened_at, -1 if entry.sequence is None else entry.sequence, entry.pk


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
