"""The entry kinds of this room."""

from typing import Any, cast

from django import forms

from jobs.actions.consent import give_consent
from jobs.actions.failing_now import set_failing_now
from jobs.actions.fill import address, fill_job, job_of
from jobs.actions.intake import take_in
from jobs.forms.consent import ConsentForm
from jobs.forms.customer import CustomerForm
from jobs.forms.failing_now import FailingNowForm
from jobs.forms.intake import IntakeForm
from jobs.forms.system import SystemForm
from jobs.forms.vehicle import VehicleForm
from jobs.logbook import EntryKind
from jobs.models import Entry
from jobs.models.people import ROLES

ALL = frozenset(ROLES)


def apply_intake(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A car taken in."""
    return take_in(entry, cast("IntakeForm", form).taken_in())


def apply_failing_now(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """The switch on the job."""
    return set_failing_now(entry, form.cleaned_data["failing"])


def apply_part(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Customer, car or system, told later."""
    told = cast("CustomerForm | VehicleForm | SystemForm", form)
    return fill_job(entry, told.parts(), told.marks)


def apply_consent(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A consent given after intake."""
    told = cast("ConsentForm", form)
    job = job_of(entry)
    agreed = told.agreed(job.customer.name)
    if agreed:
        give_consent(job, entry, agreed)
    return {"url": address(job)}


INTAKE = EntryKind("intake", 1, IntakeForm, apply_intake, ALL, fact=True)
FAILING_NOW = EntryKind("failing_now", 1, FailingNowForm, apply_failing_now, ALL, fact=True)
CUSTOMER = EntryKind("customer", 1, CustomerForm, apply_part, ALL, fact=True)
VEHICLE = EntryKind("vehicle", 1, VehicleForm, apply_part, ALL, fact=True)
SYSTEM = EntryKind("system", 1, SystemForm, apply_part, ALL, fact=True)
CONSENT = EntryKind("consent", 1, ConsentForm, apply_consent, ALL, fact=True)

ENTRIES: dict[str, EntryKind] = {
    kind.name: kind for kind in (INTAKE, FAILING_NOW, CUSTOMER, VEHICLE, SYSTEM, CONSENT)
}
