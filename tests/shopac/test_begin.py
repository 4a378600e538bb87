"""The first page of an empty shop: who may open it, what it makes, and that it is good once."""

import threading
from pathlib import Path

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse

from jobs.models import Entry, Person, Shop
from jobs.models.people import OWNER
from jobs.pins import try_password, try_pin
from tests.factories import PASSWORD, make_shop

pytestmark = pytest.mark.django_db

WORD = "k3-a-word-of-one-time"
TYPED = {
    "token": WORD,
    "name": "Hollow Lane Cooling",
    "address": "4 Hollow Lane\nMarrow",
    "currency": "eur",
    "paper": "a4",
    "owner": "T. Okafor",
    "password": PASSWORD,
    "password_again": PASSWORD,
    "pin": "4071",
}


@pytest.fixture(autouse=True)
def word(settings, tmp_path) -> Path:
    """A data folder of its own with the word the start command left."""
    settings.DATA = tmp_path
    path = tmp_path / "begin_token"
    path.write_text(WORD)
    return path


def post(client, **fields):
    return client.post("/begin/", {**TYPED, **fields})


def test_the_link_opens_the_form(client):
    response = client.get("/begin/", {"token": WORD})
    assert response.status_code == 200
    assert "Open the shop" in response.content.decode()


def test_shop_and_owner_are_made_and_the_owner_is_signed_in(client, word):
    response = post(client)
    assert response.url == reverse("board")
    shop = Shop.objects.get()
    assert (shop.name, shop.currency, shop.paper) == ("Hollow Lane Cooling", "EUR", "a4")
    assert shop.address == "4 Hollow Lane\nMarrow"
    owner = Person.objects.get()
    assert owner.role == OWNER
    assert try_password("T. Okafor", PASSWORD).person == owner
    assert try_pin(owner.key, "4071").person == owner
    assert client.get("/ping/").json()["person"]["name"] == "T. Okafor"
    assert not word.exists()


def test_the_shop_is_the_first_entry_of_the_logbook_by_its_owner(client):
    post(client)
    entry = Entry.objects.get()
    assert (entry.kind, entry.author) == ("shop", Person.objects.get())
    assert entry.fields["currency"] == ["EUR"]
    assert not {"pin", "password", "token"} & set(entry.fields)


def test_an_owner_may_give_the_pin_later(client):
    post(client, pin="")
    assert Person.objects.get().pin == ""


def test_the_link_is_good_once(client):
    post(client)
    response = post(Client(), name="Another Shop")
    assert response.status_code == 403
    assert "good once" in response.content.decode()
    assert Shop.objects.get().name == "Hollow Lane Cooling"


def test_the_page_is_closed_while_there_is_a_shop_even_with_the_word(client):
    make_shop()
    assert client.get("/begin/", {"token": WORD}).status_code == 403
    assert post(client).status_code == 403
    assert Person.objects.count() == 0


@pytest.mark.parametrize("told", ["", "k3-a-word-of-one-tim", WORD + " x", "🔧", "\x00"])
def test_another_word_opens_nothing(client, told):
    assert client.get("/begin/", {"token": told}).status_code == 403
    assert post(client, token=told).status_code == 403
    assert Shop.objects.count() == 0


@pytest.mark.parametrize("left", [None, ""])
def test_without_a_word_in_the_folder_nothing_opens_it(client, word, left):
    word.unlink()
    if left is not None:
        word.write_text(left)
    assert client.get("/begin/", {"token": ""}).status_code == 403


@pytest.mark.parametrize(
    "from_", [{"REMOTE_ADDR": "192.168.1.44"}, {"HTTP_X_FORWARDED_FOR": "192.168.1.44"}]
)
def test_another_machine_does_not_even_learn_that_there_is_such_a_page(from_):
    far = Client(**from_)
    assert far.get("/begin/", {"token": WORD}).status_code == 404
    assert post(far).status_code == 404
    assert Shop.objects.count() == 0


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"name": ""}, "Type the name of the shop"),
        ({"name": "n" * 121}, "120 fit here"),
        ({"currency": ""}, "three letters"),
        ({"currency": "QQQ"}, "“QQQ” is no currency in use"),
        ({"currency": "euros"}, "no currency in use"),
        ({"paper": ""}, "Tap one of these"),
        ({"paper": "a3"}, "not in the list"),
        ({"owner": ""}, "Type your name"),
        ({"password": "short", "password_again": "short"}, "at least 10 characters"),
        ({"password_again": "another word"}, "not the same"),
        ({"password_again": ""}, "Type the password once more"),
        ({"pin": "1234"}, "Digits in a row"),
        ({"address": "a" * 501}, "500 fit here"),
    ],
)
def test_what_cannot_be_is_a_sentence_at_the_field_and_nothing_is_made(client, fields, sentence):
    response = post(client, **fields)
    assert response.status_code == 422
    shown = response.content.decode()
    assert sentence in shown
    assert PASSWORD not in shown
    if "name" not in fields:
        assert "Hollow Lane Cooling" in shown
    assert (Shop.objects.count(), Person.objects.count()) == (0, 0)


@pytest.mark.django_db(transaction=True)
def test_two_who_open_the_shop_at_once_make_one_shop_with_one_owner():
    start = threading.Barrier(2)
    answers: list[int] = []

    def open_shop(owner: str) -> None:
        start.wait()
        try:
            answers.append(post(Client(), owner=owner).status_code)
        finally:
            connection.close()

    threads = [threading.Thread(target=open_shop, args=(name,)) for name in ("Ann", "Ben")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(answers) == [302, 403]
    assert (Shop.objects.count(), Person.objects.count()) == (1, 1)
    assert Entry.objects.get().author == Person.objects.get()
