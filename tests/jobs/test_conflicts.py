"""Two people with the same form open: nothing is reverted unseen, and both values are kept."""

import re
import uuid
from html import unescape

import pytest
from django.urls import reverse

from jobs.entries import CUSTOMER, SYSTEM, VEHICLE
from jobs.logbook import EntryKind, Outcome, enter
from jobs.models import Entry, Job
from tests.factories import LEAST, make_job, make_person, make_told, said_of, tell

pytestmark = pytest.mark.django_db
INPUT = re.compile(r"<(?:input|textarea)\b[^>]*>")
ATTRIBUTE = re.compile(r'([\w-]+)(?:="([^"]*)")?')


def opened(client, kind: EntryKind, job: Job) -> dict[str, list[str]]:
    """What the page would post if nobody touched it."""
    client.force_login(make_person())
    page = client.get(f"{reverse(kind.name)}?job={job.key}").content.decode()
    fields: dict[str, list[str]] = {}
    for found in INPUT.findall(page[page.index("data-entry") :]):
        told = dict(ATTRIBUTE.findall(found))
        name, tapped = told.get("name", ""), told.get("type") in ("radio", "checkbox")
        if name in ("", "key", "csrfmiddlewaretoken") or (tapped and "checked" not in told):
            continue
        fields.setdefault(name, []).append(unescape(told.get("value", "")))
    return fields


def record(kind: EntryKind, job: Job, fields: dict[str, list[str]], **typed) -> Outcome:
    author = typed.pop("author", None)
    corrects = typed.pop("corrects", None)
    told = {name: [text] if isinstance(text, str) else text for name, text in typed.items()}
    outcome = enter(kind, make_told(fields | told, author, job_key=job.key, corrects=corrects))
    assert outcome.stands
    return outcome


def now(job: Job) -> Job:
    return Job.objects.select_related("customer", "vehicle__system").get(pk=job.pk)


def marks(outcome: Outcome) -> list[str]:
    return said_of(Entry.objects.get(key=outcome.key))


CORRECTED = {"plate": "KX.4781D"}
READ = {"odometer": "84300", "odometer_unit": "mi"}


@pytest.mark.parametrize("order", [(CORRECTED, READ), (READ, CORRECTED)])
def test_two_forms_that_change_different_fields_both_stand_in_either_order(client, order):
    job = make_job()
    form = opened(client, VEHICLE, job)
    told = [record(VEHICLE, job, form, **typed) for typed in order]
    job = now(job)
    assert (job.vehicle.plate, job.odometer_words) == ("KX.4781D", "84\u00a0300\u00a0mi")
    assert not any("Which is right?" in mark for one in told for mark in marks(one))


@pytest.mark.parametrize("kind", [CUSTOMER, VEHICLE, SYSTEM])
def test_a_form_recorded_as_it_was_opened_writes_nothing_though_rows_changed_since(client, kind):
    job = make_job()
    form = opened(client, kind, job)
    customer, car, system = job.customer, job.vehicle, job.vehicle.system
    customer.name, car.plate, system.label_charge_mg = "Ida Quill", "KX.4781D", 540_000
    for row in (customer, car, system):
        row.save()
    assert marks(record(kind, job, form)) == []
    job = now(job)
    assert (job.customer.name, job.vehicle.plate) == ("Ida Quill", "KX.4781D")
    assert job.vehicle.system.label_charge_mg == 540_000


@pytest.mark.parametrize(("first", "second"), [("KX.4781D", "KX.4137D"), ("KX.4137D", "KX.4781D")])
def test_of_two_changes_of_one_field_the_first_stands_and_a_mark_asks_which_is_right(
    client, first, second
):
    job = make_job()
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, author=make_person(name="M. Oyelaran"), plate=first)
    late = record(VEHICLE, job, form, plate=second)
    assert now(job).vehicle.plate == first
    assert Entry.objects.get(key=late.key).fields["plate"] == [second]
    [mark] = marks(late)
    when = r" since \d+ \w+ \d{4}, \d\d:\d\d \(M\. Oyelaran\)"
    shown = (
        rf"Plate: “{re.escape(first)}” stands{when}; here “{second}” was told\. Which is right\?"
    )
    assert re.fullmatch(shown, mark)
    page = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert mark in page


def test_a_field_that_lost_does_not_take_the_others_of_its_form_with_it(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, **CORRECTED)
    record(VEHICLE, job, form, plate="KX.4137D", make_model="Brenloh Ilex 1.8")
    assert (now(job).vehicle.plate, now(job).vehicle.make_model) == ("KX.4781D", "Brenloh Ilex 1.8")


def test_the_third_to_differ_is_told_of_the_first_not_of_the_second(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, author=make_person(name="M. Oyelaran"), plate="KX.4781D")
    record(VEHICLE, job, form, author=make_person(name="E. Quist"), plate="KX.4137D")
    [mark] = marks(record(VEHICLE, job, form, plate="KX.1137D"))
    assert "“KX.4781D” stands since" in mark
    assert "(M. Oyelaran)" in mark


@pytest.mark.parametrize("again", ["84300", "84 300 mi"])
def test_the_same_change_told_twice_is_no_conflict(client, again):
    job = make_job()
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, **READ)
    assert marks(record(VEHICLE, job, form, odometer=again)) == []
    assert now(job).odometer == 84_300


