"""Options: the page, what is typed on it, what it says of each way, and what a tablet keeps."""

import json
import re
import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils.html import strip_tags

from diagnostics.entries import PRICES_TYPED
from diagnostics.models import PricesTyped
from diagnostics.offers_told import OfferTold
from diagnostics.options_now import OptionsNow, options_now
from jobs.entries import PRICE, TAX
from jobs.forms.fields import NO_SUCH_JOB
from jobs.logbook import AGAIN, RETURNED, enter
from jobs.models.people import DESK, OWNER, ROLES, TECHNICIAN
from tests.diagnostics.jobs_told import COMES_NOT, HOLDS, START, Told, stood
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db
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


# Who may, and the page without a job.


@pytest.mark.parametrize("role", sorted(ROLES))
def test_everybody_of_the_shop_may_look_at_them_and_type_prices(role):
    told = gap_job()
    assert "What you can choose" in page(told, role)
    assert typed(told, make_person(role), **PRICES).stands


def test_nobody_else_sees_them(client):
    told = gap_job()
    response = client.get(reverse("options"), {"job": str(told.job.key)})
    assert response.status_code == 302
    assert response.url.startswith("/sign_in/")


def test_the_page_without_a_job_has_nothing_of_any_car():
    told = gap_job()
    stood(typed(told, **PRICES))
    shown = browser_of().get(reverse("options")).content.decode()
    assert told.job.vehicle.plate not in shown
    assert "286" not in shown
    assert 'name="hours_clutch_in_car"' in shown


def test_an_address_of_no_job_is_none():
    assert browser_of().get(reverse("options"), {"job": str(uuid.uuid4())}).status_code == 404


# What was typed counts, and what was not is missing.


def test_what_is_not_typed_is_missing_and_never_zero():
    told = gap_job()
    one = way(told)
    assert one.total == ""
    assert one.percent is None
    assert "Price of “Clutch, complete” not typed." in one.offer.cost.missing
    shown = words(page(told))
    assert "Price of “Clutch, complete” not typed." in shown
    assert "not whole yet" in shown


def test_the_cost_is_hours_at_the_rate_and_the_part():
    told = gap_job()
    stood(typed(told, **PRICES))
    assert way(told).offer.cost.total == 9600 * 3 // 2 + 28600
    assert "430.00 EUR" in words(page(told)).replace("\u00a0", " ")


def test_what_was_typed_with_a_comma_is_the_same():
    told = gap_job()
    stood(typed(told, **{**PRICES, "hours_clutch_in_car": "1,5", "part_clutch": "286,00"}))
    assert way(told).offer.cost.total == 43000


def test_the_shops_own_list_counts_where_nothing_was_typed_and_typed_wins():
    owner = make_person(OWNER)
    told = gap_job()
    stood(enter(PRICE, make_told({"what": "labor", "name": "Bay", "price": "60"}, owner)))
    tax = {"name": "Tax", "share": "10", "taken_on": ["parts"]}
    stood(enter(TAX, make_told(tax, owner)))
    stood(typed(told, **{**PRICES, "rate": None}))
    assert way(told).offer.cost.total == 9000 + 28600 + 2860
    assert "Left empty: 60.00 EUR (Bay)." in words(page(told)).replace("\u00a0", " ")
    stood(typed(told, rate="96"))
    assert way(told).offer.cost.total == 14400 + 28600 + 2860


def test_of_two_labor_rates_none_is_taken_by_itself():
    told, owner = gap_job(), make_person(OWNER)
    for name in ("Bay", "Electrics"):
        stood(enter(PRICE, make_told({"what": "labor", "name": name, "price": "60"}, owner)))
    stood(typed(told, **{**PRICES, "rate": None}))
    assert "Price of an hour not typed." in way(told).offer.cost.missing


@pytest.mark.parametrize(
    ("unit", "price", "per_kilogram"), [("kg", "42", 4200), ("g", "0.05", 5000), ("lb", "20", 4409)]
)
def test_a_price_of_refrigerant_is_brought_to_a_kilogram(unit, price, per_kilogram):
    """1 lb = 0.45359237 kg (NIST SP 811): 20.00 a pound are 44.09 a kilogram."""
    told = gap_job()
    fields = {"what": "refrigerant", "name": "R-134a", "price": price, "unit": unit}
    stood(enter(PRICE, make_told(fields, make_person(OWNER))))
    sheet = now_of(told).sheet
    assert sheet.value("price_refrigerant") == per_kilogram
    assert sheet.value("amount_refrigerant") == 520_000


