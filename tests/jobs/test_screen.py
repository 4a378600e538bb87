"""How a tablet shows the pages: chosen by tap or typed, kept in its cookie."""

import re
from pathlib import Path

import pytest
from django.urls import reverse

from jobs.views.screen import ASK, COOKIE, LEAST, MOST, NO_CHOICE, STEP
from tests.factories import make_person

pytestmark = pytest.mark.django_db
CSS = Path(__file__).resolve().parents[2] / "static" / "css" / "mm.css"


def html_of(response) -> str:
    """The page’s first tag, which says all of it, but for version and scripts."""
    found = re.search(r"<html[^>]*>", response.content.decode())
    assert found
    return re.sub(r' data-(version|\w+-src)="[^"]*"', "", found[0])


def choose(client, **told):
    response = client.post(reverse("screen"), told)
    assert response.status_code == 302, response.content.decode()
    return html_of(client.get(reverse("offline")))


def test_light_six_pixels_and_the_pad_at_the_right_is_how_a_tablet_comes(client):
    assert html_of(client.get(reverse("screen"))) == '<html lang="en" data-mm="6.0">'


def test_what_is_chosen_stands_on_every_page_whoever_is_signed_in(client):
    assert 'data-scheme="dark"' in choose(client, look="dark")
    client.force_login(make_person())
    shown = html_of(client.get(reverse("intake")))
    assert shown == '<html lang="en" data-scheme="dark" data-mm="6.0">'


def test_one_choice_leaves_the_others(client):
    choose(client, look="dark")
    choose(client, mm="5,2")
    shown = choose(client, side="left")
    assert shown == '<html lang="en" data-scheme="dark" data-mm="5.2" data-side="left">'
    assert choose(client, look="light") == '<html lang="en" data-mm="5.2" data-side="left">'


def test_a_size_that_is_none_is_asked_for_again_and_stays_in_its_field(client):
    for typed in ("", "2.9", "10", "six", "1e1", "NaN", "٥", "5.2.1", "9" * 99):
        response = client.post(reverse("screen"), {"mm": typed})
        page = response.content.decode()
        assert (response.status_code, ASK in page) == (422, True), typed
        assert f'value="{typed}"' in page
        assert COOKIE not in response.cookies


def test_a_choice_that_is_none_is_said_to_be_none(client):
    response = client.post(reverse("screen"), {"look": "gray"})
    assert (response.status_code, NO_CHOICE in response.content.decode()) == (422, True)


@pytest.mark.parametrize(
    "kept", ["", "dark", "dark_6_left", "dark_2.0_left", "gray_6.0_left", "x" * 999]
)
def test_a_cookie_that_says_something_else_counts_as_nothing_chosen(client, kept):
    client.cookies[COOKIE] = kept
    assert html_of(client.get(reverse("screen"))) == '<html lang="en" data-mm="6.0">'


def test_every_size_that_can_be_chosen_has_its_rule():
    sizes = [f"{LEAST + STEP * n:.1f}" for n in range(int((MOST - LEAST) / STEP) + 1)]
    rules = re.findall(r':root\[data-mm="([\d.]+)"\] { --px-per-mm: ([\d.]+); }', CSS.read_text())
    assert rules == [(one, one) for one in sizes]


def test_the_buttons_go_one_step_and_stop_at_the_ends(client):
    choose(client, mm="9.9")
    page = client.get(reverse("screen")).content.decode()
    assert re.findall(r'name="mm" value="([\d.]+)"', page) == ["9.8", "9.9"]


def test_a_page_of_nobody_signed_in_opens_and_has_nothing_of_the_shop(client):
    make_person(name="Ida Marwell")
    response = client.get(reverse("screen"))
    assert response.status_code == 200
    assert "Ida" not in response.content.decode()
