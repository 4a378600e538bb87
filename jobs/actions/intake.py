"""Writing an intake: customer, car, system, job, car state 0 and consent no. 1 at once."""

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from typing import Any

from django.db.models import Q
from django.utils import timezone

from jobs import search
from jobs.actions.conflicts import Held
from jobs.actions.consent import give_consent
from jobs.actions.fill import fill, fill_job, refold_car
from jobs.actions.follows import follow, look_for_earlier
from jobs.actions.job import address
from jobs.actions.refold import refold
from jobs.actions.same import take_over
from jobs.known import may_be
from jobs.models import CarState, Customer, Entry, Job, System, Vehicle
from jobs.models.corrected import entries_in_order
from jobs.models.jobs import NEW_HERE
from jobs.models.said import ASKED
from jobs.told import NOT_KNOWN, Intake, Mark

AS_ARRIVED = "Car as arrived"
SAME_CAR = ("comeback", "other_matter")
OTHER_CAR = "other_car"
PHONE_DIGITS = 6  # fewer say nothing about whose phone it is


def take_in(entry: Entry, told: Intake) -> dict[str, Any]:
    """Write the rows of an intake; its job has the entry's own key, or that of what it corrects.

    An intake that corrects one which is here already belongs to that one's job, and fills it; so
    does one that comes after its own correction.
    """
    corrected = Job.objects.filter(key=entry.job_key or entry.key).first()
    filled: dict[str, Any] = {}
    if corrected:
        job, marks = corrected, []
        receive_earlier(corrected, entry)
        if is_another_car(corrected, told) and is_last(corrected, entry):
            part_from_earlier(corrected, told)
        filled = complete(entry, corrected, told)
    else:
        job = open_job(entry, told)
        marks = [*told.marks, *met_before(job)]
    if told.before.told and job.follows_told in ("", NEW_HERE):
        follow(job, told.before)
    elif not corrected:
        look_for_earlier(job)
    give_consent(job, entry, told.consent)
    entry.marks = [*entry.marks, *marks]
    return {**filled, "url": address(job), "job": str(job.key), "number": job.number}


def receive_earlier(job: Job, entry: Entry) -> None:
    """The car was received when the first of its intakes says, whichever arrived first."""
    if entry.happened_at < job.opened_at:
        job.opened_at = entry.happened_at
        job.save(update_fields=["opened_at"])
        job.car_states.filter(number=0).update(opened_at=entry.happened_at)


def open_job(entry: Entry, told: Intake) -> Job:
    """The rows of a car that was not here under this key."""
    customer, car = rows_of(entry, told)
    job = Job.objects.create(
        key=entry.job_key or entry.key,
        number=next_number(entry.arrived_at),
        customer=customer,
        vehicle=car,
        entry=entry,
        opened_at=entry.happened_at,
        **told.job,
    )
    refold([job])
    CarState.objects.create(
        job=job, number=0, opened_by=entry, opened_at=entry.happened_at, what=AS_ARRIVED
    )
    return job


def rows_of(entry: Entry, told: Intake) -> tuple[Customer, Vehicle]:
    """Customer and car: those of the earlier job where it is that car, else new ones."""
    earlier = None
    if told.before.job and told.before.told in SAME_CAR:
        rows = Job.objects.select_related("customer", "vehicle__system")
        earlier = rows.filter(key=told.before.job).first()
    if earlier is None or not may_be(earlier.vehicle, told.car["plate"], told.car["vin"]):
        return new_rows(told)
    return who_of(entry, told, earlier), car_of(entry, told, earlier.vehicle)


def new_rows(told: Intake) -> tuple[Customer, Vehicle]:
    """Customer and car as told, of their own."""
    customer = Customer.objects.create(**told.customer)
    car = Vehicle.objects.create(customer=customer, **told.car)
    System.objects.create(vehicle=car, **told.system)
    return customer, car


def is_another_car(job: Job, told: Intake) -> bool:
    """Whether a corrected intake tells of another car than the one the job was opened for."""
    same = may_be(job.vehicle, told.car["plate"], told.car["vin"])
    return told.before.told == OTHER_CAR or not same


def part_from_earlier(job: Job, told: Intake) -> None:
    """The car is not the one it was taken for: rows of its own, and it follows no job any more.

    Those of the earlier job stay as they were.
    """
    others = Job.objects.exclude(pk=job.pk)
    if not others.filter(Q(vehicle=job.vehicle_id) | Q(customer=job.customer_id)).exists():
        return
    job.customer, job.vehicle = new_rows(told)
    job.follows, job.follows_told = None, told.before.told
    job.save(update_fields=["customer", "vehicle", "follows", "follows_told"])
    refold([job])
    look_for_earlier(job)


