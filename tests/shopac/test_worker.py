"""The script of the worker, as the server gives it."""

import json
import re

import pytest
from django.urls import reverse

from diagnostics.evidence.catalogue import KINDS
from jobs.models.people import OWNER
from shopac.views.worker import kept_pages
from tests.factories import make_job, make_person, make_shop
from tests.test_page_stems import PAGES, stem

pytestmark = pytest.mark.django_db


def script(client) -> str:
    text: str = client.get("/sw.js").content.decode()
    return text


def test_it_stands_at_the_root_so_that_it_sees_every_page(client):
    answer = client.get(reverse("worker"))
    assert (reverse("worker"), answer.status_code) == ("/sw.js", 200)
    assert answer["Content-Type"].startswith("text/javascript")


def test_it_is_asked_for_anew_each_time(client):
    assert client.get("/sw.js")["Cache-Control"] == "no-cache"


def test_it_keeps_one_page_for_every_kind_of_test(client):
    found = re.search(r"const PAGES = (\[.*\]);", script(client))
    assert found is not None
    pages = json.loads(found[1])
    assert pages == kept_pages()
    assert {reverse("step", args=[kind]) for kind in KINDS} <= set(pages)


def test_it_takes_the_old_ones_place_only_when_it_is_told_to(client):
    lines = [line.strip() for line in script(client).splitlines() if "skipWaiting" in line]
    assert lines == ['if (event.data === "take over") self.skipWaiting();']


def test_it_keeps_every_page_with_a_form_that_needs_no_car(client):
    make_shop()
    client.force_login(make_person(OWNER))
    pages = [str(one.name) for _, one in PAGES if one.name == stem(one) and one.name != "step"]
    answers = {name: client.get(reverse(name)) for name in pages}
    with_form = {
        reverse(name)
        for name, answer in answers.items()
        if answer.status_code == 200 and "data-entry=" in answer.content.decode()
    }
    assert reverse("intake") in with_form
    assert with_form <= set(kept_pages())


def test_every_page_it_keeps_opens_without_a_car_and_names_no_car(client):
    job = make_job()
    client.force_login(make_person())
    for address in kept_pages():
        answer = client.get(address)
        text = answer.content.decode()
        assert answer.status_code == 200, address
        assert job.vehicle.plate not in text, address
        assert job.customer.name not in text, address


def test_every_page_it_keeps_is_free_of_the_signed_in_persons_name(client):
    person = make_person(name="Unmistakable Name")
    client.force_login(person)
    for address in kept_pages():
        assert person.name not in client.get(address).content.decode(), address
