"""One job: which car, how it stands, what to do next."""

import uuid
from typing import Any

from django.db.models import prefetch_related_objects
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_POST

from jobs import ledger
from jobs.entries import FAILING_NOW
from jobs.logbook import enter
from jobs.models import Entry, Job
from jobs.models.changes import changes_of, standing
from jobs.models.conditions import last_conditions
from jobs.models.handovers import handovers_of, not_taken_over
from jobs.models.jobs import FAILING
from jobs.models.marks import Said, marks_in_words
from jobs.models.old_parts import chosen
from jobs.models.people import BAY
from jobs.models.points import (
    ASKS_SERVER,
    LOOP_PAGES,
    PAGES,
    in_page_order,
    of_conflicts,
    of_discards,
    open_points,
)
from jobs.models.said import SAID, answered
from jobs.models.shop import units_chosen
from jobs.models.vehicles import (
    BRANCHES,
    DISPLACEMENTS,
    DRIVES,
    REFRIGERANTS,
    VOLTAGES,
)
from jobs.models.wordings import PAYERS, words
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.consent import agreed, consents_of
from jobs.views.kept_part import kept_until_told
from jobs.views.posted import told_from_post


@signed_in()
def job(request: HttpRequest) -> HttpResponse:
    """The job in the address; without one, the neutral page that a tablet keeps and fills."""
    if asked_key(request) is None:
        kept = pages(True)
        told = {page: it for page, it in kept["part_pages"].items() if page not in ASKS_SERVER}
        said = {"job": None, "failing": FAILING, "key": "", "may_repair": True}
        said |= kept | {"part_pages": told}
        main = render_to_string("jobs/_job_main.html", said, request)
        return render(request, "jobs/job.html", {"job": None, "main": main})
    return show_job(request, asked_job(request))


@signed_in()
@require_POST
def job_failing(request: HttpRequest) -> HttpResponse:
    """Turn the switch: failing right now, or not."""
    asked = asked_job(request)
    outcome = enter(FAILING_NOW, told_from_post(request, FAILING_NOW.version, asked.key))
    return answer(request, outcome, lambda form: show_job(request, asked, form))


def show_job(request: HttpRequest, asked: Job, form: Any = None, taken: Any = None) -> HttpResponse:
    """The page of a job that is here; `form` is its switch, `taken` its note that came back."""
    if form or taken:
        main = mark_safe(drawn(request, asked, form, taken)[0])  # noqa: S308  our own template
    else:
        main = kept_until_told(request, asked, lambda: drawn(request, asked))
    return render(request, "jobs/job.html", {"job": asked, "main": main})


def drawn(
    request: HttpRequest, asked: Job, form: Any = None, taken: Any = None
) -> tuple[str, bool]:
    """What stands below the heading, and whether anything in it goes by the clock."""
    prefetch_related_objects([asked], "car_states")
    consents = consents_of(asked)
    marked = Entry.objects.filter(job_key=asked.key).exclude(marks=[]).order_by("id")
    noted = marks_in_words(entries := list(marked.select_related("author")))
    changes = list(changes_of(asked))
    told_oddly = [*of_conflicts(entries, noted), *of_discards(entries)]
    points = [*open_points(asked, consents, changes), *told_oddly]
    under = last_conditions(asked)
    may_repair = role_of(request) in BAY
    said = {
        "job": asked,
        "car": asked.vehicle,
        "system": asked.vehicle.system,
        "points": in_page_order(points),
        "facts": facts(asked),
        "answers": answers(asked),
        "agreed": [agreed(one) for one in consents],
        "old_parts": chosen(asked.old_part_choices.all()),
        "state": list(asked.car_states.all())[-1],
        "note": not_taken_over(handovers_of(asked)),
        "taken": taken,
        "conditions": under,
        "conditions_hold": under and under.holds(timezone.now()),
        "changes": standing(changes),
        "may_repair": may_repair,
        "failing": FAILING,
        **pages(may_repair),
        # What was odd about entries of this job and kept, and what they changed.
        "remarks": [
            one.words for marks in noted.values() for one in marks if said_here(asked, one)
        ],
        "form": form,
        "kind": FAILING_NOW,
        "key": uuid.uuid4(),
        "taken_key": uuid.uuid4(),  # the other form of the page
    }
    by_the_clock = bool(under or asked.promised_at or asked.waitings.exists())
    return render_to_string("jobs/_job_main.html", said, request), by_the_clock


def pages(may_repair: bool) -> dict[str, dict[str, str]]:
    """The pages where something of the job is told, by name; those of the loop apart."""
    told = {page: PAGES[page] for page in PAGES if page not in LOOP_PAGES}
    if not may_repair:
        del told["repair"]
    return {"part_pages": told, "loop_pages": {page: PAGES[page] for page in LOOP_PAGES}}


def said_here(asked: Job, mark: Said) -> bool:
    """Whether a mark stands among the remarks: one waits as a point, one is asked about above."""
    asks_of_car = not asked.follows_told and asked.stage != "closed"
    return not mark.open and not (mark.code == "known_plate" and asks_of_car)


def answers(asked: Job) -> list[tuple[str, str]]:
    """What was asked at the counter and what was said: (name, words)."""
    told = {**answered(asked.complaint_answers), "payer": words(PAYERS, asked.payer)}
    return [(SAID[name], text) for name, text in told.items() if text]


def facts(asked: Job) -> list[tuple[str, str]]:
    """What is looked up most: (name, words) of what is noted. What is not is an open point."""
    car, system = asked.vehicle, asked.vehicle.system
    charge = system.label_charge_mg
    source = system.read_from("label_charge")
    told = {
        "phone": asked.customer.phone,
        "vin": car.vin,
        "odometer": asked.odometer_words,
        "drive": words(DRIVES, system.drive),
        "displacement": words(DISPLACEMENTS, system.displacement),
        "voltage": words(VOLTAGES, system.voltage),
        "refrigerant": words(REFRIGERANTS, system.refrigerant),
        "label_charge_mg": charge and ledger.both(charge, units_chosen().unit("g")),
        "branches": ", ".join(words(BRANCHES, one) for one in system.branches),
    }
    sources = {"label_charge_mg": f" ({source})" if source else ""}
    return [(SAID[name] + sources.get(name, ""), said) for name, said in told.items() if said]
