"""Every page of the site as people meet it, for the tests that walk them all.

A new address gets one line here: in DRAWN how it is opened, or in NOT_DRAWN why nobody looks at it.
`{bare}`, `{whole}` and `{mended}` are keys of jobs that `make_cars` takes in: one of which next to
nothing is known, one with all of it and an issued record, one with a corrected test and a change.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from django.http import HttpResponse
from django.template.loader import render_to_string
from django.test import Client, override_settings
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from diagnostics.evidence.catalogue import KINDS
from jobs.entries import CHANGE
from jobs.forms.settings import PARTS as PARTS_OF_SETTINGS
from jobs.models.people import DESK
from shopac.one_time import BEGIN, NEW_PASSWORD
from tests.diagnostics.test_issue import freeze
from tests.diagnostics.test_record_steps import make_step
from tests.factories import INTAKE_FIELDS, make_job, make_person, make_shop, tell
from tests.jobs.test_photos import photo_of

EACH_CAR = ("?job={bare}", "?job={whole}", "?job={mended}")
# How a page is opened, by its name: what stands behind its address.
DRAWN: dict[str, tuple[str, ...]] = {
    "board": ("", "?kept"),
    "close": (*EACH_CAR, "?job={mended}&closing_kind=tested_only"),
    "conditions": ("", "?job={bare}", "?job={whole}"),
    "equipment": ("", "?new=1"),
    "follows": ("?job={bare}", "?job={mended}"),
    "handover": ("", *EACH_CAR),
    "history": ("?customer={customer}", "?vehicle={vehicle}"),
    "merge": ("?customer={customer}", "?vehicle={vehicle}"),
    "photo": ("", "?job={bare}", "?job={whole}"),
    "place": ("", "?job={bare}", "?job={whole}"),
    "points": EACH_CAR,
    "redact": ("?customer={customer}",),
    "settings": ("", *(f"?part={part}" for part in (*PARTS_OF_SETTINGS, "prices", "taxes"))),
    "stage": EACH_CAR,
    "tag": EACH_CAR,
    "waiting": ("", "?job={bare}", "?job={whole}"),
    "consent": ("", "?job={bare}", "?job={whole}"),
    "customer": ("", "?job={bare}", "?job={whole}"),
    "find": ("", "?words=473", "?words=zzz"),
    "intake": ("",),
    "issue": EACH_CAR,
    "job": ("", *EACH_CAR),
    "offline": ("",),
    "people": ("", "?person={person}"),
    "photos": ("?job={bare}", "?job={photographed}"),
    "photos_view": ("",),
    "record": EACH_CAR,
    "repair": ("", "?job={bare}", "?job={mended}"),
    "screen": ("",),
    "sign_in": ("", "?by=password", "?person={person}"),
    "step": ("?job={mended}",),  # each kind of test: see `kinds_drawn`
    "steps": EACH_CAR,
    "system": ("", "?job={bare}", "?job={whole}"),
    "unsent": ("",),
    "vehicle": ("", "?job={bare}", "?job={whole}"),
}
NOT_DRAWN = {
    "board_first": "leads to the board",
    "equipment_check": "posted to only",
    "equipment_enter": "posted to only",
    "equipment_tablet": "posted to only",
    "handover_taken": "posted to only",
    "intake_known": "a part of a page",
    "people_qualify": "posted to only",
    "points_override": "posted to only",
    "points_waive": "posted to only",
    "settings_change": "posted to only",
    "settings_price": "posted to only",
    "settings_tax": "posted to only",
    "waiting_end": "posted to only",
    "begin": "by a one-time word: see `answers`",
    "entries": "the door for tablets",
    "job_failing": "posted to only",
    "job_json": "for scripts",
    "jobs_json": "for scripts",
    "manifest": "for the browser",
    "new_password": "by a one-time word: see `answers`",
    "people_add": "posted to only",
    "people_change": "posted to only",
    "photos_original": "a file",
    "photos_shown": "a picture",
    "ping": "for scripts",
    "record_paper": "a file",
    "sign_in_leave": "posted to only",
    "sign_in_tablet": "posted to only",
    "worker": "for the browser",
}
# What stands in an address itself.
PARTS = {"digest": "0" * 64, "kind_name": "coil_power"}


def routes(resolver: URLResolver | None = None) -> dict[str, URLPattern]:
    """All addresses of the site, by name."""
    found: dict[str, URLPattern] = {}
    for part in (resolver or get_resolver()).url_patterns:
        found |= routes(part) if isinstance(part, URLResolver) else {str(part.name): part}
    return found


def make_cars() -> dict[str, str]:
    """What fills the braces above: keys of jobs and of a person."""
    make_shop()
    nothing = dict.fromkeys(INTAKE_FIELDS) | {"vin": "1J9RP1A36A164434", "plate": "RV.4736A"}
    name = "Bartholomäus Featherstonehaugh-Höll"
    bare = make_job(**nothing | {"complaint": "Warm.", "customer_name": name})
    whole, mended = make_job(), make_job()
    make_step(whole, seen="A click was heard.")
    if not freeze(whole).stands:
        raise AssertionError("the record was not issued")
    make_step(mended, corrects=make_step(mended).key)
    if not tell(CHANGE, mended, what="fitted", part="clutch", source="new").stands:
        raise AssertionError("the change was not taken")
    pictured = make_job()
    picture = photo_of(pictured)
    return {
        "bare": str(bare.key),
        "whole": str(whole.key),
        "mended": str(mended.key),
        "photographed": str(pictured.key),
        "entry": str(picture.entry.key),
        "number": str(picture.number),
        "customer": str(whole.customer.key),
        "vehicle": str(whole.vehicle.key),
        "person": str(make_person(DESK, name="Noor Abanti", pin="x").key),
    }


def addresses(cars: dict[str, str]) -> dict[str, str]:
    """Every page with these cars, by its name and what stands behind it."""
    found = {}
    for name, behind in DRAWN.items():
        parts = {one: (cars | PARTS)[one] for one in routes()[name].pattern.converters}
        for one in behind:
            known = [car for car in cars if f"{{{car}}}" in one]
            words = " of ".join([name, *known]) if known else f"{name} {one}".strip()
            found[words] = reverse(name, kwargs=parts) + one.format(**cars)
    return found


def kinds_drawn(cars: dict[str, str]) -> dict[str, str]:
    """The page of each kind of test on the car of which most is known."""
    return {f"step {kind}": f"{reverse('step', args=[kind])}?job={cars['whole']}" for kind in KINDS}


def answers(cars: dict[str, str]) -> dict[str, HttpResponse]:
    """The pages that answer a post, a mistake or a word of one time: they have no name."""
    desk = Client(raise_request_exception=False)
    desk.force_login(make_person(DESK))
    nobody = Client(raise_request_exception=False)
    typed = {
        "customer_name": "Ida",
        "plate": "",
        "complaint": "Blows warm.",
        "label_charge": "9 kg",
    }
    found: dict[str, Any] = {
        "not your page": desk.post(f"{reverse('repair')}?job={cars['whole']}", {"note": "x"}),
        "held post": nobody.post(reverse("intake"), typed),
        "no entry": desk.post(reverse("intake"), typed | {"key": "x"}),
        "intake with problems": desk.post(reverse("intake"), typed),
        "consent with problems": desk.post(
            f"{reverse('consent')}?job={cars['whole']}", {"consent_amount": "much"}
        ),
        "screen with a problem": nobody.post(reverse("screen"), {"mm": "99"}),
        "no such page": nobody.get("/nothing/here/"),
        "used link to begin": nobody.get(reverse("begin")),
        "used link to a password": nobody.get(reverse("new_password")),
    }
    with words_of_one_time() as word:
        at = {"token": word}
        found["new password"] = nobody.get(reverse("new_password"), at)
    for status in ("400", "403", "500"):
        found[status] = HttpResponse(render_to_string(f"{status}.html"), status=int(status))
    said = {"why": "The shop server is busy writing."}
    found["trouble"] = HttpResponse(render_to_string("shopac/trouble.html", said), status=503)
    return found


@contextmanager
def words_of_one_time() -> Iterator[str]:
    """A data folder with a word that opens the pages behind a link of one time."""
    with TemporaryDirectory() as folder, override_settings(DATA=Path(folder)):
        for name in (BEGIN, NEW_PASSWORD):
            (Path(folder) / name).write_text("a-word-of-one-time")
        yield "a-word-of-one-time"
