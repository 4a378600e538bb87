"""What an intake makes of numbers, VINs and texts as people type them."""

import pytest

from jobs.models.points import open_points
from tests.factories import intake_errors, make_job, said_of

pytestmark = pytest.mark.django_db


# Numbers as typed.


@pytest.mark.parametrize(
    ("typed", "unit", "milligrams"),
    [
        ("0,52", "kg", 520_000),
        ("18.3 oz", "g", 518_796),
        ("1 250", "g", 1_250_000),
        ("520g", None, 520_000),
    ],
)
def test_a_label_charge_is_read_as_it_is_typed(typed, unit, milligrams):
    job = make_job(label_charge=typed, label_charge_unit=unit)
    assert job.vehicle.system.label_charge_mg == milligrams


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("half", "is no number"),
        ("1,250", "1.250 or 1250"),
        ("520 ft", "g, kg, oz or lb"),
        ("9" * 41, "41 characters"),
    ],
)
def test_a_label_charge_that_is_no_number_is_said_so_at_the_field(typed, said):
    assert said in intake_errors(label_charge=typed)["label_charge"]


def test_a_label_charge_without_a_unit_asks_for_it():
    assert "Tap the unit" in intake_errors(label_charge_unit=None)["label_charge"]


@pytest.mark.parametrize("typed", ["6500", "0.52", "0", "-520", "9" * 30])
def test_an_absurd_label_charge_asks_once(typed):
    errors = intake_errors(label_charge=typed)
    assert "keep it and say why" in errors["label_charge"]
    assert errors["label_charge_why"]


def test_an_odd_label_charge_kept_with_its_reason_is_stored_and_marked():
    job = make_job(label_charge="6500", label_charge_why="coach, three units")
    assert job.vehicle.system.label_charge_mg == 6_500_000
    (mark,) = said_of(job.entry)
    assert mark.startswith("Label charge: 6\u00a0500\u00a0g is more than a car holds")
    assert mark.endswith("Kept as typed: coach, three units")


def test_a_label_charge_that_cannot_be_is_kept_as_typed_and_feeds_no_sum():
    job = make_job(label_charge="-520", label_charge_why="so on the label")
    assert job.vehicle.system.label_charge_mg is None
    assert job.entry.fields["label_charge"] == ["-520"]
    assert "below zero" in said_of(job.entry)[0]


@pytest.mark.parametrize("typed", ["2099", "17", "1750", "2017.5"])
def test_a_model_year_that_cannot_be_asks_once(typed):
    assert "keep it and say why" in intake_errors(model_year=typed)["model_year"]


def test_a_model_year_too_large_for_its_column_is_kept_as_typed():
    job = make_job(model_year="201700", model_year_why="as told")
    assert job.vehicle.model_year is None
    assert "201700" in job.entry.fields["model_year"]


@pytest.mark.parametrize(
    ("typed", "unit", "kept"),
    [
        ("84 200", "mi", (84_200, "mi", "84\u00a0200\u00a0mi")),
        ("84,200.3 km", None, (84_200, "km", "84\u00a0200\u00a0km")),
        ("143,210", "mi", (143_210, "mi", "143\u00a0210\u00a0mi")),
        ("143.210 km", None, (143_210, "km", "143\u00a0210\u00a0km")),
        ("143 210", "km", (143_210, "km", "143\u00a0210\u00a0km")),
        ("143\u066b210", "km", (143_210, "km", "143\u00a0210\u00a0km")),
        ("1.143.210", "km", (1_143_210, "km", "1\u00a0143\u00a0210\u00a0km")),
        ("9,250", "", (9_250, "", "9\u00a0250")),
        ("143.2", "km", (143, "km", "143\u00a0km")),
        ("84200", None, (84_200, "", "84\u00a0200")),
        ("0", "km", (0, "km", "0\u00a0km")),
        ("", "km", (None, "", "")),
    ],
)
def test_an_odometer_is_kept_as_a_whole_number_with_the_unit_told(typed, unit, kept):
    job = make_job(odometer=typed, odometer_unit=unit)
    assert (job.odometer, job.odometer_unit, job.odometer_words) == kept
    open_here = [point.sentence for point in open_points(job, [])]
    assert any("odometer" in sentence for sentence in open_here) == (job.odometer is None)


