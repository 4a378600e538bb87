"""What every page is made of: one heading, labels, unique ids, nothing that points to nothing."""

import itertools
import re
from html.parser import HTMLParser
from typing import Any

import pytest
from django.test import Client

from jobs.models.people import OWNER
from tests.factories import make_person
from tests.page_cars import make_cars
from tests.pages import DRAWN, NOT_DRAWN, addresses, answers, kinds_drawn, routes

pytestmark = pytest.mark.django_db

POINTS = ("for", "aria-describedby", "aria-labelledby", "aria-controls", "aria-owns", "list")
FIELDS = ("input", "select", "textarea")


def test_every_address_is_drawn_or_says_why_not():
    assert set(routes()) == {*DRAWN, *NOT_DRAWN}
    assert not set(DRAWN) & set(NOT_DRAWN)


class Read(HTMLParser):
    """The elements of a page with their attributes, and how deep each stands."""

    VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.wrong: list[str] = []
        self.open: list[str] = []
        self.labelled: set[int] = set()
        self.feed(page)
        self.close()
        if self.open:
            self.wrong.append(f"never closed: {self.open}")

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        if len(names) != len(set(names)):
            self.wrong.append(f"<{tag}> has an attribute twice: {names}")
        if tag in ("a", "button", "label", "form") and tag in self.open:
            self.wrong.append(f"<{tag}> inside another")
        if "p" in self.open and tag in (
            "p",
            "div",
            "ul",
            "ol",
            "dl",
            "form",
            "section",
            "h2",
            "h3",
        ):
            self.wrong.append(f"<{tag}> inside a paragraph, which a browser closes there")
        if "label" in self.open:
            self.labelled.add(len(self.found))
        self.found.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))
        if tag not in self.VOID and "svg" not in self.open:
            self.wrong.append(f"<{tag}/> closes nothing outside a drawing")

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open[-1] != tag:
            self.wrong.append(f"</{tag}> where {self.open[-1:]} is open")
        if tag in self.open:
            del self.open[len(self.open) - 1 - self.open[::-1].index(tag) :]


def wrong_in(page: str) -> list[str]:
    """What is wrong with the page, in words."""
    read = Read(page)
    wrong = read.wrong
    ids = [attrs["id"] for _, attrs in read.found if "id" in attrs]
    wrong += [f"id twice: {one}" for one in sorted({str(i) for i in ids if ids.count(i) > 1})]
    wrong += points_nowhere(read.found, {str(one) for one in ids})
    wrong += without_name(read)
    headings = [tag for tag, _ in read.found if re.fullmatch("h[1-6]", tag)]
    if headings.count("h1") != 1:
        wrong.append(f"{headings.count('h1')} headings of the first order")
    for before, after in itertools.pairwise(headings):
        if int(after[1]) > int(before[1]) + 1:
            wrong.append(f"{after} after {before}")
    wrong += [f"style or script in <{tag}>" for tag, attrs in read.found if "style" in attrs]
    shown = [str(attrs.get("class", "")) for _, attrs in read.found if "hidden" not in attrs]
    if sum("bar" in one.split() for one in shown) > 1:
        wrong.append("more than one filled bar")
    if not page.lstrip().lower().startswith("<!doctype html>"):
        wrong.append("no doctype")
    return wrong


def points_nowhere(found: list[tuple[str, dict[str, Any]]], ids: set[str]) -> list[str]:
    """Labels and descriptions of what is not on the page."""
    return [
        f"{name}={one} of <{tag}> is not there"
        for tag, attrs in found
        for name in POINTS
        for one in str(attrs.get(name) or "").split()
        if one not in ids
    ]


def without_name(read: Read) -> list[str]:
    """Fields that nothing names, and pictures without words."""
    labels = {str(attrs.get("for")) for tag, attrs in read.found if tag == "label"}
    wrong = []
    for at, (tag, attrs) in enumerate(read.found):
        named = attrs.get("aria-label") or attrs.get("aria-labelledby")
        shown = tag in FIELDS and attrs.get("type") != "hidden"
        if shown and not (named or str(attrs.get("id")) in labels or at in read.labelled):
            wrong.append(f"nothing names <{tag} name={attrs.get('name')}>")
        if tag == "img" and attrs.get("alt") is None:
            wrong.append("a picture without words")
    return wrong


def test_every_page_is_whole_and_each_of_its_parts_has_a_name():
    cars = make_cars()
    browser = Client()
    browser.force_login(make_person(OWNER))
    found = {}
    for name, path in (addresses(cars) | kinds_drawn(cars)).items():
        response = browser.get(path)
        assert response.status_code == 200, name
        found[name] = wrong_in(response.content.decode())
    for name, answer in answers(cars).items():
        found[name] = wrong_in(answer.content.decode())
    assert {name: wrong for name, wrong in found.items() if wrong} == {}


@pytest.mark.parametrize(
    ("torn", "told"),
    [
        ("<p><div></div></p>", "inside a paragraph"),
        ('<i id="a"></i><i id="a"></i>', "id twice"),
        ('<label for="x">a</label>', "not there"),
        ('<input name="x">', "nothing names"),
        ("<h3>a</h3>", "h3 after h1"),
        ("<ul><li>a</ul>", "where ['li'] is open"),
        ('<b class="bar"></b><b class="bar"></b>', "more than one filled bar"),
    ],
)
def test_a_page_with_a_fault_is_told(torn, told):
    page = f"<!doctype html><html><body><h1>a</h1>{torn}</body></html>"
    assert told in " ".join(wrong_in(page))
