"""Signing in by PIN on the shop's tablets, by password anywhere; signing out."""

import uuid
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import (
    PINS_COOKIE,
    TABLET_COOKIE,
    TABLET_COOKIE_AGE,
    pins_token,
    read_pass,
    read_tablet,
    tablet_token,
)
from jobs.pins import NO_MATCH, WRONG_PIN, hash_pin
from tests.factories import PASSWORD, make_person

pytestmark = pytest.mark.django_db

PIN = "4071"
PAGE = "/sign_in/"


@pytest.fixture
def quist():
    return make_person(TECHNICIAN, name="E. Quist", pin=hash_pin(PIN, uuid.uuid4()))


@pytest.fixture
def owner():
    return make_person(OWNER, name="T. Okafor")


@pytest.fixture
def lan():
    """A browser somewhere in the shop that nobody has named a tablet."""
    return Client(REMOTE_ADDR="192.168.1.44")


def as_tablet(client, owner):
    tablet = uuid.uuid4()
    client.cookies[TABLET_COOKIE] = tablet_token(tablet)
    client.cookies[PINS_COOKIE] = pins_token(owner, tablet)
    return client


def by_pin(client, person, pin=PIN, **more):
    return client.post(PAGE, {"person": str(person.key), "pin": pin, **more})


def by_password(client, name, password=PASSWORD, **more):
    return client.post(PAGE, {"by": "password", "name": name, "password": password, **more})


def who(client):
    return client.get("/ping/").json()["person"]


# By PIN.


def test_names_are_tapped_and_the_pin_signs_in(client, quist):
    shown = client.get(PAGE).content.decode()
    assert f"?person={quist.key}" in shown
    form = client.get(PAGE, {"person": str(quist.key)}).content.decode()
    assert "PIN of E. Quist" in form
    response = by_pin(client, quist)
    assert response.status_code == 302
    assert response.url == reverse("board")
    assert who(client)["name"] == "E. Quist"


def test_a_pin_field_is_text_with_number_keys_and_the_browser_keeps_nothing(client, quist):
    form = client.get(PAGE, {"person": str(quist.key)}).content.decode()
    field = form[form.index("<input", form.index('class="typed"')) :].split(">")[0]
    assert 'type="password"' in field
    assert 'inputmode="numeric"' in field
    assert 'autocomplete="off"' in field


def test_people_who_left_and_people_without_a_pin_are_no_names_to_tap(client, quist, owner):
    make_person(name="Gone Away", pin=hash_pin(PIN, uuid.uuid4()), is_active=False)
    shown = client.get(PAGE).content.decode()
    assert "E. Quist" in shown
    assert "Gone Away" not in shown
    assert "T. Okafor" not in shown


def test_a_wrong_pin_goes_back_to_the_same_name_and_is_not_shown_again(client, quist):
    response = by_pin(client, quist, "99987226")
    assert response.status_code == 422
    shown = response.content.decode()
    assert WRONG_PIN in shown
    assert "PIN of E. Quist" in shown
    assert "99987226" not in shown
    assert who(client) is None


@pytest.mark.parametrize("pin", ["", " ", "4071 ", "\x00", "🔧" * 10, "4" * 5000])
def test_what_is_no_pin_is_a_sentence_at_the_field(client, quist, pin):
    response = by_pin(client, quist, pin)
    assert response.status_code in (422, 302)
    assert (response.status_code == 302) == (pin.strip() == PIN)


@pytest.mark.parametrize("key", ["", "no key", str(uuid.UUID(int=7)), "\x00"])
def test_a_name_that_is_nobodys_shows_the_names_again(client, quist, key):
    response = client.post(PAGE, {"person": key, "pin": PIN})
    assert response.status_code == 422
    assert "Who are you?" in response.content.decode()
    assert client.get(PAGE, {"person": key}).status_code == 200


# Where PINs work.


def test_an_unknown_browser_is_shown_no_names_and_asked_for_no_pin(lan, quist):
    for address in (PAGE, f"{PAGE}?person={quist.key}"):
        shown = lan.get(address).content.decode()
        assert "E. Quist" not in shown
        assert 'name="password"' in shown
        assert 'name="pin"' not in shown


def test_an_unknown_browser_cannot_sign_in_with_the_right_pin(lan, quist):
    response = by_pin(lan, quist)
    assert response.status_code == 422
    assert who(lan) is None
    quist.refresh_from_db()
    assert quist.pin_misses == 0  # nor lock anybody out


