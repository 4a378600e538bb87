"""A post whose sign-in or form token had ended: nothing is lost, and no way round the token."""

import re
import uuid
from html import unescape
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from jobs.models import Entry, Job, Person
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import TABLET_COOKIE
from jobs.pins import NO_MATCH, WRONG_PIN, hash_pin
from tests.factories import PASSWORD, make_person, make_shop

pytestmark = pytest.mark.django_db

PIN = "4071"
TYPED = {"customer_name": "Ida", "plate": "KX.4731D", "complaint": "Blows warm."}


@pytest.fixture
def quist() -> Person:
    make_shop()
    return make_person(TECHNICIAN, name="E. Quist", pin=hash_pin(PIN, uuid.uuid4()))


@pytest.fixture
def strict():
    """A browser whose form tokens are looked at, as in the shop."""
    return Client(enforce_csrf_checks=True)


def token(client) -> str:
    return client.get("/ping/").json()["csrf"]


def intake(client, key=None, **more):
    said = {"key": str(key or uuid.uuid4()), "csrfmiddlewaretoken": token(client)}
    return client.post("/intake/", {**said, **TYPED, **more})


def hidden(page: str) -> dict[str, list[str]]:
    """The hidden fields of the page's form, as a browser without script sends them."""
    found: dict[str, list[str]] = {}
    for name, value in re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)"', page):
        found.setdefault(name, []).append(unescape(value))
    return found


def sign(client, response, **more):
    """Sign for what is held on the page, as its form does."""
    return client.post("/intake/", {**hidden(response.content.decode()), **more})


# The sign-in had ended.


def test_a_post_without_a_sign_in_is_shown_and_nothing_is_stored(strict, quist):
    response = intake(strict, complaint="Blows warm <b>since</b> Monday.")
    assert response.status_code == 403
    shown = response.content.decode()
    assert "Your sign-in had ended" in shown
    assert "Blows warm &lt;b&gt;since&lt;/b&gt; Monday." in shown
    assert TYPED["plate"] in shown
    assert Entry.objects.count() == 0


def test_it_is_signed_for_with_the_pin_and_arrives_once_under_its_key(strict, quist):
    key = uuid.uuid4()
    held = intake(strict, key)
    signed = {"held_person": str(quist.key), "held_pin": PIN}
    response = sign(strict, held, **signed)
    assert response.status_code == 302
    entry = Entry.objects.get()
    assert (entry.key, entry.author) == (key, quist)
    again = {**hidden(held.content.decode()), **signed, "csrfmiddlewaretoken": token(strict)}
    assert strict.post("/intake/", again).status_code == 302
    assert Entry.objects.count() == 1


def test_it_is_stored_as_it_would_have_been_with_the_sign_in(strict, quist):
    signed = {"held_person": str(quist.key), "held_pin": PIN}
    sign(strict, intake(strict, warm_when=["hot", "rain"]), **signed)
    plain = Client()
    plain.force_login(quist)
    intake(plain, warm_when=["hot", "rain"])
    first, second = Entry.objects.order_by("id")
    assert first.fields == second.fields


def test_neither_pin_nor_name_of_the_signer_becomes_part_of_the_entry(strict, quist):
    sign(strict, intake(strict), held_person=str(quist.key), held_pin=PIN)
    fields = Entry.objects.get().fields
    assert not [name for name in fields if name.startswith("held_")]
    assert PIN not in str(fields)


def test_line_ends_and_odd_letters_come_through_the_page_unharmed(strict, quist):
    complaint = 'One\r\nTwo "quoted" & <tags> 🔧 مكيف'
    sign(strict, intake(strict, complaint=complaint), held_person=str(quist.key), held_pin=PIN)
    assert Job.objects.get().complaint == complaint.replace("\r\n", "\n")


def test_a_wrong_pin_holds_it_once_more(strict, quist):
    held = intake(strict)
    response = sign(strict, held, held_person=str(quist.key), held_pin="99987226")
    assert response.status_code == 403
    shown = response.content.decode()
    assert WRONG_PIN in shown
    assert TYPED["plate"] in shown
    assert "99987226" not in shown
    assert Entry.objects.count() == 0
    assert sign(strict, response, held_person=str(quist.key), held_pin=PIN).status_code == 302


