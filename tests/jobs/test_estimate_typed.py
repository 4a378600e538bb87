"""What is typed into an estimate and cannot be meant goes back to its field; nothing is lost."""

import pytest
from django.urls import reverse

from jobs.entries import ESTIMATE, REDACT
from jobs.logbook import enter
from jobs.models import Entry, Job
from jobs.models.people import OWNER
from tests.factories import make_job, make_person, make_shop, make_told, tell
from tests.jobs.test_estimate import GAS, LABOR, LONG, PART, desk, page_of, typed, write

__all__ = ["desk"]
pytestmark = pytest.mark.django_db


def errors(job: Job, *lines: dict[str, str], **fields: str) -> dict[str, str]:
    outcome = tell(ESTIMATE, job, **typed(*lines, **fields))
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


@pytest.mark.parametrize(
    ("line", "field", "sentence"),
    [
        (PART | {"price": "12.345"}, "price_1", "EUR has two decimals"),
        (PART | {"price": "-5"}, "price_1", "zero or more"),
        (PART | {"price": "9" * 30}, "price_1", "more money than a shop can mean"),
        (PART | {"price": "much"}, "price_1", "is no number"),
        (PART | {"quantity": "99999", "price": "99999999999"}, "price_1", "more money"),
        (PART | {"quantity": "-1"}, "quantity_1", "above zero"),
        (PART | {"quantity": "0"}, "quantity_1", "above zero"),
        (PART | {"quantity": "1.0001"}, "quantity_1", "three decimals"),
        (PART | {"quantity": "200000"}, "quantity_1", "more of it"),
        (PART | {"quantity": "3 kg"}, "quantity_1", "not in the same sort of unit"),
        (LABOR | {"quantity": "1000"}, "quantity_1", "100 hours"),
        (LABOR | {"per": "kg"}, "per_1", "not in the same sort of unit"),
        (GAS | {"quantity": "650"}, "quantity_1", "Type g, kg"),
        (GAS | {"per": "L"}, "per_1", "not in the same sort of unit"),
        (PART | {"sort": ""}, "sort_1", "what sort"),
        (PART | {"sort": "bribe"}, "sort_1", "not in the list"),
        (PART | {"words": ""}, "words_1", "Say what it is"),
        (PART | {"words": "x" * 301}, "words_1", "300 fit"),
        (PART | {"sort": "discount"}, "taxed_1", "taken off"),
        (
            {"sort": "sundry", "words": "S", "quantity": "5 %", "price": "3"},
            "price_1", "no price of its own",
        ),
        ({"sort": "sundry", "words": "S", "quantity": "500 %"}, "quantity_1", "0 to 100"),
    ],
)  # fmt: skip
def test_what_cannot_be_meant_goes_back_to_its_field(line, field, sentence):
    told = errors(make_job(), line)
    assert sentence in told[field]
    assert list(told) == [field]


def test_nothing_at_all_is_no_estimate():
    assert "at least one line" in errors(make_job())["__all__"]
    assert "at least one line" in errors(make_job(), PART | {"out": "on"})["__all__"]


def test_a_line_ticked_to_be_taken_out_is_no_line_even_where_it_is_wrong():
    row = write(make_job(), PART | {"out": "on", "price": "1.234"}, LABOR)
    assert [line["words"] for line in row.lines] == ["Air gap set"]


def test_all_together_can_be_more_money_than_a_shop_can_mean():
    one = {"sort": "other", "words": "Castle", "price": "90000000000000"}
    assert "more money" in errors(make_job(), one, one)["__all__"]


def test_what_comes_back_is_shown_as_it_was_typed_in_any_script(desk):
    job = make_job()
    fields = typed(PART | {"price": "12.345", "words": LONG.strip()}, LABOR, note="שלום")
    response = desk.post(f"{reverse('estimate')}?job={job.key}", fields)
    shown = response.content.decode()
    assert response.status_code == 422
    for text in ("12.345", LONG.strip(), "2.25", "שלום", "Nothing is recorded yet"):
        assert text in shown
    assert not Entry.objects.filter(kind="estimate").exists()


def test_long_words_in_any_script_stand_on_the_sheet(desk):
    job = make_job()
    row = write(job, PART | {"words": LONG.strip()})
    assert LONG.strip() in page_of(desk, job, version=row.key)


def test_without_a_currency_nothing_is_priced_and_the_page_says_why():
    job = make_job()
    shop = make_shop()
    shop.currency = ""
    shop.save()
    assert "currency is not set" in errors(job, PART)["__all__"]


@pytest.mark.parametrize("name", ["on", "decision"])
def test_a_key_that_is_none_is_said_and_stores_nothing(name):
    assert name in errors(make_job(), PART, **{name: "x"})


def test_more_lines_than_fit_on_a_paper_go_back_with_a_sentence():
    assert "80 lines fit" in errors(make_job(), *[PART] * 81)["__all__"]
    assert len(write(make_job(plate="MB.2207K"), *[PART] * 80).lines) == 80


def test_who_asks_to_be_forgotten_stands_in_no_line_and_no_note_afterwards():
    job = make_job()
    row = write(job, PART | {"words": "Clutch for Ida Marwell"}, note="Ida Marwell pays cash.")
    told = {"customer": str(job.customer.key), "reason": "Asked.", "checked": "Papers."}
    outcome = enter(REDACT, make_told(told, make_person(OWNER)))
    assert outcome.stands, outcome.form and outcome.form.errors
    row.refresh_from_db()
    assert "Marwell" not in f"{row.lines} {row.note}"
    assert row.total == 28_600
