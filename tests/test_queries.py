"""A page asks the database as often however much was told of a car."""

import uuid
from collections.abc import Iterable
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.entries import HANDOVER, PRICE, TAG, WAITING
from jobs.kept_bytes import store
from jobs.logbook import enter
from jobs.models import Job, Photo
from jobs.models.people import OWNER
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, Told, stood
from tests.diagnostics.test_issue import freeze
from tests.factories import make_job, make_person, make_shop, make_told
from tests.jobs.test_photos import drawn, photo_of

pytestmark = pytest.mark.django_db
OF_A_JOB = (
    "close?job={job}",
    "close?job={job}&closing_kind=tested_only",
    "close?job={job}&closing_kind=repaired_verified",
    "issue?job={job}",
    "points?job={job}",
    "record?job={job}",
    "stage?job={job}",
    "tag?job={job}",
)
OF_TWO = (
    "merge?customer={customer}&other={other_customer}",
    "merge?vehicle={car}&other={other_car}",
    "redact?customer={customer}",
)
PRICES = ("settings?part=prices",)
PLATES: dict[str, Any] = {"plate": "MB.2207K", "customer_name": "Jorun Ambrel"}


@pytest.fixture
def owner() -> Client:
    browser = Client()
    browser.force_login(make_person(OWNER))
    return browser


def asked(browser: Client, addresses: Iterable[str], **keys: object) -> dict[str, int]:
    """How often each page asks the database."""
    found = {}
    for address in addresses:
        page, _, behind = address.format(**keys).partition("?")
        with CaptureQueriesContext(connection) as queries:
            response = browser.get(f"{reverse(page)}?{behind}")
        assert response.status_code == 200, address
        found[address] = len(queries)
    return found


def go_on(told: Told) -> None:
    """Something of all that can be told of a car."""
    told.test(COMES_NOT)
    told.test(HOLDS)
    told.change(**CLUTCH)
    told.failing("yes")
    stood(told.tell(WAITING, what="part", words="Drier."))
    stood(told.tell(HANDOVER, stands=["hood_open"]))
    stood(told.tell(TAG, words="Short belt on."))
    stood(told.waive(told.now.points[0].code))
    take_picture(told.job)
    changed = "More was told." if told.job.records.exists() else ""
    stood(freeze(told.job, changed=changed))


def take_picture(job: Job) -> None:
    """One more photo of a car."""
    kept = {"stored_sha256": store("photos", drawn(), ".jpg"), "width": 30, "height": 20}
    number = Photo.objects.filter(entry=job.entry).count() + 1
    photo_of(job, number=number, **kept)


def test_a_page_of_a_job_asks_as_often_however_much_was_told(owner):
    told = Told()
    go_on(told)
    few = asked(owner, OF_A_JOB, job=told.job.key)
    go_on(told)
    go_on(told)
    assert asked(owner, OF_A_JOB, job=told.job.key) == few


def test_a_page_about_a_customer_or_a_car_asks_as_often_however_many_the_visits(owner):
    one, other = make_job(), make_job(**PLATES)
    keys = {
        "customer": one.customer.key,
        "other_customer": other.customer.key,
        "car": one.vehicle.key,
        "other_car": other.vehicle.key,
    }
    take_picture(one)
    take_picture(other)
    few = asked(owner, OF_TWO, **keys)
    for before, fields in ((one, {}), (other, PLATES)) * 2:
        again = make_job(**fields, follows=str(before.key), before="comeback")
        take_picture(again)
    assert asked(owner, OF_TWO, **keys) == few


def test_the_list_of_prices_asks_as_often_however_long_it_is(owner):
    make_shop()
    add_prices(1)
    few = asked(owner, PRICES)
    add_prices(20)
    assert asked(owner, PRICES) == few


def add_prices(many: int) -> None:
    """So many more lines in the list."""
    for _ in range(many):
        name = f"Seal {uuid.uuid4().hex[:6]}"
        price = {"what": "part", "name": name, "price": "2.40", "unit": "piece"}
        stood(enter(PRICE, make_told(price, make_person(OWNER))))
