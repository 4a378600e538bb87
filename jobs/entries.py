"""The entry kinds of this room."""

from typing import Any, cast

from django import forms
from django.urls import reverse

from jobs.actions.change import record_change
from jobs.actions.conditions import note_conditions
from jobs.actions.consent import consent_told
from jobs.actions.copy_seen import see_copy
from jobs.actions.discard import throw_away
from jobs.actions.equipment import add_check, lay_beside, tell_of
from jobs.actions.estimate import write_estimate
from jobs.actions.failing_now import set_failing_now
from jobs.actions.fill import fill_job
from jobs.actions.follows import tell_follows
from jobs.actions.handover import hand_over, take_over
from jobs.actions.intake import take_in
from jobs.actions.invoice import write_invoice
from jobs.actions.job import address, job_of
from jobs.actions.loop_parts import tell_loop_parts
from jobs.actions.loop_work import record_loop_work
from jobs.actions.merge import merge
from jobs.actions.named import name_somebody
from jobs.actions.old_part import tell_choice
from jobs.actions.photo import file_photo, take_photos
from jobs.actions.place import put_place
from jobs.actions.prices import tell_line
from jobs.actions.qualification import add_qualification
from jobs.actions.redact import redact
from jobs.actions.shop import change_shop, set_up_shop
from jobs.actions.tag import write_tag
from jobs.actions.taken_out import tell_taken_out
from jobs.actions.waiting import begin_waiting, end_waiting
from jobs.cylinder_entries import CYLINDER_ENTRIES
from jobs.forms.charge import ChargeForm
from jobs.forms.conditions import ConditionsForm
from jobs.forms.consent import ConsentForm
from jobs.forms.copy_seen import CopySeenForm
from jobs.forms.customer import CustomerForm
from jobs.forms.discard import DiscardForm
from jobs.forms.equipment import CheckForm, EquipmentForm, TabletForm
from jobs.forms.estimate import EstimateForm
from jobs.forms.evacuation import EvacuationForm
from jobs.forms.failing_now import FailingNowForm
from jobs.forms.follows import FollowsForm
from jobs.forms.handover import HandoverForm, TakenOverForm
from jobs.forms.intake import IntakeForm
from jobs.forms.invoice import InvoiceForm
from jobs.forms.loop_parts import LoopPartsForm
from jobs.forms.loop_work import LoopWorkForm
from jobs.forms.machine_cycle import MachineCycleForm
from jobs.forms.merge import MergeForm
from jobs.forms.named import NamedForm
from jobs.forms.oil import OilForm
from jobs.forms.old_part import OldPartForm
from jobs.forms.photo import FiledForm, PhotoForm
from jobs.forms.place import PlaceForm
from jobs.forms.prices import ListedForm, PriceForm, TaxForm
from jobs.forms.qualification import QualificationForm
from jobs.forms.recovery import RecoveryForm
from jobs.forms.redact import RedactForm
from jobs.forms.repair import RepairForm
from jobs.forms.settings import shop_change_form
from jobs.forms.settings_figures import PartForm
from jobs.forms.shop import ShopForm
from jobs.forms.system import SystemForm
from jobs.forms.tag import TagForm
from jobs.forms.taken_out import TakenOutForm
from jobs.forms.vehicle import VehicleForm
from jobs.forms.waiting import WaitingEndForm, WaitingForm
from jobs.logbook import EntryKind
from jobs.models import Entry, Price, Tax
from jobs.models.people import BAY, DESK, OWNER, ROLES
from jobs.people_entries import PEOPLE_ENTRIES

ALL = frozenset(ROLES)
OWNERS = frozenset({OWNER})
OFFICE = frozenset({DESK, OWNER})


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
    """Somebody was asked to agree, after intake."""
    job = job_of(entry)
    consent_told(entry, job, cast("ConsentForm", form).told(job.customer.name))
    return {"url": address(job)}


