"""The pictures of README.md show what the pages show: tests/browser/screenshots.py takes them."""

import io
import re
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from django.core.management import call_command
from django.test import Client
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from jobs.models import Job, Person, Record
from jobs.paper.shelf import file_of
from jobs.passes import TABLET_COOKIE, tablet_token
from tests.browser.screenshots import (
    FOLDER,
    MOST,
    PAPER,
    PAPER_OF,
    PAPER_SEES,
    PICTURES,
    Picture,
    keep,
)
from tests.browser.touch import AT_THE_DESK, PORTRAIT, opener, touch

README = (Path(__file__).parents[2] / "README.md").read_text()
NAMES = {*(one.name for one in PICTURES), PAPER}
# Whether a text can be read on the screen as it is now, its pieces taken together.
SEEN = """words => [...document.querySelectorAll("body *")].some((one) => {
  const text = one.textContent.replace(/\\s+/g, " ");
  if (!one.checkVisibility() || !text.includes(words)) return false;
  const { top, bottom } = one.getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
})"""

# To the part that the picture is of, a little air above it.
SCROLL = "one => { one.scrollIntoView(); scrollBy(0, -24) }"


@pytest.fixture
def shop(transactional_db, settings, capsys) -> None:
    """The demo, as the first start loads it."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    call_command("demo")
    capsys.readouterr()


@pytest.fixture
def at(shop, browser: Browser, live_server) -> Iterator[Callable[[Picture], Page]]:
    """The page of a picture, as it stands when it is taken."""
    client = Client()
    client.cookies[TABLET_COOKIE] = tablet_token(uuid.uuid4())
    with opener(browser, live_server.url, client) as go:

        def look(picture: Picture) -> Page:
            client.force_login(Person.objects.get(name=picture.who))
            job = Job.objects.filter(vehicle__plate=picture.plate).order_by("-pk").first()
            upright: Any = {**PORTRAIT, "viewport": {"width": 800, "height": picture.tall}}
            screen = AT_THE_DESK if picture.at_the_desk else upright
            page = go(f"/{picture.page}/" + (f"?job={job.key}" if job else ""), **screen)
            for one in picture.done:
                touch(page, one)
            for words in picture.sees:
                expect(page.locator("body")).to_contain_text(words)
            page.locator(picture.top).first.evaluate(SCROLL)
            return page

        yield look


def page_1() -> pypdfium2.PdfPage:
    """Of the newest record of the story told in full."""
    record = Record.objects.filter(job__vehicle__plate=PAPER_OF).latest("pk")
    return pypdfium2.PdfDocument(file_of(record))[0]


def test_each_picture_shows_what_it_is_there_for(at):
    """Page 1 of the paper too: the demo is loaded once. What misses something is not kept."""
    paper = page_1()
    words = " ".join(paper.get_textpage().get_text_range().split())
    missing = {PAPER: [one for one in PAPER_SEES if one not in words]}
    taken = {PAPER: paper.render(scale=1.4).to_pil()}
    for picture in PICTURES:
        page = at(picture)
        missing[picture.name] = [one for one in picture.sees if not page.evaluate(SEEN, one)]
        taken[picture.name] = Image.open(io.BytesIO(page.screenshot()))
    assert not any(missing.values()), missing
    keep(taken)


def test_the_readme_shows_every_picture_there_is_with_words_for_who_cannot_see_it():
    shown = re.findall(r'<img [^>]*src="tests/browser/pictures/(\w+)\.png"[^>]*>', README)
    assert sorted(shown) == sorted(NAMES) == sorted(one.stem for one in FOLDER.iterdir())
    assert all(re.search(r'alt="[^"]{20,}"', one) for one in re.findall(r"<img [^>]*>", README))


def test_all_pictures_together_are_small():
    assert sum(one.stat().st_size for one in FOLDER.iterdir()) < MOST
