"""Screens, fingers and the look at a page, for the tests that drive a browser."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from django.test import Client
from playwright.sync_api import Browser, Page, expect

from diagnostics.models import Step
from tests.browser.words import ASK_ALL, ill_printed
from tests.factories import make_job

PORTRAIT = {"viewport": {"width": 800, "height": 1280}, "has_touch": True}
LANDSCAPE = {"viewport": {"width": 1024, "height": 768}, "has_touch": True}
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True}
AT_THE_DESK = {"viewport": {"width": 1440, "height": 900}}
Car = dict[str, Any]
# Kind of test, car, what is done in order, and the most touches it may take beyond its digits:
# "name=code" taps an answer, "name:digits" types on the pad, "fine" taps the first button.
Made = tuple[str, Car, tuple[str, ...], int]


@contextmanager
def opener(
    browser: Browser, url: str, client: Client | None = None
) -> Iterator[Callable[..., Page]]:
    """Opens pages of ours, each in a browser of its own; an error of a script fails the test."""
    trouble: list[str] = []
    opened = []
    cookies = client.cookies.items() if client else ()

    def go(path: str, **screen: Any) -> Page:
        context = browser.new_context(
            base_url=url, service_workers="block", reduced_motion="reduce", **screen
        )
        opened.append(context)
        context.add_cookies([{"name": n, "value": one.value, "url": url} for n, one in cookies])
        page = context.new_page()
        page.on("pageerror", lambda error: trouble.append(str(error)))
        page.goto(path)
        return page

    yield go
    for context in opened:
        context.close()
    assert trouble == []


def answer(page: Page, name: str, code: str) -> None:
    """Tap an answer."""
    page.locator(f"label:has([name={name}][value={code}])").tap()


def keys(page: Page, typed: str) -> None:
    """Type on the pad of keys."""
    for one in typed:
        page.locator(".pad .key", has_text=one).first.tap()


def touch(page: Page, one: str) -> None:
    """Do one thing of a list, written as in `Made`."""
    field, _, typed = one.partition(":")
    if typed:
        page.locator(f"#id_{field}").tap()
        keys(page, typed)
    elif one == "fine":
        page.locator("[data-fine]").tap()
    else:
        answer(page, *one.split("="))


def record(page: Page) -> None:
    """Tap the filled bar, and wait for the next page."""
    with page.expect_navigation():
        page.locator("button.bar").tap()


def opens_well(at: Callable[..., Page], name: str, car: Car) -> None:
    """A kind's page opens, nothing read yet, nothing barred.

    Whatever it asks, no screen scrolls sideways, tears a word, cuts a reading off or prints one
    text over another.
    """
    page = at(f"/step/{name}/?job={make_job(**car).key}", **PORTRAIT)
    expect(page.locator("#meaning")).to_contain_text("Nothing is read yet.")
    expect(page.locator("[data-barred]")).to_be_hidden()
    page.evaluate(ASK_ALL)
    found: dict[int, Any] = {}
    for screen in (PHONE, PORTRAIT, LANDSCAPE):
        size: Any = screen["viewport"]
        page.set_viewport_size(size)
        found[size["width"]] = ill_printed(page)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert not any(found.values()), found


def touches(at: Callable[..., Page], name: str, car: Car, done: tuple[str, ...]) -> int:
    """Make a test by touch; how many touches it took beyond its digits."""
    job = make_job(**car)
    page = at(f"/step/{name}/?job={job.key}", **PORTRAIT)
    for one in done:
        touch(page, one)
    record(page)
    step = Step.objects.get(job=job, kind=name)
    told = {one.partition(":")[0].partition("=")[0] for one in done if one != "fine"}
    assert told <= set(step.readings)
    return len(done) + 1


def named(made: list[Made]) -> list[str]:
    """Names for a list's cases, a kind's own first touch behind it."""
    return [f"{one[0]}-{one[2][0]}" for one in made]


def made_by_touch(made: list[Made]) -> tuple[Callable[..., None], Callable[..., None]]:
    """The two tests of a group's kinds: each opens well, and each line takes no more touches."""
    first = {name: car for name, car, *_ in reversed(made)}

    @pytest.mark.parametrize("name", first)
    def opens(at, name):
        opens_well(at, name, first[name])

    @pytest.mark.parametrize(("name", "car", "done", "most"), made, ids=named(made))
    def takes(at, name, car, done, most):
        assert touches(at, name, car, done) <= most

    return opens, takes
