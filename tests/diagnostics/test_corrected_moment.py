"""What was read was read when the original was told: a correction changes what is said of it."""

import re
import uuid
from datetime import timedelta
from itertools import permutations
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone
from django.utils.dateformat import format as formatted

from diagnostics.assess import steps_of
from diagnostics.decided import is_to_be_done
from diagnostics.entries import STEP, VERIFIED
from diagnostics.models import Decision, Step
from diagnostics.templatetags.steps import last_made
from diagnostics.verification import verification_of
from diagnostics.weighing import around_of, what_was_told
from jobs.entries import CHANGE, CHARGE, CONDITIONS, RECOVERY
from jobs.logbook import enter
from jobs.models import Change, Entry, Person
from jobs.models.wordings import in_shop_time
from jobs.paper.frozen import exact_text
from jobs.paper.typeset import typeset
from tests.diagnostics.jobs_told import CLUTCH, HOLDS, LIQUID, START, Told, stood
from tests.diagnostics.step_forms import stood as as_it_stood
from tests.diagnostics.test_loop_work import IN, OUT
from tests.diagnostics.test_record_steps import data_of
from tests.diagnostics.verified_jobs import COMPRESSOR
from tests.factories import make_person, make_told
from tests.jobs.records import printed, squeezed

pytestmark = pytest.mark.django_db
WHY = "Its temperature was missing."


def corrected(car: Told, key: Any, author: Any = None, **changed: Any) -> Step:
    """The pressure at rest told anew."""
    fields = {"test_version": "1", **LIQUID, "corrected_why": WHY, **changed}
    outcome = stood(car.tell(STEP, author, corrects=key, **fields))
    return as_it_stood(Step.objects.get(key=outcome.key))


@pytest.fixture
def car() -> Told:
    """A car that failed with liquid in its loop, was emptied, and whose reading is put right."""
    told = Told()
    told.failing("yes")
    read = told.test(LIQUID, low="478")
    stood(told.tell(RECOVERY, **OUT))
    told.failing("no")
    corrected(told, read.key, make_person(name="M. Ferrow"))
    return told


def right(car: Told) -> Step:
    """The step that stands, as pages read it."""
    return as_it_stood(Step.objects.get(superseded_by=None, job=car.job))


def hour(minutes: int) -> str:
    return formatted(timezone.localtime(START + timedelta(minutes=minutes)), "H:i")


def test_a_corrected_step_is_of_the_car_the_switch_and_the_minute_of_the_original(car):
    step = right(car)
    assert (step.number, step.state_then, step.failing_then) == (2, 0, "yes")
    assert step.made_at == START + timedelta(minutes=2)


def test_a_corrected_pressure_shuts_no_gate_that_a_recovery_opened_since(car):
    assert car.now.loop.code == "recovered"
    assert "recovered_first" not in {gate.code for gate in car.now.shut}


def test_the_evidence_weighs_it_on_the_car_as_it_was(car):
    [test] = what_was_told(around_of(car.again).steps)
    assert (test.kind, test.state, test.failing) == ("static_pressure", 0, "yes")


def test_the_steps_page_says_when_it_was_made_and_when_and_by_whom_it_was_put_right(client, car):
    client.force_login(make_person())
    page = client.get(reverse("steps"), {"job": str(car.job.key)}).content.decode()
    said = page[page.index('id="step-2"') :].split("</article>")[0]
    assert hour(2) in said
    assert (
        f"corrected {formatted(timezone.localtime(right(car).entry.happened_at), 'j M Y H:i')}"
        in said
    )
    assert "M. Ferrow" in said
    assert WHY in said
    assert page.index("Recovery: ") < page.index('id="step-2"')


def test_the_last_test_made_is_not_one_that_was_put_right_since():
    car = Told()
    read = car.test(LIQUID)
    last = car.test(HOLDS)
    corrected(car, read.key)
    shown = last_made(steps_of(car.job))
    assert shown
    assert str(shown.step.key) == str(last.key)


def test_a_tablet_is_told_the_same(client, car):
    client.force_login(make_person())
    told = client.get(reverse("job_json"), {"job": str(car.job.key)}).json()
    step = next(one for one in told["steps"] if one["number"] == 2)
    assert step["made_at"] == right(car).made_at.isoformat()


def test_the_record_has_both_moments(car):
    step = next(one for one in data_of(car.job)["steps"] if one["number"] == 2)
    assert (step["state"], step["failing_now"]) == (0, "yes")
    assert step["done"].endswith(hour(2))
    assert step["corrected"] == step["when"]
    assert (step["by"], step["done_by"] != step["by"]) == ("M. Ferrow", True)
    assert step["when"].endswith(hour(5))


