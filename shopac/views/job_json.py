"""Jobs as small JSON, from which a tablet fills its kept pages while the shop server is away.

For signed-in people only, and without phone, address and prices. What a lost tablet tells all the
same: which cars stand in the shop, and what was typed on it, names, phones and signatures included,
until it is sent and for a fortnight after (static/offline/store.js).
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any
from uuid import UUID

from django.db.models import Prefetch, QuerySet
from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.utils.dateformat import format as date_words
from django.views.decorators.http import condition, require_safe

from diagnostics.as_it_stood import as_it_stood
from diagnostics.assess import Assessed, assess_all, override_touched, system_of, touched_since
from diagnostics.booked import all_booked
from diagnostics.evidence.catalogue import KINDS
from diagnostics.job_now import all_points
from diagnostics.loop_as_told import notes_told, waits_told
from diagnostics.loop_state import loop_state
from diagnostics.loop_worked import by_work, work_made
from diagnostics.models import Override, Step
from diagnostics.options_kept import decision_told, options_told, with_decisions
from diagnostics.overridden import with_end
from diagnostics.points import Gate, StepPoint, against_loop, gates
from diagnostics.price_sheet import ShopPrices, shop_prices
from diagnostics.repaired import work_of
from diagnostics.shop_told import ShopTold, shop_told
from diagnostics.templatetags.ahead import Looked, as_next, looked
from diagnostics.templatetags.verdict import verdict_told
from diagnostics.verification_kept import verification_told, with_verification
from diagnostics.waived import parted
from diagnostics.work_points import works_told
from jobs.contacts import revoked
from jobs.forms.loop_work import cylinder_words, label_words, listed_cylinders
from jobs.models import (
    CarState,
    Change,
    Conditions,
    Entry,
    Handover,
    Job,
    LoopTold,
    Person,
    TakenOut,
    Waiting,
)
from jobs.models.changes import with_photo
from jobs.models.handovers import not_taken_over
from jobs.models.holds import end_of
from jobs.models.jobs import OPEN
from jobs.models.loop_parts import LoopRow, loop_table
from jobs.models.loop_works import is_emptied, standing_works
from jobs.models.oil_works import out_before
from jobs.models.places import PROMISED, WAS_DUE, bay_words, hook_words
from jobs.models.points import OpenPoint, conflicts_of, in_page_order, open_points
from jobs.models.vehicles import DRIVES
from jobs.views.asked import asked_job
from jobs.views.sign_in import people_with_pin
from jobs.views.tablet import pins_work, this_tablet
from shopac.version import VERSION

OF_A_JOB = (
    *("consents", "estimates", "invoices", "named", "old_part_choices"),
    *("car_states", "waivers"),
)
OPEN_MAX = 200  # a shop has some dozen open; the newest are kept ahead


@require_safe
def job_json(request: HttpRequest) -> JsonResponse:
    """The job in the address."""
    if not may_ask(request):
        return JsonResponse({"state": "sign_in"}, status=401)
    as_of = timezone.now()
    job = rows().get(pk=asked_job(request).pk)
    of_all = conflicts_of([job]), shop_told(), shop_prices(), cylinders_told()
    return JsonResponse(told(job, *of_all) | {"as_of": as_of.isoformat()})


@require_safe
def jobs_json(request: HttpRequest) -> JsonResponse:
    """The open jobs, to be kept ahead; for who has them as they are, status 304 and no body."""
    if not may_ask(request):
        return JsonResponse({"state": "sign_in"}, status=401)
    return open_jobs(request)


def may_ask(request: HttpRequest) -> bool:
    """Whether somebody is signed in, on a tablet that no owner has revoked."""
    return isinstance(request.user, Person) and revoked(this_tablet(request)) is None


def last_entry(_request: HttpRequest) -> str:
    """The ETag of what is told of all jobs: rows change with an entry or with the program only.

    Read before the rows: an entry between the two makes the next answer a whole one. The entry's
    key, not its id, which comes again with other content after a backup was put back.
    """
    key = Entry.objects.order_by("-id").values_list("key", flat=True).first()
    return f'"{VERSION}.{key}"'


@condition(etag_func=last_entry)
def open_jobs(request: HttpRequest) -> JsonResponse:
    """The newest open jobs, found through the index on their stage, and how many more are open.

    `as_of` is from before the rows are read: an entry that comes between the two is shown twice for
    a moment rather than not at all.
    """
    as_of = {"as_of": timezone.now().isoformat()}
    jobs = rows().filter(stage__in=OPEN).order_by("-id")
    newest = list(jobs[:OPEN_MAX])
    more = len(newest) == OPEN_MAX and Job.objects.filter(stage__in=OPEN).count() - OPEN_MAX
    of_all = conflicts_of(newest), shop_told(), shop_prices(), cylinders_told()
    jobs_told = [told(job, *of_all) | as_of for job in newest]
    more_told = {"more": int(more), "begins": shut_at_first(), "people": people_told(request)}
    return JsonResponse({"jobs": jobs_told, **more_told})


def shut_at_first() -> dict[str, list[dict[str, Any]]]:
    """What must not be done yet on a car of which nothing is told, by its drive (empty: not noted).

    For a car that was taken in on a tablet while the shop server is away.
    """
    nothing = loop_state([], [])
    return {
        drive: [gate_told(one) for one in gates({"drive": drive}, [], [], nothing)]
        for drive in ("", *DRIVES)
    }


def people_told(request: HttpRequest) -> list[dict[str, str]]:
    """Who may be picked by name while the server is away: where PINs work, as at the sign-in."""
    if not pins_work(request):
        return []
    return [{"key": str(one.key), "name": one.name, "role": one.role} for one in people_with_pin()]


def rows() -> QuerySet[Job]:
    """Jobs with all that is told of them, at a fixed number of queries however many there are."""
    with_others = Step.objects.select_related("entry__author", "superseded_by", "supersedes")
    steps = as_it_stood(with_others.order_by("number"))
    changes = with_photo(Change.objects.select_related("entry", "state", "supersedes"))
    return Job.objects.select_related("customer", "vehicle__system").prefetch_related(
        *OF_A_JOB,
        Prefetch("overrides", with_end()),
        Prefetch("changes", changes),
        Prefetch("loop_parts", LoopTold.objects.select_related("entry")),
        Prefetch("taken_out", TakenOut.objects.select_related("entry")),
        Prefetch("loop_works", works_told()),
        Prefetch("steps", steps),
        Prefetch("waitings", waits_told()),
        Prefetch("handovers", notes_told()),
        *with_decisions(),
        *with_verification(),
    )


def told(
    job: Job,
    conflicts: Mapping[UUID, list[OpenPoint]],
    shop: ShopTold,
    prices: ShopPrices,
    cylinders: Sequence[Mapping[str, str]] = (),
) -> dict[str, Any]:
    """What a tablet keeps of one job; `conflicts` are points by the job's key."""
    car = job.vehicle
    system = system_of(car.system)
    states = list(job.car_states.all())
    overrides = list(job.overrides.all())
    steps = assess_all(job.steps.all(), system, states, overrides, shop)
    state = states[-1] if states else None
    seen = looked(job, steps)
    changes, loop = seen.around.changes, seen.loop
    work = work_of(job)
    note = not_taken_over(job.handovers.all())
    of_job = open_points(job, list(job.consents.all()), job.changes.all())
    of_job = in_page_order([*of_job, *conflicts.get(job.key, ())])
    points = all_points(of_job, steps, states, job)
    return {
        "key": str(job.key),
        "number": job.number,
        "plate": car.plate,
        "car": car.words,
        "system": system,
        "stage": job.stage,
        "stage_words": job.stage_words,
        "closing_kind": job.closing_kind,
        "closing_words": job.closing_words,
        "failing_now": job.failing_now,
        "complaint": job.complaint,
        "loop": loop.text,
        "label": label_words(car.system, shop.units),
        "cylinders": list(cylinders),
        "emptied": is_emptied(states),
        "oil_before": out_before(job.loop_works.all()),
        "booked": all_booked(standing_works(job.loop_works.all())),
        "gates": [gate_told(one) for one in gates(system, steps, states, loop, overrides, work)],
        "handover": note_told(note, steps, changes, states) if note else None,
        "state": {"number": state.number, "what": state.what} if state else None,
        "changes": [change_told(one, work.old.get(one.key)) for one in changes],
        "loop_parts": [row_told(one) for one in loop_table(car.system, changes, work.looked)],
        "steps": [step_told(one, states) for one in steps],
        "overrides": [override_told(one, states) for one in overrides],
        "works": [work_told(one) for one in states if one.did],
        "conditions": conditions_in(list(job.conditions.all())),
        "place": place_told(job),
        "waiting": [waiting_told(one) for one in job.waitings.all() if one.stands],
        "next": next_told(seen),
        "verdict": verdict_told(seen.found),
        "verification": verification_told(job, seen.around, shop),
        "danger": seen.ahead.danger,
        "points": [point_told(one) for one in parted(points, job.waivers.all())[0]],
        "decision": decision_told(job),
        "options": options_told(job, seen.around, prices),
        "units": shop.units.as_json(),
        "air": shop.around(system).air.pa,
    }


