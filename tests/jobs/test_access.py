"""Who may open which page and make which entry: one table each, walked whole.

A new address or entry kind without a line in its table fails here.
"""

import json
import uuid
from typing import Any

import pytest
from django.core.signing import dumps
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from django.utils import timezone

from jobs.models.people import DESK, OWNER, ROLES, TECHNICIAN
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from shopac.door import ENTRIES
from tests.factories import make_person, make_shop

pytestmark = pytest.mark.django_db

NOBODY = "nobody"
EVERYBODY = frozenset({NOBODY, *ROLES})
STAFF = frozenset(ROLES)
BAY = frozenset({TECHNICIAN, OWNER})
OFFICE = frozenset({DESK, OWNER})
OWNERS = frozenset({OWNER})

PAGES: dict[str, frozenset[str]] = {
    "board": STAFF,
    "board_first": STAFF,  # leads to the board
    "book": OFFICE,
    "book_csv": OFFICE,
    "begin": EVERYBODY,  # by a one-time word, from the server itself, while there is no shop
    "claim": STAFF,
    "close": STAFF,
    "conditions": STAFF,
    "consent": STAFF,
    "copy_check": STAFF,
    "customer": STAFF,
    "entries": EVERYBODY,  # by an author's pass
    "decision": STAFF,
    "cylinders": STAFF,
    "cylinders_tell": BAY,
    "equipment": STAFF,
    "estimate": STAFF,
    "estimate_sums": STAFF,
    "equipment_check": OWNERS,
    "equipment_enter": OWNERS,
    "equipment_tablet": BAY,
    "evacuation": BAY,  # of a car; without one it is a bare form, which any tablet may keep
    "find": STAFF,
    "follows": STAFF,
    "history": STAFF,
    "handover": STAFF,
    "handover_taken": STAFF,
    "intake": STAFF,
    "intake_known": STAFF,
    "invoice": STAFF,
    "invoice_sums": STAFF,
    "issue": BAY,
    "job": STAFF,
    "job_failing": STAFF,
    "job_json": STAFF,
    "jobs_json": STAFF,
    "loop_parts": BAY,  # as repair
    "merge": OFFICE,
    "manifest": EVERYBODY,  # names and icon of the program
    "named": STAFF,
    "old_part": STAFF,
    "new_password": EVERYBODY,  # by a one-time word, from the server itself
    "oil": BAY,  # of a car; without one it is a bare form, which any tablet may keep
    "offline": EVERYBODY,  # holds nothing of the shop's
    "taken_out": STAFF,
    "options": STAFF,
    "paired": EVERYBODY,  # what this browser can keep; nothing of the shop's
    "people": OWNERS,
    "people_add": OWNERS,
    "people_change": OWNERS,
    "people_qualify": OWNERS,
    "photo": STAFF,
    "photos": STAFF,
    "photos_original": STAFF,
    "photos_shown": STAFF,
    "photos_view": STAFF,
    "ping": EVERYBODY,
    "points": STAFF,
    "points_override": OWNERS,
    "points_waive": OWNERS,
    "place": STAFF,
    "record": STAFF,
    "record_customer": STAFF,
    "record_paper": STAFF,
    "redact": OWNERS,
    "recovery": BAY,  # of a car; without one it is a bare form, which any tablet may keep
    "charge": BAY,  # the same
    "machine_cycle": BAY,  # the same
    "repair": BAY,  # of a car; without one it is a bare form, which any tablet may keep
    "screen": EVERYBODY,  # how this tablet shows the pages; nothing of the shop's
    "settings": OWNERS,
    "settings_change": OWNERS,
    "settings_price": OWNERS,
    "settings_tax": OWNERS,
    "sign_in": EVERYBODY,
    "sign_in_leave": EVERYBODY,
    "sign_in_tablet": OWNERS,
    "stage": STAFF,
    "step": BAY,  # of a car; without one it is a bare form, which any tablet may keep
    "steps": STAFF,
    "verdict": STAFF,
    "verification": STAFF,  # caps and label are told by those who work on the car
    "system": STAFF,
    "tag": STAFF,
    "unsent": EVERYBODY,  # the tablet fills it; the shop server puts nothing in it
    "vehicle": STAFF,
    "waiting": STAFF,
    "waiting_end": STAFF,
    "worker": EVERYBODY,  # a script without anything of the shop's
}
KINDS: dict[str, frozenset[str]] = {
    "change": BAY,
    "recovery": BAY,
    "charge": BAY,
    "machine_cycle": BAY,
    "close": STAFF,
    "conditions": STAFF,
    "consent": STAFF,
    "customer": STAFF,
    "cylinder": BAY,
    "cylinder_gone": BAY,
    "decision": STAFF,
    "discard": STAFF,
    "equipment": OWNERS,
    "equipment_check": OWNERS,
    "equipment_tablet": BAY,
    "evacuation": BAY,
    "estimate": STAFF,
    "failing_now": STAFF,
    "follows": STAFF,
    "handover": STAFF,
    "intake": STAFF,
    "invoice": OFFICE,
    "issue": BAY,
    "loop_parts": BAY,
    "merge": OFFICE,
    "oil": BAY,
    "named": STAFF,
    "old_part": STAFF,
    "taken_out": STAFF,
    "override": OWNERS,
    "person": OWNERS,
    "place": STAFF,
    "person_change": OWNERS,
    "purchase": BAY,
    "reclaim": BAY,
    "redact": OWNERS,
    "qualification": OWNERS,
    "photo": STAFF,
    "photo_filed": STAFF,
    "shop": OWNERS,
    "stage": STAFF,  # opening a closed job again: technicians and owners
    "step": BAY,
    "system": STAFF,
    "tag": STAFF,
    "taken_over": STAFF,
    "price": OWNERS,
    "prices_typed": STAFF,
    "shop_change": OWNERS,
    "tax": OWNERS,
    "transfer": BAY,
    "weighing": BAY,
    "vehicle": STAFF,
    "verified": BAY,
    "waive": OWNERS,
    "waiting": STAFF,
    "waiting_end": STAFF,
}
# What an address needs to be one.
PARTS = {
    "do": "weighing",
    "digest": "0" * 64,
    "kind_name": "coil_power",
    "entry": uuid.uuid4(),
    "number": 1,
}
ASKED = {"job": str(uuid.uuid4())}


