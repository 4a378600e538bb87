"""The owner's list of tablets: what each last told, its name, and its revocation."""

import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.sessions.models import Session
from django.test import Client
from django.utils import timezone

from jobs.models import Entry, Person, Tablet
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import PINS_COOKIE, TABLET_COOKIE, make_pass, pins_token, tablet_token
from jobs.pins import hash_pin
from tests.factories import make_job, make_person, make_shop

pytestmark = pytest.mark.django_db
FAR: dict[str, Any] = {"REMOTE_ADDR": "192.168.1.20"}


@pytest.fixture
def owner() -> Person:
    make_shop()
    return make_person(OWNER, name="T. Okafor")


@pytest.fixture
def desk(owner) -> Client:
    """The owner's browser."""
    browser = Client()
    browser.force_login(owner)
    return browser


def make_tablet(**columns: object) -> Tablet:
    return Tablet.objects.create(**columns)


def told(unsent: int = 4, days: float = 0, **more: object) -> Tablet:
    """A tablet that was heard of so many days ago and told how many it had not sent."""
    then = timezone.now() - timedelta(days=days, minutes=5)
    figures = {"photos": 0, "waiting": 0, "kept_bytes": 1200, "told_at": then}
    return make_tablet(**{"last_contact": then, "unsent": unsent, **figures, **more})


def change(browser: Client, tablet: Tablet, what: str, key: object = None, **fields: str):
    said = {"key": str(key or uuid.uuid4()), "tablet": str(tablet.key), "change": what, **fields}
    response = browser.post("/tablets/change/", said)
    tablet.refresh_from_db()
    return response


def browser_on(tablet: Tablet, owner: Person, **environ: Any) -> Client:
    """A browser that is this tablet, where PINs work by the owner's word."""
    browser = Client(**environ)
    browser.cookies[TABLET_COOKIE] = tablet_token(tablet.key)
    browser.cookies[PINS_COOKIE] = pins_token(owner, tablet.key)
    return browser


def make_technician() -> Person:
    return make_person(TECHNICIAN, name="R. Sand", pin=hash_pin("4071", uuid.uuid4()))


def sign_in(browser: Client, person: Person):
    return browser.post("/sign_in/", {"person": str(person.key), "pin": "4071"})


# The list.


def test_the_newest_contact_comes_first_and_what_was_never_heard_of_last(desk):
    for name, days in (("Bay 1", 2), ("Bay 2", 0), ("Bay 3", 1)):
        told(0, days, name=name)
    make_tablet(name="Bay 4")
    page = desk.get("/tablets/").content.decode()
    places = [page.index(name) for name in ("Bay 2", "Bay 3", "Bay 1", "Bay 4")]
    assert places == sorted(places)


def test_one_not_heard_of_for_days_with_entries_unsent_stands_out(desk):
    told(4, days=3, name="Bay 1")
    page = desk.get("/tablets/").content.decode()
    words = "Not heard of for 3 days, with 4 entries unsent as it last told."
    assert f"<strong>{words}</strong>" in page


@pytest.mark.parametrize(("unsent", "days"), [(0, 3), (4, 0)])
def test_one_that_is_there_or_has_nothing_unsent_does_not(desk, unsent, days):
    told(unsent, days=days, name="Bay 1")
    assert "Not heard of for" not in desk.get("/tablets/").content.decode()


def test_what_it_has_not_told_is_not_said_to_be_nothing(desk):
    tablet = make_tablet(last_contact=timezone.now())
    page = desk.get(f"/tablets/?tablet={tablet.key}").content.decode()
    assert "It has not told what it keeps." in page
    assert "Nothing unsent" not in page
    assert "Not told." in page


def test_old_browsers_without_name_stand_apart_but_not_with_entries_unsent(desk):
    told(0, days=40, browser="Safari on iPad")
    told(2, days=40, browser="Edge on Windows")
    page, _, old = desk.get("/tablets/").content.decode().partition("<details")
    assert "Edge on Windows" in page
    assert "Safari on iPad" in old


def test_a_shop_clock_that_was_put_back_makes_no_nonsense(desk):
    told(4, days=-2, name="Bay 1")
    page = desk.get("/tablets/").content.decode()
    assert "-" not in page.partition("Last heard of")[2].partition("</span>")[0]


@pytest.mark.parametrize("role", [TECHNICIAN, DESK])
def test_nobody_but_an_owner_sees_tablets_or_changes_one(owner, role):
    tablet = make_tablet(name="Bay 1")
    browser = Client()
    browser.force_login(make_person(role))
    assert browser.get("/tablets/").status_code == 403
    assert change(browser, tablet, "revoke").status_code == 403
    assert (tablet.revoked_at, Entry.objects.count()) == (None, 0)


def test_the_list_asks_as_often_for_many_as_for_few(desk, owner, django_assert_num_queries):
    told(4, name="Bay 1", revoked_by=owner, revoked_at=timezone.now(), named_by=owner)
    with django_assert_num_queries(3):
        desk.get("/tablets/")
    for number in range(2, 9):
        told(4, name=f"Bay {number}", revoked_by=owner, revoked_at=timezone.now(), named_by=owner)
    with django_assert_num_queries(3):
        desk.get("/tablets/")