def conditions_in(told: Sequence[Conditions]) -> dict[str, Any] | None:
    """Under what the car stands, as tests begin with it for an hour; None: not told."""
    if not told:
        return None
    last = told[-1]
    return {"at": last.entry.happened_at.isoformat(), "fields": last.as_typed(), "said": last.text}


def next_told(seen: Looked) -> dict[str, Any]:
    """What comes next, and the tests named after it: one made on the tablet since falls out."""
    step, ahead = seen.step, seen.ahead
    named = [step.best, *step.others, *step.beside] if step.best else []
    return {
        "kind": ahead.kind,
        "title": ahead.title,
        "words": ahead.next,
        "said": ahead.said,
        "waits": list(step.waits),
        "planned": [
            {"kind": one.kind.name, "reason": one.reason, "words": as_next(one.line)}
            for one in named
        ],
    }


def step_told(one: Assessed, states: list[CarState]) -> dict[str, Any]:
    """A step made: its number, what it was, what it showed, whether it still counts."""
    replaced_by = one.step.superseded_by
    return {
        "key": str(one.step.key),
        "number": one.step.number,
        "kind": one.step.kind,
        "title": one.title,
        "finding": one.finding,
        "outcome": one.meaning.outcome.code if one.meaning else "",
        "made_at": one.step.made_at.isoformat(),
        "photos": one.step.photo_count,
        "stands": one.stands,
        "touched": touched_since(one, states),
        "opens": one.bears.opens,
        "shuts": one.bears.shuts,
        "replaced_by": replaced_by.number if replaced_by else None,
    }


