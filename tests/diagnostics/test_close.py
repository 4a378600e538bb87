"""Closing a job: the page, the door, what each ending asks, and what arrives afterwards."""

import json
import uuid
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from diagnostics.closing import FALSE_BY, must_not_run_by_tests, must_not_run_now
from diagnostics.entries import CLOSE, ISSUE, STEP
from diagnostics.models import Step
from jobs.entries import CHANGE, CUSTOMER
from jobs.logbook import AGAIN, REFUSED, RETURNED, enter
from jobs.models import Entry, Record, Shop, StageMove
from jobs.models.closing import ENDINGS, QUESTIONS
from jobs.models.people import DESK, OWNER, ROLES, TECHNICIAN
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from tests.diagnostics.jobs_told import CLUTCH, HOLDS, LIQUID, Told, stood
from tests.diagnostics.test_gates import LOCKED, MIXED
from tests.factories import make_person, make_shop, make_told, tell

pytestmark = pytest.mark.django_db
# What each ending asks, answered.
ANSWERS: dict[str, dict[str, Any]] = {
    "repaired_verified": {},
    "repaired_not_verifiable": {"air": "48 F", "come_back": "above 20 °C"},
    "tested_only": {},
    "declined": {"declined_by": "insurer", "told_how": "phone", "reason": "Total loss."},
    "not_reproduced": {},
    "as_designed": {"air": "41,5", "carried_by": ["1"]},
    "made_safe": {"safe_by": ["unplugged"], "tag": "yes", "told_how": "in_person"},
    "released_unfinished": {
        "left_how": "towed",
        "refrigerant_at": "shop_cylinder",
        "refrigerant_words": "310 g, cylinder 4, the customer’s",
        "loop_capped": "not_opened",
        "told_how": "in_person",
    },
    "refused": {"refused_for": ["leak_stop"], "told_how": "message"},
    "passed_on": {"passed_to": "Somebody with a bench for it"},
}
FOR_ALL: dict[str, Any] = {"picked_up": "customer", "odometer_out": "84 231 mi"}


def job_for(code: str) -> Told:
    """A job that may be closed so."""
    told = Told()
    if code in ("repaired_verified", "repaired_not_verifiable"):
        told.change(**CLUTCH)
    if code == "repaired_verified":
        told.test(LIQUID)
        told.failing("no")
    if code != "passed_on":
        told.test(LIQUID if code == "as_designed" else HOLDS)
    if code == "made_safe":
        told.change(what="unplugged")
    return told


def errors(outcome: Any) -> dict[str, str]:
    assert outcome.state == RETURNED, (outcome.state, outcome.why)
    return {name: " ".join(map(str, said)) for name, said in outcome.form.errors.items()}


def fahrenheit() -> None:
    make_shop()
    Shop.objects.update(units={"temperature": "°F"})


def page(client: Client, told: Told, code: str = "", role: str = TECHNICIAN) -> str:
    client.force_login(make_person(role))
    asked = {"job": str(told.job.key), "closing_kind": code}
    return client.get(
        reverse("close"), {name: text for name, text in asked.items() if text}
    ).content.decode()


def test_the_tests_that_carry_an_ending_are_named(client: Client):
    assert "Step 1, Pressure at rest" in page(client, job_for("as_designed"), "as_designed")


@pytest.mark.parametrize("code", ENDINGS)
def test_each_ending_closes_with_its_answers_and_says_them(code: str, client: Client):
    told = job_for(code)
    assert "Close the job: " + ENDINGS[code].in_a_line in page(client, told, code)
    stood(told.close(code, **ANSWERS[code], **FOR_ALL))
    job = told.again
    assert (job.stage, job.closing_kind) == ("closed", code)
    move = StageMove.objects.get(job=job, to="closed")
    said = dict(move.told)
    assert said["Odometer out"] == "84\u00a0231\u00a0mi"
    assert set(said) == {QUESTIONS[name][0] for name in (*ANSWERS[code], *FOR_ALL)}
    shown = client.get(f"{reverse('job')}?job={job.key}").content.decode()
    assert ENDINGS[code].sentence in shown


