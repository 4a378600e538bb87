"""Booking what moved, and taking it back: sums only ever come of moves."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from uuid import UUID

from django.db.models import Q

from jobs.models import Cylinder, CylinderWork, Entry, Job, Move
from jobs.models.amounts import CYLINDER, REFRIGERANT, STANDING
from jobs.models.cylinder_works import WENT
from jobs.models.cylinders import held_by
from jobs.told import Moved


def book(entry: Entry, job: Job | None, moved: Iterable[Moved]) -> list[Move]:
    """Write the moves that an entry tells of, at the moment when it was done.

    A corrected amount is of the day of the first: so no correction carries grams from one month
    into another, or past a weighing. What was moved was moved then; the book says by its entry who
    put it right, and when.

    Raises:
        Cylinder.DoesNotExist: a move names one that is not here; the form has to ask before.

    """
    booked = [
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
            happened_at=entry.done_at,
        )
        for number, one in enumerate(moved)
        if one.amount
    ]
    reweigh_after(booked, entry)
    return booked


def cylinder(key: UUID | None) -> Cylinder | None:
    """The cylinder of a key; None: the place is none."""
    return Cylinder.objects.get(key=key) if key else None


def let_last_count(family: Sequence[Entry], by: Entry) -> None:
    """Of entries that correct one another, in their order, only the last one's moves count.

    Those of the others are undone by `by`. Where the last one's were undone before, because what it
    corrects came later, they are booked once more. They stand at the moment of the first one.
    """
    *others, last = family
    changed = [move for one in others for move in undo(one, by)]
    own = Move.objects.filter(entry=last, undoes=None).order_by("id")
    at = family[0].happened_at
    standing = own.filter(undone_by=None)
    if standing.exclude(happened_at=at).exists():  # what it corrects came later
        changed.extend(undo(last, by))
    if own.exists() and not standing.exists():
        for move in {one.number: one for one in own}.values():
            again(move, at)
            changed.append(move)
    reweigh_after(changed, by)


def undo(entry: Entry, by: Entry) -> list[Move]:
    """Take back what an entry moved, as far as it stands, at its own moment; give that back."""
    standing = list(Move.objects.filter(STANDING, entry=entry))
    for move in standing:
        turned(move, by).save()
    return standing


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


def again(move: Move, at: datetime) -> None:
    """Book a move that was undone once more, at a moment."""
    move.pk, move.undoes, move.happened_at = None, None, at
    move._state.adding = True  # noqa: SLF001  a copy of the row
    move.save()


def name_gas(cylinder: Cylinder, old: str, by: Entry) -> None:
    """Book anew, under the refrigerant that a cylinder has, what stood under one told wrong.

    What came out of it, was bought or was found by the scale: what came from a car or from another
    cylinder was theirs.
    """
    own = Q(from_cylinder=cylinder) | Q(
        to_cylinder=cylinder, from_place__in=("supplier", "unexplained")
    )
    standing = Move.objects.filter(own, STANDING, substance=REFRIGERANT, gas=old)
    for move in list(standing):
        turned(move, by).save()
        move.gas = cylinder.refrigerant
        again(move, move.happened_at)


def reweigh_after(moves: Iterable[Move], by: Entry) -> None:
    """Bring cylinders to their scale again where moves of before a weighing came in or went."""
    listed = list(moves)
    touched = {
        one for move in listed for one in (move.from_cylinder_id, move.to_cylinder_id) if one
    }
    if touched:
        reweigh(touched, min(one.happened_at for one in listed), by)


def reweigh(cylinders: Iterable[int], since: datetime, by: Entry) -> None:
    """Let what a weighing found be in its cylinder from then on: for all of them since a moment.

    What the book had at that moment is brought to it by a move from or to "unexplained"; where what
    happened before arrives later, that move is taken back by `by` and booked anew.
    """
    works = CylinderWork.objects.filter(
        cylinder__in=list(cylinders), superseded_by=None, taken_back=False, stands_mg__isnull=False
    ).filter(at__gte=since)
    for one in works.select_related("entry", "cylinder").order_by("at", "id"):
        own = Move.objects.filter(STANDING, entry=one.entry).first()
        wanted = difference(one)
        if wanted != (signed(own, one.cylinder_id) if own else 0):
            undo(one.entry, by)
            bring(one, wanted)


def difference(work: CylinderWork) -> int:
    """What a weighing found more (below zero: less) than the book had at its moment, in mg."""
    same = CylinderWork.objects.filter(cylinder=work.cylinder_id, at=work.at, pk__gte=work.pk)
    later = same.exclude(stands_mg=None)
    held = held_by(work.cylinder, at=work.at, without=later.values_list("entry", flat=True))
    return (work.stands_mg or 0) - held.mg


def signed(move: Move, cylinder: int) -> int:
    """A move as its cylinder sees it: below zero where it goes out."""
    return move.amount if move.to_cylinder_id == cylinder else -move.amount


def gas_then(work: CylinderWork) -> str:
    """Which refrigerant was in the cylinder when it was weighed; of an empty one, what it is for.

    It may have been used for another since.
    """
    held = held_by(work.cylinder, at=work.at)
    there = {gas: mg for gas, mg in held.by_gas.items() if mg > 0}
    if not there or held.refrigerant in there:
        return held.gas
    return max(there, key=lambda gas: (there[gas], gas))


def bring(work: CylinderWork, found: int) -> None:
    """Book what was found more or less than the book had, as of the weighing."""
    if not found:
        return
    other = WENT.get(work.told.get("how", ""), ("", "unexplained"))[1]
    cylinder = work.cylinder
    sides = {"from_place": other, "to_place": CYLINDER, "to_cylinder": cylinder}
    if found < 0:
        sides = {"from_place": CYLINDER, "from_cylinder": cylinder, "to_place": other}
    Move.objects.create(
        entry=work.entry,
        number=0,
        substance=REFRIGERANT,
        gas=gas_then(work),
        amount=abs(found),
        happened_at=work.at,
        **sides,
    )