@pytest.mark.parametrize("tablet", ["x", "99f05721-db70-49a0-b877-b16861d02da0", "<b>"])
def test_a_link_to_no_tablet_is_no_page(desk, tablet):
    assert desk.get("/tablets/", {"tablet": tablet}).status_code == 404


# Its name.


def test_a_name_is_given_and_kept_with_who_gave_it(desk, owner):
    tablet = told()
    assert change(desk, tablet, "name", name="  Bay   2 ").status_code == 302
    assert (tablet.name, tablet.named_by) == ("Bay 2", owner)
    assert Entry.objects.get().kind == "tablet_change"


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("", "Type what the tablet is called"),
        ("bay 1", "Another tablet has that"),
        ("x" * 61, "60"),
    ],
)
def test_a_name_that_cannot_be_comes_back_to_the_page(desk, name, sentence):
    make_tablet(name="Bay 1")
    tablet = told()
    response = change(desk, tablet, "name", name=name)
    assert response.status_code == 422
    assert sentence in response.content.decode()
    assert tablet.name == ""


def test_the_same_form_sent_twice_is_one_entry(desk):
    tablet, key = told(), uuid.uuid4()
    change(desk, tablet, "name", key, name="Bay 2")
    assert change(desk, tablet, "name", key, name="Bay 2").status_code == 302
    assert Entry.objects.count() == 1


@pytest.mark.parametrize("what", ["", "burn", "back"])
def test_a_change_that_is_none_changes_nothing(desk, what):
    tablet = told()
    assert change(desk, tablet, what).status_code in (409, 422)
    assert tablet.revoked_at is None


# Revoked.


def test_a_revoked_tablet_takes_no_pin_and_says_why(desk, owner):
    tablet, person = told(), make_technician()
    change(desk, tablet, "revoke")
    browser = browser_on(tablet, owner, **FAR)
    assert sign_in(browser, person).status_code == 422
    page = browser.get("/sign_in/").content.decode()
    assert "T. Okafor revoked this tablet" in page
    assert "R. Sand" not in page


def test_no_pin_works_in_a_revoked_browser_on_the_server_itself_either(desk, owner):
    tablet, person = told(), make_technician()
    change(desk, tablet, "revoke")
    assert sign_in(browser_on(tablet, owner), person).status_code == 422


def test_revoking_ends_what_somebody_is_signed_in_to_there_and_nothing_else(desk, owner):
    tablet, other, person = told(), told(), make_technician()
    there, elsewhere = browser_on(tablet, owner, **FAR), browser_on(other, owner, **FAR)
    for browser in (there, elsewhere):
        assert sign_in(browser, person).status_code == 302
    change(desk, tablet, "revoke")
    del there.cookies[TABLET_COOKIE]  # as a thief would
    assert there.get("/board/").status_code == 302
    assert elsewhere.get("/board/").status_code == 200


def test_a_sign_in_that_does_not_tell_its_tablet_ends_too(desk, owner):
    """Of before sessions kept it; the owner's own is made by the test and has none."""
    change(desk, told(), "revoke")
    assert not Session.objects.exists()


def test_a_revoked_tablet_gets_no_job_json_and_no_pass(desk, owner):
    job, tablet = make_job(), told(revoked_by=owner, revoked_at=timezone.now())
    browser = browser_on(tablet, owner, **FAR)
    browser.force_login(make_person(DESK))
    for address in (f"/job.json?job={job.key}", "/jobs.json"):
        assert browser.get(address).status_code == 401
    answer = browser.get("/ping/").json()
    assert (answer["person"], answer["pass"]) == (None, None)
    assert answer["revoked"].startswith("T. Okafor revoked this tablet")


def test_what_was_typed_on_it_is_not_taken_from_another_browser_either(owner):
    tablet = told(revoked_by=owner, revoked_at=timezone.now())
    browser = Client()
    browser.force_login(owner)
    said = {
        "key": str(uuid.uuid4()),
        "kind": "intake",
        "version": 1,
        "fields": {"plate": ["X"]},
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(make_person(), tablet.key),
    }
    response = browser.post("/entries/", said, content_type="application/json")
    assert (response.status_code, response.json()["state"]) == (401, "revoked")
    assert not Entry.objects.exists()


def test_let_back_it_signs_in_again_as_before(desk, owner):
    tablet, person = told(), make_technician()
    change(desk, tablet, "revoke")
    change(desk_of(owner), tablet, "back")
    assert (tablet.revoked_by, tablet.revoked_at) == (None, None)
    assert sign_in(browser_on(tablet, owner, **FAR), person).status_code == 302


def desk_of(owner: Person) -> Client:
    browser = Client()
    browser.force_login(owner)
    return browser


def test_cookies_of_before_work_on_without_a_row(owner):
    """A shop that is upgraded has no tablets in its table until they ask."""
    browser = Client(**FAR)
    key = uuid.uuid4()
    browser.cookies[TABLET_COOKIE] = tablet_token(key)
    browser.cookies[PINS_COOKIE] = pins_token(owner, key)
    assert sign_in(browser, make_technician()).status_code == 302
    assert browser.get("/ping/").json()["tablet"] == str(key)
    assert Tablet.objects.get().key == key
