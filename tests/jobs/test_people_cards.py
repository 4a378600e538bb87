"""What people are qualified for: entered by an owner, corrected or ended by a later entry."""

import io
import uuid
from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image

from diagnostics.evidence import read_with
from jobs.entries import QUALIFICATION
from jobs.logbook import enter
from jobs.models import Entry, Person, Photo, Qualification, qualifications
from jobs.models.people import DESK, OWNER
from tests.factories import make_person, make_told, qualify

pytestmark = pytest.mark.django_db
CARD = {
    "kind": "refrigerant",
    "number": "HL 4471",
    "issuer": "Hollow Lane Trade School",
    "valid_from": "2025-03-04",
    "valid_to": "2027-03-03",
}


@pytest.fixture
def sand() -> Person:
    return make_person(name="R. Sand")


@pytest.fixture
def owner(client):
    client.force_login(make_person(OWNER, name="T. Okafor"))
    return client


def send(browser, person: Person, corrects: uuid.UUID | None = None, **fields):
    said = {"key": str(uuid.uuid4()), "person": str(person.key), **CARD, **fields}
    if corrects:
        said["corrects"] = str(corrects)
    return browser.post("/people/qualify/", {k: v for k, v in said.items() if v is not None})


def jpeg() -> SimpleUploadedFile:
    out = io.BytesIO()
    Image.new("RGB", (30, 20), "navy").save(out, "JPEG")
    return SimpleUploadedFile("card.jpg", out.getvalue(), "image/jpeg")


def page_of(browser, person: Person | None = None, more: str = "") -> str:
    query = f"?person={person.key}{more}" if person else ""
    return browser.get(f"/people/{query}").content.decode().replace("\u00a0", " ")


def test_a_card_is_added_with_its_number_days_and_photo(owner, sand):
    assert send(owner, sand, photo=jpeg()).status_code == 302
    row = Qualification.objects.get()
    assert (row.person, row.number, row.valid_to) == (sand, "HL 4471", date(2027, 3, 3))
    assert row.pictured == row.entry
    photo = Photo.objects.get(entry=row.entry)
    assert f"/photos/{photo.stored_sha256}.jpg" in page_of(owner, sand)


def test_the_photo_of_a_card_is_shown_to_an_owner_only(owner, sand):
    send(owner, sand, photo=jpeg())
    address = f"/photos/{Photo.objects.get().stored_sha256}.jpg"
    desk = Client()
    desk.force_login(make_person(DESK))
    shown, refused = owner.get(address), desk.get(address)
    shown.close()
    assert [shown.status_code, refused.status_code] == [200, 404]


def test_the_same_card_sent_twice_is_one(owner, sand):
    key = str(uuid.uuid4())
    assert [send(owner, sand, key=key).status_code for _ in range(2)] == [302, 302]
    assert Qualification.objects.count() == 1


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"kind": None}, "Tap one of these"),
        ({"kind": "driving"}, "not in the list"),
        ({"kind": "other"}, "what it is for"),
        ({"valid_from": None}, "from which day it holds"),
        ({"valid_from": "03/04/2025"}, "such as 3 Mar 2026"),
        ({"valid_from": "0025-03-04"}, "between 1950 and 2100"),
        ({"valid_to": None}, "or tap “No end date on it”"),
        ({"valid_to": "2025-03-03"}, "runs out before it begins"),
        ({"open_end": "no_end"}, "Take one of them out"),
        ({"number": "n" * 81}, "80 fit here"),
    ],
)
def test_what_is_wrong_is_said_at_its_field_and_nothing_typed_is_lost(
    owner, sand, changed, sentence
):
    response = send(owner, sand, issuer="Quarry Street School", **changed)
    shown = response.content.decode()
    assert response.status_code == 422
    assert sentence in shown
    assert "Quarry Street School" in shown
    assert not Qualification.objects.exists()


def test_a_photo_of_a_form_that_came_back_has_to_be_chosen_again_and_it_says_so(owner, sand):
    response = send(owner, sand, valid_from=None, photo=jpeg())
    assert "Choose the photo once more" in response.content.decode()


