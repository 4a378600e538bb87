"""settings: what an owner tells of the shop, held to what can be, told anew and never lost."""

import uuid
from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.entries import SHOP_CHANGE
from jobs.forms.settings import PARTS
from jobs.logbook import enter
from jobs.models import Entry, Shop, ShopChange
from jobs.models.people import DESK, OWNER
from jobs.models.shop import changes_until
from tests.factories import make_person, make_shop, make_told

pytestmark = pytest.mark.django_db
PAPERS = {"part": "papers", "name": "Hollow Lane Cooling", "currency": "EUR", "paper": "a4"}
UNITS = {
    "part": "units",
    "unit_pressure": "psi",
    "unit_vacuum": "micron",
    "unit_temperature": "°F",
    "unit_mass": "oz",
    "unit_oil": "mL",
    "unit_gap": "mm",
    "unit_air_speed": "m/s",
    "unit_distance": "km",
}
SUMS = {"part": "sums", "tax_rounding": "total", "tax_halves": "up", "sundries": "none"}


@pytest.fixture
def owner() -> Client:
    make_shop()
    browser = Client()
    browser.force_login(make_person(OWNER))
    return browser


def tell(**fields):
    make_shop()
    told = {name: value for name, value in fields.items() if value}
    return enter(SHOP_CHANGE, make_told(told, make_person(OWNER)))


def errors(outcome) -> dict[str, str]:
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


def post(browser: Client, **fields):
    return browser.post(reverse("settings_change"), {"key": str(uuid.uuid4()), **fields})


def test_the_list_says_of_each_part_what_holds(owner):
    page = owner.get(reverse("settings")).content.decode()
    assert "Hollow Lane Cooling, EUR, A4" in page
    assert "kPa, micron, °C" in page
    assert "Not set: sea level is taken" in page


@pytest.mark.parametrize("part", [*PARTS, "prices", "taxes"])
def test_each_part_has_its_page(owner, part):
    assert owner.get(reverse("settings"), {"part": part}).status_code == 200


def test_a_part_that_is_none_is_not_there(owner):
    assert owner.get(reverse("settings"), {"part": "colors"}).status_code == 404
    assert post(owner, part="colors").status_code == 404
    assert errors(tell(part="colors"))["__all__"].startswith("The shop server knows no such part")


@pytest.mark.parametrize("name", ["settings", "settings_change", "settings_price", "settings_tax"])
def test_the_front_desk_is_told_that_it_is_the_owners_page(name):
    make_shop()
    browser = Client()
    browser.force_login(make_person(DESK))
    how = browser.get if name == "settings" else browser.post
    response = how(reverse(name))
    assert response.status_code == 403
    assert "owner" in response.content.decode()


def test_a_change_is_an_entry_with_a_row_of_its_own_and_the_one_before_stays(owner):
    assert post(owner, **UNITS).status_code == 302
    assert post(owner, **UNITS | {"unit_temperature": "°C"}).status_code == 302
    assert [one.values["units"].get("temperature") for one in ShopChange.objects.all()] == [
        "°F",
        None,
    ]
    assert Shop.objects.get().units == {"pressure": "psi", "mass": "oz"}
    assert Entry.objects.filter(kind="shop_change").count() == 2


def test_which_settings_were_in_force_can_be_told(owner):
    first = tell(**UNITS)
    ShopChange.objects.update(from_at=timezone.now() - timedelta(days=2))
    second = tell(**UNITS)
    assert changes_until(timezone.now()) == {"units": str(second.key)}
    assert changes_until(timezone.now() - timedelta(days=1)) == {"units": str(first.key)}
    assert changes_until(timezone.now() - timedelta(days=3)) == {}


def test_a_form_opened_before_somebody_elses_change_is_refused(owner):
    shown = owner.get(reverse("settings"), {"part": "keep"}).content.decode()
    assert 'name="seen" value="none"' in shown
    assert post(owner, part="keep", seen="none", record_years="7").status_code == 302
    late = post(owner, part="keep", seen="none", record_years="9")
    assert late.status_code == 409
    assert "Somebody else changed this part meanwhile" in late.content.decode()
    assert Shop.objects.get().record_years == 7


def test_the_same_key_twice_changes_once(owner):
    key = str(uuid.uuid4())
    for _ in range(2):
        told = {"key": key, "part": "keep", "record_years": "7"}
        assert owner.post(reverse("settings_change"), told).status_code == 302
    assert ShopChange.objects.count() == 1


def test_papers_have_their_lines_in_order_and_leave_out_what_is_empty():
    told = PAPERS | {"letterhead": "Car cooling since 1998", "address": "12 Lane\nMill End"}
    assert tell(**told, tax_number="Reg. 4711").stands
    assert Shop.objects.get().lines == [
        "Car cooling since 1998",
        "12 Lane",
        "Mill End",
        "Reg. 4711",
    ]


def test_a_currency_that_is_none_is_told_at_its_field_and_all_typed_stays(owner):
    page = post(owner, **PAPERS | {"currency": "XXQ", "phone": "555 010 0100"})
    assert page.status_code == 422
    shown = page.content.decode()
    assert "“XXQ” is no currency in use" in shown
    assert 'value="555 010 0100"' in shown


