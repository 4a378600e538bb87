"""Hours and prices typed on a job: what counts, what is kept, what cannot be."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse

from diagnostics.entries import PRICES_TYPED
from diagnostics.models import PricesTyped
from jobs.entries import PRICE, TAX
from jobs.forms.fields import NO_SUCH_JOB
from jobs.logbook import AGAIN, enter
from jobs.models.people import DESK, OWNER
from tests.diagnostics.jobs_told import START, stood
from tests.diagnostics.options_told import (
    PRICES,
    WHOLE,
    browser_of,
    errors,
    gap_job,
    now_of,
    page,
    typed,
    way,
    words,
)
from tests.factories import make_person, make_told

pytestmark = pytest.mark.django_db


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
    assert PricesTyped.objects.latest("id").values == {"part_clutch": 30000}
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
