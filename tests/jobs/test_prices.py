"""Prices and taxes: exact, told anew or ended, and never gone."""

import uuid

import pytest
from django.test import Client
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st

from jobs.entries import PRICE, TAX
from jobs.logbook import enter
from jobs.models import Price, Shop, Tax
from jobs.models.people import OWNER
from jobs.models.prices import in_force
from jobs.money import NotAnAmount, millionths, percent
from tests.factories import make_person, make_shop, make_told
from tests.jobs.test_settings import errors

pytestmark = pytest.mark.django_db
PART = {"what": "part", "name": "Clutch set", "price": "286", "unit": "piece"}
TAXED = {"name": "Sales tax", "share": "8.25", "taken_on": ["parts", "refrigerant"]}


@pytest.fixture
def owner() -> Client:
    make_shop()
    browser = Client()
    browser.force_login(make_person(OWNER))
    return browser


def tell(kind, **fields):
    make_shop()
    told = {name: value for name, value in fields.items() if value}
    return enter(kind, make_told(told, make_person(OWNER)))


@pytest.mark.parametrize(
    ("told", "row"),
    [
        (PART, ("part", "piece", 28_600, None)),
        ({"what": "labor", "name": "Bay", "price": "96,50"}, ("labor", "h", 9_650, None)),
        (
            {"what": "refrigerant", "name": "R-134a", "price": "42", "unit": "kg"},
            ("refrigerant", "kg", 4_200, None),
        ),
        ({"what": "oil", "name": "PAG", "price": "0.12", "unit": "mL"}, ("oil", "mL", 12, None)),
        ({"what": "operation", "name": "Gap", "hours": "0,75"}, ("operation", "time", None, 45)),
        ({"what": "operation", "name": "Gap", "hours": "20 min"}, ("operation", "time", None, 20)),
    ],
)
def test_a_price_is_whole_numbers_of_the_smallest_unit(told, row):
    assert tell(PRICE, **told).stands
    assert Price.objects.values_list("what", "unit", "amount", "minutes").get() == row


@pytest.mark.parametrize(
    ("told", "field", "words"),
    [
        (PART | {"price": ""}, "price", "0 if it costs nothing"),
        (PART | {"price": "2.865"}, "price", "two decimals"),
        (PART | {"price": "-4"}, "price", "zero or more"),
        (PART | {"price": "12 USD"}, "price", "Amounts here are in EUR"),
        (PART | {"unit": ""}, "unit", "Tap one"),
        (PART | {"unit": "kg"}, "unit", "not in the list"),
        (PART | {"name": ""}, "name", "what it is called"),
        ({"what": "operation", "name": "Gap"}, "hours", "How long"),
        ({"what": "operation", "name": "Gap", "hours": "0.333"}, "hours", "whole minutes"),
        (PART | {"what": "favor"}, "__all__", "no such price"),
    ],
)
def test_what_is_no_price_is_told_at_its_field(told, field, words):
    assert words in errors(tell(PRICE, **told))[field]


@pytest.mark.parametrize(
    ("typed", "whole"),
    [("8.25", 82_500), ("8,25", 82_500), ("8.25 %", 82_500), ("0", 0), ("100", 1_000_000)],
)
def test_a_share_is_exact_with_point_or_comma(typed, whole):
    assert millionths(typed) == whole


@pytest.mark.parametrize("typed", ["8.12345", "-1", "100.1", "8 kg", "eight", ""])
def test_what_is_no_share_is_not_rounded_into_one(typed):
    with pytest.raises(NotAnAmount):
        millionths(typed)


@given(st.integers(0, 1_000_000))
def test_every_share_comes_back_as_it_is_shown(share):
    assert millionths(percent(share)) == share


def test_a_tax_says_what_it_is_taken_on():
    assert tell(TAX, **TAXED).stands
    tax = Tax.objects.get()
    assert (tax.millionths, tax.taken_on) == (82_500, ["parts", "refrigerant"])
    assert "Tap what it is taken on" in errors(tell(TAX, name="VAT", share="20"))["taken_on"]


