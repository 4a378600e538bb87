"""A database that went back in time says so to tablets, and takes first what it had before."""

import json
import uuid
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from jobs.actions import epoch
from jobs.entries import FAILING_NOW
from jobs.logbook import enter
from jobs.models import Entry, Tablet
from jobs.models.epochs import Epoch, current
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db
TABLET = uuid.uuid4()


@pytest.fixture
def browser(db) -> Client:
    if current() is None:  # what ran before may have emptied the table
        epoch.begin("The first one.")
    client = Client()
    client.cookies[TABLET_COOKIE] = tablet_token(TABLET)
    return client


def entered() -> uuid.UUID:
    """An entry that is in the logbook."""
    told = make_told({"failing": ["yes"]}, job_key=make_job().key)
    return enter(FAILING_NOW, told).key


def ask(browser: Client, *keys: uuid.UUID) -> dict[str, Any]:
    body = json.dumps({"keys": [str(key) for key in keys]})
    answer = browser.post("/ring/", body, content_type="application/json")
    told: dict[str, Any] = answer.json()
    return told


def send(browser: Client, **envelope: Any) -> Any:
    said = {
        "key": str(uuid.uuid4()),
        "kind": "failing_now",
        "version": 1,
        "fields": {"failing": ["yes"]},
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(make_person(), TABLET),
    }
    return browser.post("/entries/", json.dumps(said | envelope), content_type="application/json")


def epoch_now() -> str:
    held = current()
    assert held
    return str(held.key)


def test_the_ping_tells_the_epoch_and_whether_it_knows_the_last_entry(browser):
    last, gone = entered(), uuid.uuid4()
    told = [browser.get("/ping/", {"last": str(one)}).json() for one in (last, gone, "")]
    assert [one["knows"] for one in told] == [True, False, None]
    assert {one["epoch"] for one in told} == {epoch_now()}


def test_what_is_missing_is_told_in_the_order_asked(browser):
    here, first, second = entered(), uuid.uuid4(), uuid.uuid4()
    assert ask(browser, second, here, first)["missing"] == [str(second), str(first)]


def test_missing_entries_begin_one_epoch_and_not_one_for_each_tablet(browser):
    before = epoch_now()
    told = [ask(browser, uuid.uuid4()) for _ in range(3)]
    assert {one["epoch"] for one in told} == {epoch_now()} != {before}
    assert Epoch.objects.count() == 2
    assert "1 entry" in Epoch.objects.latest("pk").why


def test_a_revoked_tablet_is_told_what_is_missing_and_begins_no_epoch(browser):
    before, gone = epoch_now(), uuid.uuid4()
    Tablet.objects.create(key=TABLET, revoked_by=make_person(), revoked_at=timezone.now())
    told = ask(browser, gone)
    assert (told["missing"], told["epoch"]) == ([str(gone)], before)
    assert epoch_now() == before


def test_nothing_missing_begins_no_epoch(browser):
    before = epoch_now()
    assert ask(browser, entered())["epoch"] == before == epoch_now()


def test_a_browser_that_nobody_knows_is_told_of_no_key():
    answer = Client().post("/ring/", '{"keys": []}', content_type="application/json")
    assert (answer.status_code, "missing" in answer.json()) == (403, False)


@pytest.mark.parametrize("body", ["", "[]", '{"keys": 3}', '{"keys": ["x"]}', '{"keys": [{}]}'])
def test_what_is_no_list_of_keys_is_turned_away_in_words(browser, body):
    answer = browser.post("/ring/", body, content_type="application/json")
    assert answer.status_code == 400


@pytest.mark.parametrize("said", [{"epoch": str(uuid.uuid4())}, {"last": str(uuid.uuid4())}])
def test_an_entry_from_before_the_database_went_back_waits_for_what_was_lost(browser, said):
    job = make_job()
    answer = send(browser, job=str(job.key), **said)
    assert (answer.status_code, answer.json()["state"]) == (412, "went_back")
    assert not Entry.objects.filter(kind="failing_now").exists()


def test_an_entry_of_this_epoch_is_taken_and_told_its_place(browser):
    job, last = make_job(), entered()
    answer = send(browser, job=str(job.key), epoch=epoch_now(), last=str(last))
    assert answer.status_code == 201
    assert answer.json()["place"] == Entry.objects.latest("pk").pk


def test_of_a_car_lost_with_a_restored_database_an_entry_waits_and_is_not_returned(browser):
    epoch.begin("restored from a backup")
    answer = send(browser, job=str(uuid.uuid4()))
    assert (answer.status_code, answer.json()["state"]) == (503, "no_job")


def test_of_a_car_that_never_was_here_an_entry_is_returned(browser):
    answer = send(browser, job=str(uuid.uuid4()))
    assert (answer.status_code, answer.json()["state"]) == (422, "returned")