def test_a_browser_an_owner_named_a_shop_tablet_takes_pins(lan, quist, owner):
    by_password(lan, "T. Okafor")
    response = lan.post("/sign_in/tablet/", {"button": "start"})
    assert response.url == reverse("people")
    lan.post("/sign_in/leave/")
    assert by_pin(lan, quist).status_code == 302
    assert who(lan)["name"] == "E. Quist"


def test_only_an_owner_can_name_a_shop_tablet(lan):
    make_person(DESK, name="Noor")
    by_password(lan, "Noor")
    assert lan.post("/sign_in/tablet/", {"button": "start"}).status_code == 403
    assert PINS_COOKIE not in lan.cookies


def test_a_shop_tablet_can_be_taken_back(lan, quist, owner):
    by_password(lan, "T. Okafor")
    lan.post("/sign_in/tablet/", {"button": "start"})
    lan.post("/sign_in/tablet/", {"button": "stop"})
    lan.post("/sign_in/leave/")
    assert by_pin(lan, quist).status_code == 422


def test_an_owners_word_ends_with_the_owners_sign_ins(lan, quist, owner):
    as_tablet(lan, owner)
    assert by_pin(lan, quist).status_code == 302
    owner.passes_from = "2999-01-01T00:00:00Z"
    owner.save()
    assert by_pin(lan, quist).status_code == 422


@pytest.mark.parametrize("change", [{"is_active": False}, {"role": DESK}])
def test_the_word_of_somebody_who_is_no_owner_any_more_counts_no_longer(lan, quist, owner, change):
    as_tablet(lan, owner)
    for name, value in change.items():
        setattr(owner, name, value)
    owner.save()
    assert by_pin(lan, quist).status_code == 422


def test_an_owners_word_copied_to_another_tablet_counts_nothing(lan, quist, owner):
    as_tablet(lan, owner)
    lan.cookies[TABLET_COOKIE] = tablet_token(uuid.uuid4())
    assert by_pin(lan, quist).status_code == 422


@pytest.mark.parametrize(
    "word",
    ["", "x", "a:b:c", tablet_token(uuid.uuid4())],
    ids=["none", "a letter", "three parts", "a token"],
)
def test_a_forged_word_counts_nothing(lan, quist, owner, word):
    as_tablet(lan, owner)
    lan.cookies[PINS_COOKIE] = word
    assert by_pin(lan, quist).status_code == 422


@pytest.mark.parametrize("header", ["HTTP_X_FORWARDED_FOR", "HTTP_FORWARDED", "HTTP_VIA"])
def test_what_came_through_a_proxy_is_not_the_server_itself(quist, header):
    environ: dict[str, Any] = {header: "192.168.1.44"}
    through = Client(**environ)
    assert by_pin(through, quist).status_code == 422


@pytest.mark.parametrize("address", ["127.0.0.1", "127.8.0.1", "::1", "::ffff:127.0.0.1"])
def test_all_of_loopback_is_the_server_itself(quist, address):
    assert by_pin(Client(REMOTE_ADDR=address), quist).status_code == 302


@pytest.mark.parametrize("address", ["10.0.0.1", "::ffff:10.0.0.1", "", "localhost"])
def test_nothing_else_is(quist, address):
    assert by_pin(Client(REMOTE_ADDR=address), quist).status_code == 422


# By password.


def test_owner_and_desk_sign_in_by_password_from_any_browser(lan, owner):
    make_person(DESK, name="Noor")
    for name in ("Noor", "T. Okafor"):
        assert by_password(lan, name).status_code == 302
        assert who(lan)["name"] == name


def test_a_technician_cannot_sign_in_by_password(lan):
    make_person(TECHNICIAN, name="R. Sand")
    response = by_password(lan, "R. Sand")
    assert response.status_code == 422
    assert NO_MATCH in response.content.decode()


def test_a_wrong_password_and_an_unknown_name_hear_the_same_and_the_name_stays(lan, owner):
    heard = []
    for name in ("T. Okafor", "Nobody Known"):
        response = by_password(lan, name, "not the word")
        shown = response.content.decode()
        assert response.status_code == 422
        assert name in shown
        assert "not the word" not in shown
        heard.append(NO_MATCH in shown)
    assert heard == [True, True]


@pytest.mark.parametrize("name", ["", "\x00", "n" * 500, "<script>alert(1)</script>", "🔧"])
def test_a_name_that_is_none_is_no_trouble(lan, owner, name):
    response = by_password(lan, name)
    assert response.status_code == 422
    assert b"<script>alert" not in response.content


