"""Frozen data have the machine value beside every shown text, in the shape that is written down."""

import copy
import json
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from diagnostics.closing import to_waive
from diagnostics.entries import CLOSE, DECISION, ISSUE, OVERRIDE, STEP, WAIVE
from diagnostics.job_now import job_now
from diagnostics.waived import identity
from jobs.entries import (
    CHANGE,
    CHARGE,
    CONSENT,
    CUSTOMER,
    ESTIMATE,
    EVACUATION,
    FAILING_NOW,
    INVOICE,
    LOOP_PARTS,
    OLD_PART,
    RECOVERY,
    TAKEN_OUT,
    VEHICLE,
)
from jobs.logbook import enter
from jobs.models import CarState, Entry, Job, Record, System
from jobs.models.people import DESK, OWNER
from tests.diagnostics.test_record_steps import COIL, NOT_DONE, make_step, picture
from tests.factories import LEAST, make_job, make_person, make_told, tell
from tests.jobs.frozen_schema import faults
from tests.jobs.records import record_data

pytestmark = pytest.mark.django_db


def frozen(job: Job) -> Any:
    """The data of the job's next issue, read back from what was frozen."""
    fields = {
        "issue": str(job.records.count() + 1),
        "entries": str(Entry.objects.filter(job_key=job.key).count()),
        "changed": "More was tested." if job.records.exists() else "",
    }
    outcome = enter(ISSUE, make_told(fields, make_person(OWNER), job_key=job.key))
    assert outcome.stands, outcome.why
    return json.loads(Record.objects.filter(job=job).latest("issue").data)


def much_happened() -> Job:
    """A job with something in every part of its record."""
    job = make_job(label_charge="90", label_charge_why="read twice")
    System.objects.update(coil_milliohm=3600, gap_low_um=350, gap_high_um=600)
    System.objects.update(sources={"label_charge": "label", "coil_milliohm": "workshop_data"})
    tell(FAILING_NOW, job, failing="yes")
    early = timezone.now() - timedelta(hours=3)
    first = make_step(job, volts="11.2")
    make_step(job, corrects=first.key, corrected_why="Clamp on the wrong lead.")
    make_step(job, volts="17", volts_why="read twice", temperature="118 F", magnet="perhaps")
    late = {name: value for name, value in COIL.items() if name != "amps"}
    marks = [{"code": "other_tablet"}]
    told = make_told({**late, "amps": "3050 mA"}, job_key=job.key, typed_at=early, marks=marks)
    assert enter(STEP, told).stands
    given_up = make_told({**NOT_DONE, "volts": "12.4"}, job_key=job.key)
    assert enter(STEP, given_up).stands
    tell(VEHICLE, job, odometer="84300", odometer_unit="mi", vin="XZ9BR1L67HT0041")
    tell(CUSTOMER, job, customer_name="Ida Marwell-Quorn")
    tell(CONSENT, job, consent_amount="300", consent_how="phone", consent_text="find_fault_1")
    tell(CHANGE, job, what="fitted", part="clutch", source="new")
    choice = {"plan": "compressor", "decided_by": "payer", "reasons": ["once"], "why": "By letter."}
    assert tell(DECISION, job, **choice).stands
    tell(LOOP_PARTS, job, condenser="clean")
    change = str(job.changes.get(part="clutch").key)
    tell(TAKEN_OUT, job, change=change, went="core", core="45,50")
    tell(OLD_PART, job, choice="seller", how="phone")
    lines = {"sort_1": "part", "words_1": "Clutch set", "price_1": "286"}
    assert tell(ESTIMATE, job, **lines).stands
    assert enter(INVOICE, make_told(lines, make_person(DESK), job_key=job.key)).stands
    out = {"grams_out": "60", "machine": "newer", "temperature": "24", "oil_out": "3"}
    assert tell(RECOVERY, job, **out, cylinder="unnamed").stands
    assert tell(EVACUATION, job, gauge="system", depth="430", pumped="25").stands
    put_in = {"grams_in": "90", "hose": "into_car", "fill": "full", "leak": "none"}
    assert tell(CHARGE, job, **put_in, cylinder="unnamed").stands
    picture(first.entry, job, why="This is no picture.")
    owner = make_person(OWNER)
    override = {"order": "hub_first", "reason": "Compressor is on the bench."}
    assert enter(OVERRIDE, make_told(override, owner, job_key=job.key)).stands
    point = next(one for one in to_waive(job_now(fresh(job))) if one.code == "serial")
    waived = {"code": point.code, "about": identity(point)[1], "reason": "Label is gone."}
    assert enter(WAIVE, make_told(waived, owner, job_key=job.key)).stands
    ending = {"closing_kind": "repaired_not_verifiable", "came_from": "repairing"}
    ending |= {"air": "48 F", "come_back": "above 20 °C", "odometer_out": "84310 mi"}
    closed = enter(CLOSE, make_told(ending, owner, job_key=job.key))
    assert closed.stands, closed.why
    return job


