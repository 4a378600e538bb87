"""What a person reads when a page is not there, was not read, or broke."""

import pytest
from django.db import connection
from django.test import Client
from django.urls import URLPattern, get_resolver

from tests.factories import make_person

pytestmark = pytest.mark.django_db
BANNED = ("!", "oops", "sorry", "error", "please", "exception", "traceback")


@pytest.fixture
def broken(monkeypatch) -> Client:
    """A browser of a shop whose pages all break the same way, base page and all."""

    def break_down(*args, **kwargs):
        raise RuntimeError("a mistake of ours")

    for one in get_resolver().url_patterns:
        if isinstance(one, URLPattern) and one.name == "offline":
            monkeypatch.setattr(one, "callback", break_down)
    monkeypatch.setattr("django.template.defaulttags.URLNode.render", break_down)
    return Client(raise_request_exception=False)


def words_of(response) -> str:
    page = response.content.decode()
    return page[page.index("<main>") : page.index("</main>")].lower()


def test_a_page_that_breaks_says_so_even_when_the_frame_of_all_pages_breaks_too(broken):
    response = broken.get("/offline/")
    assert response.status_code == 500
    assert "the owner" in words_of(response)
    assert "a mistake of ours" not in response.content.decode()


def test_the_page_for_what_broke_asks_the_database_nothing(broken, django_assert_num_queries):
    with django_assert_num_queries(0):
        broken.get("/offline/")
    assert connection.vendor


def test_an_address_that_is_none_leads_back_to_the_jobs(client):
    response = client.get("/carburetor/")
    assert response.status_code == 404
    assert 'href="/find/"' in words_of(response)


def test_a_form_with_more_fields_than_any_of_ours_is_not_read(client):
    client.force_login(make_person())
    response = client.post("/intake/", {f"f{number}": "x" for number in range(1100)})
    assert response.status_code == 413
    assert "nothing was recorded" in words_of(response)


def test_a_form_larger_than_any_of_ours_is_not_read(client):
    client.force_login(make_person())
    response = client.post("/intake/", {"complaint": "x" * 3_000_000})
    assert response.status_code == 413
    assert "larger than a form can be" in words_of(response)


def test_a_method_that_is_no_use_here_is_turned_away(client):
    assert client.get("/sign_in/leave/").status_code == 405


def test_no_such_page_uses_words_that_scold_or_apologize(broken, client):
    found = [
        words_of(response)
        for response in (
            Client().post("/intake/", {f"f{number}": "x" for number in range(1100)}),
            broken.get("/offline/"),
        )
    ]
    assert [word for word in BANNED for words in found if word in words] == []
