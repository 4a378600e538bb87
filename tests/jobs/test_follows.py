"""A car that was here before, told at intake or later; a comeback beside what it follows."""

import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone

from diagnostics.templatetags.follows import comeback
from diagnostics.templatetags.steps import steps_made
from jobs import search
from jobs.entries import CHANGE, FOLLOWS, INTAKE, VEHICLE
from jobs.known import known_car
from jobs.logbook import ACCEPTED, RETURNED, enter
from jobs.models import Customer, Entry, Job, Vehicle
from tests.diagnostics.step_forms import tell as tell_step
from tests.factories import (
    INTAKE_FIELDS,
    LEAST,
    make_job,
    make_person,
    make_shop,
    make_told,
    said_of,
    tell,
)
from tests.jobs.test_settings import UNITS
from tests.jobs.test_settings import tell as tell_settings

pytestmark = pytest.mark.django_db

VENT = {
    "test_kind": "vent_temperature",
    "branch": "front",
    "vent": "8",
    "vent_unit": "°C",
    "intake": "30",
    "intake_unit": "°C",
    "humidity": "50",
    "recirculation": "fresh",
    "blower": "high",
    "doors": "open",
    "rpm": "1500",
    "minutes": "10",
}
COIL_GONE = dict.fromkeys(
    ("engine", "ground", "volts", "volts_unit", "amps", "amps_unit", "magnet", "holds", "pushed")
)


@pytest.fixture
def first() -> Job:
    return make_job()


def vent(job: Job, **changed: Any) -> None:
    outcome = tell_step(job, **{**COIL_GONE, **VENT, **changed})
    assert outcome.stands, outcome.form and outcome.form.errors


def beside(job: Job) -> Any:
    job = Job.objects.select_related("vehicle__system").get(pk=job.pk)
    return comeback(job, steps_made(job))


def known(client: Any, **asked: str) -> str:
    client.force_login(make_person())
    return client.get(reverse("intake_known"), asked).content.decode()


# What the shop knows of a car.


@pytest.mark.parametrize(
    ("plate", "vin", "how"),
    [
        ("kx-4731d", "ZZ9HB1PA2ST000789", "same"),
        ("KX.4731D", "", "plate"),
        ("ZZ.0001A", "zz9hb1pa2st000789", "new_plate"),
        ("KX.4731D", "ZZ9AB2CD1RT000123", "other_vin"),
    ],
)
def test_a_car_is_known_by_vin_and_plate_and_how_alike_is_told(first, plate, vin, how):
    found = known_car(plate, vin)
    assert found
    assert (found.job, found.how) == (first, how)


@pytest.mark.parametrize(("plate", "vin"), [("ZZ.0001A", ""), ("KX", ""), ("", "789"), ("", "")])
def test_another_car_is_not_known_and_too_little_tells_nothing(first, plate, vin):
    assert known_car(plate, vin) is None


def test_at_intake_the_last_visit_is_told_with_a_tap_for_what_it_is(client, first):
    Job.objects.update(stage="closed")
    shown = known(client, plate="KX.4731D")
    assert f'job <span class="nowrap">{first.number}</span>' in shown
    assert "closed" in shown
    assert f'name="follows" value="{first.key}"' in shown
    assert 'value="comeback"' in shown


def test_at_intake_what_need_not_be_typed_again_is_told(client, first):
    shown = known(client, plate="kx 4731 d")
    assert "KX.4731D, Brenloh Ilex 1.6, 2017, VIN ZZ9HB1PA2ST000789, R-134a" in shown
    assert "520\xa0g" in shown


def test_at_intake_an_open_job_of_the_car_is_one_tap_away_and_a_closed_one_is_not(client, first):
    link = f'href="{reverse("job")}?job={first.key}"'
    assert link in known(client, plate="KX.4731D")
    Job.objects.update(stage="closed")
    assert link not in known(client, plate="KX.4731D")