def test_a_changed_price_supersedes_its_row_which_stays():
    first = tell(PRICE, **PART)
    line = Price.objects.get().line
    assert tell(PRICE, **PART | {"price": "299"}, line=str(line), seen=str(first.key)).stands
    assert [one.amount for one in in_force(Price.objects.all())] == [29_900]
    before = Price.objects.exclude(superseded_by=None).get()
    assert (before.amount, before.line) == (28_600, Price.objects.exclude(pk=before.pk).get().line)


def test_a_price_changed_meanwhile_is_refused():
    first = tell(PRICE, **PART)
    line = str(Price.objects.get().line)
    assert tell(PRICE, **PART | {"price": "299"}, line=line, seen=str(first.key)).stands
    late = tell(PRICE, **PART | {"price": "250"}, line=line, seen=str(first.key))
    assert (late.state, late.why[:13]) == ("refused", "Somebody else")


def test_an_ended_line_is_offered_no_more_and_its_rows_stay():
    tell(PRICE, **PART)
    line = str(Price.objects.get().line)
    assert tell(PRICE, line=line, ends="yes").stands
    assert not in_force(Price.objects.all()).exists()
    assert [(one.name, one.amount) for one in Price.objects.all()] == [("Clutch set", 28_600)] * 2
    assert tell(PRICE, **PART, line=line).state == "refused"


def test_a_price_keeps_the_currency_it_was_typed_in(owner):
    tell(PRICE, **PART)
    Shop.objects.update(currency="USD")
    assert "286.00\u00a0EUR" in owner.get(reverse("settings"), {"part": "prices"}).content.decode()


def test_a_line_is_added_changed_and_ended_on_its_page(owner):
    shown = owner.get(reverse("settings"), {"part": "prices", "what": "part"}).content.decode()
    assert "Part number" in shown
    assert "Hours" not in shown
    key = str(uuid.uuid4())
    assert owner.post(reverse("settings_price"), {"key": key, **PART}).status_code == 302
    line = Price.objects.get().line
    page = owner.get(reverse("settings"), {"part": "prices", "line": line}).content.decode()
    assert 'value="286.00"' in page
    assert "End this line" in page
    told = {"key": str(uuid.uuid4()), "line": line, "seen": key, "ends": "yes"}
    assert owner.post(reverse("settings_price"), told).status_code == 302
    assert owner.get(reverse("settings"), {"part": "prices", "line": line}).status_code == 404


def test_what_is_wrong_goes_back_to_the_form_with_all_that_was_typed(owner):
    told = {"key": str(uuid.uuid4()), **PART, "part_number": "TY-2204", "price": "two"}
    page = owner.post(reverse("settings_price"), told)
    assert page.status_code == 422
    assert "“two” is no number" in page.content.decode()
    assert 'value="TY-2204"' in page.content.decode()
    tax = owner.post(reverse("settings_tax"), {"key": str(uuid.uuid4()), "name": "VAT"})
    assert tax.status_code == 422
    assert "Type the percent" in tax.content.decode()


@pytest.mark.parametrize(
    "odd",
    ["line=1", "what=favor", "from=-3", "from=٣", f"from={'9' * 5000}", "words=%00", "new=1"],
    ids=lambda odd: odd[:20],
)
def test_an_odd_address_ends_in_no_error(owner, odd):
    for part in ("prices", "taxes"):
        assert owner.get(f"{reverse('settings')}?part={part}&{odd}").status_code in (200, 404)


def test_a_long_list_comes_in_fifties_at_as_many_queries(owner, django_assert_max_num_queries):
    for number in range(60):
        assert tell(PRICE, **PART | {"name": f"Hose {number:02}"}).stands
    with django_assert_max_num_queries(5):
        page = owner.get(reverse("settings"), {"part": "prices"}).content.decode()
    assert page.count("Hose ") == 50
    assert "The next 50" in page
    page = owner.get(reverse("settings"), {"part": "prices", "from": "50"}).content.decode()
    assert page.count("Hose ") == 10
    page = owner.get(reverse("settings"), {"part": "prices", "words": "hose 07"}).content.decode()
    assert page.count("Hose ") == 1
