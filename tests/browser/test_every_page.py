"""Every page of the site, walked by its address: nothing for axe to find, nothing too small.

The list of pages is tests/pages.py, where each new address needs its line. axe-core holds them to
WCAG 2.2 A and AA, target size and its best practice, and to AAA contrast; millimeters follow
MIL-STD-1472 (19 mm for gloved hands).
"""

import json
import uuid
from collections.abc import Iterator
from typing import Any
from urllib.parse import quote, unquote

import pytest
from django.http import HttpResponse
from django.test import Client
from playwright.sync_api import Browser, Page

from jobs.models.people import OWNER
from jobs.passes import TABLET_COOKIE, tablet_token
from tests.browser.test_look import AXE, BROKEN, CLOSE, OPEN_ALL, RULES, TOO_SMALL, TOUCHING
from tests.factories import make_person
from tests.page_cars import make_cars
from tests.pages import addresses, answers, kinds_drawn

pytestmark = pytest.mark.django_db(transaction=True)

LANDSCAPE, PHONE, UPRIGHT = (1024, 768), (390, 844), (800, 1280)
ZOOMED = (320, 256)  # 1280 by 1024 at 400 %
# As a page kept in order: what Tab reaches one after another stands in the order it is read.
ORDER = """() => {
  const touched = "a[href], button, input:not([type=hidden]), select, textarea, summary";
  const ahead = [...document.querySelectorAll(`[tabindex]`)].filter((one) => one.tabIndex > 0);
  const moved = [...document.querySelectorAll(touched)].filter((one) => one.checkVisibility())
    .filter((one) => getComputedStyle(one).order !== "0");
  return [...ahead, ...moved].map((one) => one.outerHTML.slice(0, 120));
}"""
WIDER = "() => document.documentElement.scrollWidth - innerWidth"


class Walk:
    """One browser that goes from page to page; an error of a script on any of them counts."""

    def __init__(self, browser: Browser, url: str, size: tuple[int, int], **more: Any) -> None:
        client = Client()
        client.force_login(make_person(OWNER))
        client.cookies[TABLET_COOKIE] = tablet_token(uuid.uuid4())
        width, height = size
        self.context = browser.new_context(
            base_url=url,
            viewport={"width": width, "height": height},
            has_touch=True,
            service_workers="block",
            reduced_motion="reduce",
            **more,
        )
        cookies = [{"name": n, "value": one.value, "url": url} for n, one in client.cookies.items()]
        self.context.add_cookies(cookies)  # type: ignore[arg-type]
        self.page = self.context.new_page()
        self.trouble: list[str] = []
        self.page.on("pageerror", lambda error: self.trouble.append(f"{self.page.url}: {error}"))

    def choose(self, url: str, look: str, mm: str = "6.0", side: str = "right") -> None:
        """As the page This screen keeps it."""
        kept = {"name": "shopac_screen", "value": f"{look}_{mm}_{side}", "url": url}
        self.context.add_cookies([kept])  # type: ignore[list-item]

    def through(self, paths: dict[str, str]) -> Iterator[tuple[str, Page]]:
        """Each page, everything on it opened."""
        for name, path in paths.items():
            self.page.goto(path)
            self.page.evaluate(OPEN_ALL)
            yield name, self.page

    def answered(self, shown: dict[str, HttpResponse]) -> Iterator[tuple[str, Page]]:
        """Each of the pages that answer a post."""
        self.page.route("**/answer/*", lambda route: route.fulfill(
            body=shown[unquote(route.request.url.rpartition("/")[2])].content,
            content_type="text/html; charset=utf-8"))  # fmt: skip
        for name in shown:
            self.page.goto(f"/answer/{quote(name)}")
            yield name, self.page


def axe(page: Page) -> list[tuple[str, str]]:
    """What axe-core finds on the page."""
    page.evaluate(AXE)
    options = {
        "runOnly": RULES,
        "rules": {"color-contrast-enhanced": {"enabled": True}, "target-size": {"enabled": True}},
        "resultTypes": ["violations"],
    }
    violations = page.evaluate("options => axe.run(document, options)", options)["violations"]
    return [(one["id"], one["nodes"][0]["html"][:200]) for one in violations]


@pytest.mark.parametrize(("look", "size"), [("light", LANDSCAPE), ("dark", PHONE)])
def test_axe_finds_nothing_on_any_page(browser, live_server, look, size):
    cars = make_cars()
    shown = answers(cars)
    walk = Walk(browser, live_server.url, size)
    walk.choose(live_server.url, look)
    found = {}
    for pages in (walk.through(addresses(cars)), walk.answered(shown)):
        for name, page in pages:
            if wrong := axe(page):
                found[name] = wrong
    assert page.locator("html").get_attribute("data-scheme") == (look if look == "dark" else None)
    assert (found, walk.trouble) == ({}, []), json.dumps(found, indent=1)


def test_axe_finds_nothing_on_the_page_of_any_kind_of_test(browser, live_server):
    walk = Walk(browser, live_server.url, UPRIGHT)
    walk.choose(live_server.url, "dark")
    found = {}
    for name, page in walk.through(kinds_drawn(make_cars())):
        if wrong := axe(page):
            found[name] = wrong
    assert (found, walk.trouble) == ({}, []), json.dumps(found, indent=1)


def test_in_the_bay_all_that_is_touched_is_19_mm_and_no_page_scrolls_sideways(browser, live_server):
    cars = make_cars()
    shown = answers(cars)
    walk = Walk(browser, live_server.url, LANDSCAPE)
    found: dict[tuple[str, int], Any] = {}
    for pages in (walk.through(addresses(cars) | kinds_drawn(cars)), walk.answered(shown)):
        for name, page in pages:
            looked_at = {1: page.evaluate(ORDER)}
            for width, height in (LANDSCAPE, UPRIGHT, PHONE, ZOOMED):
                page.set_viewport_size({"width": width, "height": height})
                wrong = [*page.evaluate(TOO_SMALL)]
                wider = page.evaluate(WIDER)
                looked_at[width] = wrong + ([f"{wider} px wider"] if wider > 0 else [])
                if width == PHONE[0]:
                    looked_at[width] += [one for look in (BROKEN, TOUCHING, CLOSE)
                                         for one in page.evaluate(look)]  # fmt: skip
            found |= {(name, width): wrong for width, wrong in looked_at.items() if wrong}
    assert (found, walk.trouble) == ({}, [])
