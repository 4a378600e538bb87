"""After a change on the car: what no test has looked at since, and which to make again."""

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.entries import STEP
from diagnostics.points import step_points
from diagnostics.since_changed import not_tested_since, to_make_again
from jobs.entries import CHANGE, FAILING_NOW
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.people import DESK
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db
START = timezone.now() - timedelta(hours=6)
CLUTCH = {"what": "fitted", "part": "clutch", "serial": "0417"}
COIL_BAD: dict[str, Any] = {
    "test_kind": "coil_power", "engine": "off", "ground": "good", "volts": "12.3",
    "amps": "3.4", "magnet": "yes", "holds": "no", "pushed": "yes",
}  # fmt: skip
COIL_FINE = {**COIL_BAD, "holds": "yes", "lets_go": "yes"}
del COIL_FINE["pushed"]


def at(minutes: int, job: Job, kind: Any, fields: dict[str, Any], **more: Any) -> None:
    """An entry that happened so many minutes after the start."""
    told = {"test_version": "1", **fields} if kind is STEP else fields
    moment = START + timedelta(minutes=minutes)
    outcome = enter(kind, make_told(told, job_key=job.key, happened_at=moment, **more))
    assert outcome.stands, outcome.form and outcome.form.errors


def said(job: Job) -> list[tuple[int, list[str]]]:
    return [(s.number, told) for s, told in not_tested_since(job.car_states.all(), steps_of(job))]


def again(job: Job) -> list[str]:
    return [kind.name for kind in to_make_again(job.car_states.all(), steps_of(job))]


def test_a_car_as_it_came_in_has_nothing_to_be_tested_again():
    job = make_job()
    at(0, job, STEP, COIL_BAD)
    assert (said(job), again(job)) == ([], [])


def test_after_a_change_what_it_touches_is_open_until_a_test_of_it_is_made():
    job = make_job()
    at(0, job, STEP, COIL_BAD)
    at(10, job, CHANGE, CLUTCH)
    assert (said(job), again(job)) == ([(1, ["clutch"])], ["coil_power"])
    at(20, job, STEP, COIL_FINE)
    assert (said(job), again(job)) == ([], [])


def test_a_test_that_was_made_before_the_change_and_arrives_after_it_is_none_since():
    job = make_job()
    at(10, job, CHANGE, CLUTCH)
    at(5, job, STEP, COIL_BAD)
    assert said(job) == [(1, ["clutch"])]


@pytest.mark.parametrize("fields", [{"not_done": "no_tool"}, {"seen": "a click"}])
def test_what_could_not_be_done_or_told_nothing_is_no_test_since(fields):
    job = make_job()
    at(10, job, CHANGE, CLUTCH)
    at(20, job, STEP, {"test_kind": "coil_power", **fields})
    assert said(job) == [(1, ["clutch"])]


def test_a_change_entered_by_mistake_asks_for_nothing():
    job, told = make_job(), make_told(CLUTCH, happened_at=START)
    at(10, job, CHANGE, CLUTCH, key=told.key)
    at(15, job, CHANGE, {"what": "nothing"}, corrects=told.key)
    assert said(job) == []


def test_the_test_that_found_something_is_the_first_to_be_made_again():
    job = make_job()
    at(0, job, STEP, {"test_kind": "clutch_face", "face": "even"})
    at(1, job, STEP, {"test_kind": "pulley_bearing", "by_hand": "smooth", "belt": "off"})
    at(2, job, STEP, COIL_BAD)
    at(10, job, CHANGE, CLUTCH)
    assert again(job)[0] == "coil_power"


def test_the_open_point_names_the_change_and_what_was_not_tested():
    job = make_job()
    at(10, job, CHANGE, CLUTCH)
    (point,) = step_points(steps_of(job), job.car_states.all())
    sentence = "No test since car state 1 (Clutch, complete: fitted or swapped): clutch."
    assert (point.code, point.sentence, point.page) == ("not_tested_since", sentence, "steps")


def test_the_job_offers_the_same_test_again_and_says_why(client):
    job = make_job()
    at(0, job, STEP, COIL_BAD)
    at(10, job, CHANGE, {**CLUTCH, "where": "front bolts renewed"})
    client.force_login(make_person())
    page = client.get(f"/job/?job={job.key}").content.decode()
    assert "The car was changed since this was tested." in page
    assert "Test again: Power straight at the coil" in page
    assert "front bolts renewed" in page


def test_the_front_desk_is_offered_no_repair(client):
    job = make_job()
    at(10, job, CHANGE, {"what": "fitted", "part": "clutch"})  # its serial number waits
    client.force_login(make_person(DESK))
    page = client.get(f"/job/?job={job.key}").content.decode()
    assert "serial number not noted yet" in page
    assert "/repair/" not in page
    assert "A record is issued by" in client.get(f"/record/?job={job.key}").content.decode()


def test_tests_and_changes_stand_together_the_last_to_happen_first(client):
    job = make_job()
    at(0, job, STEP, COIL_BAD)
    at(10, job, CHANGE, {**CLUTCH, "where": "front bolts renewed"})
    at(20, job, STEP, COIL_FINE)
    client.force_login(make_person())
    page = client.get(f"/steps/?job={job.key}").content.decode()
    places = [page.index(words) for words in ("step-2", "Changed: Clutch", "step-1")]
    assert places == sorted(places)
    assert "front bolts renewed" in page
    assert "&amp;corrects=" in page


def failing(minutes: int, job: Job, answer: str) -> None:
    at(minutes, job, FAILING_NOW, {"failing": answer})


def test_of_a_car_that_was_changed_nobody_has_told_whether_it_fails():
    job = make_job()
    failing(0, job, "yes")
    at(5, job, STEP, COIL_BAD)
    at(10, job, CHANGE, CLUTCH)
    at(20, job, STEP, COIL_FINE)
    failing(30, job, "no")
    at(40, job, STEP, COIL_FINE)
    assert [one.step.failing_then for one in steps_of(job)] == ["yes", "", "no"]


def test_the_switch_of_the_job_is_open_again_after_a_change_whichever_arrives_first():
    for order in (1, -1):
        job = make_job(plate=f"KX.000{order + 1}A")
        told = [(0, FAILING_NOW, {"failing": "yes"}), (10, CHANGE, CLUTCH)][::order]
        for minutes, kind, fields in told:
            at(minutes, job, kind, fields)
        job.refresh_from_db()
        assert job.failing_now == ""
        failing(20, job, "no")
        job.refresh_from_db()
        assert job.failing_now == "no"


def test_a_change_entered_by_mistake_leaves_the_switch_as_it_was():
    job, told = make_job(), make_told(CLUTCH, happened_at=START)
    failing(0, job, "yes")
    at(10, job, CHANGE, CLUTCH, key=told.key)
    at(15, job, CHANGE, {"what": "nothing"}, corrects=told.key)
    job.refresh_from_db()
    assert job.failing_now == "yes"


def test_another_test_of_the_question_does_not_stand_for_the_one_that_had_found_something():
    job = make_job()
    at(0, job, STEP, COIL_BAD)
    at(10, job, CHANGE, CLUTCH)
    at(20, job, STEP, {"test_kind": "pulley_bearing", "by_hand": "smooth", "belt": "off"})
    assert said(job) == []
    assert again(job) == ["coil_power"]


def test_where_no_test_of_the_question_was_made_before_its_first_is_offered():
    job = make_job()
    at(10, job, CHANGE, {"what": "fuse"})
    assert again(job)[0] == "fuse"