def override_told(one: Override, states: list[CarState]) -> dict[str, Any]:
    """An override, in the shape of a test that opened its order."""
    return {
        "kind": "override",
        "outcome": "",
        "made_at": one.given_at.isoformat(),
        "stands": one.ended_at is None,
        "touched": override_touched(one, states),
        "opens": [one.order],
        "shuts": [],
    }


def work_told(state: CarState) -> dict[str, Any]:
    """Work on the loop: what it was, and in the shape of a test what it opened and shut."""
    made = work_made(state)
    return {
        "kind": made.kind,
        "outcome": "",
        "what": state.what,
        "state": state.number,
        "made_at": state.opened_at.isoformat(),
        "stands": True,
        "touched": False,
        "opens": made.opens,
        "shuts": made.shuts,
    }


def cylinders_told() -> list[dict[str, str]]:
    """The shop's cylinders as they are tapped; without what they hold."""
    return [
        {"key": one.key.hex, "words": cylinder_words(one), "kind": one.kind}
        for one in listed_cylinders()
    ]


def row_told(row: LoopRow) -> dict[str, str]:
    """A part of the loop, by its field on the form, and how it stands."""
    return {"field": row.field, "name": row.name, "code": row.code, "text": row.text}


def change_told(one: Change, old: TakenOut | None) -> dict[str, Any]:
    """A change on the car that stands, and where its old part went."""
    return {
        "key": str(one.key),
        "what": one.words,
        "fitted": one.what == "fitted",
        "short": one.short,
        "old": old.words if old else "",
        "where": one.where,
        "state": one.state.number,
        "made_at": one.entry.done_at.isoformat(),
    }


def place_told(job: Job) -> dict[str, str | None]:
    """Where the car is; who has it is told by the shop server only.

    A time comes with the words for it before and after, since a tablet shows it later.
    """
    return {
        "bay_words": bay_words(job.bay),
        "hook_words": hook_words(job.key_hook),
        "promised_at": job.promised_at.isoformat() if job.promised_at else None,
        "word": PROMISED,
        "past_word": WAS_DUE,
    }


def waiting_told(one: Waiting) -> dict[str, Any]:
    """What it waits for, without a person's name.

    `at` is when it counts, by which it is past. A day is told with its month: a tablet may show it
    on another day, on which "Wed" would be another one.
    """
    return {
        "key": str(one.key),
        "label": one.nameless,
        "runs": one.by_itself,
        "over": one.over_words if one.by_itself and one.until else "",
        "read": one.read_with,
        "read_words": one.read_words,
        "until": one.until and one.until.isoformat(),
        "due_words": day_words(one.due_on) if one.due_on else "",
        "began_at": one.began_at.isoformat(),
        "at": end_of(one).isoformat(),
        "word": one.word(over=False),
        "past_word": one.word(over=True),
    }


def day_words(day: date) -> str:
    """A day that is the same on every day it is read: 3 Dec, 4 Jan 2027."""
    return date_words(day, "j M" if day.year == timezone.localdate().year else "j M Y")


def gate_told(gate: Gate) -> dict[str, Any]:
    """What must not be done yet, and where it is opened."""
    named = ("code", "act", "what", "why", "found", "bars_running", "run_words", "works")
    names = (*named, "address", "page_words")
    return {name: getattr(gate, name) for name in names}


def note_told(
    note: Handover, steps: list[Assessed], changes: Iterable[Change], states: Iterable[CarState]
) -> dict[str, Any]:
    """A hand-over note that nobody took over yet; names are those of the shop's own people."""
    next_up = KINDS.get(note.next_test)
    then = loop_state(steps, changes, note.entry.happened_at, by_work(states))
    return {
        "key": str(note.key),
        "to": note.to_words,
        "by": note.entry.author.name,
        "at": note.entry.happened_at.isoformat(),
        "stands": note.stands_words,
        "against": against_loop(note.stands, then),
        "next_test": note.next_test,
        "next_title": next_up.title if next_up else "",
        "next_words": note.next_words,
        "said": note.said,
    }


def point_told(point: OpenPoint | StepPoint) -> dict[str, str]:
    """An open point and the page where it is settled."""
    names = ("code", "sentence", "page", "page_words")
    return {name: getattr(point, name) for name in names}
