"""Taking in a car."""

import uuid
from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.entries import INTAKE
from jobs.forms.intake import IntakeForm
from jobs.logbook import enter
from jobs.models.shop import units_chosen
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.posted import told_from_post


@signed_in()
def intake(request: HttpRequest) -> HttpResponse:
    """The form, and what became of it; the entry's own key is the job's."""

    def show(form: Any) -> HttpResponse:
        key = request.POST.get("key") or uuid.uuid4()
        said = {"form": form, "key": key, "kind": INTAKE, "corrects": request.POST.get("corrects")}
        return render(request, "jobs/intake.html", said)

    if request.method != "POST":
        return show(IntakeForm(initial=first_units()))
    told = told_from_post(request, INTAKE.version)
    return answer(request, enter(INTAKE, replace(told, job_key=told.key)), show)


def first_units() -> dict[str, str]:
    """The units the shop chose, where they are not the usual ones: those are not tapped ahead."""
    units = units_chosen()
    fields = {"label_charge_unit": units.get("mass"), "odometer_unit": units.get("distance")}
    return {name: unit for name, unit in fields.items() if unit}