def test_no_pin_at_all_asks_for_it(strict, quist):
    response = sign(strict, intake(strict), held_person="", held_pin="")
    assert "Tap your name and type your PIN" in response.content.decode()


def test_tries_on_this_page_are_counted_like_any_others(strict, quist):
    held = intake(strict)
    for _ in range(3):
        held = sign(strict, held, held_person=str(quist.key), held_pin="99987226")
    response = sign(strict, held, held_person=str(quist.key), held_pin=PIN)
    assert "has to wait" in response.content.decode()
    assert Entry.objects.count() == 0


def test_elsewhere_than_on_a_shop_tablet_it_takes_a_password_and_shows_no_names(quist):
    make_person(DESK, name="Noor")
    far = Client(enforce_csrf_checks=True, REMOTE_ADDR="192.168.1.44")
    held = intake(far)
    assert "E. Quist" not in held.content.decode()
    refused = sign(far, held, held_person=str(quist.key), held_pin=PIN)
    assert Entry.objects.count() == 0
    wrong = sign(far, refused, held_name="Noor", held_password="not the word")
    assert NO_MATCH in wrong.content.decode()
    assert sign(far, wrong, held_name="Noor", held_password=PASSWORD).status_code == 302
    assert TABLET_COOKIE in far.cookies


def test_whose_work_it_is_not_sees_so_and_loses_nothing(strict, quist):
    held = strict.post(
        "/people/add/",
        {"csrfmiddlewaretoken": token(strict), "key": str(uuid.uuid4()), "name": "New Name"},
    )
    signed = {"held_person": str(quist.key), "held_pin": PIN}
    response = strict.post("/people/add/", {**hidden(held.content.decode()), **signed})
    assert response.status_code == 403
    shown = response.content.decode()
    assert "This is for the owner" in shown
    assert "New Name" in shown


def test_a_pin_typed_for_somebody_is_not_handed_back(strict, quist):
    said = {
        "key": str(uuid.uuid4()),
        "name": "New Name",
        "pin": "61938247",
        "password": "seven mugs",
    }
    response = strict.post("/people/add/", {"csrfmiddlewaretoken": token(strict), **said})
    shown = response.content.decode()
    assert "New Name" in shown
    assert "61938247" not in shown
    assert "seven mugs" not in shown
    assert "asks for it again" in shown


def kept(folder: Path) -> list[Path]:
    """The files of a data folder but for the database's, whose log comes and goes."""
    return sorted(path for path in folder.rglob("*") if ".sqlite3" not in path.name)


def test_photos_are_named_and_asked_for_again_and_nothing_of_them_is_kept(strict, quist, settings):
    before = kept(settings.DATA)
    photo = SimpleUploadedFile("belt <1>.jpg", b"not looked at", "image/jpeg")
    response = intake(strict, photo=photo)
    shown = response.content.decode()
    assert "choose them again" in shown
    assert "belt &lt;1&gt;.jpg" in shown
    assert 'type="file" name="photo"' in shown
    assert kept(settings.DATA) == before


def test_a_photo_chosen_again_comes_with_it(strict, quist):
    held = intake(strict, photo=SimpleUploadedFile("a.jpg", b"x", "image/jpeg"))
    photo = SimpleUploadedFile("b.jpg", b"y", "image/jpeg")
    sign(strict, held, held_person=str(quist.key), held_pin=PIN, photo=photo)
    assert [one["name"] for one in Entry.objects.get().photos] == ["b.jpg"]


def test_a_page_that_was_only_asked_for_leads_to_the_sign_in(strict, quist):
    response = strict.get("/intake/")
    assert response.url == f"{reverse('sign_in')}?next=/intake/"


def test_a_part_of_a_page_somebody_types_in_is_left_alone(strict, quist):
    response = strict.get("/find/", {"words": "KX"}, headers={"HX-Request": "true"})
    assert response.status_code == 401


