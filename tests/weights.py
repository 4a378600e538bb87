"""How heavy each page is, as a tablet loads it.

Cold: the page and all its files, for a tablet that has none. Warm: the page alone, for its files
are kept. Files are compressed as the shop server does it (gzip); pages go as they are. The budget
of a page in the bay is 150 kB cold, of our own script 30 kB. Some
reckon on the tablet and have 42 kB: a test step while somebody types (units, pressures, the pad),
a job's page and the board without the shop server (what comes next, orders, notes, timers), the
pages of timers, and those that hold grams and milliliters, as typed, to what is known.
"""

import gzip
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from django.contrib.staticfiles import finders
from django.test import Client

from jobs.models.people import OWNER
from shopac.static_files import OURS, bare
from tests.factories import make_person
from tests.page_cars import make_cars
from tests.pages import addresses, kinds_drawn

COLD_MAX, SCRIPT_MAX, RECKONING_MAX = 150_000, 30_000, 42_000
FILE = re.compile(r'<(?:link|script)\b[^>]*?(?:href|src)="/static/([^"]+)"')


@dataclass(frozen=True)
class Weight:
    """Bytes of one page."""

    page: int
    compressed: int
    styles: int
    script: int
    others: int

    @property
    def cold(self) -> int:
        """All that comes the first time."""
        return self.page + self.styles + self.script + self.others


@cache
def sent(name: str) -> int:
    """Bytes of a static file as the shop server sends it."""
    path = finders.find(name)
    if not path:
        raise FileNotFoundError(name)
    read = Path(path).read_bytes()
    if OURS.fullmatch(name):
        read = bare(name, read.decode()).encode()
    return len(gzip.compress(read, 9))


def weigh(page: bytes) -> Weight:
    """The page with every file it names."""
    files = set(FILE.findall(page.decode()))
    ours = {one for one in files if one.startswith(("js/", "offline/"))}
    styles = {one for one in files if one.endswith(".css")}
    # While developing, django-htmx adds a file that a shop never gets.
    others = files - ours - styles - {"django_htmx/django-htmx.js"}
    total = [sum(map(sent, group)) for group in (styles, ours, others)]
    return Weight(len(page), len(gzip.compress(page, 6)), *total)


def weights() -> dict[str, Weight]:
    """Of every page, with cars of which little and much is known."""
    cars = make_cars()
    browser = Client()
    browser.force_login(make_person(OWNER))
    found = addresses(cars) | kinds_drawn(cars)
    return {name: weigh(browser.get(path).content) for name, path in found.items()}


def kb(size: int) -> str:
    """Thousands of bytes, as the table shows them."""
    return f"{size / 1000:8.1f}"


def table(found: dict[str, Weight]) -> str:
    """The heaviest first."""
    heads = ("cold", "warm", "gzipped", "styles", "script", "others")
    lines = [f"{'kB':30}" + "".join(f"{one:>8}" for one in heads)]
    for name, one in sorted(found.items(), key=lambda line: -line[1].cold):
        sizes = (one.cold, one.page, one.compressed, one.styles, one.script, one.others)
        lines.append(f"{name[:30]:30}" + "".join(map(kb, sizes)))
    return "\n".join(lines)
