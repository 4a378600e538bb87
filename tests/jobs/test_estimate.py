"""Estimates: lines at the shop's prices, versions that stand beside each other, and bad input."""

import uuid
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from diagnostics.entries import DECISION, PRICES_TYPED
from jobs.entries import ESTIMATE, PRICE, SHOP_CHANGE, TAX
from jobs.logbook import AGAIN, enter
from jobs.models import Customer, Estimate, Job, Shop, Vehicle
from jobs.models.people import DESK, OWNER, TECHNICIAN
from tests.diagnostics.jobs_told import COMES_NOT, LIQUID, Told, stood
from tests.factories import make_job, make_person, make_shop, make_told, tell

pytestmark = pytest.mark.django_db
LABOR = {"sort": "labor", "words": "Air gap set", "quantity": "2.25", "price": "96"}
PART = {"sort": "part", "words": "Clutch, complete", "price": "286", "source": "new"}
GAS = {"sort": "fluid", "words": "Refrigerant R-134a", "quantity": "650 g", "price": "85"}
LONG = "Компрессор 空調用圧縮機 ضاغط مكيف " * 8


def typed(*lines: dict[str, str], **fields: str) -> dict[str, str]:
    """Lines as the page posts them."""
    rows = enumerate(lines, 1)
    return {f"{name}_{at}": text for at, line in rows for name, text in line.items()} | fields


def write(job: Job, *lines: dict[str, str], **fields: str) -> Estimate:
    outcome = tell(ESTIMATE, job, **typed(*lines, **fields))
    assert outcome.stands, outcome.form and outcome.form.errors
    return Estimate.objects.get(key=outcome.key)


def taxed(share: str = "8.25", *on: str) -> None:
    told = {"name": "Sales tax", "share": share, "taken_on": list(on or ("parts", "refrigerant"))}
    stood(enter(TAX, make_told(told, make_person(OWNER))))


def sums(**fields: str) -> None:
    told = {"part": "sums", "tax_rounding": "total", "tax_halves": "up", "sundries": "none"}
    stood(enter(SHOP_CHANGE, make_told(told | fields, make_person(OWNER))))


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(make_person(DESK, name="Noor Abanti"))
    return client


def page_of(client: Client, job: Job, **asked: Any) -> str:
    response = client.get(reverse("estimate"), {"job": job.key, **asked})
    assert response.status_code == 200
    return response.content.decode()


def test_lines_taxes_and_total_are_worked_out_at_the_prices_typed():
    """By hand: 216.00 + 286.00 + 55.25; 8.25 % of 341.25 is 28.153…; together 585.40."""
    job = make_job()
    taxed()
    row = write(job, LABOR, PART, GAS)
    assert [line["amount"] for line in row.lines] == [21_600, 28_600, 5_525]
    assert (row.subtotal, row.tax, row.total) == (55_725, 2_815, 58_540)
    assert row.taxes[0]["base"] == 34_125
    assert (row.lines[0]["minutes"], row.lines[2]["much"]) == (135, 650_000)
    assert row.made_by.role == TECHNICIAN


@pytest.mark.parametrize(
    ("told", "amount"),
    [
        ({"sort": "labor", "words": "Flat", "per": "time", "price": "40"}, 4_000),
        ({"sort": "labor", "words": "Short", "quantity": "50 min", "price": "96"}, 8_000),
        ({"sort": "part", "words": "Seals", "quantity": "3", "price": "1.35"}, 405),
        ({"sort": "part", "words": "Hose", "quantity": "1.5", "per": "m", "price": "18"}, 2_700),
        # 2 ft are 0.6096 m
        ({"sort": "part", "words": "Hose", "quantity": "2 ft", "per": "m", "price": "18"}, 1_097),
        # 23 oz are 652.0390… g (NIST SP 811: 1 lb = 0.45359237 kg)
        ({"sort": "fluid", "words": "Gas", "quantity": "23 oz", "price": "85"}, 5_542),
        ({"sort": "fluid", "words": "Oil", "quantity": "120 mL", "price": "48"}, 576),
        # 4 US fluid ounces are 118.2941… mL (231 cubic inches in 128 parts)
        ({"sort": "fluid", "words": "Oil", "quantity": "4 oz", "per": "L", "price": "48"}, 568),
        ({"sort": "part", "words": "Brought", "source": "customer"}, 0),
        ({"sort": "other", "words": "Towing", "price": "60"}, 6_000),
    ],
)
def test_amounts_of_every_sort_are_their_count_at_their_price(told, amount):
    assert write(make_job(), told).lines[0]["amount"] == amount


