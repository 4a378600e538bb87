"""One test: its form, and what the readings show while they are typed."""

import uuid
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.utils import timezone
from django.utils.datastructures import MultiValueDict

from diagnostics.assess import (
    around_now,
    made,
    overrides_of,
    photos_words,
    readings_of,
    steps_of,
    system_of,
)
from diagnostics.booked import BOOKED, booked_on
from diagnostics.entries import STEP
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.fields import TYPE_AGAIN, Field, Number
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Reading
from diagnostics.evidence.runs import runs
from diagnostics.evidence.strips import range_strip
from diagnostics.evidence.system import System, can_be_such
from diagnostics.evidence.worked_out import NEEDS_TABLE, factors
from diagnostics.forms.step import StepForm, typed_in
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import loop_state
from diagnostics.models import Step
from diagnostics.physics.refrigerants import REFRIGERANTS
from diagnostics.physics.units import table
from diagnostics.points import FOUND, gates, must_not_run
from diagnostics.shop_told import shop_told
from jobs.forms.fields import SAY_WHY
from jobs.logbook import enter
from jobs.models import Conditions, Job
from jobs.models.changes import changes_of, standing
from jobs.models.conditions import BEGIN_TESTS, last_conditions
from jobs.models.jobs import states_of
from jobs.models.people import BAY
from jobs.views.access import asks_for_part, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post


@signed_in()
def step(request: HttpRequest, kind_name: str) -> HttpResponseBase:
    """The neutral page, which any tablet of the shop may keep; a job's own for those who test."""
    kind = KINDS.get(kind_name)
    if kind is None:
        raise Http404("The shop server knows no such test.")
    if request.method != "POST" and asked_key(request) is None:
        return show_neutral(request, kind)
    return step_of_job(request, kind)


@signed_in(*BAY)
def step_of_job(request: HttpRequest, kind: Kind) -> HttpResponse:
    """The form about the job in the address, what became of it, or the part below its fields."""
    if asks_for_part(request):
        return show_meaning(request, kind)
    job = asked_job(request)

    def show(form: Any) -> HttpResponse:
        return show_form(request, kind, job, form)

    if request.method != "POST":
        return show(None)
    told = told_from_post(request, STEP.version, job.key)
    told = replace(told, fields={**told.fields, "test_kind": [kind.name]})  # the page's, always
    return answer(request, enter(STEP, told), show)


def show_neutral(request: HttpRequest, kind: Kind) -> HttpResponse:
    """The page without a car; its script fills it from what the tablet knows of the job."""
    return render(
        request,
        "diagnostics/step.html",
        page(StepForm(kind=kind, around=shop_told().around(System()))) | {"key": ""},
    )


def show_form(request: HttpRequest, kind: Kind, job: Job, form: StepForm | None) -> HttpResponse:
    """The form of a job that is here; one that came back keeps what was typed."""
    corrected = asked_original(request, Step.objects.filter(job=job, kind=kind.name))
    under = None if corrected or form else conditions_for(kind, job)
    booked = None if corrected or form else booked_on(job, kind.name)
    begun = begun_under(kind, under) | dict(booked.fields if booked else {})
    first = form or StepForm(
        job_key=job.key,
        kind=kind,
        around=around_now(job),
        initial=typed_in(corrected) if corrected else begun,
    )
    if corrected and not first.is_bound:
        first.readings = dict(readings_of(corrected))
    shut, let, found = must_come_first(kind, job)
    said = page(first, shut) | {
        "job": job,
        "let": let,
        "found": found,
        "under": under,
        "booked": booked,
        "no_consent": not any(one.counts for one in job.consents.all()),
        "key": request.POST.get("key") or uuid.uuid4(),
        "corrects": request.POST.get("corrects") or (corrected.key if corrected else ""),
        "photos_before": photos_words(corrected.entry.pictures.count()) if corrected else "",
    }
    return render(request, "diagnostics/step.html", said)


def begins_under(kind: Kind) -> bool:
    """Whether it asks for any of what is told of the hour."""
    return any(one.condition and one.name in BEGIN_TESTS for one in kind.fields)


def conditions_for(kind: Kind, job: Job) -> Conditions | None:
    """What was told of the hour, where this test asks for any of it."""
    if not begins_under(kind):
        return None
    last = last_conditions(job)
    holds = last and last.holds(timezone.now()) and begun_under(kind, last)
    return last if holds else None


def begun_under(kind: Kind, under: Conditions | None) -> dict[str, str]:
    """The hour's conditions as this test's own questions begin with them, to be looked at anew."""
    asked = {one.name for one in kind.fields if one.condition}
    told = under.as_typed() if under else {}
    return {name: value for name, value in told.items() if name.removesuffix("_unit") in asked}