def fresh(job: Job) -> Job:
    return Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)


@pytest.fixture
def data() -> Any:
    return frozen(much_happened())


def test_frozen_data_hold_to_the_schema(data: Any):
    assert faults(data) == []
    empty = [name for name, value in data.items() if value in ([], {}, "")]
    assert empty == []  # each part was filled, so each was held to it


def test_of_a_job_about_which_nothing_is_known_they_do_too():
    assert faults(frozen(make_job(**LEAST))) == []


def test_a_second_issue_holds_to_it_too():
    job = much_happened()
    frozen(job)
    assert faults(frozen(job)) == []


def test_the_record_that_other_tests_use_holds_to_it():
    assert faults(json.loads(json.dumps(record_data()))) == []


@pytest.mark.parametrize(
    ("spoil", "fault"),
    [
        (lambda data: data.pop("schema"), "record.schema lacks"),
        (lambda data: data.update(schema=1), "record.schema: 1 cannot be"),
        (lambda data: data["steps"][0].pop("outcome"), "record.steps[0].outcome lacks"),
        (lambda data: data["steps"][0].update(mood="fine"), "record.steps[0].mood is not known"),
        (lambda data: data["steps"][0].update(at="25 Aug 2026"), "record.steps[0].at: "),
        (lambda data: data["steps"][0].update(at="2026-08-25T14:29:00"), "record.steps[0].at: "),
        (lambda data: data["steps"][0]["readings"][0].update(si="12.38"), "'12.38' is no"),
        (lambda data: data["steps"][0]["readings"][0].update(unit="Volt"), "'Volt' cannot be"),
        (
            lambda data: data["steps"][0]["bearings"][0].update(standing="sure"),
            "'sure' is no typing.Literal",
        ),
        (lambda data: data["consents"][0].update(smallest_units=160.5), "160.5 is no"),
        (lambda data: data["consents"][0].update(currency="euro"), "'euro' cannot be"),
        (lambda data: data["facts"][0]["values"].update(odometer=1.5), "odometer"),
    ],
)
def test_the_schema_finds_what_is_wrong(spoil: Any, fault: str):
    data: Any = copy.deepcopy(record_data())
    spoil(data)
    found = faults(data)
    assert len(found) >= 1
    assert fault in " ".join(found)


def values(data: Any, part: str, label: str) -> Any:
    return next(one["values"] for one in data[part] if one["label"] == label)


def test_a_reading_has_its_field_si_value_unit_and_what_was_typed(data: Any):
    step = next(one for one in data["steps"] if one["arrived"])
    read = {one["field"]: one for one in step["readings"]}
    amps = {"typed": "3050 mA", "unit": "mA", "si": 3.05, "si_unit": "A", "code": None}
    assert read["amps"].items() >= amps.items()
    assert read["amps"]["text"] == "3.050\u00a0A\u00a0(3\u00a0050\u00a0mA)"
    engine = {"typed": "off", "code": "off", "si": None, "condition": True}
    assert read["engine"].items() >= engine.items()
    warm = next(one for one in data["steps"][2]["readings"] if one["field"] == "temperature")
    assert warm["si"] == pytest.approx(320.93, abs=0.01)  # 118 °F by the definition of the scales
    assert (warm["si_unit"], warm["unit"]) == ("K", "°F")


def test_an_outcome_has_its_code_and_a_superseded_step_names_what_took_its_place(data: Any):
    old, new = data["steps"][0], data["steps"][1]
    assert (old["outcome"], old["superseded_by"]) == (None, 2)
    assert new["outcome"] == {
        "code": "holds_when_pushed",
        "carries": True,
        "normal": False,
        "basis": "vehicle",
    }
    assert {one["standing"] for one in new["bearings"]} <= {"proved", "likely", "open", "ruled_out"}
    (limit,) = new["limits"]
    assert limit["unit"] == "A"
    assert f"{limit['low']:.1f}" in limit["text"]


