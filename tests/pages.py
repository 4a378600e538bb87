"""Every page of the site as people meet it, for the tests that walk them all.

A new address gets one line here: in DRAWN how it is opened, or in NOT_DRAWN why nobody looks at it.
`{bare}`, `{whole}`, `{mended}`, `{closed}` and `{back}` are keys of jobs that `make_cars` takes in:
one of which next to nothing is known, one with all of it and an issued record, one with a corrected
test and a change, one that is closed, and its car, back in the shop with its loop open.
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
from jobs.forms.settings import PARTS as PARTS_OF_SETTINGS
from jobs.models.closing import ENDINGS
from jobs.models.people import DESK
from jobs.models.prices import WHAT
from jobs.views.cylinders import ON_ONE
from shopac.one_time import BEGIN, NEW_PASSWORD
from tests.factories import (
    make_person,
)

EACH_CAR = tuple(f"?job={{{car}}}" for car in ("bare", "whole", "mended", "closed", "back"))
# How a page is opened, by its name: what stands behind its address.
DRAWN: dict[str, tuple[str, ...]] = {
    "board": ("", "?kept"),
    "claim": EACH_CAR,
    "charge": ("", "?job={bare}", "?job={mended}", "?job={recovered}", "?job={closed}"),
    "close": (
        *EACH_CAR,
        *(f"?job={{mended}}&closing_kind={code}" for code in ENDINGS),
        "?job={back}&closing_kind=released_unfinished",
    ),
    "book": ("", "?cylinder={cylinder}&taken_back=on", "?sheet=1", "?job=none&since=soon"),
    "conditions": ("", "?job={bare}", "?job={whole}"),
    "consent": ("", "?job={bare}", "?job={whole}"),
    "copy_check": ("",),
    "customer": ("", "?job={bare}", "?job={whole}"),
    "cylinders": (
        *("", "?cylinder={cylinder}", "?cylinder={cylinder}&told={weighed}", "?do=cylinder"),
        *("?do=purchase", "?do=cylinder&cylinder={cylinder}"),
        *(f"?do={do}&cylinder={{cylinder}}" for do in ON_ONE),
        "?do=weighing&cylinder={cylinder}&corrects={weighed}",
    ),
    "decision": (
        *("", *EACH_CAR),
        *("?job={decided}", "?job={decided}&plan=compressor", "?job={decided}&corrects={decision}"),
    ),
    "estimate": (
        *EACH_CAR,
        *("?job={decided}", "?job={priced}", "?job={priced}&version={version}"),
        *("?job={priced}&version={superseded}", "?job={priced}&from=decision"),
    ),
    "equipment": ("", "?new=1", "?thing={thing}", "?thing={thing}&corrects={check}"),
    "evacuation": (*("", "?job={bare}", "?job={recovered}", "?job={recovered}&corrects={pumped}"),),
    "find": ("", "?words=473", "?words=zzz"),
    "follows": ("?job={bare}", "?job={mended}", "?job={back}"),
    "handover": ("", *EACH_CAR),
    "history": (
        *("?customer={customer}", "?vehicle={vehicle}", "?vehicle={came_back}&job={back}"),
        "?customer={came_back_with}",
    ),
    "intake": ("",),
    "invoice": (
        *EACH_CAR,
        *("?job={priced}", "?job={priced}&anew=1", "?job={priced}&version={invoice}"),
    ),
    "issue": EACH_CAR,
    "job": ("", *EACH_CAR),
    "machine_cycle": ("", "?job={bare}", "?job={whole}", "?job={recovered}"),
    "named": ("", "?job={bare}", "?job={whole}"),
    "old_part": ("", "?job={bare}", "?job={whole}"),
    "loop_parts": ("", "?job={bare}", "?job={mended}"),
    "merge": (
        *("?customer={customer}", "?customer={customer}&other={other_customer}"),
        *("?vehicle={vehicle}", "?vehicle={vehicle}&other={other_vehicle}"),
    ),
    "offline": ("",),
    "oil": ("", "?job={bare}", "?job={recovered}"),
    "taken_out": ("", "?job={bare}", "?job={mended}", "?job={mended}&change={change}"),
    "options": ("", *EACH_CAR, "?job={decided}", "?job={decided}&price=fan"),
    "paired": ("",),
    "people": ("", "?person={person}", "?person={carded}"),
    "photo": ("", "?job={bare}", "?job={whole}"),
    "photos": ("?job={bare}", "?job={photographed}"),
    "photos_view": ("",),
    "place": ("", "?job={bare}", "?job={whole}", "?job={back}"),
    "points": EACH_CAR,
    "record": EACH_CAR,
    "recovery": (
        *("", "?job={bare}", "?job={mended}", "?job={recovered}"),
        "?job={recovered}&corrects={recovery}",
    ),
    "redact": ("?customer={customer}",),
    "repair": ("", "?job={bare}", "?job={mended}", "?job={back}"),
    "screen": ("",),
    "settings": (
        "",
        *(f"?part={part}" for part in (*PARTS_OF_SETTINGS, "prices", "taxes")),
        *(f"?part=prices&what={what}" for what in WHAT),
        "?part=prices&line={price}",
        "?part=taxes&new=1",
        "?part=taxes&line={tax}",
    ),
    "sign_in": ("", "?by=password", "?person={person}"),
    "stage": EACH_CAR,
    "step": ("?job={mended}",),  # each kind of test: see `kinds_drawn`
    "steps": EACH_CAR,
    "system": ("", "?job={bare}", "?job={whole}"),
    "tag": (*EACH_CAR, "?job={back}&said={tag}", "?job={back}&size=a6"),
    "unsent": ("",),
    "vehicle": ("", "?job={bare}", "?job={whole}"),
    "verdict": ("", *EACH_CAR),
    "verification": ("", *EACH_CAR, "?job={verified}"),
    "waiting": ("", "?job={bare}", "?job={whole}", "?job={back}"),
}
NOT_DRAWN = {
    "begin": "by a one-time word: see `answers`",
    "board_first": "leads to the board",
    "book_csv": "a file",
    "cylinders_tell": "posted to only",
    "entries": "the door for tablets",
    "estimate_sums": "a part of a page",
    "equipment_check": "posted to only",
    "equipment_enter": "posted to only",
    "equipment_tablet": "posted to only",
    "handover_taken": "posted to only",
    "intake_known": "a part of a page",
    "invoice_sums": "a part of a page",
    "job_failing": "posted to only",
    "job_json": "for scripts",
    "jobs_json": "for scripts",
    "manifest": "for the browser",
    "new_password": "by a one-time word: see `answers`",
    "people_add": "posted to only",
    "people_change": "posted to only",
    "people_qualify": "posted to only",
    "photos_original": "a file",
    "photos_shown": "a picture",
    "ping": "for scripts",
    "points_override": "posted to only",
    "points_waive": "posted to only",
    "record_customer": "a file",
    "record_paper": "a file",
    "settings_change": "posted to only",
    "settings_price": "posted to only",
    "settings_tax": "posted to only",
    "sign_in_leave": "posted to only",
    "sign_in_tablet": "posted to only",
    "waiting_end": "posted to only",
    "worker": "for the browser",
}
# What stands in an address itself.
PARTS = {
    "do": "weighing",
    "digest": "0" * 64,
    "entry": "00000000-0000-0000-0000-000000000000",
    "kind_name": "coil_power",
    "number": "1",
}


def routes(resolver: URLResolver | None = None) -> dict[str, URLPattern]:
    """All addresses of the site, by name."""
    found: dict[str, URLPattern] = {}
    for part in (resolver or get_resolver()).url_patterns:
        found |= routes(part) if isinstance(part, URLResolver) else {str(part.name): part}
    return found


def addresses(cars: dict[str, str]) -> dict[str, str]:
    """Every page with these cars, by its name and what stands behind it."""
    found = {}
    for name, behind in DRAWN.items():
        parts = {one: (PARTS | cars)[one] for one in routes()[name].pattern.converters}
        for one in behind:
            found[f"{name} {one}".strip()] = reverse(name, kwargs=parts) + one.format(**cars)
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
