"""All open points of a job, and what an owner may do about them: waive one, override an order."""

import uuid
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from diagnostics.assess import made, system_of
from diagnostics.closing import Between, to_waive
from diagnostics.entries import OVERRIDE, WAIVE
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import ORDERS, Order
from diagnostics.forms.points import OverrideForm, WaiveForm
from diagnostics.job_now import JobNow, job_now
from diagnostics.overrides_told import let_told, shut_by_a_test
from diagnostics.waived import identity
from jobs.logbook import EntryKind, enter
from jobs.models import Job
from jobs.models.people import OWNER
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post, typed


@dataclass(frozen=True)
class Row:
    """A point or an order with its form, which only an owner sees. `code` makes its id."""

    point: Between | None
    order: Order | None
    waits: list[str]
    form: Any
    key: str
    open: bool
    found: str = ""  # the test that shut an order: no override opens it


@signed_in()
def points(request: HttpRequest) -> HttpResponse:
    """What is open, what was waived, which orders are shut and which an owner let go."""
    return show_points(request, asked_job(request), None)


@require_POST
@signed_in(OWNER)
def points_waive(request: HttpRequest) -> HttpResponse:
    """Waive one point."""
    return taken(request, WAIVE)


@require_POST
@signed_in(OWNER)
def points_override(request: HttpRequest) -> HttpResponse:
    """Let the job go against one order."""
    return taken(request, OVERRIDE)


def taken(request: HttpRequest, kind: EntryKind) -> HttpResponse:
    """What became of it."""
    job = asked_job(request)
    outcome = enter(kind, told_from_post(request, kind.version, job.key))
    return answer(request, outcome, lambda form: show_points(request, job, form))


def show_points(request: HttpRequest, job: Job, form: Any) -> HttpResponse:
    """The page; a form that came back stands at its point, with what was typed."""
    now = job_now(job)
    listed = to_waive(now)
    rows = [row_of(point, form) for point in listed if not point.waiver]
    orders = shut(now, form)
    placed = form is None or any(row.open for row in (*rows, *orders))
    said = {
        "job": job,
        "open": rows,
        # Of a point or an order that is not here any more: what was typed stands on top.
        "problems": [] if placed else [one for told in form.errors.values() for one in told],
        "typed": [] if placed else typed(request),
        "waived": [point for point in listed if point.waiver],
        "shut": orders,
        "let": let_told(now.overrides, now.states, now.shut),
        "orders": {code: order.first for code, order in ORDERS.items()},
        "may_waive": role_of(request) == OWNER,
    }
    return render(request, "diagnostics/points.html", said)


def row_of(point: Between, form: Any) -> Row:
    """A point with its form."""
    code, about = identity(point)
    mine = isinstance(form, WaiveForm) and (form["code"].value(), form["about"].value()) == (
        code,
        about,
    )
    first = {"code": code, "about": about}
    asked = form if mine else WaiveForm(initial=first, auto_id=f"id_{code}_{hash_of(about)}_%s")
    return Row(point, None, [], asked, key_of(form, mine), mine)


def hash_of(about: str) -> str:
    """What makes ids of one page differ."""
    return uuid.uuid5(uuid.NAMESPACE_OID, about).hex[:8]


def shut(now: JobNow, form: Any) -> list[Row]:
    """The orders that are shut on this car as it is now, each with the tests that wait for it."""
    done = made(now.steps, now.states, now.overrides)
    system = system_of(now.job.vehicle.system)
    rows = []
    for code, order in ORDERS.items():
        waits = [
            kind.title
            for kind in KINDS.values()
            if kind.waits and code in kind.orders and not kind.forbids(system)
        ]
        if not waits or order.is_kept(done, system):
            continue
        mine = isinstance(form, OverrideForm) and form["order"].value() == code
        asked = form if mine else OverrideForm(initial={"order": code}, auto_id=f"id_{code}_%s")
        found = shut_by_a_test(code, now.steps, now.states)
        rows.append(Row(None, order, waits, asked, key_of(form, mine), mine, found))
    return rows


def key_of(form: Any, mine: bool) -> str:
    """The entry's key: of a form that came back its own, else a new one."""
    return str(form.entry_told.key if mine and form.entry_told else uuid.uuid4())
