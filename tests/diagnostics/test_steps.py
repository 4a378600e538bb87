"""The page of a job's steps, and what the job's own page shows of them."""

import re
import uuid
from datetime import timedelta

import pytest
from django.db.models import prefetch_related_objects
from django.template import Context, Template
from django.test import RequestFactory
from django.urls import reverse
from django.utils import timezone
from django.utils.dateformat import format as formatted

from diagnostics.evidence.kinds.coil_power import UPSTREAM
from diagnostics.evidence.kinds.static_pressure import STATIC_PRESSURE
from jobs.models import Photo
from jobs.models.people import DESK
from tests.diagnostics.few_kinds import know_only
from tests.diagnostics.step_forms import open_state, step_of, switch, tell
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client):
    client.force_login(make_person())
    return client


def page_of(client, job):
    response = client.get(reverse("steps"), {"job": str(job.key)})
    assert response.status_code == 200
    return response.content.decode()


def on_the_job(job, person=None):
    request = RequestFactory().get("/job/")
    request.user = person or make_person()
    shown = Template(
        "{% load steps %}{% steps_made job as made %}"
        "{% next_step job made %}{% all_tests job made %}{% last_steps job made %}"
    )
    return shown.render(Context({"job": job, "request": request}))


def test_nobody_sees_steps_without_a_sign_in(client):
    assert client.get(reverse("steps"), {"job": str(make_job().key)}).status_code == 302


def test_a_job_without_steps_says_what_will_stand_here(signed_in):
    assert "Nothing was tested or changed in this job yet." in page_of(signed_in, make_job())


def test_a_step_stands_with_finding_readings_and_what_it_did_not_test(signed_in):
    job = make_job()
    step_of(tell(job, make_person(name="R. Sand"), volts="12,38", seen="A <i>click</i>."))
    page = page_of(signed_in, job)
    for words in (
        "it holds when pushed.",
        "12.38\u00a0V",
        UPSTREAM,
        "R. Sand",
        "car state 0",
        "A &lt;i&gt;click&lt;/i&gt;.",
    ):
        assert words in page


def test_a_step_made_while_it_was_not_failing_says_that_it_says_little(signed_in):
    job = make_job()
    step = step_of(tell(job))
    switch(job, "no", step.made_at)  # arrived behind it
    assert "It was not failing at that time" in page_of(signed_in, job)


def test_a_step_names_the_car_state_it_was_made_in_though_that_arrived_behind_it(signed_in):
    job = make_job()
    step = step_of(tell(job))
    open_state(job, step.made_at)
    assert "car state 1" in page_of(signed_in, job)


def test_a_step_bears_who_typed_it_oddly_and_when_it_arrived(signed_in):
    job = make_job()
    odd = "R. Sand typed this on another tablet than the one that sent it."
    early = timezone.now() - timedelta(hours=1)
    told = {"marks": [{"code": "other_tablet"}], "typed_at": early}
    step_of(tell(job, make_person(name="R. Sand"), told=told))
    page = page_of(signed_in, job)
    assert odd in page
    assert f"arrived {formatted(timezone.localtime(), 'j M Y')}" in page


def test_a_step_that_arrived_at_once_names_one_time(signed_in):
    job = make_job()
    step_of(tell(job))
    assert "arrived" not in page_of(signed_in, job)


def test_a_superseded_step_stays_and_names_what_replaced_it(signed_in):
    job = make_job()
    first = step_of(tell(job))
    step_of(tell(job, holds="yes", pushed=None, told={"corrects": first.key}))
    page = page_of(signed_in, job)
    assert "Replaced by" in page
    assert page.count("Correct step") == 1


def test_a_correction_says_what_was_wrong_with_the_earlier_step(signed_in):
    job = make_job()
    first = step_of(tell(job))
    why = "Clamp on the <wrong> lead."
    second = step_of(tell(job, told={"corrects": first.key}, corrected_why=why))
    step_of(tell(job, told={"corrects": second.key}))
    page = page_of(signed_in, job)
    assert "Step 2 replaces step 1: Clamp on the &lt;wrong&gt; lead." in page
    assert "Step 3 replaces step 2: no reason given" in page