def test_a_part_the_customer_brings_costs_nothing_in_the_sum_and_is_said():
    told = gap_job()
    stood(typed(told, **{**PRICES, "part_clutch": None, "source_clutch": "customer"}))
    assert way(told).offer.cost.total == 14400
    assert "brought by the customer" in words(page(told))


def test_what_two_repairs_share_is_paid_once():
    told = gap_job()
    stood(typed(told, **WHOLE))
    compressor = way(told, "compressor").offer.cost
    codes = [(line.kind, line.code) for line in compressor.lines]
    assert len(codes) == len(set(codes))


# Superseded, never deleted; only what is new is told.


def test_a_field_that_was_not_changed_tells_nothing():
    told = gap_job()
    stood(typed(told, **PRICES))
    again = {"was_rate": "96.00", "rate": "96.00", "was_part_clutch": "286.00"}
    stood(typed(told, **again, part_clutch="300"))
    assert PricesTyped.objects.order_by("id").last().values == {"part_clutch": 30000}
    assert PricesTyped.objects.count() == 2


def test_a_field_that_was_emptied_is_not_typed_any_more():
    told = gap_job()
    stood(typed(told, **PRICES))
    stood(typed(told, was_part_clutch="286.00", part_clutch=""))
    assert "Price of “Clutch, complete” not typed." in way(told).offer.cost.missing


def test_what_two_tablets_typed_meanwhile_is_kept_of_both():
    told = gap_job()
    late = START + timedelta(hours=3)
    stood(typed(told, at=late, part_clutch="300"))
    stood(typed(told, rate="96", hours_clutch_in_car="1.5", part_clutch="286"))
    sheet = now_of(told).sheet
    assert sheet.value("part_clutch") == 30000  # the last to happen, not to arrive
    assert sheet.value("rate") == 9600


def test_a_correction_takes_the_place_of_the_earlier_one():
    told = gap_job()
    first = stood(typed(told, **PRICES))
    fields = {name: str(text) for name, text in {**PRICES, "part_clutch": "268"}.items()}
    entry = make_told(fields, job_key=told.job.key, corrects=first.key)
    stood(enter(PRICES_TYPED, entry))
    assert now_of(told).sheet.value("part_clutch") == 26800
    assert PricesTyped.objects.get(key=first.key).superseded_by is not None


def test_the_same_entry_twice_is_one():
    told = gap_job()
    entry = make_told({"rate": "96"}, job_key=told.job.key)
    stood(enter(PRICES_TYPED, entry))
    assert enter(PRICES_TYPED, entry).state == AGAIN
    assert PricesTyped.objects.count() == 1