def apply_estimate(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A version of the estimate."""
    told = cast("EstimateForm", form)
    return write_estimate(entry, told.priced(), told.from_what)


def apply_invoice(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An invoice."""
    told = cast("InvoiceForm", form)
    return write_invoice(entry, told.priced(), told.cleaned_data)


def apply_named(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Who else may say yes."""
    return name_somebody(entry, form.cleaned_data)


def apply_old_part(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """What becomes of the old parts."""
    return tell_choice(entry, form.cleaned_data)


def apply_change(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Something changed on the car."""
    return record_change(entry, cast("RepairForm", form).changed())


def apply_loop_work(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Refrigerant taken out or put in."""
    return record_loop_work(entry, cast("LoopWorkForm", form).worked())


def apply_oil(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Oil out of the loop, and into it."""
    return record_loop_work(entry, cast("OilForm", form).worked())


def apply_evacuation(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """The loop pumped down."""
    return record_loop_work(entry, cast("EvacuationForm", form).worked())


def apply_loop_parts(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """What was seen of the parts of the loop."""
    return tell_loop_parts(entry, cast("LoopPartsForm", form).seen())


def apply_taken_out(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Where an old part went."""
    return tell_taken_out(entry, cast("TakenOutForm", form).told())


def apply_follows(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Whether the trouble of an earlier visit is back."""
    return tell_follows(entry, cast("FollowsForm", form).before())


def apply_merge(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Two customers or two cars that are one."""
    return merge(entry, cast("MergeForm", form).merged())


def apply_redact(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A customer who asked to be forgotten."""
    return redact(entry, form.cleaned_data)


def apply_handover(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A job handed over."""
    return hand_over(entry, cast("HandoverForm", form).handed_over())


def apply_taken_over(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Somebody goes on with it."""
    return take_over(entry, form.cleaned_data["handover"])


def apply_tag(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Why the A/C must not be run, as a person says it."""
    return write_tag(entry, form.cleaned_data)


def apply_conditions(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Under what the car stands."""
    told = cast("ConditionsForm", form)
    return note_conditions(entry, told.told(), told.marks)


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


def apply_place(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """Where a car is, when it is promised, who has it."""
    return put_place(entry, cast("PlaceForm", form).told)


def apply_waiting(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """What a car waits for."""
    return begin_waiting(entry, cast("WaitingForm", form).told)


def apply_waiting_end(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """That it does so no longer."""
    return end_waiting(entry, form.cleaned_data["waiting"])


def apply_copy_seen(entry: Entry, _form: forms.Form) -> dict[str, Any]:
    """Somebody looked at what came under a key already taken."""
    return see_copy(entry)


def apply_qualification(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A card of somebody's."""
    told = cast("QualificationForm", form)
    person = told.cleaned_data["person"]
    add_qualification(entry, person, told.columns(), told.corrected)
    return {"url": f"{reverse('people')}?person={person.key}"}


def apply_equipment(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """An instrument, new or as it is now."""
    told = cast("EquipmentForm", form)
    said = told.cleaned_data
    thing = tell_of(entry, said["thing"], told.columns(), (said["checked_on"], said["until"]))
    return {"url": f"{reverse('equipment')}?thing={thing.key}"}


def apply_check(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """A check of an instrument."""
    told = cast("CheckForm", form)
    said = told.cleaned_data
    add_check(entry, said["thing"], said["checked_on"], said["until"], told.corrected)
    return {"url": f"{reverse('equipment')}?thing={said['thing'].key}"}


def apply_tablet(entry: Entry, form: forms.Form) -> dict[str, Any]:
    """What lies beside a tablet."""
    lay_beside(entry, form.cleaned_data["things"])
    return {"url": f"{reverse('equipment')}?beside=1"}


def apply_shop(_entry: Entry, form: forms.Form) -> dict[str, Any]:
    """The shop set up."""
    told = form.cleaned_data
    set_up_shop(told["name"], told["address"], told["currency"], told["paper"])
    return {"url": reverse("board")}


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
# One to a version that was replaced is refused; whatever else was said is kept as any fact is.
CONSENT = EntryKind("consent", 1, ConsentForm, apply_consent, ALL, fact=False)
NAMED = EntryKind("named", 1, NamedForm, apply_named, ALL, fact=True)
OLD_PART = EntryKind("old_part", 1, OldPartForm, apply_old_part, ALL, fact=True)
INVOICE = EntryKind("invoice", 1, InvoiceForm, apply_invoice, OFFICE, fact=False, online=True)
ESTIMATE = EntryKind("estimate", 1, EstimateForm, apply_estimate, ALL, fact=True)
CHANGE = EntryKind("change", 1, RepairForm, apply_change, BAY, fact=True)
RECOVERY = EntryKind("recovery", 1, RecoveryForm, apply_loop_work, BAY, fact=True)
CHARGE = EntryKind("charge", 1, ChargeForm, apply_loop_work, BAY, fact=True)
MACHINE_CYCLE = EntryKind("machine_cycle", 1, MachineCycleForm, apply_loop_work, BAY, fact=True)
OIL = EntryKind("oil", 1, OilForm, apply_oil, BAY, fact=True)
EVACUATION = EntryKind("evacuation", 1, EvacuationForm, apply_evacuation, BAY, fact=True)
LOOP_PARTS = EntryKind("loop_parts", 1, LoopPartsForm, apply_loop_parts, BAY, fact=True)
TAKEN_OUT = EntryKind("taken_out", 1, TakenOutForm, apply_taken_out, ALL, fact=True)
PLACE = EntryKind("place", 1, PlaceForm, apply_place, ALL, fact=True)
WAITING = EntryKind("waiting", 1, WaitingForm, apply_waiting, ALL, fact=True)
WAITING_END = EntryKind("waiting_end", 1, WaitingEndForm, apply_waiting_end, ALL, fact=True)
HANDOVER = EntryKind("handover", 1, HandoverForm, apply_handover, ALL, fact=True)
TAKEN_OVER = EntryKind("taken_over", 1, TakenOverForm, apply_taken_over, ALL, fact=True)
TAG = EntryKind("tag", 1, TagForm, apply_tag, ALL, fact=True)
CONDITIONS = EntryKind("conditions", 1, ConditionsForm, apply_conditions, ALL, fact=True)
PHOTO = EntryKind("photo", 1, PhotoForm, apply_photo, ALL, fact=True)
PHOTO_FILED = EntryKind("photo_filed", 1, FiledForm, apply_photo_filed, ALL, fact=True)
DISCARD = EntryKind("discard", 1, DiscardForm, apply_discard, ALL, fact=True)
FOLLOWS = EntryKind("follows", 1, FollowsForm, apply_follows, ALL, fact=True)
MERGE = EntryKind("merge", 1, MergeForm, apply_merge, OFFICE, fact=False, online=True)
REDACT = EntryKind("redact", 1, RedactForm, apply_redact, OWNERS, fact=False, online=True)
COPY_SEEN = EntryKind("copy_seen", 1, CopySeenForm, apply_copy_seen, ALL, fact=True, online=True)
QUALIFICATION = EntryKind(
    "qualification", 1, QualificationForm, apply_qualification, OWNERS, fact=True, online=True
)
EQUIPMENT = EntryKind(
    "equipment", 1, EquipmentForm, apply_equipment, OWNERS, fact=True, online=True
)
EQUIPMENT_CHECK = EntryKind(
    "equipment_check", 1, CheckForm, apply_check, OWNERS, fact=True, online=True
)
EQUIPMENT_TABLET = EntryKind(
    "equipment_tablet", 1, TabletForm, apply_tablet, BAY, fact=True, online=True
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
        ESTIMATE,
        INVOICE,
        NAMED,
        OLD_PART,
        CHANGE,
        RECOVERY,
        CHARGE,
        MACHINE_CYCLE,
        OIL,
        EVACUATION,
        LOOP_PARTS,
        TAKEN_OUT,
        PLACE,
        WAITING,
        WAITING_END,
        HANDOVER,
        TAKEN_OVER,
        TAG,
        CONDITIONS,
        PHOTO,
        PHOTO_FILED,
        DISCARD,
        FOLLOWS,
        MERGE,
        REDACT,
        COPY_SEEN,
        *PEOPLE_ENTRIES,
        QUALIFICATION,
        EQUIPMENT,
        EQUIPMENT_CHECK,
        EQUIPMENT_TABLET,
        *CYLINDER_ENTRIES,
        SHOP,
        SHOP_CHANGE,
        PRICE,
        TAX,
    )
}