def test_a_mark_stands_with_its_reason_and_as_a_point_to_look_at(signed_in):
    job = make_job()
    step_of(tell(job, volts="17.2", volts_why="charger <on>"))
    page = page_of(signed_in, job)
    assert "Kept as typed: charger &lt;on&gt;</bdi>" in page
    assert "To look at again" in page


def test_a_kind_that_is_barred_is_listed_with_the_reason_and_no_link(signed_in):
    job = make_job(drive="electric_hv")
    page = page_of(signed_in, job)
    assert "never a 12 V test" in page
    assert "/step/coil_power/" not in page


def test_the_desk_reads_steps_and_gets_no_link_to_make_one(client):
    client.force_login(make_person(DESK))
    job = make_job()
    step_of(tell(job))
    page = page_of(client, job)
    assert "it holds when pushed." in page
    assert "/step/" not in page


def test_the_page_asks_the_database_as_often_with_many_steps(signed_in, django_assert_num_queries):
    job = make_job()
    step_of(tell(job))
    # session, person, job, states, overrides, steps, instruments, shop, changes, decisions, photos,
    # notes; of the repair: changes, parts of the loop, old parts
    with django_assert_num_queries(20):
        page_of(signed_in, job)
    for _ in range(10):
        step_of(tell(job))
    with django_assert_num_queries(20):
        page_of(signed_in, job)


def test_a_photo_stands_with_its_step_and_one_that_cannot_be_read_says_so(signed_in):
    job = make_job()
    first, second = step_of(tell(job)), step_of(tell(job))
    Photo.objects.create(
        entry=first.entry,
        job_key=job.key,
        number=1,
        field="photo",
        sent_sha256="a" * 64,
        sent_bytes=3,
        stored_sha256="b" * 64,
        width=40,
        height=30,
    )
    Photo.objects.create(
        entry=second.entry,
        job_key=job.key,
        number=1,
        field="photo",
        sent_sha256="c" * 64,
        sent_bytes=3,
        why="This is no picture.",
    )
    page = page_of(signed_in, job)
    assert 'alt="Photo 1 of step 1"' in page
    assert "This is no picture." in page


def add_photos(step, count):
    for number in range(1, count + 1):
        Photo.objects.create(
            entry=step.entry,
            job_key=step.job.key,
            number=number,
            field="photo",
            sent_sha256="a" * 64,
            sent_bytes=3,
        )


def test_how_many_photos_a_step_has_stands_in_its_row_on_both_pages(signed_in):
    job = make_job()
    step_of(tell(job))
    add_photos(step_of(tell(job)), 2)
    add_photos(step_of(tell(job)), 1)
    for page in (page_of(signed_in, job), on_the_job(job)):
        assert re.findall(r">(\d photos?)\b", page) == ["1 photo", "2 photos"]


# On the job's page.


@pytest.fixture
def one_kind(monkeypatch):
    """A program that knows one kind of test only, so that what it offers next is plain."""
    know_only(monkeypatch, "coil_power")


@pytest.mark.usefixtures("one_kind")
def test_the_job_offers_the_next_test_and_then_shows_what_it_found():
    job = make_job()
    assert f"/step/coil_power/?job={job.key}" in on_the_job(job)
    step_of(tell(job))
    shown = on_the_job(job)
    assert "Make it again: Power straight at the coil" in shown
    assert "it holds when pushed." in shown
    assert "All test steps (1)" in shown


@pytest.mark.usefixtures("one_kind")
def test_the_job_shows_the_numbers_that_were_worked_out_of_a_test_that_stands():
    job = make_job()
    first = step_of(tell(job))
    assert "Coil as warm as it is: 4.1\u00a0Ω" in on_the_job(job)
    step_of(tell(job, amps="2.00", told={"corrects": first.key}))
    assert "as it is: 4.1" not in on_the_job(job)


def test_the_job_repeats_no_reading_in_another_unit_as_worked_out():
    job = make_job()
    of_coil = dict.fromkeys(("engine", "ground", "volts", "amps", "magnet", "holds", "pushed"))
    at_rest = {"low": "470", "temperature": "20", "soaked": "yes"}
    kind = {"test_kind": "static_pressure", "test_version": str(STATIC_PRESSURE.version)}
    step_of(tell(job, None, **of_coil | at_rest | kind))
    shown = on_the_job(job)
    assert "Liquid would be at: 20.0\u00a0°C" in shown
    assert "Low side: " not in shown
    assert "Loop: " not in shown


