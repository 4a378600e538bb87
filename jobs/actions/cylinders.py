"""Writing cylinders: told of, bought, weighed, poured over, sent for reclaim, gone."""

from collections.abc import Mapping, Sequence
from typing import Any

from django.db.models import Q
from django.utils import timezone

from jobs.actions.amounts import book, let_last_count, name_gas, reweigh
from jobs.actions.corrections import in_order, link
from jobs.models import Cylinder, CylinderWork, Entry, Move
from jobs.models.amounts import CYLINDER, CYLINDER_KINDS, REFRIGERANT
from jobs.models.cylinder_works import GONE, PURCHASE, RECLAIM, TRANSFER
from jobs.models.cylinders import held_by
from jobs.models.wordings import words
from jobs.told import Moved, Worked


def tell_of(entry: Entry, cylinder: Cylinder | None, columns: Mapping[str, Any]) -> Cylinder:
    """A new cylinder, or one of the list as it is now.

    What stood in the row before stands in the entry that told it. Another refrigerant for one that
    is not empty by the book puts right what was told wrong; an empty one may be used for another.
    """
    told = {**columns, "name": columns["name"] or (cylinder.name if cylinder else "")}
    if cylinder is None:
        return begin(entry, entry.key, told)
    old, held = cylinder.refrigerant, held_by(cylinder)
    for name, value in told.items():
        setattr(cylinder, name, value)
    cylinder.save(update_fields=list(told))
    if cylinder.refrigerant not in ("", old) and held.mg:
        name_gas(cylinder, old, entry)
    return cylinder


def begin(entry: Entry, key: Any, columns: Mapping[str, Any]) -> Cylinder:
    """A new row; a cylinder without a name gets its kind and the next number."""
    named = {**columns, "name": columns.get("name") or next_name(columns["kind"])}
    return Cylinder.objects.create(key=key, entry=entry, **named)


def next_name(kind: str) -> str:
    """What a cylinder is called where nobody gave it a name: Cylinder 3, Nitrogen 2."""
    known = words(CYLINDER_KINDS, kind) if kind in ("nitrogen", "tracer") else "Cylinder"
    taken = set(Cylinder.objects.values_list("name", flat=True))
    number = 1
    while f"{known} {number}" in taken:
        number += 1
    return f"{known} {number}"


def work_on(entry: Entry, told: Worked) -> CylinderWork:
    """Write one piece of work and what it moves.

    Of several that correct one another the last counts; a correction may come before its original.
    """
    names = ("what", "amount_mg", "gross_mg", "tare_mg", "stands_mg", "taken_back")
    to_cylinder = Cylinder.objects.get(key=told.to_cylinder) if told.to_cylinder else None
    row = CylinderWork.objects.create(
        key=entry.key,
        entry=entry,
        at=entry.done_at,
        cylinder=cylinder_of(entry, told),
        to_cylinder=to_cylinder,
        told=dict(told.told),
        corrected_why=told.corrected_why if entry.corrects else "",
        **{name: getattr(told, name) for name in names},
    )
    entry.marks = [*entry.marks, *told.marks]
    family = in_order(kin_of(row), row)
    since = min(one.at for one in family)
    link(family)
    put_moment(family)
    book(entry, None, moved_by(row, family))
    let_last_count([one.entry for one in family], entry)
    reweigh({one.cylinder_id for one in family}, min(since, family[0].at), entry)
    for cylinder in {one.cylinder for one in family}:
        put_gone(cylinder)
    return row


def put_moment(family: Sequence[CylinderWork]) -> None:
    """Let all that correct one another be of the moment of the first."""
    for one in family[1:]:
        if one.at != family[0].at:
            one.at = family[0].at
            one.save(update_fields=["at"])


def cylinder_of(entry: Entry, told: Worked) -> Cylinder:
    """The cylinder of a piece of work; a purchase that names none begins a new one."""
    if told.cylinder:
        return Cylinder.objects.get(key=told.cylinder)
    tied = CylinderWork.objects.filter(what=PURCHASE).filter(
        Q(key=entry.corrects) | Q(entry__corrects=entry.key)
    )
    known = tied.select_related("cylinder").first()
    return known.cylinder if known else begin(entry, entry.key, told.new)


def gas_of(row: CylinderWork, family: Sequence[CylinderWork]) -> str:
    """Which refrigerant moved: that of what it corrects, for its cylinder may have another now."""
    own = Q(from_cylinder=row.cylinder_id) | Q(to_cylinder=row.cylinder_id, from_place="supplier")
    entries = [one.entry_id for one in family if one.pk != row.pk]
    booked = Move.objects.filter(own, entry__in=entries, substance=REFRIGERANT, undoes=None)
    before = booked.order_by("-id").first()
    return before.gas if before else row.cylinder.refrigerant or held_by(row.cylinder).gas


def moved_by(row: CylinderWork, family: Sequence[CylinderWork] = ()) -> list[Moved]:
    """What a piece of work moved; what only brings the book to the scale comes of `reweigh`."""
    if row.taken_back or not row.amount_mg:
        return []
    own = row.cylinder.key
    gas = gas_of(row, family)
    if row.what == PURCHASE:
        return [Moved(REFRIGERANT, row.amount_mg, "supplier", CYLINDER, gas, to_cylinder=own)]
    if row.what == RECLAIM:
        return [Moved(REFRIGERANT, row.amount_mg, CYLINDER, "reclaim", gas, from_cylinder=own)]
    if row.what == TRANSFER and row.to_cylinder:
        into = row.to_cylinder.key
        return [Moved(REFRIGERANT, row.amount_mg, CYLINDER, CYLINDER, gas, own, into)]
    return []


def kin_of(row: CylinderWork) -> list[CylinderWork]:
    """All work of its sort that corrects or was corrected, and the row, with their entries."""
    same = CylinderWork.objects.filter(what=row.what)
    corrected = same.exclude(entry__corrects=None).values_list("entry__corrects", flat=True)
    tied = Q(pk=row.pk) | Q(entry__corrects__isnull=False) | Q(key__in=list(corrected))
    return list(same.filter(tied).select_related("entry", "cylinder", "superseded_by"))


def put_gone(cylinder: Cylinder) -> None:
    """Since when the shop has it no more, by the work that stands."""
    went = cylinder.works.filter(what=GONE, superseded_by=None, taken_back=False)
    first = went.order_by("at").first()
    since = timezone.localdate(first.at) if first else None
    if cylinder.gone_since != since:
        cylinder.gone_since = since
        cylinder.save(update_fields=["gone_since"])
