"""Entries that correct one another: their order, and when what they tell of was done."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any
from uuid import UUID

from django.db.models import Q

from jobs.models.entries import Entry
from jobs.models.wordings import in_shop_time


def entries_in_order(entries: Iterable[Entry], entry: Entry) -> list[Entry]:
    """Those that correct one another with `entry`, each behind the one before; it is one of them.

    The last to happen comes last, but what was corrected before what corrects it, whatever a clock
    says.
    """
    listed = list(entries)
    kin = kin_of({one.key: one.corrects for one in listed}, entry.key)
    waiting = sorted((one for one in listed if one.key in kin), key=moment)
    placed: list[Entry] = []
    while waiting:
        behind = {one.key for one in waiting}
        free = (one for one in waiting if one.corrects not in behind - {one.key})
        following = next(free, waiting[0])  # in a ring none is free: the first to happen begins it
        waiting = [one for one in waiting if one is not following]
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


def by_whom(entry: Entry) -> str:
    """Who told it, and when; of what was put right, when it was told first, and who did so when."""
    name, at = entry.author.name, in_shop_time(entry.done_at)
    if entry.put_right_at:
        return f"{at}, corrected {in_shop_time(entry.put_right_at)} by {name}"
    return f"{name}, {at}"


def family_of(entry: Entry, alike: Sequence[str] = ()) -> list[Entry]:
    """The entries that correct one another with this one, in their order.

    All of them are of the moment of the first: what was read was read when the original was told,
    and a correction changes what is said of it, not when it happened. No form asks when a thing was
    done, so none can say that this was wrong; what names a moment in a field of its own (a try to
    call, a day on a label) is corrected there. Only an entry of the same job and kind, with the
    same in the fields `alike`, can be taken the place of.
    """
    return entries_in_order(tied(entry, alike), entry)


def tied(entry: Entry, alike: Sequence[str]) -> list[Entry]:
    """The entries that are tied to one by corrections, itself included; one query where none is."""
    same = Entry.objects.filter(kind=entry.kind, job_key=entry.job_key)
    found = {entry.key: entry}
    while True:
        named = [one.corrects for one in found.values() if one.corrects]
        rows = same.filter(Q(key__in=named) | Q(corrects__in=list(found))).exclude(key__in=found)
        told = {name: entry.fields.get(name) for name in alike}
        more = [one for one in rows if all(one.fields.get(name) == told[name] for name in alike)]
        if not more:
            return list(found.values())
        found |= {one.key: one for one in more}