@pytest.mark.parametrize(
    ("rounding", "halves", "tax"),
    [("line", "up", 12), ("total", "up", 11), ("total", "even", 10), ("line", "down", 9)],
)
def test_taxes_are_rounded_as_the_shop_chose_and_the_version_keeps_it(rounding, halves, tax):
    job = make_job()
    taxed("7", "parts")
    sums(tax_rounding=rounding, tax_halves=halves)
    seal = {"sort": "part", "words": "Seal", "price": "0.50"}
    row = write(job, seal, seal, seal)
    sums(tax_rounding="total", tax_halves="up")
    row.refresh_from_db()
    assert (row.tax, row.tax_rounding, row.tax_halves) == (tax, rounding, halves)


def test_sundries_and_discounts_can_be_shares_of_the_other_lines():
    """5 % of 216.00 labor is 10.80; 10 % of 286.00 + 10.80 that are taxed as parts is 29.68."""
    job = make_job()
    sundry = {"sort": "sundry", "words": "Sundries", "quantity": "5 %"}
    discount = {"sort": "discount", "words": "Regular", "quantity": "10%", "taxed": "parts"}
    row = write(job, LABOR, PART, sundry)
    assert [line["amount"] for line in row.lines] == [21_600, 28_600, 1_080]
    row = write(job, LABOR, PART, discount)
    assert [line["amount"] for line in row.lines] == [21_600, 28_600, -2_860]
    assert row.total == 47_340


def test_a_line_without_a_price_leaves_it_without_a_total_and_nobody_can_agree_to_it(desk):
    job = make_job()
    row = write(job, LABOR, PART | {"price": ""})
    assert (row.subtotal, row.tax, row.total) == (None, None, None)
    assert row.missing == ["Clutch, complete"]
    assert not row.may_be_agreed
    shown = page_of(desk, job, version=row.key)
    assert "no total: a price is missing" in shown
    assert "Ask for consent" not in shown


def test_discounts_beyond_the_rest_are_kept_and_have_no_total():
    off = {"sort": "discount", "words": "Goodwill", "price": "300", "taxed": "parts"}
    row = write(make_job(), PART, off)
    assert row.total is None
    assert row.total_words == "no total: the discounts take off more than the rest costs"


def test_a_version_never_changes_another_and_says_what_it_changed():
    job = make_job()
    taxed()
    first = write(job, LABOR, PART)
    before: dict[str, Any] = dict(Estimate.objects.filter(pk=first.pk).values().get())
    second = write(job, LABOR | {"quantity": "3"}, GAS, on=str(first.key), note="Drier too.")
    after: dict[str, Any] = dict(Estimate.objects.filter(pk=first.pk).values().get())
    assert {name for name in before if before[name] != after[name]} == {"superseded_by_id"}
    assert (second.number, second.before, second.skipped) == (2, first, False)
    assert [one.replace("\u00a0", " ") for one in second.changed] == [
        "Air gap set: 2.25 h → 3 h; 216.00 EUR → 288.00 EUR.",
        "Added: Refrigerant R-134a, 55.25 EUR.",
        "Taken out: Clutch, complete, 286.00 EUR.",
        "The note.",
        "Total: 525.60 EUR → 347.81 EUR.",
    ]
    assert write(
        job, LABOR | {"quantity": "3"}, GAS, on=str(second.key), note="Drier too."
    ).changed == ["Nothing in its lines, taxes or note."]


def test_two_written_at_once_are_two_versions_and_the_second_says_on_what_it_was_written(desk):
    job = make_job()
    first = write(job, LABOR)
    second = write(job, LABOR, PART, on=str(first.key))
    third = write(job, LABOR, GAS, on=str(first.key))
    assert (second.skipped, third.skipped, third.number) == (False, True, 3)
    assert "written on estimate 1, while estimate 2 had come" in page_of(desk, job)
    points = desk.get(reverse("job"), {"job": job.key}).content.decode()
    assert "Estimate 3 was written on estimate 1; what estimate 2 changed is not in it" in points
    write(job, LABOR, GAS, PART, on=str(third.key))
    points = desk.get(reverse("job"), {"job": job.key}).content.decode()
    assert "was written on" not in points


def test_the_same_entry_sent_twice_is_one_version():
    job = make_job()
    told = make_told(typed(LABOR), job_key=job.key)
    assert enter(ESTIMATE, told).stands
    assert enter(ESTIMATE, told).state == AGAIN
    assert Estimate.objects.count() == 1