def test_five_lines_under_the_name_are_too_many():
    told = PAPERS | {"letterhead": "a\nb\nc\nd\ne"}
    assert errors(tell(**told))["letterhead"] == "Those are 5 lines; 4 fit."


def test_every_quantity_needs_a_unit_of_its_own():
    told = errors(tell(**UNITS | {"unit_gap": "psi"}))
    assert list(told) == ["unit_gap"]


@pytest.mark.parametrize(
    ("typed", "meters", "pascal"),
    [
        ("1600", 1600, 83_524),  # ISO 2533: 835.24 hPa at 1600 m
        ("5280 ft", 1609, 83_431),
        ("0", 0, 101_325),
        ("1 600,0 m", 1600, 83_524),
    ],
)
def test_an_altitude_is_typed_in_meters_or_feet(typed, meters, pascal):
    assert tell(part="place", altitude=typed).stands
    shop = Shop.objects.get()
    assert shop.altitude_m == meters
    assert shop.air_pa == pytest.approx(pascal, abs=15)


def test_the_airs_pressure_can_be_told_instead():
    assert tell(part="place", air="24.9 inHg").stands
    assert Shop.objects.get().air_pa == pytest.approx(84_321, abs=5)
    assert Shop.objects.get().altitude_m is None


@pytest.mark.parametrize(
    ("told", "field", "words"),
    [
        ({"altitude": "high"}, "altitude", "is no number"),
        ({"altitude": "9000"}, "altitude", "−450 to 5 000 m"),
        ({"altitude": "5 psi"}, "altitude", "is not in m or ft"),
        ({"air": "14"}, "air", "500 to 1 100 hPa"),
        ({"altitude": "100", "air": "1000"}, "air", "one of the two"),
    ],
)
def test_a_place_where_no_shop_stands_is_told_at_its_field(told, field, words):
    assert words in errors(tell(part="place", **told))[field]


def test_sundries_are_money_or_a_share_and_exact():
    assert tell(**SUMS | {"sundries": "amount", "sundries_typed": "4,50"}).stands
    assert Shop.objects.get().sundries_minor == 450
    assert tell(**SUMS | {"sundries": "percent", "sundries_typed": "2.75"}).stands
    shop = Shop.objects.get()
    assert (shop.sundries_minor, shop.sundries_millionths) == (None, 27_500)


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"sundries": "amount"}, "How much?"),
        ({"sundries": "none", "sundries_typed": "4"}, "nothing to type"),
        ({"sundries": "percent", "sundries_typed": "101"}, "from 0 to 100"),
        ({"sundries": "amount", "sundries_typed": "4.505"}, "two decimals"),
    ],
)
def test_sundries_that_say_nothing_are_told_at_their_field(told, words):
    assert words in errors(tell(**SUMS | told))["sundries_typed"]


def test_phrases_stand_one_a_line_each_once():
    assert tell(part="phrases", phrases_complaint="Blows warm\n\n Noise \nBlows warm").stands
    assert Shop.objects.get().phrases == {"complaint": ["Blows warm", "Noise"]}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("\n".join(f"phrase {i}" for i in range(13)), "Those are 13 phrases; 12 fit."),
        ("x" * 81, "has 81 characters; 80 fit"),
    ],
)
def test_phrases_are_bounded_in_number_and_length(text, words):
    told = errors(tell(part="phrases", phrases_waiting=text))
    assert words in told["phrases_waiting"]


def test_own_phrases_are_on_the_pages_they_are_for(owner):
    told = {
        "part": "phrases",
        "phrases_complaint": "<Blows> warm",
        "phrases_not_done": "Bolt seized",
    }
    assert post(owner, **told).status_code == 302
    assert "&lt;Blows&gt; warm</button>" in owner.get(reverse("intake")).content.decode()
    step = owner.get(reverse("step", args=["air_gap"])).content.decode()
    assert "Bolt seized</button>" in step
    assert "Blows" not in step


def test_the_wording_of_the_place_is_shown_with_every_consent_and_who_answers_for_it(owner):
    assert post(owner, part="law", law="Old parts are yours.").status_code == 302
    for page in ("intake", "consent"):
        shown = owner.get(reverse(page)).content.decode()
        assert "As required here:" in shown
        assert "Old parts are yours." in shown
        assert "Check your local rules." in shown


def test_without_such_a_wording_nothing_about_law_is_on_a_consent(owner):
    assert "required here" not in owner.get(reverse("consent")).content.decode()


@pytest.mark.parametrize("typed", ["0", "7.5", "seven", "101", "7 cars"])
def test_years_are_whole_and_within_reach(typed):
    assert list(errors(tell(part="keep", record_years=typed))) == ["record_years"]


def test_years_and_days_can_be_taken_out_again():
    assert tell(part="keep", record_years="7 years", comeback_days="90").stands
    assert Shop.objects.values_list("record_years", "comeback_days").get() == (7, 90)
    assert tell(part="keep").stands
    assert Shop.objects.values_list("record_years", "comeback_days").get() == (None, None)


def test_the_page_asks_the_database_as_often_after_many_changes(
    owner, django_assert_max_num_queries
):
    for years in range(1, 8):
        tell(part="keep", record_years=str(years))
    with django_assert_max_num_queries(8):
        owner.get(reverse("settings"))
    with django_assert_max_num_queries(8):
        owner.get(reverse("settings"), {"part": "keep"})
