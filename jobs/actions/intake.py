"""Writing an intake: customer, car, system, job, car state 0 and consent no. 1 at once."""

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from typing import Any

from django.utils import timezone

from jobs import search
from jobs.actions.consent import give_consent
from jobs.actions.fill import fill, refold_car
from jobs.actions.job import address
from jobs.actions.refold import refold
from jobs.models import CarState, Customer, Entry, Job, System, Vehicle
from jobs.told import Intake, Mark

AS_ARRIVED = "Car as arrived"
PHONE_DIGITS = 6  # fewer say nothing about whose phone it is


def take_in(entry: Entry, told: Intake) -> dict[str, Any]:
    """Write the rows of an intake; its job has the entry's own key.

    An intake that corrects one which is here already belongs to that one's job, and fills it.
    """
    corrected = Job.objects.filter(key=entry.job_key or entry.key).first()
    if corrected:
        job, marks = corrected, complete(corrected, told)
    else:
        job = open_job(entry, told)
        marks = list(met_before(job))
    give_consent(job, entry, told.consent)
    entry.marks = [*entry.marks, *told.marks, *marks]
    return {"url": address(job), "job": str(job.key), "number": job.number}


def open_job(entry: Entry, told: Intake) -> Job:
    """The rows of a car that was not here under this key."""
    customer = Customer.objects.create(**told.customer)
    car = Vehicle.objects.create(customer=customer, **told.car)
    System.objects.create(vehicle=car, **told.system)
    job = Job.objects.create(
        key=entry.key,
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


def next_number(arrived_at: datetime) -> str:
    """The next number of the year in the shop's time zone, such as 26-0418.

    Numbers grow with the rows; the write lock is held, so nobody takes the same one.
    """
    year = timezone.localtime(arrived_at).strftime("%y")
    rows = Job.objects.filter(number__startswith=f"{year}-").order_by("-id")
    last = rows.values_list("number", flat=True).first()
    return f"{year}-{int(last.partition('-')[2]) + 1 if last else 1:04d}"


def complete(job: Job, told: Intake) -> list[Mark]:
    """Fill a job's rows with what a later form says more or otherwise.

    What was left empty stays as it was; returned are the marks of values that changed.
    """
    car = job.vehicle
    parts: list[tuple[Any, Mapping[str, Any]]] = [
        (job.customer, told.customer),
        (car, told.car),
        (car.system, told.system),
        (job, told.job),
    ]
    changed = [mark for row, values in parts for mark in fill(row, values)]
    refold_car(car)
    return changed


def met_before(job: Job) -> Iterator[Mark]:
    """What the shop already knows of this car and customer. Nothing is put together by itself."""
    told = set()
    for words, is_same, code in known_by(job):
        found = search.find(words).jobs
        before = next((one for one in found if one.pk != job.pk and is_same(one)), None)
        if before and before.customer_id not in told:
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