def test_a_month_may_be_typed_in_letters(owner, sand):
    send(owner, sand, valid_from="4 Mar 2025")
    assert Qualification.objects.get().valid_from == date(2025, 3, 4)


def test_a_correction_takes_the_place_of_the_earlier_card_and_both_stay(owner, sand):
    send(owner, sand, photo=jpeg())
    first = Qualification.objects.get()
    send(owner, sand, corrects=first.key, valid_to="2026-01-31")
    first.refresh_from_db()
    last = Qualification.objects.get(superseded_by=None)
    assert (first.superseded_by, first.stands, last.stands) == (last, False, True)
    assert last.pictured == first.entry  # the photo goes on with it
    assert "Corrected later" in page_of(owner, sand)


def test_one_entered_by_mistake_counts_no_more_and_stays_to_be_seen(owner, sand):
    send(owner, sand)
    send(owner, sand, corrects=Qualification.objects.get().key, mistake="on")
    assert not any(one.stands for one in sand.qualifications.all())
    assert "Entered by mistake." in page_of(owner, sand)


def test_what_was_corrected_already_or_is_another_s_is_not_corrected_again(owner, sand):
    other = qualify(make_person())
    assert "no qualification of this person" in send(owner, sand, other.key).content.decode()
    first = qualify(sand)
    send(owner, sand, corrects=first.key)
    assert "corrected already" in send(owner, sand, first.key).content.decode()


def test_the_form_of_a_correction_begins_with_what_stands(owner, sand):
    row = qualify(sand, number="HL 77")
    shown = page_of(owner, sand, f"&corrects={row.key}")
    assert 'value="HL 77"' in shown
    assert 'value="2020-01-01"' in shown


def test_it_holds_from_its_first_to_its_last_day_both_included(sand):
    row = qualify(sand, valid_from="2025-03-04", valid_to="2026-03-03")
    days = [date(2025, 3, 3), date(2025, 3, 4), date(2026, 3, 3), date(2026, 3, 4)]
    assert [row.valid_on(day) for day in days] == [False, True, True, False]
    said = row.until_words(date(2026, 3, 4)).replace("\u00a0", " ")
    assert said == "ran out 3 Mar 2026"


def test_the_list_says_at_a_glance_who_may_move_refrigerant_today(owner, sand):
    qualify(sand, valid_to="2026-03-03")
    shown = page_of(owner)
    assert "Refrigerant handling</bdi>: <strong>ran out 3 Mar 2026" in shown
    assert "Nobody, by what is entered here" in shown.partition("High-voltage")[0]
    qualify(make_person(name="E. Quist"))
    assert "E. Quist" in page_of(owner).partition("High-voltage")[0]


def test_somebody_gone_may_not_do_it_however_good_the_card(owner):
    qualify(make_person(name="E. Quist", is_active=False))
    assert "E. Quist" not in page_of(owner).partition("High-voltage")[0]


def test_other_cards_have_their_own_words(owner, sand):
    qualify(sand, "other", own_words="Lift inspection")
    assert "Lift inspection" in page_of(owner, sand)


def test_nobody_but_an_owner_adds_one(client, sand):
    client.force_login(sand)
    assert send(client, sand).status_code == 403
    assert enter(QUALIFICATION, make_told({**CARD, "person": str(sand.key)}, sand)).why
    assert not Entry.objects.filter(kind="qualification").exists()


def test_a_key_that_is_nobody_s_ends_in_a_page_that_says_so(owner, sand):
    assert owner.post("/people/qualify/", {"person": "x"}).status_code == 404
    assert owner.get(f"/people/?person={sand.key}&corrects={uuid.uuid4()}").status_code == 404


def test_the_list_asks_the_database_as_often_with_many_people_and_cards(
    owner, sand, django_assert_num_queries
):
    qualify(sand)
    with django_assert_num_queries(4):  # session, person, people, cards
        page_of(owner)
    for _ in range(5):
        qualify(make_person(), "high_voltage")
    with django_assert_num_queries(4):
        page_of(owner)


def test_tests_and_cards_name_the_same_qualifications():
    named = {qualifications.REFRIGERANT, qualifications.HIGH_VOLTAGE}
    assert set(read_with.NEEDS.values()) == named
    assert named <= set(qualifications.QUALIFICATIONS)
