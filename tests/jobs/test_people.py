"""The people of the shop: added, changed, locked out, gone; and no PIN in the clear anywhere."""

import json
import logging
import uuid

import pytest
from django.utils import timezone

from jobs.models import Entry, Person, Reused
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import PINS_COOKIE
from jobs.pins import MISSES_TO_LOCK, hash_pin, try_password, try_pin
from tests.factories import PASSWORD, make_person

pytestmark = pytest.mark.django_db

PIN = "4071"
NEW = {"name": "R. Sand", "role": TECHNICIAN, "pin": PIN}


@pytest.fixture
def owner():
    return make_person(OWNER, name="T. Okafor")


@pytest.fixture
def signed_in(client, owner):
    client.force_login(owner)
    return client


@pytest.fixture
def quist():
    return make_person(TECHNICIAN, name="E. Quist", pin=hash_pin("5082", uuid.uuid4()))


def add(client, key=None, **fields):
    return client.post("/people/add/", {"key": str(key or uuid.uuid4()), **NEW, **fields})


def change(client, person, what, key=None, **fields):
    said = {"key": str(key or uuid.uuid4()), "person": str(person.key), "change": what, **fields}
    response = client.post("/people/change/", said)
    person.refresh_from_db()
    return response


# Somebody new.


def test_a_technician_is_added_with_a_pin_and_can_sign_in_with_it(signed_in, owner):
    response = add(signed_in)
    assert response.status_code == 302
    person = Person.objects.get(name="R. Sand")
    assert try_pin(person.key, PIN).person == person
    entry = Entry.objects.get(key=person.key)
    assert (entry.kind, entry.author) == ("person", owner)


def test_front_desk_is_added_with_a_password(signed_in):
    add(signed_in, name="Noor", role=DESK, pin="", password=PASSWORD)
    assert try_password("Noor", PASSWORD).person is not None


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"name": ""}, "Type the name"),
        ({"name": "n" * 81}, "80 fit here"),
        ({"name": "t. OKAFOR"}, "Somebody of that name is in the list already"),
        ({"role": ""}, "Tap one of these"),
        ({"role": "boss"}, "not in the list"),
        ({"pin": ""}, "A technician signs in by PIN"),
        ({"pin": "0000"}, "All digits alike"),
        ({"pin": "12"}, "4 to 8 digits"),
        ({"password": PASSWORD}, "leave this empty"),
        ({"role": OWNER}, "An owner signs in by password"),
        ({"role": OWNER, "password": "short"}, "at least 10 characters"),
        ({"role": DESK, "pin": ""}, "nobody can sign in by that name"),
    ],
)
def test_what_cannot_be_is_a_sentence_at_the_field_and_the_rest_stays(signed_in, fields, sentence):
    response = add(signed_in, **fields)
    assert response.status_code == 422
    shown = response.content.decode()
    assert sentence in shown
    if "name" not in fields:
        assert 'value="R. Sand"' in shown
    assert Person.objects.count() == 1
    assert "Type PINs and passwords again; all else you typed is still here." in shown


@pytest.mark.parametrize("name", ["<b>R</b>", "R. 🔧 Sand", "راشد", "R\x00Sand", "Ø" * 80])
def test_any_name_is_no_trouble(signed_in, name):
    response = add(signed_in, name=name)
    assert response.status_code in (302, 422)
    assert b"<b>R" not in signed_in.get("/people/").content


def test_the_same_form_sent_twice_adds_one_person(signed_in):
    key = uuid.uuid4()
    assert add(signed_in, key).status_code == 302
    assert add(signed_in, key).status_code == 302
    assert Person.objects.filter(name="R. Sand").count() == 1
    assert Reused.objects.count() == 0


def test_the_same_form_with_another_pin_is_not_taken_and_both_are_kept_as_hashes(signed_in):
    key = uuid.uuid4()
    add(signed_in, key)
    response = add(signed_in, key, pin="61938247")
    assert response.status_code == 409
    kept = Reused.objects.get()
    assert "61938247" not in json.dumps(kept.fields)
    assert "61938247" not in response.content.decode()
    assert try_pin(key, PIN).person is not None


@pytest.mark.parametrize("key", ["", "no key"])
def test_a_form_without_its_key_is_told_so_and_stores_nothing(signed_in, key):
    response = signed_in.post("/people/add/", {**NEW, "key": key})
    assert response.status_code == 400
    assert "open the form again" in response.content.decode()
    assert Entry.objects.count() == 0


def test_no_pin_or_password_stands_in_the_clear_in_database_page_or_log(signed_in, caplog):
    caplog.set_level(logging.DEBUG)
    add(signed_in, name="R. Sand", pin="74019283")
    add(signed_in, name="Noor", role=DESK, pin="", password="seven odd mugs")
    add(signed_in, name="", pin="74019283", password="seven odd mugs")
    words = ("74019283", "seven odd mugs")
    for row in (*Entry.objects.values(), *Reused.objects.values(), *Person.objects.values()):
        assert not any(word in str(row) for word in words)
    shown = signed_in.get("/people/").content.decode()
    told = [message for message in caplog.messages if "INSERT" not in message]
    assert not any(word in shown or word in "".join(told) for word in words)


# Changes.


def test_a_new_pin_works_at_once_and_unlocks(signed_in, quist):
    for _ in range(3):
        try_pin(quist.key, "9999")
    Person.objects.filter(pk=quist.pk).update(pin_misses=MISSES_TO_LOCK, locked_at=timezone.now())
    change(signed_in, quist, "pin", pin=PIN)
    assert try_pin(quist.key, PIN).person == quist


