"""Many invented jobs, closed long ago, written straight into the tables.

What find and the board have to be quick among. Everything is drawn from one seed, so two runs with
the same count have the same shop. The rows are those an intake writes; only the logbook's result
and the fingerprint are shortened, because nothing here reads them.
"""

import uuid
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from random import Random

from django.db import transaction
from django.utils import timezone

from jobs.actions.refold import refold
from jobs.models import CarState, Customer, Entry, Job, Person, System, Vehicle

BATCH = 5_000
APART = timedelta(minutes=5)  # a million jobs are nine and a half years
VISITS = 3  # of one car, on average our guess of a shop's regulars
FIRST = "Ada Bo Cor Dag Elva Finn Gro Hal Ida Jon Kai Liv Mor Nia Ole Pia Rune Siv Tor Una".split()
LAST = [
    start + end
    for start in ("Abant", "Bren", "Corv", "Dorv", "Elm", "Fenn", "Gald", "Hollow", "Iver", "Marw")
    for end in ("ell", "ington", "moor", "ski", "sson", "ado", "brook", "wick", "ana", "oglu")
]
MODELS = ("Brenloh Ilex", "Sellando Quill", "Ostrander Pavo", "Maribel Sorrel", "Dorvane Umbel")
LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
VIN_SIGNS = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"


def add_jobs(count: int, of: int, author: Person, say: Callable[[str], None]) -> None:
    """Bring the closed jobs up to `count`, the oldest first; in the end there will be `of`.

    The newest is of last year, so that the open jobs have this year's numbers to themselves.
    """
    have = Job.objects.filter(stage="closed").count()
    chance = Random(f"{have} {count}")  # noqa: S311  invented data
    now = timezone.localtime()
    ends = now.replace(month=1, day=1, hour=0) - timedelta(days=1)
    numbers: dict[int, int] = {}
    if have:
        last = Job.objects.filter(stage="closed").order_by("-id").values_list("number", flat=True)
        year, _, number = str(last[0]).partition("-")
        numbers[int(year)] = int(number)
    for start in range(have, count, BATCH):
        moments = [ends - (of - n) * APART for n in range(start, min(start + BATCH, count))]
        with transaction.atomic():
            write(moments, author, numbers, chance)
        say(f"{start + len(moments):,} of {count:,} jobs".replace(",", " "))


def write(moments: list[datetime], author: Person, numbers: dict[int, int], chance: Random) -> None:
    """One batch: each moment a job, about one new car for every three of them."""
    cars = made_cars(len(moments) // VISITS + 1, chance)
    entries = Entry.objects.bulk_create(intake(at, author, chance) for at in moments)
    jobs = []
    for entry in entries:
        car = chance.choice(cars)
        year = entry.happened_at.year % 100
        numbers[year] = numbers.get(year, 0) + 1
        jobs.append(
            Job(
                key=entry.key,
                number=f"{year:02d}-{numbers[year]:04d}",
                customer=car.customer,
                vehicle=car,
                stage="closed",
                complaint="Blows warm.",
                entry=entry,
                opened_at=entry.happened_at,
            )
        )
    Job.objects.bulk_create(jobs)
    CarState.objects.bulk_create(
        CarState(job=job, number=0, opened_by=job.entry, opened_at=job.opened_at, what="As arrived")
        for job in jobs
    )
    refold(jobs)


def made_cars(count: int, chance: Random) -> list[Vehicle]:
    """New customers, each with a car and its air conditioning."""
    customers = Customer.objects.bulk_create(
        Customer(
            name=f"{chance.choice(FIRST)} {chance.choice(LAST)}",
            phone=f"555 {chance.randrange(1000):03d} {chance.randrange(10_000):04d}",
        )
        for _ in range(count)
    )
    cars = Vehicle.objects.bulk_create(
        Vehicle(
            customer=customer,
            plate=plate(chance),
            vin="ZZ9" + "".join(chance.choices(VIN_SIGNS, k=14)),
            make_model=chance.choice(MODELS),
            model_year=chance.randrange(2005, 2026),
        )
        for customer in customers
    )
    System.objects.bulk_create(System(vehicle=car, drive="belt_clutch") for car in cars)
    return cars


def plate(chance: Random) -> str:
    """One of the pattern KX.4731D."""
    front = "".join(chance.choices(LETTERS, k=2))
    return f"{front}.{chance.randrange(10_000):04d}{chance.choice(LETTERS)}"


def intake(at: datetime, author: Person, chance: Random) -> Entry:
    """The logbook's line of a job."""
    return Entry(
        key=(key := uuid.UUID(int=chance.getrandbits(128), version=4)),
        kind="intake",
        version=1,
        job_key=key,
        fields={"complaint": ["Blows warm."]},
        fingerprint=f"{key.int:064x}",
        author=author,
        sender=author,
        typed_at=at,
        arrived_at=at,
        happened_at=at,
        done_at=at,
        result={},
    )


def plates() -> Iterator[str]:
    """Plates of the oldest, the middle and the newest of the closed jobs."""
    keys = Job.objects.filter(stage="closed").order_by("id")
    last = keys.count() - 1
    for at in (0, last // 2, last):
        yield keys.select_related("vehicle")[at].vehicle.plate
