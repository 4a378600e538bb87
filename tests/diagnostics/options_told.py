"""A car with something to decide, and how its options are looked at."""

import re
from typing import Any

from django.test import Client
from django.urls import reverse
from django.utils.html import strip_tags

from diagnostics.entries import PRICES_TYPED
from diagnostics.offers_told import OfferTold
from diagnostics.options_now import OptionsNow, options_now
from jobs.logbook import RETURNED
from jobs.models.people import TECHNICIAN
from tests.diagnostics.jobs_told import COMES_NOT, Told
from tests.factories import make_person

CLUTCH = "clutch_in_car"
HUB = {"test_kind": "hub_turn", "turns": "free", "warmth": "cold"}
PRICES: dict[str, Any] = {
    "rate": "96",
    "hours_clutch_in_car": "1.5",
    "part_clutch": "286.00",
    "source_clutch": "new",
}
WHOLE: dict[str, Any] = {
    **PRICES,
    **dict.fromkeys(
        ("hours_recover", "hours_evacuate", "hours_charge", "hours_sweep", "hours_unbolt"), "0.5"
    ),
    "hours_hoses_off": "1",
    "hours_find_again": "0.5",
    "part_compressor": "512",
    "part_seals": "18",
    "price_refrigerant": "42",
    "amount_oil": "60",
    "price_oil": "120",
    "keep_months": "3 years",
}


def gap_job() -> Told:
    """A car whose clutch does not take hold by itself, and whose hub turns free."""
    told = Told()
    told.failing("yes")
    told.test(COMES_NOT)
    told.test(HUB)
    return told


def now_of(told: Told) -> OptionsNow:
    return options_now(told.again)


def way(told: Told, code: str = CLUTCH) -> OfferTold:
    return next(one for one in now_of(told).told if one.offer.code == code)


def typed(told: Told, author: Any = None, **fields: Any) -> Any:
    return told.tell(PRICES_TYPED, author, **fields)


def errors(outcome: Any) -> dict[str, str]:
    assert outcome.state == RETURNED
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


def browser_of(role: str = TECHNICIAN) -> Client:
    browser = Client()
    browser.force_login(make_person(role))
    return browser


def page(told: Told, role: str = TECHNICIAN, **more: str) -> str:
    response = browser_of(role).get(reverse("options"), {"job": str(told.job.key), **more})
    assert response.status_code == 200
    return response.content.decode()


def words(html: str) -> str:
    return re.sub(r"\s+", " ", strip_tags(html))