@pytest.mark.parametrize("code", ENDINGS)
def test_each_ending_comes_back_without_what_it_asks(code: str):
    told = job_for(code)
    if not ENDINGS[code].asks:
        stood(told.close(code))
        return
    assert set(errors(told.close(code))) == set(ENDINGS[code].asks)


@pytest.mark.parametrize("role", ROLES)
def test_everybody_may_close(role: str, client: Client):
    told = job_for("tested_only")
    assert "Close the job: tested only" in page(client, told, "tested_only", role)
    stood(told.close("tested_only", make_person(role)))


def test_who_is_not_signed_in_is_sent_to_sign_in(client: Client):
    response = client.get(reverse("close"), {"job": str(job_for("refused").job.key)})
    assert response["Location"].startswith("/sign_in/")


def test_the_page_lists_all_ten_those_that_are_held_with_why(client: Client):
    shown = page(client, Told())
    free, held = shown.split("Not so, as the job stands now")
    assert "Declined" in free
    assert "Repaired and verified" in held
    assert "No change on the car is told that repairs anything." in held


def test_a_held_ending_has_no_button(client: Client):
    shown = page(client, Told(), "repaired_verified")
    assert "Close the job:" not in shown
    assert "Cannot be waived: it would not be true." in shown


def test_a_form_that_comes_back_keeps_what_was_typed(client: Client):
    told = job_for("declined")
    client.force_login(make_person())
    told_so = {"closing_kind": "declined", "came_from": "testing", "reason": "Sells the car."}
    response = client.post(f"{reverse('close')}?job={told.job.key}", told_so)
    assert response.status_code == 422
    assert "Sells the car." in response.content.decode()
    assert told.again.stage == "testing"


def test_an_ending_named_in_the_address_only_keeps_what_was_typed_too(client: Client):
    told = job_for("declined")
    client.force_login(make_person())
    address = f"{reverse('close')}?job={told.job.key}&closing_kind=declined"
    response = client.post(address, {"came_from": "testing", "odometer_out": "half a lap"})
    assert response.status_code == 422
    assert "half a lap" in response.content.decode()


def test_an_ending_that_is_none_has_no_page(client: Client):
    client.force_login(make_person())
    asked = {"job": str(Told().job.key), "closing_kind": "fixed"}
    assert client.get(reverse("close"), asked).status_code == 404