# What a sign-in does.


def test_a_sign_in_starts_a_new_session_and_the_old_one_is_worth_nothing(client, quist):
    by_pin(client, quist)
    old = client.cookies["shopac_sign_in"].value
    by_pin(client, quist)
    assert client.cookies["shopac_sign_in"].value != old
    stolen = Client()
    stolen.cookies["shopac_sign_in"] = old
    assert who(stolen) is None


def test_a_sign_in_makes_the_browser_a_known_tablet_and_keeps_it_the_same(client, quist):
    by_pin(client, quist)
    cookie = client.cookies[TABLET_COOKIE]
    tablet = read_tablet(cookie.value)
    assert tablet is not None
    assert cookie["httponly"] is True
    assert cookie["samesite"] == "Lax"
    assert int(cookie["max-age"]) == TABLET_COOKIE_AGE
    by_pin(client, quist)
    assert read_tablet(client.cookies[TABLET_COOKIE].value) == tablet


def test_cookies_go_over_https_only_where_the_shop_has_it(client, quist, settings):
    assert not by_pin(client, quist).cookies[TABLET_COOKIE]["secure"]
    settings.HTTPS = True
    assert by_pin(client, quist).cookies[TABLET_COOKIE]["secure"] is True


def test_a_failed_sign_in_sets_no_tablet_cookie(client, quist):
    assert TABLET_COOKIE not in by_pin(client, quist, "99987226").cookies


def test_the_page_somebody_wanted_comes_after_the_sign_in(client, quist):
    assert by_pin(client, quist, next="/job/?job=1").url == "/job/?job=1"


@pytest.mark.parametrize(
    "away",
    [
        "https://elsewhere.example/",
        "//elsewhere.example/",
        "///elsewhere.example",
        "/\\elsewhere.example",
        "javascript:alert(1)",
        "http:elsewhere.example",
        "\x00//elsewhere.example",
        "https://testserver@elsewhere.example/",
        "",
    ],
)
def test_a_sign_in_leads_nowhere_but_to_our_own_pages(client, quist, away):
    assert by_pin(client, quist, next=away).url == reverse("board")


def test_signing_out_ends_the_session_and_leaves_the_tablet_known(client, quist):
    by_pin(client, quist)
    response = client.post("/sign_in/leave/")
    assert response.url == reverse("sign_in")
    assert "Clear-Site-Data" not in response.headers
    assert TABLET_COOKIE not in response.cookies
    told = client.get("/ping/").json()
    assert told["person"] is None
    assert told["tablet"] is not None


def test_signing_out_is_a_post(client, quist):
    by_pin(client, quist)
    assert client.get("/sign_in/leave/").status_code == 405
    assert who(client) is not None


def test_the_page_offers_a_change_of_person_to_whoever_is_signed_in(client, quist):
    by_pin(client, quist)
    shown = client.get(PAGE).content.decode()
    assert "E. Quist is signed in here" in shown
    assert 'action="/sign_in/leave/"' in shown


def test_a_pass_is_of_the_time_of_signing_in_not_of_the_last_ping(client, quist):
    by_pin(client, quist)
    first, second = (client.get("/ping/").json()["pass"] for _ in range(2))
    assert first is not None
    assert read_pass(first).at == read_pass(second).at


@pytest.mark.parametrize("change", ["pin", "password", "passes_from", "is_active"])
def test_a_session_ends_when_what_it_rests_on_changes(client, quist, change):
    by_pin(client, quist)
    new = {
        "pin": hash_pin("5082", uuid.uuid4()),
        "password": "other",
        "passes_from": "2026-01-01T00:00:00Z",
        "is_active": False,
    }
    setattr(quist, change, new[change])
    quist.save()
    assert who(client) is None


def test_who_is_signed_in_gets_back_to_work_from_the_page_and_nobody_else(client, quist):
    assert "Back to work" not in client.get(PAGE).content.decode()
    client.force_login(quist)
    assert f'href="{reverse("board")}">Back to work' in client.get(PAGE).content.decode()


def test_a_sign_out_of_another_session_ends_nothing(client, quist):
    by_pin(client, quist)
    since = client.get("/ping/").json()["since"]
    client.post("/sign_in/leave/", {"since": "2031-05-01T09:30:00+00:00"})
    assert who(client) is not None
    client.post("/sign_in/leave/", {"since": since})
    assert who(client) is None
