"""The way of a job through its stages: on, back with a reason, open again; who, when, why."""

import re
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from diagnostics.entries import CLOSE
from jobs.entries import CHANGE
from jobs.logbook import REFUSED, RETURNED, Outcome, enter
from jobs.models import StageMove
from jobs.models.people import DESK, OWNER, ROLES, TECHNICIAN
from tests.diagnostics.jobs_told import CLUTCH, HOLDS, Told, stood
from tests.factories import make_person, make_told

pytestmark = pytest.mark.django_db


def page(client: Client, told: Told, role: str = TECHNICIAN) -> str:
    client.force_login(make_person(role))
    return client.get(reverse("stage"), {"job": str(told.job.key)}).content.decode()


def problems(outcome: Outcome) -> set[str]:
    return set(outcome.form.errors) if outcome.form else set()


def moves(told: Told) -> list[tuple[str, str]]:
    return [(one.to_words, one.why_words) for one in StageMove.objects.filter(job=told.job)]


def test_the_first_test_moves_the_job_and_the_way_says_so():
    told = Told()
    told.test(HOLDS)
    assert told.again.stage == "testing"
    assert moves(told) == [("Testing", "with a test")]


def test_a_change_moves_it_and_one_taken_back_moves_it_back():
    told = Told()
    told.test(HOLDS)
    first = told.change(**CLUTCH)
    told.tell(CHANGE, what="nothing", corrected_why="Another car.")
    assert moves(told)[1] == ("Repairing", "with a change on the car")
    assert first.stands


def test_the_page_offers_the_next_stage_with_all_its_points(client: Client):
    told = Told(vin=None)
    told.test(HOLDS)
    shown = page(client, told)
    assert "Before deciding: 1 point" in shown
    assert "Not noted yet: VIN" in shown
    chosen = shown.split('value="deciding"')[1].split(">")[0]
    assert "checked" in chosen


def test_who_is_not_signed_in_is_sent_to_sign_in(client: Client):
    response = client.get(reverse("stage"), {"job": str(Told().job.key)})
    assert response["Location"].startswith("/sign_in/")


@pytest.mark.parametrize("role", ROLES)
def test_everybody_may_move_it_on(role: str):
    told = Told()
    told.test(HOLDS)
    stood(told.stage("deciding", make_person(role)))
    assert told.again.stage == "deciding"


def test_nothing_is_decided_on_no_test_unless_an_owner_waives_that():
    told = Told()
    outcome = told.stage("deciding")
    assert outcome.state == REFUSED
    assert "No test is recorded that stands." in outcome.why
    assert told.again.stage == "intake"


def test_nothing_is_verified_where_nothing_was_repaired():
    told = Told()
    told.test(HOLDS)
    assert told.stage("verifying").state == REFUSED
    told.change(**CLUTCH)
    stood(told.stage("verifying"))


def test_what_only_warns_does_not_hold():
    told = Told(vin=None, phone=None)
    told.test(HOLDS)
    stood(told.stage("deciding"))


def test_back_asks_why(client: Client):
    told = Told()
    told.test(HOLDS)
    stood(told.stage("deciding"))
    outcome = told.stage("testing")
    assert outcome.state == RETURNED
    assert "why" in problems(outcome)
    stood(told.stage("testing", why="part_wrong", words="Coil has another plug."))
    assert moves(told)[-1] == (
        "Testing",
        "A part does not fit or does not work: Coil has another plug.",
    )
    assert "Testing</strong>, back from deciding" in page(client, told)


def test_something_else_says_what():
    told = Told()
    told.test(HOLDS)
    stood(told.stage("deciding"))
    outcome = told.stage("testing", why="other")
    assert "words" in problems(outcome)
    stood(told.stage("testing", why="other", words="The lift was needed."))


def test_a_decision_on_a_stage_that_is_not_the_jobs_any_more_is_refused_with_words():
    told = Told()
    told.test(HOLDS)
    stood(told.stage("deciding", make_person(name="E. Quist")))
    outcome = told.stage("deciding", came_from="testing")
    assert outcome.state == REFUSED
    assert "“testing”" in outcome.why
    assert "E. Quist" in outcome.why


def test_a_closing_told_before_the_job_was_opened_again_is_refused():
    told = Told()
    told.test(HOLDS)
    stood(told.close("tested_only"))
    stood(told.stage("testing", why="fails_again"))
    fields = {"came_from": "testing", "closing_kind": "tested_only"}
    before = StageMove.objects.latest("id").moved_at - timedelta(minutes=5)
    late = make_told(fields, job_key=told.job.key, happened_at=before, typed_at=before)
    outcome = enter(CLOSE, late)
    assert outcome.state == REFUSED
    assert told.again.stage == "testing"


@pytest.mark.parametrize(
    "fields", [{"to": "closed"}, {"to": "testing"}, {"came_from": ""}, {"to": ""}]
)
def test_a_form_that_says_no_stage_comes_back(fields: dict[str, Any]):
    told = Told()
    told.test(HOLDS)
    said: dict[str, Any] = {"to": "deciding", **fields}
    to = said.pop("to")
    assert told.stage(to, **said).state == RETURNED


@pytest.mark.parametrize("role", [TECHNICIAN, OWNER])
def test_a_closed_job_is_opened_again_with_a_reason(role: str, client: Client):
    told = Told()
    told.test(HOLDS)
    stood(told.close("tested_only"))
    assert "Open the job again" in page(client, told, role)
    assert told.stage("testing", make_person(role)).state == RETURNED
    stood(told.stage("testing", make_person(role), why="fails_again"))
    job = told.again
    assert (job.stage, job.closing_kind) == ("testing", "")
    assert moves(told)[-1] == ("Opened again: testing", "It fails again")


def test_the_desk_does_not_open_a_closed_job(client: Client):
    told = Told()
    told.test(HOLDS)
    stood(told.close("tested_only"))
    assert "Open the job again" not in page(client, told, DESK)
    outcome = told.stage("testing", make_person(DESK), why="fails_again")
    assert outcome.state == REFUSED
    assert told.again.stage == "closed"


def test_the_job_shows_its_stage_and_the_way_on_and_out(client: Client):
    told = Told()
    told.test(HOLDS)
    client.force_login(make_person())
    shown = client.get(reverse("job"), {"job": str(told.job.key)}).content.decode()
    assert "Go on to deciding" in shown
    assert f"{reverse('close')}?job={told.job.key}" in shown


def test_a_form_that_comes_back_keeps_what_was_typed(client: Client):
    told = Told()
    told.test(HOLDS)
    client.force_login(make_person())
    said = {"came_from": "testing", "to": "intake", "words": "Wrong car on the lift."}
    response = client.post(f"{reverse('stage')}?job={told.job.key}", said)
    assert response.status_code == 422
    assert "Wrong car on the lift." in response.content.decode()


def test_a_closed_job_says_first_how_it_ended_and_offers_the_record_and_no_next_step(
    client: Client,
):
    told = Told()
    told.test(HOLDS)
    stood(told.close("tested_only"))
    client.force_login(make_person())
    shown = client.get(reverse("job"), {"job": str(told.job.key)}).content.decode()
    main = shown[shown.index("<main") :]
    assert main.index("Closed: tested only") < main.index("<strong>Loop:</strong>")
    assert re.findall(r'class="bar" [^>]*>([^<]*)', main) == ["Record for the customer"]
    assert "Next step" not in main
    assert "Failing now?" not in main