def test_the_same_figure_in_another_unit_is_a_conflict(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, odometer="84300", odometer_unit="km")
    [mark] = marks(record(VEHICLE, job, form, **READ))
    assert mark.startswith("Odometer: “84\u00a0300\u00a0km” stands since")
    assert now(job).odometer_unit == "km"


def test_a_value_taken_out_while_somebody_changed_it_stands_and_is_asked_about(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, make_model="Brenloh Ilex 1.8")
    [mark] = marks(record(VEHICLE, job, form, make_model="–"))
    assert "“Brenloh Ilex 1.8” stands" in mark
    assert "here “not known” was told" in mark
    assert now(job).vehicle.make_model == "Brenloh Ilex 1.8"


def test_a_label_charge_goes_with_its_unit_and_where_it_was_read(client):
    job = make_job()
    form = opened(client, SYSTEM, job)
    first = {"label_charge": "540", "label_charge_source": "workshop_data"}
    record(SYSTEM, job, form, **first)
    late = {"label_charge": "1.1", "label_charge_unit": "lb", "label_charge_source": "guess"}
    [mark] = marks(record(SYSTEM, job, form, **late))
    system = now(job).vehicle.system
    assert system.label_charge_mg == 540_000
    assert system.sources["label_charge"] == "workshop_data"
    assert mark.startswith("Label charge: “540\u00a0g")
    assert "“Workshop data” stands" in mark


def test_a_charge_taken_out_on_the_page_takes_its_source_along(client):
    job = make_job()
    record(SYSTEM, job, opened(client, SYSTEM, job), label_charge="–")
    system = now(job).vehicle.system
    assert (system.label_charge_mg, system.sources) == (None, {})


def test_both_limits_of_the_gap_and_where_they_were_read_are_one_answer(client):
    job = make_job()
    tell(SYSTEM, job, gap_low="0.35", gap_high="0.65", gap_source="label")
    form = opened(client, SYSTEM, job)
    assert marks(record(SYSTEM, job, form)) == []
    record(SYSTEM, job, form, gap_high="0.70")
    [mark] = marks(record(SYSTEM, job, form, gap_low="0.30"))
    system = now(job).vehicle.system
    assert (system.gap_low_um, system.gap_high_um) == (350, 700)
    assert mark.startswith("Air gap, smallest allowed: “0.35\u00a0mm” stands")


def test_several_taps_are_one_value_and_answers_at_the_counter_each_their_own(client):
    job = make_job(branches=["front", "rear"], warm_when=["hot", "idle"])
    form = opened(client, SYSTEM, job)
    assert form["was_branches"] == ["front,rear"]
    assert marks(record(SYSTEM, job, form)) == []
    asked = opened(client, CUSTOMER, job)
    record(CUSTOMER, job, asked, since="days")
    changed, mark = marks(record(CUSTOMER, job, asked, since="longer", accident="yes"))
    assert changed == "Accident or repair at the front changed; before: No."
    assert mark.startswith("Since when: “Days” stands")
    answers = now(job).complaint_answers
    assert (answers["since"], answers["accident"]) == ("days", "yes")
    assert answers["warm_when"] == ["hot", "idle"]


def test_where_nothing_was_shown_what_is_typed_is_told(client):
    job = make_job(**LEAST)
    form = opened(client, VEHICLE, job)
    record(VEHICLE, job, form, make_model="Brenloh Ilex 1.6")
    [mark] = marks(record(VEHICLE, job, form, make_model="Brenloh Ilex 1.8"))
    assert mark == "Make and model changed; before: Brenloh Ilex 1.6."
    assert now(job).vehicle.make_model == "Brenloh Ilex 1.8"


def test_a_correction_of_ones_own_entry_is_no_conflict_with_it(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    first = record(VEHICLE, job, form, **CORRECTED)
    second = record(VEHICLE, job, form, plate="KX.4137D", corrects=first.key)
    assert now(job).vehicle.plate == "KX.4137D"
    assert marks(second) == ["Plate changed; before: KX.4781D."]


def test_a_correction_may_put_back_what_was_shown_first(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    first = record(VEHICLE, job, form, **CORRECTED)
    record(VEHICLE, job, form, corrects=first.key)
    assert now(job).vehicle.plate == "KX.4731D"


def test_a_correction_does_not_write_over_what_another_told_since(client):
    job = make_job()
    form = opened(client, VEHICLE, job)
    first = record(VEHICLE, job, form, **CORRECTED)
    record(VEHICLE, job, opened(client, VEHICLE, job), plate="KX.1137D")
    [mark] = marks(record(VEHICLE, job, form, plate="KX.4137D", corrects=first.key))
    assert "“KX.1137D” stands" in mark
    assert now(job).vehicle.plate == "KX.1137D"


def test_what_was_shown_comes_back_with_a_form_to_mend_and_is_not_listed_as_typed(client):
    job = make_job()
    form = opened(client, VEHICLE, job) | {"model_year": ["soon"], "key": [str(uuid.uuid4())]}
    job.vehicle.plate = "KX.4781D"
    job.vehicle.save()
    address = f"{reverse('vehicle')}?job={job.key}"
    page = client.post(address, form)
    assert page.status_code == 422
    assert 'name="was_plate" value="KX.4731D"' in page.content.decode()
    client.post(address, form | {"model_year": ["2018"]})
    other = client.post(address, form | {"model_year": ["2019"]})
    assert other.status_code == 409
    assert "Was plate" not in other.content.decode()
    assert now(job).vehicle.plate == "KX.4781D"
