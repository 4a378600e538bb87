"""The qualifications of those who worked on a job, as its record prints them."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime

from django.utils import timezone

from jobs.models import Person, Qualification
from jobs.models.qualifications import standing
from jobs.paper import frozen_people as frozen

NONE_ENTERED = "none entered that held in this job’s time"


def cards_of(
    people: Iterable[Person], began: datetime, moment: datetime
) -> Mapping[str, list[frozen.Card]]:
    """What held at any time between two moments, by the key of whose it is."""
    since, today = timezone.localdate(began), timezone.localdate(moment)
    found: dict[str, list[frozen.Card]] = {}
    rows = Qualification.objects.filter(person__in={one.pk for one in people})
    for row in standing(rows.select_related("person")):
        if row.valid_from <= today and (row.valid_to is None or row.valid_to >= since):
            found.setdefault(str(row.person.key), []).append(card_of(row, today))
    return found


def card_of(row: Qualification, today: date) -> frozen.Card:
    """One card, in words as of a day."""
    return {
        "key": str(row.key),
        "kind": row.kind,
        "text": f"{row.words}: {row.card_words()}, {row.until_words(today)}",
        "number": row.number,
        "issuer": row.issuer,
        "valid_from": row.valid_from.isoformat(),
        "valid_to": row.valid_to.isoformat() if row.valid_to else None,
    }


def in_one(cards: Iterable[frozen.Card]) -> str:
    """All of somebody's in words."""
    return "; ".join(card["text"] for card in cards) or NONE_ENTERED