def test_prices_that_change_later_leave_a_version_as_it_was_written():
    job = make_job()
    taxed("8.25")
    row = write(job, PART)
    taxed("19")
    row.refresh_from_db()
    assert row.total == 28_600 + 2_360
    assert write(job, PART, on=str(row.key)).changed[0].startswith("Sales tax: ")


def test_shop_customer_and_car_stand_on_a_version_as_they_were_when_it_was_written(desk):
    job = make_job()
    row = write(job, PART)
    Shop.objects.update(name="Bay Five Cooling")
    Customer.objects.update(name="Somebody Else", phone="555 000 1111")
    Vehicle.objects.update(plate="ZZ.0001Z")
    sheet = page_of(desk, job, version=row.key).partition('<article class="sheet"')[2]
    for old in (row.head["shop"]["name"], row.head["customer"]["name"], row.head["car"]["plate"]):
        assert old in sheet
    for new in ("Bay Five", "Somebody Else", "555 000 1111", "ZZ.0001Z"):
        assert new not in sheet


# What comes from the decision.


def decided(**prices: str) -> Told:
    told = Told(plate="QD.3358T", vin=None, customer_name="Orla Vandermeer")
    told.test(COMES_NOT)
    told.test(LIQUID)
    first: dict[str, Any] = {"rate": "96", "hours_clutch_in_car": "1.5", "part_clutch": "286"}
    stood(told.tell(PRICES_TYPED, **{**first, "source_clutch": "new", **prices}))
    return told


def choose(told: Told, plan: str) -> uuid.UUID:
    choice: dict[str, Any] = {"plan": plan, "decided_by": "customer", "reasons": ["shown"]}
    return stood(told.tell(DECISION, **choice)).key


def test_the_first_version_begins_with_the_lines_of_the_way_that_was_decided(desk):
    told = decided()
    key = choose(told, "clutch_in_car")
    shown = page_of(desk, told.job)
    for name, value in {
        "sort_1": None, "words_1": "Clutch parts off and on, compressor in its place",
        "quantity_1": "1.5", "price_1": "96.00", "words_2": "Clutch, complete",
        "price_2": "286.00", "plan": "clutch_in_car", "decision": str(key),
    }.items():  # fmt: skip
        assert f'name="{name}"' in shown
        assert value is None or f'value="{value}"' in shown
    assert '<option value="new" selected>' in shown


def test_work_that_two_repairs_share_is_one_line(desk):
    told = decided()
    choose(told, "leak_joint+leak_hose")
    shown = page_of(desk, told.job)
    assert shown.count('value="Loop evacuated and held"') == 1
    assert shown.count('value="Refrigerant recovered"') == 1


def test_sundries_of_the_shop_come_with_the_lines_proposed(desk):
    told = decided()
    choose(told, "clutch_in_car")
    sums(sundries="percent", sundries_typed="5")
    shown = page_of(desk, told.job)
    assert 'value="Sundries"' in shown
    assert 'value="5 %"' in shown


def test_an_estimate_of_a_decision_that_was_decided_anew_is_an_open_point(desk):
    told = decided()
    key = choose(told, "clutch_in_car")
    address = f"{reverse('job')}?job={told.job.key}"
    write(told.job, LABOR, decision=str(key), plan="clutch_in_car")
    open_ = "Estimate 1 has the lines of a decision that is not the last one"
    assert open_ not in desk.get(address).content.decode()
    choose(told, "nothing")
    assert open_ in desk.get(address).content.decode()


def test_a_decision_to_do_nothing_proposes_no_lines_and_the_page_says_so(desk):
    told = decided()
    choose(told, "nothing")
    assert "no way to repair that has lines of its own" in page_of(desk, told.job)


def test_the_price_list_is_offered_with_operations_at_the_labor_rate(desk):
    job, owner = make_job(), make_person(OWNER)
    for told in (
        {"what": "labor", "name": "Bay", "price": "96"},
        {"what": "operation", "name": "Drier replaced", "hours": "0.5"},
        {"what": "refrigerant", "name": "R-134a", "price": "85", "unit": "kg"},
    ):
        stood(enter(PRICE, make_told(told, owner)))
    offered = desk.get(reverse("estimate"), {"job": job.key}).context["prices"]
    assert [tuple(one.values()) for one in offered] == [
        ("labor", "Bay", "h", "", "96.00"),
        ("labor", "Drier replaced", "h", "0.5", "96.00"),
        ("fluid", "R-134a", "kg", "", "85.00"),
    ]


def test_without_a_decision_the_lines_are_typed_and_the_page_says_so(desk):
    assert "Nothing is decided yet" in page_of(desk, make_job())


