"""What a tablet's start screen is told."""

from django.contrib.staticfiles import finders
from django.urls import resolve, reverse


def test_it_names_a_first_page_that_is_there(client):
    told = client.get(reverse("manifest")).json()
    assert resolve(told["start_url"]).url_name == "board"
    assert (told["display"], told["scope"]) == ("standalone", "/")


def test_its_icon_is_a_drawing_of_ours(client):
    [icon] = client.get(reverse("manifest")).json()["icons"]
    assert icon["type"] == "image/svg+xml"
    assert finders.find("icon.svg") is not None


def test_it_has_the_type_browsers_ask_for(client):
    assert client.get(reverse("manifest"))["Content-Type"] == "application/manifest+json"
