"""The board, the first page: every open job, by what holds the car."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from jobs.models import Entry, Handover, Job, Waiting
from jobs.models.holds import GROUPS, NONE_IN, Hold, hold, in_order
from jobs.models.jobs import OPEN
from jobs.models.places import one_car_each
from jobs.models.waiting import on_tablets, open_waits
from jobs.views.access import signed_in
from jobs.views.asked import start_of
from jobs.views.tablet import this_tablet

PAGE = 50
OWN_MAX = 500  # so many of the tablet's last entries are looked at for its cars
KEPT = "kept"  # in the address: the page without anybody's data, which tablets keep


@signed_in()
def board_first(_request: HttpRequest) -> HttpResponse:
    """The root address leads to the board."""
    return redirect("board")


@signed_in()
def board(request: HttpRequest) -> HttpResponse:
    """One list in three groups, 50 cars of each; `group` and `from` ask for more of one."""
    if KEPT in request.GET:
        said = {"kept": True, "groups": empty_groups(), "labels": on_tablets()}
        return render(request, "jobs/board.html", said)
    now = timezone.now()
    own = own_jobs(this_tablet(request))
    asked = request.GET.get("group", "")
    codes = [asked] if asked in GROUPS else list(GROUPS)
    start = start_of(request.GET.get("from", "")) if asked in GROUPS else 0
    holds, own_here, at = held(own, now)
    places = {code: in_order(holds, own_here, code) for code in codes}
    jobs = jobs_with(pk for listed in places.values() for pk in listed[start : start + PAGE])
    groups = [group(code, places[code], start, holds, jobs, at) for code in codes]
    said = {
        "groups": groups,
        "jobs": list(jobs.values()),
        "own": bool(own_here),
        "one_group": asked in GROUPS,
        "now": now,
    }
    return render(request, "jobs/board.html", said)


def own_jobs(tablet: UUID | None) -> list[UUID]:
    """The jobs on which entries came from this tablet, the latest first."""
    if tablet is None:
        return []
    entries = Entry.objects.filter(tablet=tablet).order_by("-arrived_at")
    keys = entries.values_list("job_key", flat=True)[:OWN_MAX]
    return list(dict.fromkeys(key for key in keys if key))


def held(own: Iterable[UUID], now: datetime) -> tuple[dict[int, Hold], list[int], Counter[str]]:
    """What holds each open job, by its id; which of the tablet's own are among them.

    And of how many cars each bay and each key hook is told.
    """
    waits: dict[int, list[Waiting]] = {}
    for one in open_waits():
        waits.setdefault(one.job_id, []).append(one)
    rows = Job.objects.filter(stage__in=OPEN).values_list(
        *("pk", "key", "promised_at", "opened_at", "bay", "key_hook")
    )
    listed = list(rows)
    holds = {pk: hold(waits.get(pk, ()), promised, at, now) for pk, _, promised, at, *_ in listed}
    told = Counter(word for *_, bay, hook in listed for word in one_car_each(bay, hook))
    ids = {key: pk for pk, key, *_ in listed}
    return holds, [ids[key] for key in own if key in ids], told


def shared(job: Job, told: Counter[str]) -> str:
    """That its bay or its hook is told of other cars too."""
    twice = [word for word in one_car_each(job.bay, job.key_hook) if told[word] > 1]
    return "; ".join(f"{word[:1].upper()}{word[1:]} is told of {told[word]} cars" for word in twice)


def jobs_with(ids: Iterable[int]) -> dict[int, Job]:
    """These jobs with what a row tells of each."""
    notes = Prefetch("handovers", Handover.objects.select_related("to"))
    rows = Job.objects.select_related("vehicle__system", "has_it").prefetch_related(notes)
    return rows.in_bulk(list(ids))


@dataclass(frozen=True)
class Row:
    """One car of a group."""

    job: Job
    hold: Hold
    shared: str = ""  # a bay or a hook that is told of other cars too


def group(
    code: str,
    listed: Sequence[int],
    start: int,
    holds: dict[int, Hold],
    jobs: dict[int, Job],
    at: Counter[str],
) -> dict[str, Any]:
    """One group: its rows, how many there are, and where the next page begins."""
    shown = listed[start : start + PAGE]
    further = start + PAGE
    return {
        "code": code,
        "words": GROUPS[code],
        "none": NONE_IN[code],
        "count": len(listed),
        "rows": [Row(jobs[pk], holds[pk], shared(jobs[pk], at)) for pk in shown if pk in jobs],
        "left": max(0, len(listed) - further),
        "further": further,
    }


def empty_groups() -> list[dict[str, Any]]:
    """The groups of the page that a tablet fills."""
    return [{"code": code, "words": GROUPS[code], "none": NONE_IN[code]} for code in GROUPS]
