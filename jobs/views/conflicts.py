"""What was told in two ways, in one place: both values, who, when, and the tap that settles it."""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from jobs.entries import COPY_SEEN, CUSTOMER, SYSTEM, VEHICLE
from jobs.forms.customer import CustomerForm
from jobs.forms.fields import DASH
from jobs.forms.filled import FilledForm
from jobs.forms.system import SystemForm
from jobs.forms.vehicle import VehicleForm
from jobs.logbook import RETURNED, EntryKind, enter
from jobs.models import Entry, Job, Reused
from jobs.models.conflicts import (
    MERGE,
    copy_name,
    named,
    open_anywhere,
    open_copies,
    still_open,
    what_of,
)
from jobs.models.points import PAGES, page_of
from jobs.models.said import SAID, in_words
from jobs.told import SETTLED, WAS, Mark, one_text
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.posted import told_from_post

SHOWN_MAX = 100  # the newest; what is beyond stands on its job
STANDS, TOLD = "stands", "told"
SHUT = "Not shown"
HASHED = "_hash"  # ends the fields of people's entries that hold a hash
FORMS: Mapping[str, tuple[EntryKind, type[FilledForm]]] = {
    "customer": (CUSTOMER, CustomerForm),
    "vehicle": (VEHICLE, VehicleForm),
    "system": (SYSTEM, SystemForm),
}


@dataclass(frozen=True)
class Value:
    """What was told, and the entry that told it; None: an entry that is not known."""

    words: str
    entry: Entry | Reused | None


@dataclass(frozen=True)
class Question:
    """Two values of one field. `tap`: the other can be taken by a tap, without typing it anew."""

    name: str
    what: str
    page: str
    job: Job
    stands: Value
    told: Value
    tap: bool
    key: uuid.UUID

    @property
    def page_words(self) -> str:
        """The page where it can be typed."""
        return PAGES[self.page]


@dataclass(frozen=True)
class Copy:
    """What came under a key already taken: each field that differs, as (name, first, second)."""

    name: str
    first: Entry | None
    second: Reused
    job: Job | None
    lines: list[tuple[str, str, str]]
    key: uuid.UUID

    @property
    def kind_words(self) -> str:
        """What kind of entry it is, as its address has it."""
        return self.second.kind.replace("_", " ")


@require_safe
@signed_in()
def conflicts(request: HttpRequest) -> HttpResponse:
    """Every conflict that waits, every copy that nobody looked at; the tablet adds its refused."""
    found, copied = open_anywhere(), open_copies()
    jobs = jobs_of([*(entry for entry, _ in found[:SHOWN_MAX]), *copied[:SHOWN_MAX]])
    said = {
        "questions": questions(found[:SHOWN_MAX], jobs),
        "copies": copies(copied[:SHOWN_MAX], jobs),
        "beyond": max(0, len(found) - SHOWN_MAX) + max(0, len(copied) - SHOWN_MAX),
        "settled": "settled" in request.GET,
    }
    return render(request, "jobs/conflicts.html", said)


def jobs_of(told: Iterable[Entry | Reused]) -> dict[uuid.UUID, Job]:
    """The jobs of entries, with their cars, by key."""
    keys = {one.job_key for one in told if one.job_key}
    rows = Job.objects.filter(key__in=keys).select_related("vehicle") if keys else ()
    return {job.key: job for job in rows}


def questions(found: Iterable[tuple[Entry, Mark]], jobs: Mapping[uuid.UUID, Job]) -> list[Question]:
    """The conflicts of jobs that are here, with who told what stands."""
    listed = [
        (entry, mark, jobs[entry.job_key])
        for entry, mark in found
        if entry.job_key and entry.job_key in jobs
    ]
    keys = {teller for _, mark, _ in listed if (teller := mark.get("teller"))}
    rows = Entry.objects.filter(key__in=keys).select_related("author") if keys else ()
    tellers = {str(entry.key): entry for entry in rows}
    return [
        Question(
            name=named(entry, mark["field"]),
            what=what_of(mark),
            page=page_of(entry, mark["field"]),
            job=job,
            stands=Value(value_words(mark, "stood"), tellers.get(mark.get("teller") or "")),
            told=Value(value_words(mark, "told"), entry),
            tap=bool(told_again(entry, mark["field"])),
            key=uuid.uuid4(),
        )
        for entry, mark, job in listed
    ]


def value_words(mark: Mark, which: str) -> str:
    """One side of a conflict in words; a field that is told in several columns has them all."""
    columns = [name for name in mark["told"] if name in SAID]
    differs = [
        name for name in columns if in_words(name, mark["told"]) != in_words(name, mark["stood"])
    ]
    values = mark["told"] if which == "told" else mark["stood"]
    return ", ".join(in_words(name, values) for name in differs)


