"""Decision: who chose which way and why, what it rested on, and what came after it."""

import json
import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from diagnostics.decided import NO_DECISION
from diagnostics.entries import DECISION, PRICES_TYPED
from diagnostics.models import Decision
from diagnostics.own_figures import own_figures
from jobs.entries import CHANGE
from jobs.logbook import AGAIN, RETURNED, enter
from jobs.models import Consent, Record, StageMove
from jobs.models.people import DESK, ROLES, TECHNICIAN
from jobs.paper.shelf import data_of
from jobs.passes import TABLET_COOKIE, make_pass, tablet_token
from tests.diagnostics.jobs_told import COMES_NOT, LIQUID, Told, stood
from tests.diagnostics.options_told import PRICES, browser_of, errors, gap_job, words
from tests.diagnostics.test_issue import freeze
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db
CHOICE: dict[str, Any] = {
    "plan": "clutch_in_car",
    "decided_by": "customer",
    "told_how": "phone",
    "reasons": ["price"],
    "why": "Sells it in fall.",
}


def decide(told: Told, author: Any = None, **more: Any) -> Any:
    return told.tell(DECISION, author, **{**CHOICE, **more})


def page(told: Told, role: str = TECHNICIAN, **more: str) -> str:
    response = browser_of(role).get(reverse("decision"), {"job": str(told.job.key), **more})
    assert response.status_code == 200
    return response.content.decode()


# Who may, and the page without a job.


@pytest.mark.parametrize("role", sorted(ROLES))
def test_everybody_of_the_shop_may_note_a_decision(role):
    told = gap_job()
    assert "Record the decision" in page(told, role)
    assert decide(told, make_person(role)).stands


def test_nobody_else_sees_it(client):
    response = client.get(reverse("decision"), {"job": str(make_job().key)})
    assert response.status_code == 302


def test_the_page_without_a_job_has_nothing_of_any_car():
    told = gap_job()
    stood(decide(told))
    shown = browser_of().get(reverse("decision")).content.decode()
    assert told.job.vehicle.plate not in shown
    assert "Sells it in fall." not in shown


# What is frozen with it.


def test_it_freezes_the_way_chosen_with_its_lines_and_the_others_with_their_totals():
    told = gap_job()
    stood(told.tell(PRICES_TYPED, **PRICES))
    stood(decide(told))
    row = Decision.objects.get()
    chosen = next(one for one in row.offered if one["chosen"])
    assert chosen["code"] == "clutch_in_car"
    assert chosen["total"] == 43000
    assert [line["amount"] for line in chosen["lines"]] == [14400, 28600]
    aside = [one for one in row.offered if not one["chosen"]]
    assert any(one["code"] == "nothing" and one["total"] == 0 for one in aside)
    assert any(one["total"] is None and one["missing"] for one in aside)
    assert not any(one["lines"] for one in aside)


def test_it_freezes_the_words_of_the_verdict_and_no_share():
    told = gap_job()
    stood(decide(told))
    row = Decision.objects.get()
    assert any(one["variable"] == "clutch" for one in row.rested_on)
    assert {"words", "shown", "steps", "standing"} <= {*row.rested_on[0]}
    assert "share" not in json.dumps([row.rested_on, row.offered])


def test_prices_typed_later_do_not_move_what_was_frozen():
    told = gap_job()
    stood(told.tell(PRICES_TYPED, **PRICES))
    stood(decide(told))
    stood(told.tell(PRICES_TYPED, part_clutch="400"))
    chosen = next(one for one in Decision.objects.get().offered if one["chosen"])
    assert chosen["total"] == 43000
    assert "430.00" in json.dumps(chosen)


def test_what_came_between_the_page_and_the_decision_is_said():
    told = gap_job()
    seen = str(len(told.now.steps))
    told.test(LIQUID)
    stood(decide(told, seen=seen))
    row = Decision.objects.get()
    assert row.page_saw == int(seen)
    assert row.saw > row.page_saw
    assert "had come before it arrived" in words(page(told))


def test_the_page_sends_how_many_entries_it_saw():
    told = gap_job()
    assert f'name="seen" value="{told.now.job.car_states.count() + 3}"' in page(told)


# Whatever is chosen is taken.


def test_something_else_than_was_offered_is_said_in_words():
    told = gap_job()
    assert "plan_words" in errors(decide(told, plan="other"))
    stood(decide(told, plan="other", plan_words="Clutch from the customer’s other car."))
    assert Decision.objects.get().words == "Clutch from the customer’s other car."


def test_a_way_that_was_not_offered_is_taken_too():
    told = gap_job()
    stood(decide(told, plan="evaporator"))
    row = Decision.objects.get()
    assert row.words == "Evaporator"
    assert not any(one["chosen"] for one in row.offered)


