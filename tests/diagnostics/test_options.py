"""Options: the page, what it says of each way, and what a tablet keeps."""

import json
import uuid
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from diagnostics.offers_told import parted
from jobs.models.people import OWNER, ROLES
from tests.diagnostics.jobs_told import COMES_NOT, HOLDS, Told, stood
from tests.diagnostics.options_told import (
    CLUTCH,
    HUB,
    PRICES,
    WHOLE,
    browser_of,
    gap_job,
    now_of,
    page,
    typed,
    way,
    words,
)
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db


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


def test_the_cheapest_that_cures_a_part_is_in_sight_and_says_so():
    told = gap_job()
    codes = [one.offer.code for one in parted(now_of(told).told)[0]]
    assert codes[0] == CLUTCH
    assert "gap_set" in codes
    assert "It does not cure all that was found." in words(page(told))


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


ALSO: dict[str, str] = {
    "hours_clutch_beside": "0.5",
    "hours_gap": "0.5",
    "part_shims": "5",
    "hours_drier": "0.5",
    "hours_device": "0.5",
    "part_drier": "60",
    "part_device": "40",
}


def test_a_test_that_would_pay_for_itself_is_named_with_its_link_and_no_figure():
    told = Told()
    told.failing("yes")
    told.test(COMES_NOT)
    stood(typed(told, **WHOLE, **ALSO))
    pays = now_of(told).tests_that_pay
    assert pays
    shown = page(told)
    part = shown[shown.index("Before you choose") : shown.index("What you can choose")]
    assert all(f"/step/{kind.name}/?job={told.job.key}" in part for kind in pays)
    assert "EUR" not in words(part)


def test_no_test_is_said_to_pay_where_fewer_than_two_ways_have_a_price():
    told = gap_job()
    stood(typed(told, **PRICES))
    assert now_of(told).tests_that_pay == []


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


def test_what_was_typed_of_a_way_that_is_no_more_offered_is_shown_again(client):
    """The ways may have changed since the page was opened: another test was recorded meanwhile."""
    job = make_job()
    client.force_login(make_person(OWNER))
    typed = {"hours_condenser": "a while", "version": "1"}
    page = client.post(f"{reverse('options')}?job={job.key}", typed)
    assert page.status_code == 422
    assert 'value="a while"' in page.content.decode()
