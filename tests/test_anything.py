"""Whatever is sent, to whatever page, by whoever: words come back, and what was typed is not lost.

Cases are made by chance from fixed seeds (tests/anything.py), so that a fault found is found again.
"""

import re
import traceback
import uuid

import pytest
from django.http import HttpResponse
from django.test import Client

from jobs.models.people import ROLES
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from shopac.door import ENTRIES
from tests.anything import Anything, Case, Form, Forms, raw, words_in
from tests.factories import make_person
from tests.page_cars import make_cars
from tests.pages import PARTS, addresses, kinds_drawn, routes

pytestmark = pytest.mark.django_db

SEEDS = range(8)
CASES = 320  # of each seed
AGAIN = 40  # cases after which people sign in anew: some of what is sent ends sign-ins
NOBODY = "nobody"


class People:
    """A browser for each role, and one of nobody."""

    def __init__(self) -> None:
        self.browsers = {NOBODY: Client()}
        self.passes: dict[str, str] = {}
        for role in ROLES:
            person, tablet = make_person(role), uuid.uuid4()
            browser = self.browsers[role] = Client()
            browser.force_login(person)
            browser.cookies[TABLET_COOKIE] = tablet_token(tablet)
            self.passes[role] = make_pass(person, tablet)


def odd_addresses(some: Anything) -> list[str]:
    """Addresses whose own parts are anything."""
    found = []
    for pattern in routes().values():
        if pattern.pattern.converters:
            part = next(iter(pattern.pattern.converters))
            route = re.sub(r"<\w+:(\w+)>", r"<str:\1>", str(pattern.pattern))
            odd = raw(some.text()).decode(errors="ignore").replace("/", "")[:80]
            shown = odd or PARTS.get(part, "x")
            found.append("/" + route.replace(f"<str:{part}>", shown))
    return found


def send(browser: Client, case: Case) -> HttpResponse:
    """What comes back."""
    if case.method == "GET":
        return browser.get(case.path)  # type: ignore[return-value]
    return browser.post(case.path, case.body, content_type=case.kind)  # type: ignore[return-value]


def wrong_with(case: Case, answer: HttpResponse) -> str:
    """What is wrong with an answer; empty: nothing."""
    status = answer.status_code
    if status >= 500:
        return f"{status}"
    if getattr(answer, "streaming", False):
        return ""
    page = answer.content.decode()
    if "Traceback" in page:
        return "a stack trace"
    if status < 400 or status == 405:
        return ""
    told = '"why"' in page if "json" in answer.headers.get("Content-Type", "") else page.strip()
    # A name to sign in with is no work; a body over the bound is not read.
    typed = case.shown_again if status != 413 and not case.path.startswith("/sign_in/") else ""
    lost = "" if typed in words_in(page) else ": what was typed is lost"
    return f"{status}{lost}" if lost or not told else ""


@pytest.mark.parametrize("seed", SEEDS)
def test_words_come_back_whatever_is_sent_and_nothing_typed_is_lost(seed):
    cars = make_cars()
    some = Anything(seed, cars)
    pages = [*(addresses(cars) | kinds_drawn(cars)).values()]
    shop = Shop(some, pages)
    wrong = []
    for number in range(CASES):
        if number % AGAIN == 0:
            shop.people = People()
        role, case = shop.case()
        try:
            found = wrong_with(case, send(shop.people.browsers[role], case))
        except Exception:  # noqa: BLE001  whatever it is, it is a mistake of ours
            found = traceback.format_exc().strip()[-700:]
        if found:
            wrong.append(f"{role} {case}\n  {found}")
    assert not wrong, f"{len(wrong)} of {CASES}\n" + "\n".join(wrong[:6])


class Shop:
    """What can be sent here, and by whom."""

    def __init__(self, some: Anything, pages: list[str]) -> None:
        self.some, self.pages = some, pages
        self.people = People()
        self.forms: dict[tuple[str, str], list[Form]] = {}
        self.kept: list[Form] = []

    def forms_of(self, role: str, path: str) -> list[Form]:
        """The forms somebody finds on a page, read once."""
        if (role, path) not in self.forms:
            answer = self.people.browsers[role].get(path)
            found = Forms(answer.content.decode(), path).found
            self.forms[role, path] = found
            self.kept += [one for one in found if one.entry]
        return self.forms[role, path]

    def case(self) -> tuple[str, Case]:
        """Who sends what."""
        chance = self.some.chance
        role = chance.choice((NOBODY, *ROLES, *ROLES))
        path = chance.choice(self.pages)
        what = chance.random()
        if what < 0.25:
            odd = chance.choice([self.some.query(path), *odd_addresses(self.some)])
            return role, Case("GET", odd)
        if what < 0.45 and self.kept and role != NOBODY:
            signed = self.people.passes[role]
            return role, self.some.told(sorted(ENTRIES), self.kept, signed)
        seen_by = chance.choice(sorted(ROLES)) if role == NOBODY else role
        forms = self.forms_of(seen_by, path)
        if not forms:
            return role, Case("GET", self.some.query(path))
        return role, self.some.post(chance.choice(forms))
