"""A new password for an owner who forgot theirs: who may open it, and that it is good once."""

from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models import Entry, Person
from jobs.models.people import DESK, OWNER
from jobs.pins import MISSES_TO_WAIT, try_password
from tests.factories import PASSWORD, make_person, make_shop

pytestmark = pytest.mark.django_db

WORD = "p7-a-word-of-one-time"
NEW = "eleven quiet tins"


@pytest.fixture(autouse=True)
def word(settings, tmp_path) -> Path:
    """A data folder of its own with the word that a start with --new-password left."""
    settings.DATA = tmp_path
    path = tmp_path / "new_password_token"
    path.write_text(WORD)
    return path


@pytest.fixture
def owner() -> Person:
    make_shop()
    return make_person(OWNER, name="T. Okafor")


def post(client, one, **fields):
    told = {"owner": str(one.key), "password": NEW, "password_again": NEW, "token": WORD}
    return client.post("/new_password/", told | fields)


def test_the_link_opens_the_form_with_the_only_owner_tapped(client, owner):
    response = client.get("/new_password/", {"token": WORD})
    assert response.status_code == 200
    shown = response.content.decode()
    assert "Give this password" in shown
    assert f'value="{owner.key}"' in shown
    assert response.context["form"]["owner"].value() == str(owner.key)


def test_only_owners_who_work_here_can_be_chosen(client, owner):
    for one in (make_person(DESK), make_person(OWNER, name="Gone Owner", is_active=False)):
        response = post(client, one)
        assert response.status_code == 422
        assert "not in the list" in response.content.decode()
        assert try_password(one.name, NEW).person is None


def test_the_owner_has_the_new_password_and_is_signed_in(client, owner, word):
    response = post(client, owner)
    assert response.url == reverse("board")
    assert try_password("T. Okafor", NEW).person == owner
    assert try_password("T. Okafor", PASSWORD).person is None
    assert client.get("/ping/").json()["person"]["name"] == "T. Okafor"
    assert not word.exists()


def test_a_password_that_had_to_wait_after_misses_works_at_once(client, owner):
    for _ in range(MISSES_TO_WAIT):
        try_password("T. Okafor", "guessed again")
    post(client, owner)
    assert try_password("T. Okafor", NEW).person == owner


def test_it_is_an_entry_of_the_owner_s_own_with_a_hash_and_by_the_link(client, owner):
    post(client, owner)
    entry = Entry.objects.get()
    assert (entry.kind, entry.author) == ("person_change", owner)
    assert (entry.fields["change"], entry.fields["by"]) == (["password"], ["new_password"])
    assert NEW not in str(entry.fields)


def test_what_was_signed_in_under_the_name_before_has_ended(client, owner):
    before = Client()
    before.force_login(owner)
    assert before.get("/people/").status_code == 200
    post(client, owner)
    assert before.get("/people/").status_code == 302


def test_the_link_is_good_once(client, owner):
    post(client, owner)
    response = post(
        Client(), owner, password="another word here", password_again="another word here"
    )
    assert response.status_code == 403
    assert "good once" in response.content.decode()
    assert try_password("T. Okafor", NEW).person == owner


@pytest.mark.parametrize("told", ["", WORD[:-1], WORD + " x", "🔧", "\x00"])
def test_another_word_opens_nothing(client, owner, told):
    assert client.get("/new_password/", {"token": told}).status_code == 403
    assert post(client, owner, token=told).status_code == 403
    assert try_password("T. Okafor", NEW).person is None


@pytest.mark.parametrize("left", [None, ""])
def test_without_a_word_in_the_folder_nothing_opens_it(client, owner, word, left):
    word.unlink()
    if left is not None:
        word.write_text(left)
    assert client.get("/new_password/", {"token": ""}).status_code == 403


@pytest.mark.parametrize(
    "from_", [{"REMOTE_ADDR": "192.168.1.44"}, {"HTTP_X_FORWARDED_FOR": "192.168.1.44"}]
)
def test_another_machine_does_not_even_learn_that_there_is_such_a_page(owner, from_):
    far = Client(**from_)
    assert far.get("/new_password/", {"token": WORD}).status_code == 404
    assert post(far, owner).status_code == 404
    assert try_password("T. Okafor", NEW).person is None


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"owner": ""}, "Tap one of these"),
        ({"password": "short", "password_again": "short"}, "at least 10 characters"),
        ({"password_again": "another word"}, "not the same"),
        ({"password_again": ""}, "Type the password once more"),
    ],
)
def test_what_cannot_be_is_a_sentence_at_the_field_and_the_link_stays(
    client, owner, word, fields, sentence
):
    response = post(client, owner, **fields)
    assert response.status_code == 422
    shown = response.content.decode()
    assert sentence in shown
    assert NEW not in shown
    assert word.exists()
    assert try_password("T. Okafor", PASSWORD).person == owner
