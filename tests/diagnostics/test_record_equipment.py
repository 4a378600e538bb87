"""What a record prints of qualifications and instruments: as of the day, with machine values."""

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from jobs.models import Equipment, Job, Record
from jobs.paper.shelf import file_of
from tests.diagnostics.step_forms import step_of, tell
from tests.diagnostics.test_record_frozen import frozen
from tests.factories import make_job, make_person, make_thing, qualify
from tests.jobs.frozen_schema import faults
from tests.jobs.records import printed

pytestmark = pytest.mark.django_db


def measured_job() -> Job:
    """A job with a step of R. Sand's, who holds a paper, and the instruments it was read with."""
    job, sand = make_job(), make_person(name="R. Sand")
    qualify(sand, number="HL 4471", issuer="Hollow Lane Trade School", valid_to="2090-03-03")
    meter = make_thing(
        "multimeter",
        maker="Fenwold",
        model="M 31",
        serial="M31-0093",
        standard="IEC 61010-1",
        accuracy_voltage="0.5 % + 20 mV",
        checked_on="2025-08-02",
        until="2025-12-01",
    )
    step_of(tell(job, sand, with_voltage=meter.key.hex, with_current=meter.key.hex))
    step_of(tell(job, sand))
    return job


@pytest.fixture
def data() -> Any:
    return frozen(measured_job())


def test_the_data_hold_to_the_schema_with_every_part_of_it_filled(data: Any):
    assert faults(data) == []
    assert data["steps"][0]["read_with"]
    assert data["equipment"]["instruments"][0]["accuracy"]


def test_a_qualification_has_kind_number_issuer_and_last_day(data: Any):
    sand = next(one for one in data["people"] if one["name"] == "R. Sand")
    assert sand["qualification"].replace("\u00a0", " ") == (
        "Refrigerant handling: no. HL 4471, Hollow Lane Trade School, valid to 3 Mar 2090"
    )
    (card,) = sand["qualifications"]
    told = {"kind": "refrigerant", "number": "HL 4471", "valid_to": "2090-03-03"}
    assert card.items() >= told.items()


def test_who_has_none_that_held_is_said_to_have_none(data: Any):
    others = [one["qualification"] for one in data["people"] if one["name"] != "R. Sand"]
    assert set(others) == {"none entered that held in this job’s time"}


def test_one_that_ran_out_before_the_job_began_is_not_printed_for_it():
    job, sand = make_job(), make_person(name="R. Sand")
    ended = timezone.localdate() - timedelta(days=30)
    qualify(sand, valid_to=ended.isoformat())
    step_of(tell(job, sand))
    told = next(one for one in frozen(job)["people"] if one["name"] == "R. Sand")
    assert told["qualifications"] == []


def test_a_step_names_its_instrument_with_accuracy_and_check_of_that_day(data: Any):
    first, second = data["steps"]
    told = [(one["quantity"], one["text"].replace("\u00a0", " ")) for one in first["read_with"]]
    check = "was to be checked by 1 Dec 2025"
    assert told == [
        ("voltage", f"Multimeter 1 (±0.5 % + 20 mV; {check})"),
        ("current", f"Multimeter 1 (accuracy not noted; {check})"),
    ]
    assert second["read_with"] == []


def test_each_instrument_stands_once_with_its_plate_and_the_steps_that_name_it(data: Any):
    (one,) = data["equipment"]["instruments"]
    thing = Equipment.objects.get()
    assert (one["key"], one["steps"]) == (str(thing.key), [1])
    assert one["plate"] == "Multimeter, Fenwold M 31, serial M31-0093"
    assert (one["checked_on"], one["until"]) == ("2025-08-02", "2025-12-01")
    stated = next(told for told in one["accuracy"] if told["quantity"] == "voltage")
    assert (stated["share"], stated["fixed"], stated["si_unit"]) == (0.005, 0.02, "V")


def test_steps_that_name_none_are_listed_and_what_findings_rest_on_is_said(data: Any):
    assert data["equipment"]["not_named"] == [2]
    text = data["equipment"]["text"]
    assert "usual accuracy of such instruments" in text
    assert "the instrument not named: step 2." in text


def test_the_paper_prints_them():
    job = measured_job()
    frozen(job)
    text = printed(file_of(Record.objects.get(job=job)))
    for words in ("HL4471", "validto", "Multimeter1", "M31-0093", "IEC61010-1", "Voltagereadwith:"):
        assert words in text


def test_an_overdue_check_is_an_open_point_of_the_paper(data: Any):
    assert "check_overdue" in [one["code"] for one in data["open_points"]]


def test_what_the_instrument_is_later_leaves_the_issue_as_it_was():
    job = measured_job()
    frozen(job)
    Equipment.objects.update(name="Another", maker="Another")
    kept = Record.objects.get(job=job).data
    assert "Fenwold" in kept
    assert "Another" not in kept