def test_what_could_not_be_done_has_its_reason_s_code_and_what_was_read_before(data: Any):
    (one,) = data["not_done"]
    assert (one["kind"], one["code"]) == ("coil_power", "no_access")
    assert [(read["field"], read["si"]) for read in one["readings"]] == [("volts", 12.4)]


def test_marks_and_corrections_have_their_codes(data: Any):
    codes = [mark["code"] for step in data["steps"] for mark in step["marks"]]
    assert {"outside", "unknown_answer", "other_tablet"} <= set(codes)
    told = {(one["code"], one["field"]) for one in data["corrections"]}
    kept = {("charge_low", "label_charge"), ("changed", "odometer"), ("changed", "name")}
    assert told >= kept | {("replaces", "")}


def test_money_is_a_whole_number_of_the_smallest_unit_beside_its_text(data: Any):
    told = [(one["amount"], one["smallest_units"], one["currency"]) for one in data["consents"]]
    assert told == [("150.00\u00a0EUR", 15_000, "EUR"), ("300.00\u00a0EUR", 30_000, "EUR")]
    assert [one["how_code"] for one in data["consents"]] == ["in_person", "phone"]


def test_the_odometer_is_a_whole_number_with_its_unit_beside_its_text(data: Any):
    received = values(data, "facts", "Received")
    assert (received["odometer"], received["odometer_unit"]) == (84_300, "mi")
    lines = next(one["lines"] for one in data["facts"] if one["label"] == "Received")
    assert "84\u00a0300\u00a0mi" in lines


def test_the_label_charge_is_whole_milligrams_and_the_system_stands_in_codes(data: Any):
    charge = {"label_charge_mg": 90_000, "label_charge_source": "label"}
    assert values(data, "system", "Label charge") == charge
    assert values(data, "system", "Compressor drive") == {"drive": "belt_clutch"}
    assert values(data, "system", "Branches") == {"branches": ["front"]}


def test_the_cars_own_limits_that_tests_are_held_to_stand_in_whole_numbers_with_their_source(
    data: Any,
):
    coil = {"coil_milliohm": 3600, "coil_milliohm_source": "workshop_data"}
    assert values(data, "system", "Clutch coil") == coil
    gap = {"gap_low_um": 350, "gap_high_um": 600, "gap_source": None}
    assert values(data, "system", "Air gap of the clutch") == gap


@pytest.mark.parametrize(
    "wrong", [{"coil_milliohm": -1}, {"gap_low_um": "0.35"}, {"gap_source": "the label"}]
)
def test_a_limit_that_is_no_whole_number_or_no_code_is_found(data: Any, wrong: dict[str, Any]):
    data["system"][0]["values"].update(wrong)
    assert len(faults(data)) == 1


def test_every_count_in_the_headline_stands_as_a_number_too(data: Any):
    stands = data["stands"]
    told = (stands["stage"], stands["tests"], stands["not_done"], stands["changes"])
    assert told == ("closed", 3, 1, 1)
    assert stands["points"] == len([one for one in data["open_points"] if not one["waived"]])
    assert {one["code"] for one in data["open_points"]} >= {"serial", "outside", "vin"}


def test_the_loop_has_its_code_and_its_time_beside_its_words():
    job = make_job()
    tell(CHANGE, job, what="opened")
    loop = frozen(job)["stands"]["loop"]
    opened_at = CarState.objects.get(number=1).opened_at
    assert (loop["code"], datetime.fromisoformat(loop["seen_at"])) == ("opened", opened_at)
    assert loop["text"].startswith("opened ")
    assert loop["run"].startswith("Must not be run: ")
    assert "Tight: not told by this." in loop["not_told"]


def test_a_loop_that_nobody_looked_at_has_no_time():
    loop = frozen(make_job())["stands"]["loop"]
    assert (loop["code"], loop["seen_at"], loop["text"]) == (
        "not_looked_at", None, "not looked at yet.",
    )  # fmt: skip


def test_who_did_it_is_told_by_key_and_by_steps(data: Any):
    made = [number for one in data["people"] for number in one["steps"]]
    assert sorted(made) == [one["number"] for one in [*data["steps"], *data["not_done"]]]
    assert {one["author"] for one in data["people"]} >= {one["author"] for one in data["steps"]}