def test_what_is_no_way_at_all_is_said_at_its_field():
    assert "not in the list" in errors(decide(gap_job(), plan="prayer"))["plan"]


def test_it_asks_why():
    said = errors(decide(gap_job(), reasons=None, why=None))
    assert "Why?" in said["reasons"]
    assert not Decision.objects.exists()


def test_a_form_that_comes_back_has_all_that_was_typed():
    told = gap_job()
    address = f"{reverse('decision')}?job={told.job.key}"
    response = browser_of().post(address, {"plan": "other", "why": "Because of the lake."})
    assert response.status_code == 422
    assert "Because of the lake." in response.content.decode()


def test_a_way_that_rests_on_something_open_is_warned_of_and_taken():
    told = gap_job()
    shown = words(page(told, plan="compressor"))
    assert "what it is meant for is not settled" in shown
    assert "Part sellers may ask for" in shown
    assert decide(told, plan="compressor").stands


def test_what_was_open_when_it_was_chosen_stands_with_it_afterwards():
    told = gap_job()
    stood(decide(told))
    assert "Open when it was chosen:" in words(page(told))


def test_it_is_no_consent():
    told = gap_job()
    before = Consent.objects.count()
    stood(decide(told))
    assert Consent.objects.count() == before
    assert reverse("consent") in page(told)


# Several decisions.


def test_of_two_the_one_that_happened_later_counts():
    told = gap_job()
    late = timezone.now() - timedelta(hours=1)
    stood(told.tell(DECISION, at=late, **{**CHOICE, "plan": "nothing"}))
    stood(decide(told))
    shown = words(page(told))
    assert "Decided: Nothing, A/C off" in shown
    assert "Decided earlier: Clutch parts, in the car" in shown


def test_a_correction_takes_the_place_of_the_earlier_one_with_its_reason():
    told = gap_job()
    first = stood(decide(told))
    fields = {**CHOICE, "plan": "nothing", "why_asked": "1"}
    entry = make_told(fields, job_key=told.job.key, corrects=first.key)
    outcome = enter(DECISION, entry)
    assert outcome.state == RETURNED
    entry = make_told(
        {**fields, "corrected_why": "Wrong tap."}, job_key=told.job.key, corrects=first.key
    )
    stood(enter(DECISION, entry))
    shown = words(page(told))
    assert "Decided: Nothing, A/C off" in shown
    assert "Decided earlier" not in shown
    assert "Wrong tap." in shown


def test_the_page_that_corrects_begins_with_what_was_told():
    told = gap_job()
    first = stood(decide(told))
    shown = page(told, corrects=str(first.key))
    assert "Sells it in fall." in shown
    assert 'name="why_asked" value="1"' in shown
    other = browser_of().get(
        reverse("decision"), {"job": str(make_job().key), "corrects": str(first.key)}
    )
    assert other.status_code == 404


def test_the_same_entry_twice_is_one():
    told = gap_job()
    entry = make_told(CHOICE, job_key=told.job.key)
    stood(enter(DECISION, entry))
    assert enter(DECISION, entry).state == AGAIN
    assert Decision.objects.count() == 1


def test_what_was_tested_since_stands_beside_it():
    told = gap_job()
    stood(decide(told))
    assert "Tested since" not in page(told)
    told.test(LIQUID)
    assert "Tested since: step 3" in words(page(told))


# Stage, points, the job's page, what a tablet keeps.


def test_a_job_in_testing_is_deciding_by_it():
    told = gap_job()
    assert told.again.stage == "testing"
    stood(decide(told))
    assert told.again.stage == "deciding"
    assert StageMove.objects.filter(job=told.job, to="deciding").exists()


def test_a_job_further_on_stays_where_it_is():
    told = gap_job()
    told.change(what="fitted", part="clutch", source="new", serial="1")
    stood(decide(told))
    assert told.again.stage == "repairing"


def test_repair_without_a_decision_is_an_open_point_until_one_is_noted():
    told = gap_job()
    told.change(what="fitted", part="clutch", source="new", serial="1")
    assert [one for one in told.now.points if one.code == "no_decision"]
    shown = words(browser_of().get(reverse("job"), {"job": str(told.job.key)}).content.decode())
    assert NO_DECISION in shown
    stood(decide(told))
    assert not [one for one in told.now.points if one.code == "no_decision"]


def test_a_loop_that_was_opened_to_look_is_no_repair_yet():
    told = gap_job()
    told.change(what="opened")
    assert not [one for one in told.now.points if one.code == "no_decision"]


