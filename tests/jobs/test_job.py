"""The job's page, its failing-now switch, and the pages that settle what intake left open."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.entries import CHANGE, CONSENT, CUSTOMER, FAILING_NOW, SYSTEM, VEHICLE
from jobs.logbook import RETURNED, enter
from jobs.models import Entry, Job
from tests.factories import LEAST, make_job, make_person, make_told, tell

pytestmark = pytest.mark.django_db

PARTS = ("customer", "vehicle", "system", "consent")


@pytest.fixture
def signed_in(client):
    client.force_login(make_person())
    return client


def page_of(client, job):
    response = client.get(reverse("job"), {"job": str(job.key)})
    assert response.status_code == 200
    return response.content.decode()


# The page.


def test_nobody_sees_a_job_without_a_sign_in(client):
    assert client.get(reverse("job"), {"job": str(make_job().key)}).status_code == 302


def test_the_car_is_the_heading(signed_in):
    job = make_job()
    shown = page_of(signed_in, job)
    for words in ("KX.4731D", "Brenloh Ilex 1.6, 2017", "Ida Marwell", job.number):
        assert words in shown


def test_it_names_who_records_here_and_another_person_comes_back_to_the_job(client):
    job = make_job()
    client.force_login(make_person(name="Anneke Pohl"))
    shown = page_of(client, job)
    assert "<bdi data-recorder-name>Anneke Pohl</bdi>" in shown
    assert f"/sign_in/?next=/job/%3Fjob%3D{job.key}" in shown


def test_loop_and_car_state_are_always_told(signed_in):
    shown = page_of(signed_in, make_job())
    assert "not looked at yet" in shown
    assert '<strong>Car:</strong> <span data-fill="state">As it came in</span>' in shown


def test_the_loop_is_told_by_what_was_last_done_to_it_and_must_not_be_run(signed_in):
    job = make_job()
    tell(CHANGE, job, what="opened")
    shown = page_of(signed_in, job)
    assert "not looked at yet" not in shown
    assert "closing not noted. <strong>Must not be run: the loop is open" in shown
    assert "Tight: not told by this." in shown


def test_the_page_without_a_job_tells_nothing_of_a_loop(signed_in):
    shown = signed_in.get(reverse("job")).content.decode()
    assert '<span data-fill="loop"></span>' in shown


def test_what_is_looked_up_most_stands_in_a_list(signed_in):
    shown = page_of(signed_in, make_job(branches=["front", "rear"]))
    for words in (
        "555 010 0199",
        "ZZ9HB1PA2ST000789",
        "84\u00a0200\u00a0mi",
        "Belt with magnetic clutch",
        "<dt>Displacement</dt><dd><bdi>Fixed</bdi>",
        "<dt>System voltage</dt><dd><bdi>12\u00a0V</bdi>",
        "<dt>Branches</dt><dd><bdi>Front, Rear</bdi>",
        "<bdi>R-134a</bdi>",
        "Label charge (under-hood label)",
        "520\u00a0g\u00a0(18.3\u00a0oz)",
    ):
        assert words in shown


def test_a_fact_that_nobody_noted_has_no_empty_line(signed_in):
    shown = page_of(signed_in, make_job(**LEAST))
    assert "Customer and car" not in shown


def test_open_points_stand_under_the_page_that_settles_them(signed_in):
    job = make_job(**LEAST)
    shown = page_of(signed_in, job)
    assert "5 points open." in shown
    for page in PARTS:
        assert shown.count(f'<a class="whole name" href="/{page}/?job={job.key}"') == 1


def test_a_complete_intake_says_that_no_point_is_open(signed_in):
    assert "No point open." in page_of(signed_in, make_job())


def test_what_was_odd_at_intake_is_told(signed_in):
    job = make_job(label_charge="6500", label_charge_why="coach")
    assert "more than a car holds" in page_of(signed_in, job)


def test_a_value_that_was_changed_later_is_told_with_the_one_before(signed_in):
    job = make_job()
    tell(VEHICLE, job, plate="KX.4781D")
    shown = page_of(signed_in, job)
    assert "KX.4781D" in shown
    assert "Plate changed; before: KX.4731D." in shown


def test_the_complaint_is_text_whatever_is_in_it(signed_in):
    shown = page_of(signed_in, make_job(complaint="<script>alert(1)</script>"))
    assert "<script>alert" not in shown
    assert "&lt;script&gt;alert(1)" in shown


def test_what_was_answered_and_agreed_at_the_counter_is_told(signed_in):
    shown = page_of(signed_in, make_job(topped_up="yes", topped_up_with="a can, in May"))
    for words in ("Since when", "Weeks", "a can, in May", "Who pays"):
        assert words in shown
    assert "150.00\u00a0EUR" in shown
    assert "in person" in shown


def test_a_job_that_is_not_here_is_said_so(signed_in):
    response = signed_in.get(reverse("job"), {"job": str(uuid.uuid4())})
    assert response.status_code == 404
    assert "no such job" in response.content.decode()


def test_a_key_that_cannot_be_read_is_said_so(signed_in):
    response = signed_in.get(reverse("job"), {"job": "17"})
    assert response.status_code == 404


@pytest.mark.parametrize("page", ["job", *PARTS])
def test_the_neutral_page_knows_no_job_and_no_person(signed_in, page):
    make_job()
    response = signed_in.get(reverse(page))
    assert response.status_code == 200
    shown = response.content.decode()
    for words in ("KX.4731D", "Marwell", "555 010", "ZZ9HB1PA2ST000789"):
        assert words not in shown


def test_the_page_asks_the_database_the_same_however_much_was_told(
    signed_in, django_assert_max_num_queries
):
    job = make_job()
    for amount in range(1, 9):
        tell(CONSENT, job, consent_amount=str(amount), consent_how="phone")
        tell(FAILING_NOW, job, failing="yes")
        tell(CHANGE, job, what="opened")
    with django_assert_max_num_queries(29):
        page_of(signed_in, job)


# Failing now.


def test_the_switch_is_turned_and_shown(signed_in):
    job = make_job()
    address = f"{reverse('job_failing')}?job={job.key}"
    response = signed_in.post(address, {"failing": "yes", "key": str(uuid.uuid4())})
    assert response["Location"] == f"/job/?job={job.key}"
    assert Job.objects.get().failing_now == "yes"
    assert 'value="yes" checked' in page_of(signed_in, job)


def test_the_switch_is_a_post_only(signed_in):
    job = make_job()
    assert signed_in.get(f"{reverse('job_failing')}?job={job.key}").status_code == 405


def test_an_answer_that_is_none_comes_back(signed_in):
    job = make_job()
    address = f"{reverse('job_failing')}?job={job.key}"
    response = signed_in.post(address, {"failing": "perhaps", "key": str(uuid.uuid4())})
    assert response.status_code == 422
    assert "not in the list" in response.content.decode()
    assert Job.objects.get().failing_now == ""


def test_what_was_told_later_counts_whenever_it_arrives():
    job = make_job()
    now = timezone.now()
    earlier, later = now - timedelta(minutes=20), now - timedelta(minutes=10)
    enter(FAILING_NOW, make_told({"failing": "no"}, job_key=job.key, typed_at=later))
    enter(FAILING_NOW, make_told({"failing": "yes"}, job_key=job.key, typed_at=earlier))
    assert Job.objects.get().failing_now == "no"
    assert Entry.objects.filter(kind="failing_now").count() == 2


@pytest.mark.parametrize("kind", [FAILING_NOW, CUSTOMER, VEHICLE, SYSTEM, CONSENT])
def test_nothing_is_told_of_a_job_that_is_not_here(kind):
    make_job()
    fields = {"failing": "yes", "consent_amount": "1"}
    outcome = enter(kind, make_told(fields, job_key=uuid.uuid4()))
    assert outcome.state == RETURNED
    assert outcome.form
    assert "no such job" in str(outcome.form.errors)


def test_photos_hand_over_wait_place_and_tag_are_tapped_right_after_the_open_points(client):
    job = make_job()
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    names = ("photo", "handover", "waiting", "place", "tag")
    links = [f'href="{reverse(name)}?job={job.key}"' for name in names]
    assert [shown.count(link) for link in links] == [1] * len(links)
    places = [shown.index(one) for one in ("data-points>", *links, "Not yet</h2>")]
    assert places == sorted(places)