def test_the_shop_is_asked_while_plate_and_vin_are_typed(client, first):
    client.force_login(make_person())
    shown = client.get(reverse("intake")).content.decode()
    for field in ("#id_plate", "#id_vin"):
        assert f"input changed delay:400ms from:{field}" in shown


def test_a_car_that_is_new_here_brings_no_question(client, first):
    assert "follows" not in known(client, plate="ZZ.0001A")


def test_an_intake_that_comes_back_to_its_form_still_tells_it(client, first):
    client.force_login(make_person())
    typed = {"plate": "KX.4731D", "follows": str(first.key), "before": "comeback"}
    response = client.post(reverse("intake"), typed | {"key": str(uuid.uuid4())})
    shown = response.content.decode()
    assert response.status_code == 422
    assert "A car with this plate was here" in shown
    assert 'value="comeback" id="id_before_0" checked' in shown or "checked" in shown


# What is told at intake.


def test_a_comeback_follows_the_earlier_job_and_uses_its_car_and_customer_again(first):
    job = make_job(follows=str(first.key), before="comeback")
    assert job.follows == first
    assert (job.vehicle, job.customer) == (first.vehicle, first.customer)
    assert Vehicle.objects.count() == Customer.objects.count() == 1


def test_another_matter_of_the_same_car_follows_nothing_and_doubles_nothing(first):
    job = make_job(follows=str(first.key), before="other_matter")
    assert (job.follows, job.vehicle) == (None, first.vehicle)


@pytest.mark.parametrize("said", [{}, {"before": "other_car"}])
def test_without_a_tap_nothing_is_put_together(first, said):
    job = make_job(follows=str(first.key), **said)
    assert job.follows is None
    assert job.vehicle != first.vehicle


def test_a_car_that_was_sold_gets_its_new_customer(first):
    job = make_job(
        follows=str(first.key), before="comeback", customer_name="Pell Quill", phone="555 020 0298"
    )
    assert job.vehicle == first.vehicle
    assert job.customer.name == "Pell Quill"
    assert first.customer != job.customer


def test_what_was_not_known_of_the_car_is_filled_and_what_differs_is_asked():
    first = make_job(make_model=None, drive=None)
    job = make_job(follows=str(first.key), before="other_matter", label_charge="480")
    assert job.vehicle.make_model == "Brenloh Ilex 1.6"
    assert job.vehicle.system.drive == "belt_clutch"
    assert job.vehicle.system.label_charge_mg == 520_000
    [asked] = [mark for mark in job.entry.marks if mark["code"] == "conflict"]
    assert (asked["field"], asked["told"]["label_charge_mg"]) == ("label_charge", 480_000)


def test_a_new_plate_on_the_same_vin_becomes_the_car_s_and_the_old_one_is_told(first):
    job = make_job(follows=str(first.key), before="comeback", plate="ZZ.0001A")
    assert job.vehicle == first.vehicle
    assert Vehicle.objects.get().plate == "ZZ.0001A"
    assert "Plate changed; before: KX.4731D." in said_of(job.entry)


def test_another_vin_on_the_same_plate_is_asked_about_and_does_not_stand(first):
    job = make_job(follows=str(first.key), before="comeback", vin="ZZ9AB2CD1RT000123")
    assert Vehicle.objects.get().vin == "ZZ9HB1PA2ST000789"
    assert any("Which is right?" in words for words in said_of(job.entry))


@pytest.mark.parametrize("follows", ["x", str(uuid.UUID(int=7))])
def test_an_earlier_job_that_is_not_here_is_no_error(first, follows):
    job = make_job(follows=follows, before="comeback")
    assert job.follows is None


# What is told later.


def test_the_job_s_page_asks_as_long_as_nobody_said(client, first):
    job = make_job()
    client.force_login(make_person())
    address = f"{reverse('job')}?job={job.key}"
    assert "Is the same trouble back?" in client.get(address).content.decode()
    assert tell(FOLLOWS, job, follows="none").state == ACCEPTED
    assert "Is the same trouble back?" not in client.get(address).content.decode()