def test_the_jobs_page_says_it_in_one_line():
    told = gap_job()
    address = reverse("job"), {"job": str(told.job.key)}
    assert "Nothing is decided yet." in words(browser_of().get(*address).content.decode())
    stood(decide(told))
    shown = words(browser_of().get(*address).content.decode())
    assert "Clutch parts, in the car. Decided by the customer, by phone; noted by" in shown


def test_what_was_decided_is_done_next_until_work_is_noted():
    told = gap_job()
    decide(told)
    address = reverse("job"), {"job": str(told.job.key)}
    assert "No work is noted since" in words(browser_of().get(*address).content.decode())
    told.change(what="fitted", part="clutch", source="new")
    shown = words(browser_of().get(*address).content.decode())
    assert "No work is noted since" not in shown


def test_a_decision_that_arrives_at_a_closed_job_is_booked_and_open():
    told = gap_job()
    stood(told.close("tested_only", reason="Goes home.", picked_up="customer"))
    stood(decide(told))
    assert any(one.code == "after_closed" for one in told.now.points)
    assert told.again.stage == "closed"


def test_a_tablet_is_told_of_it_in_one_line():
    told = gap_job()
    stood(decide(told))
    response = browser_of().get(reverse("job_json"), {"job": str(told.job.key)})
    assert json.loads(response.content)["decision"].startswith("Clutch parts, in the car. Decided")


def test_the_door_takes_it_from_a_tablet():
    told, author, tablet = gap_job(), make_person(DESK), uuid.uuid4()
    browser = Client()
    browser.cookies[TABLET_COOKIE] = tablet_token(tablet)
    said = {
        "key": str(uuid.uuid4()),
        "kind": "decision",
        "version": 1,
        "job": str(told.job.key),
        "fields": {
            name: [value] if isinstance(value, str) else value for name, value in CHOICE.items()
        },
        "typed_at": timezone.now().isoformat(),
        "pass": make_pass(author, tablet),
    }
    response = browser.post("/entries/", json.dumps(said), content_type="application/json")
    assert response.status_code == 201, response.content
    assert Decision.objects.get().entry.author == author


def test_it_makes_the_same_number_of_queries_however_often_it_was_decided():
    told = gap_job()
    stood(decide(told))
    browser, address = browser_of(), f"{reverse('decision')}?job={told.job.key}"
    browser.get(address)
    with CaptureQueriesContext(connection) as before:
        browser.get(address)
    for plan in ("nothing", "compressor", "clutch_in_car"):
        stood(decide(told, plan=plan))
    with CaptureQueriesContext(connection) as after:
        browser.get(address)
    assert len(after) == len(before)


# What the record tells.


def test_the_record_tells_the_choice_with_its_reasons_and_what_was_offered_beside_it():
    told = gap_job()
    stood(told.tell(PRICES_TYPED, **PRICES))
    stood(decide(told))
    assert freeze(told.again).stands
    record = data_of(Record.objects.get())
    (made,) = record["decisions"]
    assert made["text"] == "Clutch parts, in the car"
    assert made["why"] == "It costs least today. Sells it in fall"
    assert any(way["chosen"] and way["total"] == 43000 for way in made["ways"])
    assert any(way["total"] is None and "missing" in way["amount"] for way in made["ways"])
    assert record["stands"]["head"] == "Tested, and a way to repair is decided."
    assert record["stages"][-1]["why"] == "with a decision"
    shown = browser_of().get(reverse("record"), {"job": str(told.job.key)}).content.decode()
    assert "Decided: Clutch parts, in the car" in words(shown)


# The shop's own figure.


def test_the_shops_own_figure_is_counted_from_repairs_old_enough():
    for number in range(3):
        told = Told(plate=f"RV.410{number}A", vin=None)
        told.test(COMES_NOT)
        stood(decide(told))
        told.change(what="fitted", part="clutch", source="new", serial="1")
        told.test(COMES_NOT, holds="yes", pushed=None, lets_go="yes")
        stood(told.close("repaired_not_verifiable", air="48 F", come_back="above 20 °C"))
        StageMove.objects.filter(job=told.job, to="closed").update(
            moved_at=timezone.now() - timedelta(days=400)
        )
    stood(enter(CHANGE, make_told({"what": "fitted", "part": "compressor"}, job_key=told.job.key)))
    figures = {(one.after, one.then): (one.came, one.of) for one in own_figures(12)}
    assert figures["clutch_in_car", "compressor"] == (0, 3)  # it came due after more than a year
    assert own_figures(24) == []  # none is old enough
    assert own_figures(0) == []
    assert all(one.share is None for one in own_figures(12))  # three of twenty


@pytest.mark.parametrize("plan", ["coil+coil", "nothing+coil", "make_safe+nothing", "+", "coil+"])
def test_a_way_that_says_two_things_at_once_is_none(plan):
    assert "plan" in errors(decide(gap_job(), plan=plan))
