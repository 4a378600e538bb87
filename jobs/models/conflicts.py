"""Which conflicts a person has settled: a mark stays, what settled it is found beside it.

A later entry about the same car settles a conflict when it tells the field anew, or when somebody
tapped in it that what stands is right. Its result names what it settles, by key and field only.
"""

from collections.abc import Iterable, Iterator

from django.db.models import QuerySet, TextField
from django.db.models.functions import Cast

from jobs.models.entries import Entry, Reused
from jobs.models.jobs import Job
from jobs.models.said import SAID
from jobs.told import Mark

CONFLICT = "conflict"
INTAKE = "intake"
MERGE = "merge"
COPY_SEEN = "copy_seen"
# Kinds of entries that can be in conflict; an intake where it corrects another, or a car was here.
FILLED = (INTAKE, "customer", "vehicle", "system", MERGE)


def conflicts_in(entry: Entry) -> Iterator[tuple[str, Mark]]:
    """An entry's conflicts with the name of each: the entry's key and the field."""
    for mark in entry.marks:
        if mark["code"] == CONFLICT:
            yield named(entry, mark["field"]), mark


def named(entry: Entry, field: str) -> str:
    """The name of the conflict about a field."""
    return f"{entry.key}:{field}"


def settled_by(entries: Iterable[Entry]) -> dict[str, Entry]:
    """What settled the conflicts of these entries, by the conflict's name; one query if any."""
    jobs = {entry.job_key for entry in entries for _ in conflicts_in(entry)}
    if not jobs:
        return {}
    rows = filled_about(jobs).select_related("author").order_by("-id")
    return {name: entry for entry in rows for name in entry.result.get("settles", ())}


def filled_about(jobs: Iterable[object]) -> QuerySet[Entry]:
    """The filled entries about the cars of these jobs (keys)."""
    cars = Job.objects.filter(key__in=list(jobs)).values("vehicle")
    of_cars = Job.objects.filter(vehicle__in=cars).values("key")
    return Entry.objects.filter(job_key__in=of_cars, kind__in=FILLED)


def still_open(job_key: object) -> list[tuple[str, Entry, Mark]]:
    """The conflicts about a job's car that wait for a person: (name, entry, mark), oldest first."""
    entries = list(filled_about([job_key]).select_related("author").order_by("id"))
    settled = {name for entry in entries for name in entry.result.get("settles", ())}
    return [
        (name, entry, mark)
        for entry in entries
        for name, mark in conflicts_in(entry)
        if name not in settled
    ]


def what_of(mark: Mark) -> str:
    """What a conflict is about."""
    return next((SAID[name] for name in mark["told"] if name in SAID), mark["field"])


def open_in_jobs(jobs: Iterable[object]) -> list[tuple[Entry, Mark]]:
    """What was told in these jobs (keys) and waits for a person; two queries for all of them."""
    rows = Entry.objects.filter(job_key__in=list(jobs), kind__in=FILLED)
    return open_among(rows.exclude(marks=[]).order_by("id"))


def open_anywhere() -> list[tuple[Entry, Mark]]:
    """What waits for a person in any job, closed ones too, the newest first; two queries."""
    rows = Entry.objects.filter(kind__in=FILLED).annotate(noted=Cast("marks", TextField()))
    marked = rows.filter(noted__contains=f'"{CONFLICT}"')
    return open_among(marked.select_related("author").order_by("-id"))


def open_among(rows: Iterable[Entry]) -> list[tuple[Entry, Mark]]:
    """The conflicts of these entries that wait for a person."""
    entries = list(rows)
    settled = settled_by(entries)
    return [
        (entry, mark)
        for entry in entries
        for name, mark in conflicts_in(entry)
        if name not in settled and mark["told"] != mark["stood"]  # blanked: nothing to ask
    ]


def copy_name(copy: Reused) -> str:
    """The name of what came under a key already taken."""
    return f"{copy.key}:{copy.fingerprint}"


def open_copies() -> list[Reused]:
    """What came under a key already taken and nobody has looked at, the newest first."""
    seen = Entry.objects.filter(kind=COPY_SEEN).values_list("result", flat=True)
    settled = {name for result in seen for name in result.get("settles", ())}
    copies = Reused.objects.select_related("author").order_by("-id")
    return [one for one in copies if copy_name(one) not in settled]