# The form token had ended.


def test_a_form_whose_token_had_ended_is_held_and_asks_who_it_is(strict, quist):
    strict.force_login(quist)
    key = uuid.uuid4()
    held = intake(strict, key, csrfmiddlewaretoken="x" * 64)
    assert held.status_code == 403
    shown = held.content.decode()
    assert "too old" in shown
    assert TYPED["plate"] in shown
    assert Entry.objects.count() == 0
    again = sign(strict, held, held_person=str(quist.key), held_pin=PIN)
    assert again.status_code == 302
    assert Entry.objects.get().key == key


def test_the_held_page_is_no_way_round_the_token(strict, quist):
    """Even with the right PIN: a post without a token of this browser is taken nowhere."""
    strict.force_login(quist)
    said = {"key": str(uuid.uuid4()), **TYPED, "held_person": str(quist.key), "held_pin": PIN}
    assert strict.post("/intake/", said).status_code == 403
    assert strict.post("/intake/", {**said, "csrfmiddlewaretoken": "y" * 64}).status_code == 403
    assert Entry.objects.count() == 0
    quist.refresh_from_db()
    assert quist.pin_misses == 0


def test_a_signed_in_person_is_not_taken_at_a_wrong_pin(strict, quist):
    strict.force_login(quist)
    response = intake(strict, held_person=str(quist.key), held_pin="99987226")
    assert response.status_code == 403
    assert Entry.objects.count() == 0


ELSEWHERE = [
    {"Origin": "https://elsewhere.example"},
    {"Origin": "null"},
    {"Sec-Fetch-Site": "cross-site"},
    {"Sec-Fetch-Site": "same-site"},
    {"Referer": "https://elsewhere.example/"},
    {"Origin": "http://testserver.elsewhere.example"},
    {"Origin": "http://testserver:8080"},
]


@pytest.mark.parametrize("headers", ELSEWHERE, ids=str)
def test_what_another_site_posted_is_not_laid_before_anybody_to_sign(strict, quist, headers):
    strict.force_login(quist)
    response = strict.post("/intake/", TYPED, headers=headers)
    assert response.status_code == 403
    shown = response.content.decode()
    assert "not the shop" in shown
    assert TYPED["plate"] not in shown
    assert "held_pin" not in shown


def test_our_own_page_is_believed_to_be_one(strict, quist):
    own = {"Origin": "http://testserver", "Sec-Fetch-Site": "same-origin"}
    assert "held_pin" in strict.post("/intake/", TYPED, headers=own).content.decode()


def test_a_tablets_script_is_told_to_come_back_in_words_that_settle_nothing(strict, quist):
    response = strict.post("/entries/", b"{}", content_type="application/json")
    assert response.status_code == 403
    told = response.json()
    assert told["state"] == "later"
    assert not {"key", "fingerprint"} & set(told)


def test_a_sign_in_page_that_was_open_too_long_says_open_it_again(strict, quist):
    said = {"person": str(quist.key), "pin": PIN}
    response = strict.post("/sign_in/", said)
    assert response.status_code == 403
    shown = response.content.decode()
    assert "open too long" in shown
    assert PIN not in shown
    assert "held_pin" not in shown


def test_the_set_up_page_that_was_open_too_long_shows_what_was_typed(strict, db):
    said = {"name": "Hollow Lane Cooling", "password": "seven odd mugs", "token": "abc-word"}
    shown = strict.post("/begin/", said).content.decode()
    assert "Hollow Lane Cooling" in shown
    assert "seven odd mugs" not in shown
    assert "abc-word" not in shown


def test_an_owner_signs_with_the_password_on_a_shop_tablet_too(strict, quist):
    make_person(OWNER, name="T. Okafor")
    held = intake(strict)
    signed = {"held_name": "T. Okafor", "held_password": PASSWORD}
    assert sign(strict, held, **signed).status_code == 302
    assert Entry.objects.get().author.name == "T. Okafor"