@pytest.mark.usefixtures("one_kind")
def test_where_no_test_is_left_the_last_one_repeats_what_it_says_to_do_next():
    job = make_job()
    step_of(tell(job))
    shown = on_the_job(job)
    assert "Step 1 says: <strong>Measure the air gap next. Turn the hub by hand.</strong>" in shown
    assert "1 test made." in shown


@pytest.mark.usefixtures("one_kind")
def test_a_correction_counts_as_no_test_of_its_own_and_says_what_to_do_next():
    job = make_job()
    first = step_of(tell(job))
    step_of(tell(job, holds="yes", pushed=None, told={"corrects": first.key}))
    shown = on_the_job(job)
    assert "1 test made." in shown
    assert "Step 2 says: <strong>It takes hold: look upstream next." in shown


@pytest.mark.usefixtures("one_kind")
def test_a_test_that_could_not_be_done_is_planned_around_and_named():
    job = make_job()
    step_of(tell(job, not_done="no_access"))
    shown = on_the_job(job).split("data-all-tests")[0]
    assert "/step/coil_power/" not in shown
    assert "Could not be made, and would tell more: Power straight at the coil." in shown


def test_a_made_kind_is_listed_only_to_be_made_again(signed_in):
    job = make_job()
    assert "Make it again" not in page_of(signed_in, job)
    step_of(tell(job))
    assert ">Make it again: Power straight at the coil</a>" in page_of(signed_in, job)


@pytest.mark.usefixtures("one_kind")
def test_the_job_offers_no_test_that_its_drive_bars_nor_one_to_the_desk():
    assert "/step/" not in on_the_job(make_job(drive="electric_hv"))
    assert "/step/" not in on_the_job(make_job(), make_person(DESK))


def test_the_job_shows_the_last_three_steps_newest_first():
    job = make_job()
    for _ in range(5):
        step_of(tell(job))
    shown = on_the_job(job)
    places = [shown.find(f"{number} Power straight") for number in (5, 4, 3)]
    assert -1 < places[0] < places[1] < places[2]
    assert "2 Power straight" not in shown


def test_the_job_says_of_a_step_which_one_it_replaces_or_that_it_replaces_none():
    job = make_job()
    first = step_of(tell(job))
    step_of(tell(job, told={"corrects": first.key}))
    step_of(tell(job, told={"corrects": uuid.uuid4()}))
    shown = on_the_job(job)
    assert "Replaces step 1." in shown
    assert "Replaced by step 2." in shown
    assert "It was to replace a step that is not in this job" in shown


@pytest.mark.usefixtures("one_kind")
def test_the_page_kept_without_a_car_offers_the_first_test_without_a_job():
    shown = on_the_job(None)
    assert 'href="/step/coil_power/" data-to-job' in shown


def test_what_the_job_shows_of_its_steps_costs_a_fixed_number_of_queries(
    django_assert_num_queries,
):
    job = make_job()
    for _ in range(10):
        step_of(tell(job))
    person = make_person()
    prefetch_related_objects([job], "car_states")  # as the job's page has them
    # steps, the instruments that they name, overrides, shop, changes, decisions
    with django_assert_num_queries(6):
        on_the_job(job, person)


def test_the_points_of_steps_stand_among_the_jobs_own(signed_in):
    job = make_job()
    step_of(tell(job, volts="17.2", volts_why="charger on"))
    page = signed_in.get(reverse("job"), {"job": str(job.key)}).content.decode()
    assert "1 point open." in page
    assert "Step 1: Outside what a 12 V car shows. Kept as typed: charger on" in page


@pytest.mark.usefixtures("one_kind")
def test_a_car_that_allows_no_test_here_says_why_instead_of_offering_one():
    assert "High voltage: never a 12" in on_the_job(make_job(drive="electric_hv"))


def test_the_desk_reads_whose_work_the_tests_are():
    assert "technicians’ work" in on_the_job(make_job(), make_person(role=DESK))
