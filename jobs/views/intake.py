"""Taking in a car."""

import uuid
from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.request import QueryDict
from django.shortcuts import render
from django.views.decorators.http import require_safe

from jobs.entries import INTAKE
from jobs.forms.intake import IntakeForm
from jobs.known import Known, known_car
from jobs.logbook import enter
from jobs.models.shop import units_chosen
from jobs.told import as_key
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.posted import told_from_post

LONGEST = 100


@signed_in()
def intake(request: HttpRequest) -> HttpResponse:
    """The form, and what became of it; the entry's own key is the job's."""

    def show(form: Any) -> HttpResponse:
        key = request.POST.get("key") or uuid.uuid4()
        said = {
            "form": form,
            "key": key,
            "kind": INTAKE,
            "corrects": request.POST.get("corrects"),
            "known": known_told(request.POST) if form.is_bound else None,
        }
        return render(request, "jobs/intake.html", said)

    if request.method != "POST":
        return show(IntakeForm(initial=first_units()))
    told = told_from_post(request, INTAKE.version)
    return answer(request, enter(INTAKE, replace(told, job_key=told.key)), show)


@require_safe
@signed_in()
def intake_known(request: HttpRequest) -> HttpResponse:
    """What the shop knows of the car, asked for once plate or VIN is typed: a part of the page."""
    said = {"form": IntakeForm(), "known": known_told(request.GET)}
    return render(request, "jobs/_intake_known.html", said)


def known_told(told: QueryDict) -> Known | None:
    """The car of the plate and VIN as typed; at a form that was sent, its own job is no earlier."""
    plate, vin = told.get("plate", "")[:LONGEST], told.get("vin", "")[:LONGEST]
    return known_car(plate, vin, but=as_key(told.get("key")))


def first_units() -> dict[str, str]:
    """The units the shop chose, where they are not the usual ones: those are not tapped ahead."""
    units = units_chosen()
    usual = {"label_charge_unit": "g", "odometer_unit": "km"}
    return {name: units.unit(one) for name, one in usual.items() if units.unit(one) != one}
