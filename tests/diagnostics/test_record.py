"""A record's data, built from a job's rows as they stand."""

import json
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from diagnostics.record.build import Heading, differences, record_data
from jobs.entries import CONSENT, CUSTOMER, FAILING_NOW, SYSTEM, VEHICLE
from jobs.logbook import enter
from jobs.models import Consent, Job, Person
from jobs.models.people import DESK, OWNER
from jobs.models.wordings import in_shop_time
from jobs.paper.frozen import RecordData, exact_text
from tests.factories import (
    INTAKE_FIELDS,
    make_job,
    make_person,
    make_shop,
    make_told,
    said_of,
)

pytestmark = pytest.mark.django_db


def data_of(job: Job, before: RecordData | None = None, **heading: Any) -> RecordData:
    job.refresh_from_db()
    told = {"issue": 1, "author": make_person(OWNER), "moment": timezone.now(), **heading}
    return record_data(job, Heading(**told), before)


def tell(job: Job, kind: Any, **fields: Any) -> None:
    desk = Person.objects.filter(name="M. Desk").first() or make_person(DESK, name="M. Desk")
    outcome = enter(kind, make_told(fields, desk, job_key=job.key))
    assert outcome.stands, outcome.form and outcome.form.errors


def lines(data: RecordData, part: str, label: str) -> list[str]:
    facts: Any = data[part]  # type: ignore[literal-required]
    return next(fact["lines"] for fact in facts if fact["label"] == label)


def test_the_title_block_says_who_which_car_when_and_how_it_stands():
    data = data_of(make_job())
    assert lines(data, "facts", "Customer, and payer") == ["Ida Marwell", "Pays: Customer"]
    assert lines(data, "facts", "Car") == [
        "Brenloh Ilex 1.6, 2017",
        "plate KX.4731D",
        "VIN ZZ9HB1PA2ST000789",
    ]
    assert lines(data, "facts", "Received")[1] == "84\u00a0200\u00a0mi"


def test_what_is_not_known_is_said_to_be_so():
    empty: dict[str, Any] = dict.fromkeys(INTAKE_FIELDS)
    least = {"customer_name": "Ida", "plate": "KX.4731D", "complaint": "Warm."}
    data = data_of(make_job(**{**empty, **least}))
    assert lines(data, "facts", "Car") == ["plate KX.4731D", "VIN: not read"]
    assert lines(data, "system", "Label charge") == ["not noted"]
    assert lines(data, "system", "Compressor drive") == ["not noted"]
    assert data["consents"] == []
    assert any("VIN" in point["text"] for point in data["open_points"])


def test_the_complaint_is_kept_word_for_word():
    words = "Blows warm.\n\n  Since  Monday \u202e29\u202c 😀"
    assert data_of(make_job(complaint=words))["said"]["complaint"] == words


def test_tapped_answers_stand_in_words():
    answers = data_of(make_job())["said"]["answers"]
    since = {"label": "Since when", "lines": ["Weeks"], "values": {"since": "weeks"}}
    warm = {"label": "When it blows warm", "lines": ["Always"], "values": {"warm_when": ["always"]}}
    assert since in answers
    assert warm in answers


def test_the_label_charge_stands_in_both_units_with_its_source():
    charge = lines(data_of(make_job()), "system", "Label charge")
    assert charge == ["520\u00a0g\u00a0(18.3\u00a0oz)", "under-hood label"]


def test_the_cars_own_coil_figure_and_gap_limits_stand_with_where_they_were_read():
    job = make_job()
    data = data_of(job)
    assert not {"Clutch coil", "Air gap of the clutch"} & {one["label"] for one in data["system"]}
    told = {"coil": "3.6", "coil_source": "workshop_data"}
    gap = {"gap_low": "0.35", "gap_high": "0.6", "gap_source": "label"}
    tell(job, SYSTEM, **told, **gap)
    data = data_of(Job.objects.get())
    assert lines(data, "system", "Clutch coil") == [
        "3.6\u00a0Ω at 20\u00a0°C",
        "workshop data",
    ]
    assert lines(data, "system", "Air gap of the clutch") == [
        "at least 0.35\u00a0mm, at most 0.6\u00a0mm",
        "under-hood label",
    ]


def test_a_consent_stands_with_its_exact_text_its_hash_and_who_asked():
    job = make_job(make_person(DESK, name="M. Oyelaran"))
    row = Consent.objects.get(job=job)
    (consent,) = data_of(job)["consents"]
    assert (consent["text"], consent["sha256"]) == (row.text, row.text_sha256)
    assert (consent["amount"], consent["smallest_units"]) == ("150.00\u00a0EUR", 15000)
    assert (consent["given_by"], consent["how"]) == ("Ida Marwell", "in person")
    assert consent["asked_by"] == "M. Oyelaran"


def test_everybody_who_entered_something_is_named_with_it():
    job = make_job(make_person(DESK, name="M. Oyelaran"))
    tell(job, FAILING_NOW, failing="yes")
    data = data_of(job, author=make_person(OWNER, name="E. Quist"))
    assert [(one["name"], one["did"]) for one in data["people"]] == [
        ("M. Oyelaran", "intake"),
        ("M. Desk", "failing now"),
        ("E. Quist", "issue 1"),
    ]


def test_a_changed_fact_is_told_with_what_stood_before():
    job = make_job()
    tell(job, VEHICLE, odometer="84300", odometer_unit="mi")
    (change,) = data_of(job)["corrections"]
    assert change["what"] == "Car: Odometer changed; before: 84\u00a0200\u00a0mi."
    assert change["by"] == "M. Desk"