# What cannot be is said at its field, and nothing is lost.


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("rate", "much", "number"),
        ("rate", "-5", "zero or more"),
        ("part_clutch", "1.234", "two decimals"),
        ("hours_clutch_in_car", "0", "more than nothing"),
        ("hours_clutch_in_car", "3 days", "hours"),
        ("keep_months", "2.5", "whole months"),
        ("keep_months", "60 years", "50 years"),
        ("amount_oil", "-1", ""),
        ("amount_refrigerant", "9 tons", "g, kg, oz or lb"),
        ("source_clutch", "stolen", "not in the list"),
        ("shop_pays", ["everything"], "not in the list"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(field, text, said):
    told = gap_job()
    assert said in errors(typed(told, **{field: text}))[field]
    assert not PricesTyped.objects.exists()


def test_a_form_that_comes_back_has_all_that_was_typed():
    told = gap_job()
    browser = browser_of()
    address = f"{reverse('options')}?job={told.job.key}"
    response = browser.post(address, {"rate": "much", "was_rate": "", "part_clutch": "286"})
    assert response.status_code == 422
    shown = response.content.decode()
    assert 'value="much"' in shown
    assert 'value="286"' in shown
    assert 'name="hours_clutch_in_car"' in shown


def test_a_form_with_nothing_new_says_so():
    assert "Nothing new is typed yet." in errors(typed(gap_job()))["__all__"]


def test_prices_of_no_job_are_not_taken():
    outcome = enter(PRICES_TYPED, make_told({"rate": "96"}, job_key=uuid.uuid4()))
    assert NO_SUCH_JOB in errors(outcome)["__all__"]


def test_the_shops_own_figure_is_the_owners():
    told = gap_job()
    figure = {
        "figure_pair": "clutch_in_car>compressor",
        "figure_came": "3",
        "figure_of": "40",
        "figure_basis": "Our invoices of three summers.",
    }
    assert "owner" in errors(typed(told, make_person(DESK), **figure))["figure_came"]
    owner = make_person(OWNER)
    assert typed(told, owner, **figure).stands
    half = {**figure, "figure_basis": None, "figure_came": "4"}
    assert "figure_basis" in errors(typed(told, owner, **half))


# What the page says.


def test_nothing_found_is_said_and_no_way_is_put_forward():
    told = Told()
    shown = words(page(told))
    assert "Every way below would be a guess." in shown
    assert "Nothing, A/C off" in shown


def test_it_shows_the_cheapest_that_the_tests_ask_for_and_what_argues_against_the_dearer():
    told = gap_job()
    stood(typed(told, **WHOLE))
    shown = words(page(told)).replace("\u00a0", " ")
    assert "Also possible: the cheapest that the tests ask for" in shown
    assert "Against it:" in shown
    assert "costs you" in shown
    assert "less today than compressor, complete" in shown
    assert "A part seller may refuse its warranty" in shown


def test_no_chance_stands_on_it():
    told = gap_job()
    stood(typed(told, **WHOLE))
    shown = words(page(told))
    assert "%" not in shown
    assert "chance" not in shown.lower()
    assert "probab" not in shown.lower()


def test_without_a_figure_of_the_shops_own_nothing_is_drawn_but_prices():
    told = gap_job()
    stood(typed(told, **WHOLE))
    shown = page(told)
    assert 'class="strip"' not in shown
    assert 'class="cost-bar"' in shown
    assert "Today’s prices only" in words(shown)


def test_the_owners_figure_draws_where_the_dearer_one_pays():
    told = gap_job()
    stood(typed(told, **WHOLE))
    figure = {
        "figure_pair": "clutch_in_car>compressor",
        "figure_came": "3",
        "figure_of": "40",
        "figure_basis": "Our invoices of three summers.",
    }
    stood(typed(told, make_person(OWNER), **figure))
    shown = page(told)
    assert 'class="strip"' in shown
    assert "By the shop’s own figure clutch parts, in the car stays the cheaper way" in words(shown)
    assert "3 of 40, Our invoices of three summers." in words(shown)


def test_a_way_that_cannot_be_made_is_set_aside_with_its_reason():
    told = gap_job()
    assert any(one.offer.code == "gap_set" for one in now_of(told).told)
    stood(typed(told, aside_gap_set="No shim is left."))
    assert not any("gap_set" in one.offer.code for one in now_of(told).told)
    assert "Air gap set right: No shim is left." in words(page(told))


def test_what_comes_first_leads_to_its_test_until_a_step_tells_of_it():
    told = Told()
    told.test(COMES_NOT)
    shown = page(told)
    assert "/step/hub_turn/" in shown
    told.test(HUB)
    needs = [need for need in way(told).needs if "Turn the hub" in need.sentence]
    assert [need.steps for need in needs] == [[2]]
    assert [need.kinds for need in needs] == [[]]


def test_a_lock_warns_of_driving_on_even_where_nothing_is_repaired():
    told = Told()
    told.failing("yes")
    told.test({"test_kind": "hub_turn", "turns": "locked", "warmth": "cold"})
    assert "Caution." in words(page(told))
    assert way(told, "nothing").offer.cautions


def test_it_makes_the_same_number_of_queries_however_much_was_typed():
    told = gap_job()
    stood(typed(told, **PRICES))
    browser = browser_of()
    address = f"{reverse('options')}?job={told.job.key}"
    browser.get(address)
    with CaptureQueriesContext(connection) as before:
        browser.get(address)
    for price in ("280", "281", "282", "283"):
        stood(typed(told, part_clutch=price))
        told.test(HUB)
    with CaptureQueriesContext(connection) as after:
        browser.get(address)
    assert len(after) == len(before)


# What a tablet keeps.


def kept(told: Told) -> dict[str, Any]:
    response = browser_of().get(reverse("job_json"), {"job": str(told.job.key)})
    return dict(json.loads(response.content))


def test_a_tablet_keeps_the_ways_in_words_and_no_price():
    told = gap_job()
    assert kept(told)["options"] is None
    stood(typed(told, **WHOLE))
    options = kept(told)["options"]
    assert options["ways"][0]["code"] == CLUTCH
    assert "hours_clutch_in_car" in options["asked"]
    text = json.dumps(options)
    for price in ("286", "430", "512", "EUR", "96.00"):
        assert price not in text


def test_a_car_with_nothing_found_asks_for_no_prices():
    told = Told()
    told.test(HOLDS)
    assert make_job()
    assert 'id="prices"' not in page(told)