def test_the_next_version_begins_with_the_lines_of_the_one_in_force_as_typed(desk):
    job = make_job()
    lines = (
        LABOR,
        PART | {"taxed": "none"},
        GAS,
        {"sort": "part", "words": "Shims", "source": "customer"},
    )
    row = write(job, *lines, note="Ready on Friday.")
    shown = page_of(desk, job)
    for value in ("2.25", "96.00", "650 g", "85.00", "Ready on Friday."):
        assert value in shown
    assert f'value="{row.key}"' in shown
    again = desk.get(reverse("estimate"), {"job": job.key}).context["form"]
    told = {name: str(text) for name, text in again.initial.items() if text}
    outcome = tell(ESTIMATE, job, **told)
    assert Estimate.objects.get(key=outcome.key).lines == row.lines


# The page.


def test_adding_up_records_nothing(desk):
    job = make_job()
    taxed()
    fields = typed(LABOR, PART, GAS)
    shown = desk.post(f"{reverse('estimate_sums')}?job={job.key}", fields).content.decode()
    assert "585.40\u00a0EUR" in shown
    assert 'id="amount_3" hx-swap-oob="true">55.25\u00a0EUR<' in shown
    page = desk.post(f"{reverse('estimate')}?job={job.key}", fields | {"button": "add_up"})
    assert "585.40\u00a0EUR" in page.content.decode()
    assert not Estimate.objects.exists()


def test_adding_up_says_why_there_is_no_total(desk):
    job = make_job()
    address = f"{reverse('estimate_sums')}?job={job.key}"
    said = desk.post(address, typed(LABOR, PART | {"price": ""})).content.decode()
    assert "a price is missing of Clutch, complete." in said
    assert (
        "mend the lines" in desk.post(address, typed(LABOR, PART | {"price": "x"})).content.decode()
    )


def test_the_sheet_has_letterhead_car_lines_taxes_and_the_wording_required(desk):
    job = make_job()
    taxed()
    shop = make_shop()
    shop.letterhead, shop.law, shop.tax_number = "Cooling since 1998", "Keep this.", "DE 999"
    shop.save()
    row = write(job, LABOR, PART, GAS, note="Ready on Friday.")
    shown = page_of(desk, job, version=row.key)
    sheet = shown[shown.index("<article") : shown.index("</article>")]
    for words in (
        *("Hollow Lane Cooling", "Cooling since 1998", "DE 999", "Estimate 1", "Ida Marwell"),
        *("KX.4731D", job.number, "2.25\u00a0h", "at 96.00\u00a0EUR an hour", "650\u00a0g"),
        *("at 85.00\u00a0EUR a kilogram", "Sales tax, 8.25\u00a0% of 341.25\u00a0EUR"),
        *("585.40\u00a0EUR", "Ready on Friday.", "Keep this.", "once, on the total; half up"),
    ):
        assert words in sheet


def test_a_superseded_version_says_so_on_its_sheet(desk):
    job = make_job()
    first = write(job, LABOR)
    write(job, PART, on=str(first.key))
    shown = page_of(desk, job, version=first.key)
    sheet = shown[shown.index("<article") : shown.index("</article>")]
    assert "Superseded by estimate 2" in sheet
    assert "Ask for consent" not in shown


@pytest.mark.parametrize(("paper", "css"), [("a4", "sheet_a4"), ("us-letter", "sheet_us-letter")])
def test_it_is_printed_on_the_shops_paper(desk, paper, css):
    job = make_job()
    shop = make_shop()
    shop.paper = paper
    shop.save()
    assert css in page_of(desk, job, version=write(job, LABOR).key)


def test_another_jobs_version_is_not_shown(desk):
    row = write(make_job(), LABOR)
    asked = {"job": make_job(plate="ZZ.1111A").key, "version": row.key}
    assert desk.get(reverse("estimate"), asked).status_code == 404


def test_nobody_sees_an_estimate_without_a_sign_in(client):
    assert client.get(reverse("estimate"), {"job": make_job().key}).status_code == 302


def queries(client: Client, job: Job, **asked: Any) -> int:
    with CaptureQueriesContext(connection) as found:
        page_of(client, job, **asked)
    return len(found)


def test_the_page_asks_the_database_as_often_with_many_versions_and_lines(desk):
    few, many = make_job(), make_job(plate="MB.2207K")
    one = write(few, LABOR)
    last = write(many, LABOR)
    for _ in range(4):
        last = write(many, *[LABOR] * 30, PART, on=str(last.key))
    assert queries(desk, few) == queries(desk, many)
    assert queries(desk, few, version=one.key) == queries(desk, many, version=last.key)