def test_an_odd_value_that_was_kept_is_told_with_its_reason():
    job = make_job(label_charge="90", label_charge_why="read twice")
    (kept,) = data_of(job)["corrections"]
    assert kept["what"].endswith("Kept as typed: read twice")


def test_what_is_odd_about_who_typed_an_intake_or_a_consent_stands_with_the_corrections():
    job = make_job()
    fields = {"consent_amount": "300", "consent_how": "phone", "consent_text": "find_fault_1"}
    desk = make_person(DESK, name="M. Desk")
    told = make_told(fields, desk, job_key=job.key, marks=[{"code": "other_tablet"}])
    assert enter(CONSENT, told).stands
    job.entry.marks = [{"code": "clock_ahead"}]
    job.entry.save()
    assert [one["what"] for one in data_of(job)["corrections"]] == [
        "Intake: The tablet’s clock was ahead; the time shown is that of arrival.",
        "Consent: M. Desk typed this on another tablet than the one that sent it.",
    ]


@pytest.mark.parametrize(("minutes", "late"), [(9, False), (11, True)])
def test_an_intake_and_its_consent_name_both_times_where_they_arrived_late(
    minutes: int, late: bool
):
    job = make_job()
    job.entry.arrived_at = job.entry.happened_at + timedelta(minutes=minutes)
    job.entry.save()
    data = data_of(job)
    (consent,) = data["consents"]
    words = f"arrived {in_shop_time(job.entry.arrived_at)}"
    assert (words in lines(data, "facts", "Received")) is late
    assert consent["arrived"] == (words if late else "")
    assert datetime.fromisoformat(consent["arrived_at"]) == job.entry.arrived_at


def test_another_customer_of_the_shop_is_never_named():
    make_job(customer_name="Someone Else", phone="555 010 0111")
    job = make_job(phone="555 010 0111")
    assert "Someone Else" in " ".join(said_of(job.entry))
    assert "Someone Else" not in exact_text(data_of(job))


def test_the_car_states_start_with_the_car_as_arrived():
    (state,) = data_of(make_job())["states"]
    assert (state["number"], state["what"]) == (0, "Car as arrived")


def test_without_a_step_every_kind_of_test_stands_as_not_tested():
    data = data_of(make_job())
    assert data["steps"] == []
    told = {"what": "Power straight at the coil", "why": "not made in this job"}
    assert told | {"kind": "coil_power"} in data["not_tested"]


def test_a_test_that_the_car_forbids_says_why_it_was_not_made():
    data = data_of(make_job(drive="electric_hv"))
    why = next(one["why"] for one in data["not_tested"] if "coil" in one["what"])
    assert why.startswith("High voltage: never a 12 V test.")


@pytest.mark.parametrize(
    ("drive", "words"),
    [("belt_clutch", "belt"), ("electric_hv", "orange cables"), (None, "orange cables")],
)
def test_cautions_fit_how_the_compressor_is_driven(drive: str | None, words: str):
    told = " ".join(data_of(make_job(drive=drive))["cautions"])
    assert words in told
    assert "windshield" in told


def test_the_first_issue_says_so():
    assert data_of(make_job())["record"]["changed"] == "Issue 1: nothing came before it."


def test_a_later_issue_says_what_changed_in_words_and_by_parts():
    job = make_job()
    before = data_of(job)
    tell(job, CONSENT, consent_amount="300", consent_how="phone", consent_text="find_fault_1")
    after = data_of(job, before, issue=2, changed="More to pay.")
    assert (
        after["record"]["changed"] == "More to pay. Other than in the issue before: the consents."
    )


def test_without_a_difference_none_is_claimed():
    data = data_of(make_job())
    assert differences(data, json.loads(exact_text(data))) == []


def test_times_are_the_shop_s_with_their_zone():
    data = data_of(make_job())
    assert data["record"]["zone"] == "Europe/Vienna"
    assert data["record"]["at"].endswith(("+01:00", "+02:00"))


def test_the_paper_is_the_shop_s():
    make_shop(paper="us-letter")
    assert data_of(make_job())["record"]["paper"] == "us-letter"


def test_building_takes_the_same_number_of_queries_whatever_is_open(
    django_assert_max_num_queries: Any,
):
    job = make_job()
    author = make_person(OWNER)
    with django_assert_max_num_queries(52):
        record_data(job, Heading(1, author, timezone.now()), None)


@pytest.mark.parametrize(("clutch", "shown"), [("none", "No"), (None, "not noted")])
def test_of_belt_and_electric_the_record_says_whether_there_is_a_magnetic_clutch(clutch, shown):
    data = data_of(make_job(drive="belt_electric", clutch=clutch))
    assert lines(data, "system", "Magnetic clutch") == [shown]


def test_the_paper_names_nobody_who_is_not_the_customer_any_more():
    later = dict.fromkeys(("consent_amount", "consent_how", "consent_text"))
    job = make_job(customer_name="Oswin Tarrant", phone="555 010 0177", **later)
    was = {"was_customer_name": "Oswin Tarrant", "was_phone": "555 010 0177"}
    tell(job, CUSTOMER, **was, customer_name="Ida Marwell", phone="555 010 0199")
    tell(job, CUSTOMER, **was, customer_name="Bela Quorn")
    data = data_of(job)
    frozen = exact_text(data)
    assert "Ida Marwell" in frozen
    for gone in ("Tarrant", "Quorn", "0177"):
        assert gone not in frozen
    changed = [one["what"] for one in data["corrections"] if "changed" in one["what"]]
    assert changed == ["Customer: Name changed.", "Customer: Phone changed."]
    (doubt,) = [one["text"] for one in data["open_points"] if one["code"] == "conflict"]
    assert doubt == "Name: told in two ways. Which is right?"
