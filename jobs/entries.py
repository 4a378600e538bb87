"""The entry kinds of this room."""

from typing import Any, cast

from django import forms
from django.urls import reverse

from jobs.actions.change import record_change
from jobs.actions.consent import give_consent
from jobs.actions.discard import throw_away
from jobs.actions.failing_now import set_failing_now
from jobs.actions.fill import fill_job
from jobs.actions.intake import take_in
from jobs.actions.job import address, job_of
from jobs.actions.people import add_person, change_person
from jobs.actions.photo import file_photo, take_photos
from jobs.actions.shop import set_up_shop
from jobs.forms.consent import ConsentForm
from jobs.forms.customer import CustomerForm
from jobs.forms.discard import DiscardForm
from jobs.forms.failing_now import FailingNowForm
from jobs.forms.intake import IntakeForm
from jobs.forms.people import PersonChange, PersonEntry
from jobs.forms.photo import FiledForm, PhotoForm
from jobs.forms.repair import RepairForm
from jobs.forms.shop import ShopForm
from jobs.forms.system import SystemForm
from jobs.forms.vehicle import VehicleForm
from jobs.logbook import EntryKind
from jobs.models import Entry
from jobs.models.people import OWNER, ROLES, TECHNICIAN

ALL = frozenset(ROLES)
OWNERS = frozenset({OWNER})
BAY = frozenset({TECHNICIAN, OWNER})


def apply_intake(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A car taken in."""
    return take_in(entry, cast("IntakeForm", form).taken_in())


def apply_failing_now(entry: Entry, _form: forms.Form) -> dict[str, Any]:
    """The switch on the job."""
    return set_failing_now(entry)


def apply_part(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Customer, car or system, told later."""
    told = cast("CustomerForm | VehicleForm | SystemForm", form)
    job = job_of(entry)
    return fill_job(entry, job, told.parts(), told.showing(job), told.marks)


def apply_consent(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A consent given after intake."""
    told = cast("ConsentForm", form)
    job = job_of(entry)
    agreed = told.agreed(job.customer.name)
    if agreed:
        give_consent(job, entry, agreed)
    return {"url": address(job)}


def apply_change(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Something changed on the car."""
    return record_change(entry, cast("RepairForm", form).changed())


def apply_photo(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Photos taken."""
    return take_photos(entry, cast("PhotoForm", form).filed())


def apply_photo_filed(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A photo filed anew."""
    told = cast("FiledForm", form)
    return file_photo(entry, told.cleaned_data["picture"], told.filed())


def apply_discard(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An entry thrown away on a tablet: the logbook's line, and a mark where that one stands."""
    throw_away(entry, form.cleaned_data["discarded"])
    return {"url": reverse("unsent")}


def apply_person(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Somebody new."""
    told = form.cleaned_data
    add_person(entry, told["name"], told["role"], told["pin_hash"], told["password_hash"])
    return {"url": reverse("people")}


def apply_person_change(_entry: Entry, form: forms.Form) -> dict[str, Any]:
    """One change to a person."""
    told = cast("PersonChange", form)
    person = told.cleaned_data["person"]
    change_person(person, told.cleaned_data["change"], told.value)
    return {"url": f"{reverse('people')}?person={person.key}"}


def apply_shop(_entry: Entry, form: forms.Form) -> dict[str, Any]:
    """The shop set up."""
    told = form.cleaned_data
    set_up_shop(told["name"], told["address"], told["currency"], told["paper"])
    return {"url": reverse("find")}


INTAKE = EntryKind("intake", 1, IntakeForm, apply_intake, ALL, fact=True, opens_job=True)
FAILING_NOW = EntryKind("failing_now", 1, FailingNowForm, apply_failing_now, ALL, fact=True)
CUSTOMER = EntryKind("customer", 1, CustomerForm, apply_part, ALL, fact=True)
VEHICLE = EntryKind("vehicle", 1, VehicleForm, apply_part, ALL, fact=True)
SYSTEM = EntryKind("system", 1, SystemForm, apply_part, ALL, fact=True)
CONSENT = EntryKind("consent", 1, ConsentForm, apply_consent, ALL, fact=True)
CHANGE = EntryKind("change", 1, RepairForm, apply_change, BAY, fact=True)
PHOTO = EntryKind("photo", 1, PhotoForm, apply_photo, ALL, fact=True)
PHOTO_FILED = EntryKind("photo_filed", 1, FiledForm, apply_photo_filed, ALL, fact=True)
DISCARD = EntryKind("discard", 1, DiscardForm, apply_discard, ALL, fact=True)
PERSON = EntryKind("person", 1, PersonEntry, apply_person, OWNERS, fact=False, online=True)
PERSON_CHANGE = EntryKind(
    "person_change", 1, PersonChange, apply_person_change, OWNERS, fact=False, online=True
)
SHOP = EntryKind("shop", 1, ShopForm, apply_shop, OWNERS, fact=False, online=True)

ENTRIES: dict[str, EntryKind] = {
    kind.name: kind
    for kind in (
        INTAKE,
        FAILING_NOW,
        CUSTOMER,
        VEHICLE,
        SYSTEM,
        CONSENT,
        CHANGE,
        PHOTO,
        PHOTO_FILED,
        DISCARD,
        PERSON,
        PERSON_CHANGE,
        SHOP,
    )
}