def routes(resolver: URLResolver) -> list[URLPattern]:
    found = []
    for part in resolver.url_patterns:
        found += routes(part) if isinstance(part, URLResolver) else [part]
    return found


def reverse_of(pattern: URLPattern) -> str:
    parts = {name: PARTS[name] for name in pattern.pattern.converters}
    return reverse(str(pattern.name), kwargs=parts)


ROUTES = {str(one.name): one for one in routes(get_resolver())}


def browser_of(role: str) -> Client:
    browser = Client(raise_request_exception=False)
    if role != NOBODY:
        browser.force_login(make_person(role))
    return browser


def turned_away(response: Any) -> str:
    """How somebody was turned away, if so: to the sign-in, to the held page, or by their role."""
    if response.status_code == 302 and response.url.startswith("/sign_in/"):
        return "sign in"
    if response.status_code == 401:
        return "sign in"
    if response.status_code != 403:
        return ""
    shown = response.content.decode()
    if "Who sends this?" in shown:
        return "held"
    return "not yours" if "Not your page" in shown else ""


def test_every_address_has_its_line_and_every_line_its_address():
    assert set(ROUTES) == set(PAGES)


def test_every_entry_kind_has_its_line_and_every_line_its_kind():
    assert set(ENTRIES) == set(KINDS)


@pytest.mark.parametrize("name", sorted(PAGES))
@pytest.mark.parametrize("role", [NOBODY, *ROLES])
@pytest.mark.parametrize("method", ["get", "post"])
def test_a_page_is_open_to_those_in_its_line_and_to_nobody_else(name, role, method):
    make_shop()
    address = reverse_of(ROUTES[name])
    response = getattr(browser_of(role), method)(address, ASKED)
    assert response.status_code < 500
    if response.status_code == 405:  # this page is only asked for, or only posted to
        other = "post" if method == "get" else "get"
        response = getattr(browser_of(role), other)(address, ASKED)
        method = other
        assert response.status_code != 405
    away = turned_away(response)
    if role in PAGES[name]:
        # Signing out leads to the sign-in page: that is where it goes on, not away.
        assert away == "" or name == "sign_in_leave"
    elif role == NOBODY:
        assert away == ("held" if method == "post" else "sign in")
    else:
        assert away == "not yours"


@pytest.mark.parametrize("name", sorted(KINDS))
@pytest.mark.parametrize("role", sorted(ROLES))
def test_an_entry_is_taken_from_the_roles_in_its_line_and_from_no_others(name, role):
    author = make_person(role)
    tablet = uuid.uuid4()
    browser = Client()
    browser.cookies[TABLET_COOKIE] = tablet_token(tablet)
    said = {
        "key": str(uuid.uuid4()),
        "kind": name,
        "version": 1,
        "fields": {"note": ["x"]},
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(author, tablet),
    }
    response = browser.post("/entries/", json.dumps(said), content_type="application/json")
    told = response.json()
    if ENTRIES[name].online:
        assert (response.status_code, told["state"]) == (409, "refused")
    elif role in KINDS[name]:
        assert told["state"] != "forbidden"
    else:
        assert (response.status_code, told["state"]) == (403, "forbidden")
        assert told["key"] == said["key"]
        assert len(told["fingerprint"]) == 64


@pytest.mark.parametrize("name", sorted(KINDS))
def test_a_page_and_the_door_ask_the_same_roles(name):
    assert ENTRIES[name].roles == KINDS[name]


def test_an_address_that_is_none_is_said_to_be_none(client):
    assert client.get("/nothing/here/").status_code == 404


def test_what_is_signed_for_one_use_is_worth_nothing_for_another(client):
    """A tablet's token is no pass, whatever is inside it."""
    author = make_person()
    tablet = uuid.uuid4()
    client.cookies[TABLET_COOKIE] = tablet_token(tablet)
    told = {"person": str(author.key), "tablet": str(tablet), "at": timezone.now().isoformat()}
    said = {
        "key": str(uuid.uuid4()),
        "kind": "failing_now",
        "version": 1,
        "fields": {"failing": ["yes"]},
        "typed_at": timezone.now().isoformat(),
        "pass": dumps(told, salt="shopac.tablet"),
    }
    response = client.post("/entries/", json.dumps(said), content_type="application/json")
    assert response.status_code == 401


def test_a_form_without_a_car_shows_the_desk_nothing_of_the_shop_and_takes_nothing():
    browser = browser_of(DESK)
    assert browser.get("/step/coil_power/").status_code == 200
    assert browser.get("/step/coil_power/", ASKED).status_code == 403
    assert browser.post("/step/coil_power/", ASKED).status_code == 403