def test_that_the_car_was_here_stands_once_and_its_open_job_is_one_tap_away(client, first):
    job = make_job()
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert shown.count("plate was here") + shown.count("This car was here") == 1
    assert f'href="{reverse("job")}?job={first.key}"' in shown


def test_a_car_that_is_new_here_is_not_asked_about(client, first):
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={first.key}").content.decode()
    assert "Is the same trouble back?" not in shown


def test_back_at_the_intake_that_was_sent_its_own_job_is_no_earlier_visit(client, first):
    client.force_login(make_person())
    asked = {"plate": first.vehicle.plate, "vin": ""}
    assert first.number in client.get("/intake/known/", asked).content.decode()
    again = client.get("/intake/known/", asked | {"key": str(first.key)}).content.decode()
    assert first.number not in again


def test_a_plate_read_later_may_turn_out_to_be_known(client, first):
    job = make_job(**LEAST | {"plate": "ZZ.0001A"})
    assert job.follows_told
    tell(VEHICLE, job, plate="KX.4731D")
    assert Job.objects.get(pk=job.pk).follows_told == ""


def test_one_tap_on_the_page_tells_it_without_script(client, first):
    job = make_job()
    client.force_login(make_person())
    address = f"{reverse('follows')}?job={job.key}"
    assert first.number in client.get(address).content.decode()
    response = client.post(address, {"follows": str(first.key), "key": str(uuid.uuid4())})
    assert response["Location"] == f"{reverse('job')}?job={job.key}"
    assert Job.objects.get(pk=job.pk).follows == first


def test_the_last_word_stands(first):
    job = make_job(follows=str(first.key), before="comeback")
    tell(FOLLOWS, job, follows="none")
    assert Job.objects.get(pk=job.pk).follows is None


@pytest.mark.parametrize("follows", ["", "x", str(uuid.UUID(int=7)), "self", "later"])
def test_nothing_follows_itself_a_later_job_or_what_is_not_here(first, follows):
    job, later = make_job(), make_job()
    told = {"self": str(job.key), "later": str(later.key)}.get(follows, follows)
    assert tell(FOLLOWS, job, follows=told).state == RETURNED


# Last time beside today.


def test_last_values_after_the_repair_stand_beside_today_s(first):
    tell_step(first, volts="11.90")
    tell(CHANGE, first, what="fitted", part="clutch", source="new", serial="7")
    tell_step(first, volts="12.38")
    job = make_job(follows=str(first.key), before="comeback")
    tell_step(job, volts="12.10")
    [one] = beside(job).beside
    assert one.when == "after the repair"
    volts = next(row for row in one.rows if "12.38" in row.then)
    assert "12.10" in volts.today


def test_a_value_from_before_the_repair_is_called_so(first):
    tell_step(first)
    tell(CHANGE, first, what="fitted", part="clutch", source="new", serial="7")
    job = make_job(follows=str(first.key), before="comeback")
    tell_step(job)
    assert beside(job).beside[0].when == "before the last change"


def test_vent_temperatures_stand_beside_each_other_under_like_conditions(first):
    vent(first)
    job = make_job(follows=str(first.key), before="comeback")
    vent(job, vent="19", intake="31")
    [one] = beside(job).beside
    assert one.compared
    assert any("8" in row.then and "19" in row.today for row in one.rows)


def test_how_far_apart_both_readings_are_stands_as_a_figure_before_how_they_came_out(first):
    vent(first, vent="9")
    job = make_job(follows=str(first.key), before="comeback")
    vent(job, vent="22")
    rows = beside(job).beside[0].rows
    assert (rows[0].then, rows[0].today) == ("9\xa0°C", "22\xa0°C: 13\xa0K warmer than then")
    assert rows[-1].words == "Came out as"


