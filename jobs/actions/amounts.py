"""Booking what moved, and taking it back: sums only ever come of moves."""

from collections.abc import Iterable, Sequence
from uuid import UUID

from jobs.models import Cylinder, Entry, Job, Move
from jobs.told import Moved


def book(entry: Entry, job: Job | None, moved: Iterable[Moved]) -> list[Move]:
    """Write the moves that an entry tells of, at the moment when it happened.

    Raises:
        Cylinder.DoesNotExist: a move names one that is not here; the form has to ask before.

    """
    return [
        Move.objects.create(
            entry=entry,
            number=number,
            job=job,
            substance=one.substance,
            gas=one.gas,
            amount=one.amount,
            from_place=one.from_place,
            from_cylinder=cylinder(one.from_cylinder),
            to_place=one.to_place,
            to_cylinder=cylinder(one.to_cylinder),
            happened_at=entry.happened_at,
        )
        for number, one in enumerate(moved)
        if one.amount
    ]


def cylinder(key: UUID | None) -> Cylinder | None:
    """The cylinder of a key; None: the place is none."""
    return Cylinder.objects.get(key=key) if key else None


def let_last_count(family: Sequence[Entry], by: Entry) -> None:
    """Of entries that correct one another, in their order, only the last one's moves count.

    Those of the others are undone by `by`. Where the last one's were undone before, because what it
    corrects came later, they are booked once more.
    """
    *others, last = family
    for one in others:
        undo(one, by)
    own = Move.objects.filter(entry=last, undoes=None)
    if own.exists() and not own.filter(undone_by=None).exists():
        for move in {one.number: one for one in own}.values():
            again(move)


def undo(entry: Entry, by: Entry) -> None:
    """Take back what an entry moved, as far as it stands, at its own moment."""
    for move in Move.objects.filter(entry=entry, undoes=None, undone_by=None):
        turned(move, by).save()


def turned(move: Move, by: Entry) -> Move:
    """The same the other way."""
    return Move(
        entry=by,
        number=move.number,
        job=move.job,
        substance=move.substance,
        gas=move.gas,
        amount=move.amount,
        from_place=move.to_place,
        from_cylinder=move.to_cylinder,
        to_place=move.from_place,
        to_cylinder=move.from_cylinder,
        happened_at=move.happened_at,
        undoes=move,
    )


def again(move: Move) -> None:
    """Book a move that was undone once more."""
    move.pk, move.undoes = None, None
    move._state.adding = True  # noqa: SLF001  a copy of the row
    move.save()