def test_unlocking_leaves_the_pin_as_it_was(signed_in, quist):
    Person.objects.filter(pk=quist.pk).update(pin_misses=MISSES_TO_LOCK, locked_at=timezone.now())
    assert "PIN locked since" in signed_in.get("/people/").content.decode()
    assert "Unlock the PIN" in page_of(signed_in, quist)
    change(signed_in, quist, "unlock")
    assert "Unlock the PIN" not in page_of(signed_in, quist)
    assert try_pin(quist.key, "5082").person == quist


def page_of(client, person):
    return client.get("/people/", {"person": str(person.key)}).content.decode()


def test_a_role_changes_what_somebody_may_open_at_once(signed_in, quist, client):
    browser = type(client)()
    browser.force_login(quist)
    assert browser.get("/people/").status_code == 403
    quist.password = make_person(DESK).password
    quist.save()
    browser.force_login(quist)
    change(signed_in, quist, "role", role=OWNER)
    assert browser.get("/people/").status_code == 200


def test_who_becomes_a_technician_has_no_password_any_more(signed_in):
    desk = make_person(DESK, name="Noor")
    change(signed_in, desk, "role", role=TECHNICIAN)
    assert not desk.has_usable_password()


def test_nobody_becomes_owner_without_a_password(signed_in, quist):
    Person.objects.filter(pk=quist.pk).update(password="!")
    response = change(signed_in, quist, "role", role=OWNER)
    assert response.status_code == 409
    assert "Give a password first" in response.content.decode()
    assert quist.role == TECHNICIAN


@pytest.mark.parametrize("what", [("end", {}), ("role", {"role": DESK})])
def test_the_last_owner_can_neither_go_nor_become_something_else(signed_in, owner, what):
    name, fields = what
    response = change(signed_in, owner, name, **fields)
    assert response.status_code == 409
    assert "no owner left" in response.content.decode()
    assert (owner.role, owner.is_active) == (OWNER, True)


def test_one_of_two_owners_can_go(signed_in, owner):
    other = make_person(OWNER)
    change(signed_in, other, "end")
    assert not other.is_active


def test_who_left_is_signed_out_and_can_come_back(signed_in, quist, client):
    browser = type(client)()
    browser.force_login(quist)
    change(signed_in, quist, "end")
    assert browser.get("/ping/").json()["person"] is None
    assert try_pin(quist.key, "5082").person is None
    assert "No longer works here" in signed_in.get("/people/").content.decode()
    change(signed_in, quist, "back")
    assert try_pin(quist.key, "5082").person == quist


def test_ending_all_sign_ins_ends_the_session(signed_in, quist, client):
    browser = type(client)()
    browser.force_login(quist)
    change(signed_in, quist, "end_sign_ins")
    assert browser.get("/ping/").json()["person"] is None
    assert "are ended" in signed_in.get("/people/").content.decode()


def test_a_name_changes_and_the_old_one_stays_in_the_logbook(signed_in, quist):
    change(signed_in, quist, "name", name="E. Quist-Marwell")
    assert quist.name == "E. Quist-Marwell"
    assert Entry.objects.get(kind="person_change").fields["name"] == ["E. Quist-Marwell"]


def test_a_name_can_change_its_case_but_not_to_somebody_elses(signed_in, quist):
    assert change(signed_in, quist, "name", name="e. quist").status_code == 302
    response = change(signed_in, quist, "name", name="T. Okafor")
    assert response.status_code == 422
    assert "Somebody of that name" in response.content.decode()


def test_an_owner_who_changes_the_own_password_stays_signed_in_here_only(signed_in, owner, client):
    elsewhere = type(client)()
    elsewhere.force_login(owner)
    change(signed_in, owner, "password", password="seven odd mugs")
    assert signed_in.get("/people/").status_code == 200
    assert elsewhere.get("/people/").status_code == 302


def test_a_technician_is_given_no_password(signed_in, quist):
    assert 'name="password"' not in page_of(signed_in, quist)
    response = change(signed_in, quist, "password", password="seven odd mugs")
    assert response.status_code == 409


@pytest.mark.parametrize("what", ["", "promote", "\x00"])
def test_a_change_that_is_none_changes_nothing(signed_in, quist, what):
    before = Person.objects.values().get(pk=quist.pk)
    assert change(signed_in, quist, what).status_code == 422
    assert Person.objects.values().get(pk=quist.pk) == before


@pytest.mark.parametrize("key", ["", "x", str(uuid.UUID(int=7))])
def test_a_person_who_is_not_there_is_not_here(signed_in, key):
    told = {"key": str(uuid.uuid4()), "person": key, "change": "end"}
    assert signed_in.post("/people/change/", told).status_code == 404


def test_a_change_names_its_own_values_only(signed_in, quist):
    """A form that smuggles another value along changes nothing by it."""
    change(signed_in, quist, "name", name="E. Q.", role=OWNER, pin=PIN, password=PASSWORD)
    assert quist.role == TECHNICIAN
    assert try_pin(quist.key, "5082").person == quist


def test_the_page_is_found_where_people_sign_in_and_by_owners_only(signed_in, client, quist):
    assert 'href="/people/"' in signed_in.get("/sign_in/").content.decode()
    other = type(client)()
    other.force_login(quist)
    assert 'href="/people/"' not in other.get("/sign_in/").content.decode()


def test_an_owner_sees_whether_pins_work_in_this_browser(signed_in, client, owner):
    assert "runs on the shop server itself" in signed_in.get("/people/").content.decode()
    far = type(client)(REMOTE_ADDR="192.168.1.44")
    far.force_login(owner)
    assert "This is a shop tablet" in far.get("/people/").content.decode()
    far.post("/sign_in/tablet/", {"button": "start"})
    assert PINS_COOKIE in far.cookies
    assert "No longer a shop tablet" in far.get("/people/").content.decode()