@pytest.mark.parametrize(
    ("answers", "field"),
    [
        ({"air": "cold"}, "air"),
        ({"air": "400"}, "air"),
        ({"odometer_out": "84.2.1"}, "odometer_out"),
        ({"odometer_out": "-3"}, "odometer_out"),
        ({"odometer_out": "84231 feet"}, "odometer_out"),
        ({"picked_up": "a dog"}, "picked_up"),
        ({"come_back": "x" * 201}, "come_back"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(answers: dict[str, str], field: str):
    told = job_for("repaired_not_verifiable")
    said = {**ANSWERS["repaired_not_verifiable"], **answers}
    assert field in errors(told.close("repaired_not_verifiable", **said))


def test_a_shop_in_fahrenheit_tells_the_air_of_an_ending_in_it(client: Client):
    fahrenheit()
    told = job_for("repaired_not_verifiable")
    shown = page(client, told, "repaired_not_verifiable")
    assert 'id="id_air_unit">°F<' in shown
    assert 'name="air_unit" value="°F"' in shown
    said = {**ANSWERS["repaired_not_verifiable"], "air": "48", "air_unit": "°F"}
    stood(told.close("repaired_not_verifiable", **said))
    answers = dict(StageMove.objects.get(job=told.job, to="closed").told)
    assert answers["Temperature of the air"] == "48\u00a0°F"


def test_an_odd_odometer_stays_when_somebody_says_why():
    told = job_for("tested_only")
    stood(told.close("tested_only", odometer_out="2000000", odometer_out_why="Read twice."))
    mark = Entry.objects.get(kind="close").marks[0]
    assert mark["code"] == "odometer_beyond"


def test_something_else_says_what():
    told = job_for("refused")
    assert "reason" in errors(told.close("refused", refused_for=["other"], told_how="phone"))


def test_made_safe_without_a_tag_is_not():
    told = job_for("made_safe")
    said = {**ANSWERS["made_safe"], "tag": "no"}
    assert "tag" in errors(told.close("made_safe", **said))


def test_a_car_that_must_not_be_run_leaves_with_a_tag():
    told = job_for("released_unfinished")
    told.change(what="opened")
    said = {**ANSWERS["released_unfinished"], "loop_capped": "open"}
    outcome = told.close("released_unfinished", **said)
    assert outcome.state == REFUSED
    assert "Hang the tag in the car" in outcome.why
    stood(told.close("released_unfinished", **said, tag="yes"))


@pytest.mark.parametrize(("found", "words"), [(LOCKED, "the hub does not"), (MIXED, "another gas")])
@pytest.mark.parametrize("code", [code for code, one in ENDINGS.items() if "tag" in one.may_ask])
def test_what_a_test_found_by_which_it_must_not_be_run_asks_for_the_tag(client, code, found, words):
    told = job_for(code)
    told.test(found)
    client.force_login(make_person())
    asked = {"job": str(told.job.key), "closing_kind": code}
    assert "A/C must not be run" in client.get(reverse("close"), asked).content.decode()
    outcome = told.close(code, **ANSWERS[code])
    assert outcome.state == REFUSED
    assert f"Must not be run: {words}" in outcome.why
    assert "Hang the tag in the car" in outcome.why
    stood(told.close(code, **ANSWERS[code], tag="yes"))


def test_the_tag_is_asked_for_only_where_something_bars_running(client):
    told = job_for("not_reproduced")
    client.force_login(make_person())
    asked = {"job": str(told.job.key), "closing_kind": "not_reproduced"}
    assert "must not be run" not in client.get(reverse("close"), asked).content.decode()


@pytest.mark.parametrize("found", [LOCKED, MIXED])
def test_what_must_not_be_run_is_not_repaired_and_verified(found):
    told = job_for("repaired_verified")
    told.test(found)
    outcome = told.close("repaired_verified")
    assert outcome.state == REFUSED
    assert "Must not be run: " in outcome.why


def test_every_ending_asks_for_the_tag_or_is_held_where_it_must_not_be_run():
    asks = {code for code, one in ENDINGS.items() if "tag" in (*one.asks, *one.may_ask)}
    by = {must_not_run_now, must_not_run_by_tests}
    held = {code for code, checks in FALSE_BY.items() if by & {*checks}}
    assert asks | held == set(ENDINGS)


def test_a_loop_that_was_opened_is_not_never_opened():
    told = job_for("released_unfinished")
    told.change(what="opened")
    outcome = told.close("released_unfinished", **ANSWERS["released_unfinished"], tag="yes")
    assert outcome.state == REFUSED
    assert "not “never opened”" in outcome.why


def test_a_test_that_was_replaced_carries_nothing():
    told = job_for("as_designed")
    first = Step.objects.get(number=1)
    fields = {**LIQUID, "test_version": "1"}
    enter(STEP, make_told(fields, job_key=told.job.key, corrects=first.key))
    assert "carried_by" in errors(told.close("as_designed", **ANSWERS["as_designed"]))


def test_a_decision_kept_on_a_tablet_stands_unless_what_it_rests_on_was_replaced():
    told = job_for("tested_only")
    told.stage("deciding")
    outcome = told.close("tested_only", came_from="testing")
    assert outcome.state == REFUSED
    assert "“testing”" in outcome.why
    assert "“deciding”" in outcome.why


def test_a_closed_job_is_not_closed_again():
    told = job_for("tested_only")
    stood(told.close("tested_only"))
    outcome = told.close("declined", **ANSWERS["declined"], came_from="testing")
    assert outcome.state == REFUSED
    assert told.again.closing_kind == "tested_only"


def test_the_same_closing_sent_twice_is_one():
    told, key = job_for("tested_only"), uuid.uuid4()
    said = {"came_from": "testing", "closing_kind": "tested_only"}
    first = make_told(said, job_key=told.job.key, key=key)
    assert [enter(CLOSE, first).state, enter(CLOSE, first).state] == ["accepted", AGAIN]
    assert StageMove.objects.filter(to="closed").count() == 1


def test_a_tablet_closes_through_the_door(client: Client):
    told, desk, tablet = job_for("tested_only"), make_person(DESK), uuid.uuid4()
    client.cookies[TABLET_COOKIE] = tablet_token(tablet)
    said = {
        "key": str(uuid.uuid4()),
        "kind": "close",
        "version": 1,
        "job": str(told.job.key),
        "fields": {"came_from": ["testing"], "closing_kind": ["tested_only"]},
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(desk, tablet),
    }
    response = client.post("/entries/", json.dumps(said), content_type="application/json")
    assert response.status_code == 201, response.content
    assert told.again.stage == "closed"


# What arrives at a closed job.
def late_points(told: Told) -> list[str]:
    return [one.sentence for one in told.now.points if one.code == "after_closed"]


def test_a_late_test_is_booked_and_becomes_an_open_point():
    told = job_for("tested_only")
    stood(told.close("tested_only"))
    told.test(HOLDS)
    assert Step.objects.count() == 2
    assert told.again.stage == "closed"
    (point,) = late_points(told)
    assert point.startswith("A test of ")
    assert "arrived after the job was closed" in point


def test_a_late_change_leaves_the_job_closed_and_says_so_too():
    told = job_for("tested_only")
    stood(told.close("tested_only"))
    stood(told.tell(CHANGE, **CLUTCH))
    tell(CUSTOMER, told.job, phone="555 010 0177")
    assert told.again.stage == "closed"
    assert len(late_points(told)) == 2


def test_it_is_on_the_job_and_on_the_paper_that_is_issued_again(client: Client):
    told = job_for("tested_only")
    stood(told.close("tested_only"))
    told.test(HOLDS)
    client.force_login(make_person())
    shown = client.get(f"{reverse('job')}?job={told.job.key}").content.decode()
    assert "arrived after the job was closed" in shown
    fields = {"issue": "1", "entries": str(Entry.objects.filter(job_key=told.job.key).count())}
    stood(enter(ISSUE, make_told(fields, make_person(OWNER), job_key=told.job.key)))
    assert "arrived after the job was closed" in Record.objects.get().data


def test_closed_anew_what_came_before_is_not_late():
    told = job_for("tested_only")
    stood(told.close("tested_only"))
    told.test(HOLDS)
    stood(told.stage("testing", why="new_finding"))
    assert late_points(told) == []
    stood(told.close("tested_only"))
    assert late_points(told) == []


def test_the_record_has_the_ending_on_its_first_page(client: Client):
    told = job_for("declined")
    stood(told.close("declined", **ANSWERS["declined"], **FOR_ALL))
    fields = {"issue": "1", "entries": str(Entry.objects.filter(job_key=told.job.key).count())}
    stood(enter(ISSUE, make_told(fields, make_person(OWNER), job_key=told.job.key)))
    data = json.loads(Record.objects.get().data)
    assert data["stands"]["head"] == "Declined."
    assert data["closing"]["sentence"] == ENDINGS["declined"].sentence
    assert (data["closing"]["odometer"], data["closing"]["odometer_unit"]) == (84231, "mi")
    client.force_login(make_person())
    shown = client.get(f"{reverse('record')}?job={told.job.key}").content.decode()
    assert ENDINGS["declined"].sentence in shown
    assert "Declined by" in shown


def test_find_and_the_jobs_data_show_how_it_ended(client: Client):
    told = job_for("tested_only")
    stood(told.close("tested_only"))
    client.force_login(make_person())
    found = client.get(reverse("find"), {"words": "4731"}).content.decode()
    assert "closed: tested only" in found
    said = client.get(reverse("job_json"), {"job": str(told.job.key)}).json()
    assert (said["stage"], said["closing_kind"]) == ("closed", "tested_only")