@pytest.mark.parametrize("typed", ["1234.567", "84 200,123", "84.200,123", "0.125"])
def test_an_odometer_with_three_digits_behind_a_mark_that_parts_no_thousands_asks(typed):
    assert "cannot part thousands" in intake_errors(odometer=typed)["odometer"]


def test_a_model_year_with_a_mark_before_three_digits_is_no_odometer():
    assert "two ways" in intake_errors(model_year="2,017")["model_year"]


@pytest.mark.parametrize(
    ("typed", "column"), [("-5", None), ("9" * 12, int("9" * 12)), ("9" * 38, None)]
)
def test_an_odd_odometer_asks_and_stays_as_typed_also_where_no_column_holds_it(typed, column):
    assert "odometer" in intake_errors(odometer=typed)
    job = make_job(odometer=typed, odometer_why="as it shows")
    assert job.odometer == column
    assert job.entry.fields["odometer"] == [typed]


def test_consent_is_whole_units_of_the_shop_s_currency():
    consent = make_job(consent_amount="1.250,50").consents.get()
    assert (consent.amount, consent.currency) == (125_050, "EUR")


@pytest.mark.parametrize("typed", ["some", "-5", "1.2345", "10 USD", "9" * 30])
def test_a_consent_amount_that_is_none_is_said_so_at_the_field(typed):
    assert list(intake_errors(consent_amount=typed)) == ["consent_amount"]


# The VIN.


@pytest.mark.parametrize(
    ("vin", "mark", "open_point"),
    [
        ("1J9RP1A36A164434", "16 characters; a VIN has 17. Read it again.", True),
        ("1g4ah59h45g118341", "", False),
        (
            "WG4AH59H54G118341",
            "Its ninth character is no check digit; outside North America it need not be one.",
            False,
        ),
    ],
)
def test_a_vin_is_kept_as_read_with_what_is_odd_about_it(vin, mark, open_point):
    job = make_job(vin=vin)
    assert (job.vehicle.vin, job.vehicle.vin_mark) == (vin, mark)
    codes = [point.code for point in open_points(job, list(job.consents.all()))]
    assert ("vin" in codes) == open_point


# Text of every sort.


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script> & 'quotes' \"too\"",
        "Робит тепло 😀 يبرد قليلا 冷气不冷",
        "\u202egnp.exe right to left mark",
        "'; DROP TABLE jobs_job; --",
        "{{ settings.SECRET_KEY }} {% now 'Y' %} %s",
    ],
)
def test_any_text_is_kept_as_typed(text):
    job = make_job(complaint=text, customer_name=text)
    assert job.complaint == text
    assert job.entry.fields["customer_name"] == [text]


def test_control_characters_are_kept_in_the_logbook_and_not_in_names():
    job = make_job(customer_name="Ida\x07\n\tMar\x00well", complaint="a\x00b\r\nc")
    assert job.customer.name == "Ida Mar\ufffdwell"
    assert job.complaint == "a\ufffdb\nc"


def test_ten_thousand_characters_of_complaint_fit():
    assert len(make_job(complaint="w" * 10_000).complaint) == 10_000


@pytest.mark.parametrize(
    ("name", "length"),
    [("complaint", 10_001), ("customer_name", 10_000), ("plate", 41), ("vin", 41), ("phone", 61)],
)
def test_what_is_too_long_says_by_how_much_and_cuts_nothing(name, length):
    assert f"That is {length} characters;" in intake_errors(**{name: "w" * length})[name]


def test_an_answer_that_is_not_in_the_list_is_said_so():
    assert "not in the list" in intake_errors(drive="steam")["drive"]
    assert "not in the list" in intake_errors(branches=["front", "roof"])["branches"]
