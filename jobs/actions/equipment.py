"""Writing the shop's instruments: told of, told of again, checked, laid beside a tablet."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from jobs.models import Check, Entry, Equipment, TabletSet
from jobs.models.equipment import KINDS
from jobs.models.wordings import words


def tell_of(
    entry: Entry,
    thing: Equipment | None,
    columns: Mapping[str, Any],
    checked: Sequence[date | None],
) -> Equipment:
    """A new thing, or one of the list as it is now; `checked` is the check told with it.

    What stood in the row before stands in the entry that told it.
    """
    told = {**columns, "name": columns["name"] or (thing.name if thing else next_name(columns))}
    if thing is None:
        thing = Equipment(key=entry.key, entry=entry)
    for name, value in told.items():
        setattr(thing, name, value)
    if entry.photos:
        thing.pictured = entry
    if thing.pk:
        thing.save(update_fields=[*told, "pictured"])
    else:
        thing.save()
    checked_on, until = checked
    if checked_on:
        add_check(entry, thing, checked_on, until, None)
    return thing


def next_name(columns: Mapping[str, Any]) -> str:
    """What a thing is called where nobody gave it a name: Gauge set 2."""
    known = words(KINDS, columns["kind"])
    taken = set(Equipment.objects.values_list("name", flat=True))
    number = 1 + Equipment.objects.filter(kind=columns["kind"]).count()
    while f"{known} {number}" in taken:
        number += 1
    return f"{known} {number}"


def add_check(
    entry: Entry, thing: Equipment, checked_on: date, until: date | None, corrected: Check | None
) -> None:
    """A check that was made. What it corrects stays, superseded."""
    row = Check.objects.create(
        key=entry.key, entry=entry, equipment=thing, checked_on=checked_on, until=until
    )
    if corrected:
        corrected.superseded_by = row
        corrected.save(update_fields=["superseded_by"])
    if entry.photos and thing.pictured_id != entry.pk:
        thing.pictured = entry
        thing.save(update_fields=["pictured"])


def lay_beside(entry: Entry, things: Sequence[str]) -> None:
    """What lies beside the tablet of an entry from now on; its form saw that there is one."""
    told = {"things": list(things), "entry": entry}
    TabletSet.objects.update_or_create(tablet=str(entry.tablet), defaults=told)