def who_of(entry: Entry, told: Intake, earlier: Job) -> Customer:
    """The customer of the earlier job where name or phone is the same; a car may have been sold."""
    customer, said = earlier.customer, told.customer
    alike = any(
        search.fold(said[name]) == search.fold(getattr(customer, name)) != ""
        for name in ("name", "phone")
    )
    if customer.redacted_at or not alike:
        return Customer.objects.create(**said)
    entry.marks = [*entry.marks, *take_over(entry, customer, said)]
    return customer


def car_of(entry: Entry, told: Intake, car: Vehicle) -> Vehicle:
    """The car as it is here; with the same VIN another plate is its new one."""
    said, marks = dict(told.car), []
    if said["vin"] and search.fold(said["vin"]) == search.fold(car.vin):
        del said["vin"]  # spelled otherwise it is the same
        if search.fold(said["plate"]) != search.fold(car.plate):
            marks += fill(car, {"plate": said.pop("plate")})
    if search.fold(said.get("plate", car.plate)) == search.fold(car.plate):
        said.pop("plate", None)
    marks += take_over(entry, car, said)
    marks += take_over(entry, car.system, told.system)
    entry.marks = [*entry.marks, *marks]
    refold_car(car)
    return car


def next_number(arrived_at: datetime) -> str:
    """The next number of the year in the shop's time zone, such as 26-0418.

    Numbers grow with the rows; the write lock is held, so nobody takes the same one.
    """
    year = timezone.localtime(arrived_at).strftime("%y")
    rows = Job.objects.filter(number__startswith=f"{year}-").order_by("-id")
    last = rows.values_list("number", flat=True).first()
    return f"{year}-{int(last.partition('-')[2]) + 1 if last else 1:04d}"


def complete(entry: Entry, job: Job, told: Intake) -> dict[str, Any]:
    """Fill a job's rows with what a corrected intake says otherwise than the one before.

    What it leaves empty that was told there is taken out. Where a later correction is here already,
    that one stands.
    """
    intakes = Entry.objects.filter(job_key=job.key, kind=entry.kind)
    if not is_last(job, entry):
        entry.marks = [*entry.marks, *told.marks, {"code": "corrected_since"}]
        return {"stale": sorted({name for one in intakes for name in one.fields})}
    held = Held.of(entry, job, told.showing)
    asked = {name: NOT_KNOWN for name in ASKED if held.emptied(name)}
    source = {"label_charge": NOT_KNOWN} if held.emptied("label_charge_source") else {}
    parts = {
        "customer": without(held, told.customer),
        "car": without(held, told.car),
        "system": {
            **without(held, told.system),
            "sources": {**told.system["sources"], **source},
        },
        "job": {
            **without(held, told.job),
            "complaint_answers": {**told.job["complaint_answers"], **asked},
        },
    }
    return fill_job(entry, job, parts, told.showing, list(told.marks))


def is_last(job: Job, entry: Entry) -> bool:
    """Whether no later correction of the intake is here already."""
    intakes = Entry.objects.filter(job_key=job.key, kind=entry.kind)
    return entries_in_order(intakes, entry)[-1] == entry


def without(held: Held, values: Mapping[str, Any]) -> dict[str, Any]:
    """A row's values, NOT_KNOWN where the correction emptied them; a VIN's remark goes with it."""
    return {
        column: NOT_KNOWN if column != "vin_mark" and held.emptied(column) else value
        for column, value in values.items()
    }


def met_before(job: Job) -> Iterator[Mark]:
    """What the shop already knows of this car and customer. Nothing is put together by itself."""
    told = set()
    for words, is_same, code in known_by(job):
        found = search.find(words).jobs
        before = next((one for one in found if one.pk != job.pk and is_same(one)), None)
        own = before and (
            before.vehicle_id == job.vehicle_id or before.customer_id == job.customer_id
        )
        if before and not own and before.customer_id not in told:
            told.add(before.customer_id)
            yield {"code": code, "job": str(before.key)}


def known_by(job: Job) -> Iterator[tuple[list[str], Callable[[Job], bool], str]]:
    """(words to look for, whether a job found is the same, the mark's code) of each likeness."""
    plate = search.fold(job.vehicle.plate)
    phone = search.fold(job.customer.phone)
    name = search.folded_words(job.customer.name)
    if len(plate) > 2:
        yield [plate], lambda one: search.fold(one.vehicle.plate) == plate, "known_plate"
    if len(phone) >= PHONE_DIGITS:
        yield (
            [phone],
            lambda one: search.fold(one.customer.phone) == phone,
            "known_phone",
        )
    if len(name) > 1:
        yield (
            name,
            lambda one: search.folded_words(one.customer.name) == name,
            "known_name",
        )