def must_come_first(kind: Kind, job: Job) -> tuple[list[str], list[str], list[str]]:
    """What must be known before the test is made on this car; what was overridden; what was found.

    What was found by which it must not be run is said of every test that runs it, or waits for it.
    """
    if not (kind.orders or runs(kind)):
        return [], [], []
    states, overrides = states_of(job), overrides_of(job)
    steps, system = steps_of(job, states, overrides), system_of(job.vehicle.system)
    shut = kind.not_kept(made(steps, states, overrides), system)
    last = {one.order: one.said for one in overrides}
    let = [
        f"{order.first} {last[order.code]}"
        for order in kind.not_kept(made(steps, states), system)
        if order not in shut
    ]
    loop = loop_state(steps, standing(changes_of(job)), told=as_told(job))
    mine = {FOUND[code][0] for code in kind.orders if code in FOUND}
    found = [
        gate.run_words
        for gate in must_not_run(gates(system, steps, states, loop))
        if runs(kind) or gate.code in mine
    ]
    return [order.first for order in shut], let, found


def show_meaning(request: HttpRequest, kind: Kind) -> HttpResponse:
    """What the readings show so far, from a form that is still being filled.

    A car whose intake has not arrived yet is met as a system of which nothing is known.
    """
    told = MultiValueDict({name: request.GET.getlist(name) for name in request.GET})
    told["test_kind"], told["test_version"] = kind.name, str(kind.version)
    form = StepForm(told, job_key=asked_key(request), kind=kind)
    form.is_valid()
    return render(request, "diagnostics/_step_meaning.html", meaning_of(form))


def page(form: StepForm, orders: Iterable[str] = ()) -> dict[str, Any]:
    """What the page shows of a kind on such a system; `orders` say what must come first."""
    kind, system, units = kind_of(form), form.around.system, form.around.units
    return {
        "kind": kind,
        "entry": STEP,
        "form": form,
        "parts": [part(kind, asked, form) for asked in kind.fields],
        "barred": kind.forbids(system),
        "begins_booked": kind.name in BOOKED,
        "begins_under": begins_under(kind),
        "first": [one for one in (kind.asks(system), *orders) if one],
        "remarks": kind.remarks_for(system),
        "kind_data": kind.as_json()
        | {"runs": runs(kind), "type_again": TYPE_AGAIN, "say_why": SAY_WHY},
        "system_data": system,
        "unit_data": table(units_of(kind)),
        "around_data": {
            "air": form.around.air.pa,
            "factors": factors(),
            "shown": units.as_json(),
        },
        "tables": tables_of(kind),
        **meaning_of(form),
    }


def kind_of(form: StepForm) -> Kind:
    """The form's kind, in the units of the shop."""
    if form.kind is None:
        raise Http404("The shop server knows no such test.")
    return form.kind


def units_of(kind: Kind) -> set[str]:
    """The units a kind's numbers are typed and shown in."""
    typed = {unit for number in kind.numbers for unit in number.units}
    return typed | {one.unit for one in kind.works_out}


def tables_of(kind: Kind) -> list[str]:
    """The refrigerants whose tables the page's script needs; which is in the car, the job tells."""
    needed = any(one.how in NEEDS_TABLE for one in kind.works_out)
    return sorted(REFRIGERANTS) if needed else []


def part(kind: Kind, asked: Field, form: StepForm) -> dict[str, Any]:
    """One question with what stands around it."""
    said: dict[str, Any] = {
        "field": form[asked.name],
        "asked": asked,
        "only": asked.why_not,
        "elsewhere": not can_be_such(asked.on, form.around.system),
        "gates": [gate for gate in kind.gates if gate.field == asked.name],
    }
    if isinstance(asked, Number):
        told = form.readings.get(asked.name)
        said["unit"] = form[f"{asked.name}_unit"]
        if isinstance(told, Reading) and not asked.is_plausible(told, form.around.system):
            said["odd"] = range_strip(asked, told, form.around.system, form.around.units)
    return said


def meaning_of(form: StepForm) -> dict[str, Any]:
    """The meaning of what a form holds, if it holds anything but circumstances.

    An order that is broken is told even then.
    """
    kind = kind_of(form)
    told = form.tells_something(kind)
    return {
        "meaning": kind.meaning(form.readings, form.around) if told else None,
        "broken": [gate for gate in kind.gates if gate.is_broken(form.readings)],
        "kind": kind,
    }