def test_a_shop_that_shows_degrees_fahrenheit_reads_them_beside_what_was_typed(first):
    make_shop()
    assert tell_settings(**UNITS | {"unit_temperature": "°F"}).stands
    vent(first, vent="9")
    job = make_job(follows=str(first.key), before="comeback")
    vent(job, vent="9")
    row = beside(job).beside[0].rows[0]
    assert (row.then, row.today) == ("9\xa0°C (48\xa0°F)", "9\xa0°C (48\xa0°F): the same")


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"intake": "18"}, "Air that goes in: 30\xa0°C then, 18\xa0°C today"),
        ({"blower": "low"}, "Blower: High then, Low today"),
        ({"doors": None}, "not told today"),
    ],
)
def test_vent_temperatures_under_other_conditions_are_not_compared_and_why_is_said(
    first, changed, why
):
    vent(first)
    job = make_job(follows=str(first.key), before="comeback")
    vent(job, **changed)
    [one] = beside(job).beside
    assert not one.compared
    assert one.rows == ()
    assert why in "; ".join(one.other)


def test_the_days_between_are_counted_from_the_last_work_then(first):
    Job.objects.update(opened_at=timezone.now() - timedelta(days=40))
    job = make_job(follows=str(first.key), before="comeback")
    first.car_states.update(opened_at=timezone.now() - timedelta(days=30))
    assert beside(job).days == 30


def test_no_grams_a_day_are_worked_out_without_both_figures(first):
    job = make_job(follows=str(first.key), before="comeback")
    assert "not compared" in beside(job).grams


def test_the_comparison_asks_the_database_the_same_however_many_tests_there_are(
    first, django_assert_max_num_queries
):
    job = make_job(follows=str(first.key), before="comeback")
    for one in (first, job):
        for _ in range(4):
            tell_step(one)
    job = Job.objects.select_related("vehicle__system").get(pk=job.pk)
    made = steps_made(job)
    with django_assert_max_num_queries(6):
        comeback(job, made)


def test_the_job_s_page_shows_both(client, first):
    tell_step(first)
    job = make_job(follows=str(first.key), before="comeback")
    tell_step(job, volts="11.80")
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert "Comeback of" in shown
    assert "11.80" in shown
    assert Entry.objects.filter(kind="follows").count() == 0


# A wrong car.


def test_a_car_of_another_plate_and_vin_is_a_car_of_its_own(first: Job) -> None:
    other = make_job(
        plate="GG.7001H", vin="ZZ9GG7001HT000777", follows=str(first.key), before="comeback"
    )
    assert other.vehicle_id != first.vehicle_id
    assert other.follows is None


def test_a_job_of_another_car_is_followed_by_none(first: Job) -> None:
    other = make_job(plate="GG.7001H", vin="ZZ9GG7001HT000777")
    assert tell(FOLLOWS, other, follows=str(first.key), before="comeback").stands
    other.refresh_from_db()
    assert other.follows is None


def test_a_car_that_was_taken_for_another_gets_rows_of_its_own(first: Job) -> None:
    again = make_job(follows=str(first.key), before="comeback")
    assert again.vehicle_id == first.vehicle_id
    fields = {**INTAKE_FIELDS, "plate": "GG.7001H", "vin": "", "customer_name": "Ben Different"}
    fields |= {"phone": "555 010 0777", "before": "other_car"}
    told = make_told(fields, job_key=again.key, corrects=again.key)
    assert enter(INTAKE, told).stands
    again, first = (Job.objects.get(pk=job.pk) for job in (again, first))
    assert (again.vehicle.plate, again.customer.name) == ("GG.7001H", "Ben Different")
    assert (first.vehicle.plate, first.customer.name) == ("KX.4731D", "Ida Marwell")
    assert again.follows is None
    assert [job.pk for job in search.find(["GG7001H"]).jobs] == [again.pk]
