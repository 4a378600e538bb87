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
from jobs.actions.prices import tell_line
from jobs.actions.shop import change_shop, set_up_shop
from jobs.forms.consent import ConsentForm
from jobs.forms.customer import CustomerForm
from jobs.forms.discard import DiscardForm
from jobs.forms.failing_now import FailingNowForm
from jobs.forms.intake import IntakeForm
from jobs.forms.people import PersonChange, PersonEntry
from jobs.forms.prices import ListedForm, PriceForm, TaxForm
from jobs.forms.repair import RepairForm
from jobs.forms.settings import shop_change_form
from jobs.forms.settings_figures import PartForm
from jobs.forms.shop import ShopForm
from jobs.forms.system import SystemForm
from jobs.forms.vehicle import VehicleForm
from jobs.logbook import EntryKind
from jobs.models import Entry, Price, Tax
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


def apply_shop_change(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A part of the settings told anew."""
    told = cast("PartForm", form)
    change_shop(entry, told.NAME, told.columns(), told.data.get("seen"))
    return {"url": reverse("settings")}


def apply_price(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A price: new, told anew, or ended."""
    told = cast("ListedForm", form)
    tell_line(Price, entry, told.cleaned_data, {} if told.ending else told.columns())
    return {"url": f"{reverse('settings')}?part=prices"}


def apply_tax(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A tax: new, told anew, or ended."""
    told = cast("ListedForm", form)
    tell_line(Tax, entry, told.cleaned_data, {} if told.ending else told.columns())
    return {"url": f"{reverse('settings')}?part=taxes"}


INTAKE = EntryKind("intake", 1, IntakeForm, apply_intake, ALL, fact=True, opens_job=True)
FAILING_NOW = EntryKind("failing_now", 1, FailingNowForm, apply_failing_now, ALL, fact=True)
CUSTOMER = EntryKind("customer", 1, CustomerForm, apply_part, ALL, fact=True)
VEHICLE = EntryKind("vehicle", 1, VehicleForm, apply_part, ALL, fact=True)
SYSTEM = EntryKind("system", 1, SystemForm, apply_part, ALL, fact=True)
CONSENT = EntryKind("consent", 1, ConsentForm, apply_consent, ALL, fact=True)
CHANGE = EntryKind("change", 1, RepairForm, apply_change, BAY, fact=True)
DISCARD = EntryKind("discard", 1, DiscardForm, apply_discard, ALL, fact=True)
PERSON = EntryKind("person", 1, PersonEntry, apply_person, OWNERS, fact=False, online=True)
PERSON_CHANGE = EntryKind(
    "person_change", 1, PersonChange, apply_person_change, OWNERS, fact=False, online=True
)
SHOP = EntryKind("shop", 1, ShopForm, apply_shop, OWNERS, fact=False, online=True)
SHOP_CHANGE = EntryKind(
    "shop_change", 1, shop_change_form, apply_shop_change, OWNERS, fact=False, online=True
)
PRICE = EntryKind("price", 1, PriceForm, apply_price, OWNERS, fact=False, online=True)
TAX = EntryKind("tax", 1, TaxForm, apply_tax, OWNERS, fact=False, online=True)

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
        DISCARD,
        PERSON,
        PERSON_CHANGE,
        SHOP,
        SHOP_CHANGE,
        PRICE,
        TAX,
    )
}