def test_the_paper_says_who_did_it_when_and_who_put_it_right_when(car):
    sand, ferrow = make_person(name="R. Sand"), Person.objects.get(name="M. Ferrow")
    none = {"test_kind": "coil_power", "test_version": "1", "not_done": "no_access"}
    pairs: tuple[tuple[Any, dict[str, Any]], ...] = ((STEP, none), (CHANGE, CLUTCH), (CHARGE, IN))
    for kind, fields in pairs:
        first = stood(car.tell(kind, sand, **fields))
        stood(car.tell(kind, ferrow, corrects=first.key, corrected_why="misread", **fields))
    paper = printed(typeset(exact_text(data_of(car.job))).pdf)
    for minutes in (6, 8, 10):
        done, right = (in_shop_time(START + timedelta(minutes=minutes + more)) for more in (0, 1))
        assert squeezed(f"{done}") in paper
        assert squeezed(f"corrected {right} by M. Ferrow") in paper
        assert paper.count(squeezed(done)) > 1


def test_the_reading_before_the_repair_stays_so_when_it_is_put_right_after():
    car = Told()
    read = car.test(LIQUID, low="478")
    stood(car.tell(RECOVERY, **OUT))
    stood(car.tell(CHARGE, **IN))
    corrected(car, read.key)
    car.test(LIQUID, low="480")
    states = [step["state"] for step in data_of(car.job)["steps"]]
    assert states == [0, 0, 2]


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_in_whatever_order_tablets_bring_them_all_stand_where_the_first_was_read(order):
    car = Told()
    stood(car.tell(RECOVERY, at=START + timedelta(minutes=20), **OUT))
    keys = [uuid.uuid4() for _ in range(3)]
    for place in order:
        told = {"key": keys[place], "happened_at": START + timedelta(minutes=10 + 20 * place)}
        tell_step(car, corrects=keys[place - 1] if place else None, **told)
    steps = [as_it_stood(one) for one in Step.objects.filter(job=car.job)]
    assert {(one.state_then, one.made_at) for one in steps} == {(0, START + timedelta(minutes=10))}
    assert car.now.loop.code == "recovered"


def tell_step(car: Told, **told: Any) -> None:
    """The pressure at rest with columns of its entry."""
    fields = {"test_version": "1", **LIQUID}
    stood(enter(STEP, make_told(fields, job_key=car.job.key, **told)))


def test_a_repair_put_right_after_the_next_decision_was_not_made_since_that():
    car = Told()
    made = car.change(**CLUTCH)
    decided = Entry.objects.get(key=car.failing("yes").key)
    car.tell(CHANGE, corrects=made.key, **{**CLUTCH, "serial": "0471"}, corrected_why="misread")
    decision = Decision(job=car.job, entry=decided, plan="clutch")
    standing = Change.objects.filter(superseded_by=None)
    assert is_to_be_done(decision, standing)


def test_caps_put_right_are_those_that_were_seen_before_a_test_took_them_off():
    car = Told()
    car.change(**COMPRESSOR)
    seen = stood(car.tell(VERIFIED, caps="on"))
    car.test(LIQUID)
    stood(car.tell(VERIFIED, corrects=seen.key, caps="on", corrected_why="typed twice"))
    shown = {one.item.code: one.stands for one in verification_of(car.again).shown}
    assert shown["caps"] == "not_yet"


def test_what_is_noted_in_one_line_says_both_moments_too():
    car = Told()
    car.change(**COMPRESSOR)
    seen = stood(car.tell(VERIFIED, make_person(name="R. Sand"), caps="missing"))
    ferrow = make_person(name="M. Ferrow")
    stood(
        car.tell(VERIFIED, ferrow, corrects=seen.key, caps="on", corrected_why="saw the wrong car")
    )
    because = {one.item.code: one.because for one in verification_of(car.again).shown}["caps"]
    assert re.fullmatch(rf"Both on\. .*{hour(2)}, corrected .*{hour(3)} by M\. Ferrow\.", because)


def test_conditions_put_right_an_hour_later_still_bear_on_the_test_of_then():
    car = Told()
    first = stood(car.tell(CONDITIONS, ambient="20"))
    car.test(LIQUID)
    later = START + timedelta(minutes=90)
    stood(car.tell(CONDITIONS, at=later, corrects=first.key, ambient="24"))
    [row] = [one for one in car.job.conditions.all() if one.ambient == "24"]
    assert row.holds(Step.objects.get().made_at)
