"""Who may do what when the person is not who they were: gone, of another role, or only carrying.

The two tables of tests/jobs/test_access.py say what each role may; here they are held against
sessions and passes that were given before something changed.
"""

import json
import uuid
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from jobs.models import Entry, Person
from jobs.models.people import DESK, OWNER, ROLES, TECHNICIAN
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from tests.factories import make_job, make_person, make_shop, said_of
from tests.jobs.test_access import ASKED, EVERYBODY, KINDS, PAGES, ROUTES, reverse_of, turned_away

pytestmark = pytest.mark.django_db

GUARDED = sorted(name for name, may in PAGES.items() if may != EVERYBODY)
SWITCH: dict[str, Any] = {"kind": "failing_now", "fields": {"failing": ["yes"]}}
COIL: dict[str, Any] = {
    "kind": "step",
    "fields": {"test_kind": ["coil_power"], "test_version": ["1"]},
}


def asked(browser: Client, name: str) -> Any:
    """The page asked for; posted to, where it is only posted to."""
    response = browser.get(reverse_of(ROUTES[name]), ASKED)
    if response.status_code == 405:
        response = browser.post(reverse_of(ROUTES[name]), ASKED)
    return response


def sent(author: Person, sender: Person | None = None, **more: Any) -> Any:
    """An entry under the author's pass, from a tablet where the sender is signed in."""
    tablet = uuid.uuid4()
    browser = Client()
    if sender:
        browser.force_login(sender)
    browser.cookies[TABLET_COOKIE] = tablet_token(tablet)
    said = {
        "key": str(uuid.uuid4()),
        "version": 1,
        "job": str(make_job().key),
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(author, tablet),
        **more,
    }
    return browser.post("/entries/", json.dumps(said), content_type="application/json")


@pytest.mark.parametrize("name", GUARDED)
def test_the_session_of_somebody_who_is_gone_opens_no_page(name):
    make_shop()
    person = make_person(OWNER)
    browser = Client(raise_request_exception=False)
    browser.force_login(person)
    Person.objects.filter(pk=person.pk).update(is_active=False)
    assert turned_away(asked(browser, name)) in ("sign in", "held")


@pytest.mark.parametrize("name", GUARDED)
def test_who_got_another_role_has_its_pages_from_the_next_tap_on(name):
    make_shop()
    person = make_person(OWNER)
    browser = Client(raise_request_exception=False)
    browser.force_login(person)
    Person.objects.filter(pk=person.pk).update(role=DESK)
    assert turned_away(asked(browser, name)) == ("" if DESK in PAGES[name] else "not yours")


@pytest.mark.parametrize("sender", sorted(ROLES))
@pytest.mark.parametrize("author", sorted(ROLES))
@pytest.mark.parametrize("said", [SWITCH, COIL], ids=["everybody's", "the bay's"])
def test_whose_pass_it_carries_decides_and_not_who_brings_it(author, sender, said):
    response = sent(make_person(author), make_person(sender), **said)
    may = author in KINDS[said["kind"]]
    assert (response.json()["state"] == "forbidden") == (not may)


def test_what_somebody_typed_before_they_left_is_taken_and_marked():
    author = make_person(TECHNICIAN)
    author.is_active = False
    author.save()
    assert sent(author, **SWITCH).json()["state"] == "accepted"
    (said,) = said_of(Entry.objects.get(author=author))
    assert "work" in said


def test_what_somebody_typed_whose_sign_ins_the_owner_ended_waits_and_is_stored_nowhere():
    author = make_person(TECHNICIAN)
    told = sent(author, **SWITCH | {"pass": ended_pass(author)})
    assert (told.status_code, told.json()["state"]) == (401, "sign_in")
    assert not Entry.objects.filter(author=author).exists()


def ended_pass(author: Person) -> str:
    """A pass of before the owner ended this person's sign-ins."""
    signed = make_pass(author, uuid.uuid4())
    author.passes_from = timezone.now()
    author.save()
    return signed


def test_who_lost_a_role_cannot_send_its_work_under_an_old_pass():
    author = make_person(TECHNICIAN)
    Person.objects.filter(pk=author.pk).update(role=DESK)
    assert sent(author, **COIL).json()["state"] == "forbidden"