def copies(listed: Iterable[Reused], jobs: Mapping[uuid.UUID, Job]) -> list[Copy]:
    """Copies beside the entries whose keys they came under."""
    listed = list(listed)
    keys = {one.key for one in listed}
    rows = Entry.objects.filter(key__in=keys).select_related("author") if keys else ()
    first = {entry.key: entry for entry in rows}
    return [
        Copy(
            name=copy_name(one),
            first=first.get(one.key),
            second=one,
            job=jobs.get(one.job_key) if one.job_key else None,
            lines=differing(first.get(one.key), one),
            key=uuid.uuid4(),
        )
        for one in listed
    ]


def differing(first: Entry | None, second: Reused) -> list[tuple[str, str, str]]:
    """The fields in which the two differ, as they were typed; photos by their number.

    What people sign in with differs, but is shown to nobody: a PIN is soon found from its hash.
    """
    one, other = (dict(first.fields) if first else {}), dict(second.fields)
    names = [name for name in {**one, **other} if not name.startswith(WAS)]
    lines = [(name, one_text(one.get(name)), one_text(other.get(name))) for name in names]
    lines = [line for line in lines if line[1] != line[2]]
    shut = {name for name in names if name.endswith(HASHED)}
    lines = [(one[0], SHUT, f"{SHUT}: another") if one[0] in shut else one for one in lines]
    photos = ("photos", str(len(first.photos) if first else 0), str(len(second.photos)))
    return [
        (name.replace("_", " ").capitalize(), before, after)
        for name, before, after in [*lines, photos]
        if before != after
    ]


@require_POST
@signed_in()
def conflicts_settle(request: HttpRequest) -> HttpResponse:
    """A tap: what stands is right, or what was told beside it; or a copy was looked at."""
    if name := request.POST.get("copy"):
        if all(copy_name(one) != name for one in open_copies()):
            return redirect(f"{reverse('conflicts')}?settled")
        told = told_from_post(request, COPY_SEEN.version)
        outcome = enter(COPY_SEEN, replace(told, fields={"copy": [name]}))
        return redirect("conflicts") if outcome.stands else answer(request, outcome, again)
    found = asked_conflict(request.POST.get("conflict", ""))
    if found is None:
        return redirect(f"{reverse('conflicts')}?settled")
    job, entry, field = found
    kind, form = FORMS[page_of(entry, field)]
    fields: dict[str, list[str]] = {SETTLED: [named(entry, field)]}
    if request.POST.get("right") == TOLD:
        fields = told_again(entry, field) | shown(form, job, field)
    outcome = enter(kind, replace(told_from_post(request, kind.version, job.key), fields=fields))
    if outcome.state == RETURNED:  # it has to be typed
        return redirect(f"{reverse(kind.name)}?job={job.key}")
    return redirect("conflicts") if outcome.stands else answer(request, outcome, again)


def again(_form: Any) -> HttpResponse:
    """The page anew: its taps have nothing that could be mended."""
    return redirect("conflicts")


def asked_conflict(name: str) -> tuple[Job, Entry, str] | None:
    """The conflict of that name with its job; None: it is settled, or there is none."""
    key, _, field = name.partition(":")
    try:
        entry = Entry.objects.filter(key=uuid.UUID(key)).first()
    except ValueError:
        return None
    if entry is None or entry.job_key is None:
        return None
    rows = Job.objects.select_related("customer", "vehicle__system")
    job = rows.filter(key=entry.job_key).first()
    if job is None or all(one[0] != name for one in still_open(job.key)):
        return None
    return job, entry, field


def told_again(entry: Entry, field: str) -> dict[str, list[str]]:
    """The fields that tell the losing value anew, as it was typed; {}: it has to be typed."""
    if entry.kind == MERGE or page_of(entry, field) not in FORMS:
        return {}
    form = FORMS[page_of(entry, field)][1]
    if field not in form.base_fields:  # told at intake and nowhere since
        return {}
    names = (field, *form.TOGETHER.get(field, ()), f"{field}_why")
    told = {name: list(entry.fields[name]) for name in names if entry.fields.get(name)}
    if field not in told:  # a corrected intake that left it empty
        return {field: [DASH]} if field in form.MAY_BE_UNKNOWN else {}
    return told


def shown(form: type[FilledForm], job: Job, field: str) -> dict[str, list[str]]:
    """What stands, as the field's own page would have shown it."""
    now = form.filled(job)
    names = (field, *form.TOGETHER.get(field, ()))
    return {f"{WAS}{name}": [one_text(now.get(name))] for name in names}
