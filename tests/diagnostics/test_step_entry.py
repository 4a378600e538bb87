"""The entry of a test step: which rows it writes, what it asks, what it marks."""

from datetime import timedelta
from itertools import permutations

import pytest
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.models import Step
from diagnostics.points import step_points
from jobs.logbook import ACCEPTED, AGAIN, RETURNED
from tests.diagnostics.step_forms import (
    errors_of,
    open_state,
    some_key,
    step_of,
    stood,
    switch,
    tell,
)
from tests.factories import make_job

pytestmark = pytest.mark.django_db


def test_a_step_is_numbered_and_keeps_what_was_typed():
    job = make_job()
    first, second = step_of(tell(job, volts="12,38 V")), step_of(tell(job))
    assert (first.number, second.number) == (1, 2)
    assert first.readings["volts"] == {"si": 12.38, "typed": "12,38 V", "unit": "V"}
    assert first.readings["holds"] == "no"
    assert first.key == first.entry.key


def test_the_first_step_begins_testing():
    job = make_job()
    step_of(tell(job))
    job.refresh_from_db()
    assert job.stage == "testing"


def test_a_step_that_could_not_be_done_begins_nothing():
    job = make_job()
    step_of(tell(job, not_done="no_access"))
    job.refresh_from_db()
    assert job.stage == "intake"


@pytest.mark.parametrize("order", list(permutations(("no", "yes", "step"))))
def test_the_switch_of_a_step_goes_by_the_times_in_whatever_order_they_arrive(order):
    job = make_job()
    now = timezone.now()
    at = {"no": hours(now, 3), "step": hours(now, 2), "yes": hours(now, 1)}
    for one in order:
        if one == "step":
            step = step_of(tell(job, told={"happened_at": at[one]}))
        else:
            switch(job, one, at[one])
    assert stood(step).failing_then == "no"
    job.refresh_from_db()
    assert job.failing_now == "yes"


def test_a_step_before_anybody_told_of_the_switch_has_none():
    job = make_job()
    switch(job, "yes", timezone.now())
    assert (
        stood(step_of(tell(job, told={"happened_at": hours(timezone.now(), 1)}))).failing_then == ""
    )


def test_the_switch_of_another_job_tells_nothing():
    job = make_job()
    switch(make_job(plate="PW.5504K"), "yes", hours(timezone.now(), 1))
    assert stood(step_of(tell(job))).failing_then == ""


@pytest.mark.parametrize("order", [(1, 2), (2, 1)])
def test_of_two_turns_at_one_moment_the_one_counted_later_by_its_tablet_holds(order):
    job = make_job()
    moment = hours(timezone.now(), 1)
    for sequence in order:
        switch(job, "yes" if sequence == 2 else "no", moment, sequence=sequence)
    assert stood(step_of(tell(job))).failing_then == "yes"
    job.refresh_from_db()
    assert job.failing_now == "yes"


def test_of_two_turns_at_one_moment_nobody_counted_the_last_to_arrive_holds():
    job = make_job()
    moment = hours(timezone.now(), 1)
    for answer in ("yes", "no"):
        switch(job, answer, moment)
    assert stood(step_of(tell(job))).failing_then == "no"


@pytest.mark.parametrize("order", list(permutations((3, 1, "step"))))
def test_the_car_state_of_a_step_goes_by_the_times_in_whatever_order_they_arrive(order):
    job = make_job()
    now = timezone.now()
    states = {}
    for one in order:
        if one == "step":
            step = step_of(tell(job, told={"happened_at": hours(now, 2)}))
        else:
            states[one] = open_state(job, hours(now, one))
    assert stood(step).state_then == states[3].number
    assert job.car_states.last() == states[1]


def test_a_step_before_all_that_was_done_is_of_the_car_as_it_came_in():
    job = make_job()
    open_state(job, timezone.now())
    assert stood(step_of(tell(job, told={"happened_at": hours(job.opened_at, 1)}))).state_then == 0


def test_the_car_as_it_came_in_stands_first_whatever_a_clock_says():
    job = make_job()
    state = open_state(job, hours(job.opened_at, 1))
    assert job.car_states.last() == state
    assert stood(step_of(tell(job))).state_then == 1


def hours(moment, count):
    """So many hours before."""
    return moment - timedelta(hours=count)


def test_the_same_entry_twice_is_one_step():
    job = make_job()
    told = {"key": some_key()}
    author = job.entry.author
    assert tell(job, author, told=told).state == ACCEPTED
    assert tell(job, author, told=told).state == AGAIN
    assert Step.objects.count() == 1


# What is asked.


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("1,234", "can be 1.234 or 1234"),
        ("12.3.8", "is no number"),
        ("twelve", "is no number"),
        ("12 38", "is no number"),
        ("9" * 50, "50 characters"),
        ("12.4 kg", "in a unit this reading does not take"),
        ("💡", "is no number"),
        ("<script>", "is no number"),
        ("123.8", "Above 60 V is no clutch coil on a battery"),
        ("17.2", "Outside what a 12 V car shows."),
        ("-3", "Outside what a 12 V car shows."),
        ("1.234,5", "Above 60 V"),
    ],
)
def test_each_bad_voltage_gets_its_sentence_at_the_field(typed, words):
    outcome = tell(make_job(), volts=typed)
    assert outcome.state == RETURNED
    assert words in errors_of(outcome)["volts"]
    assert not Step.objects.exists()


def test_ten_thousand_characters_get_a_short_sentence():
    sentence = errors_of(tell(make_job(), volts="9" * 10_000))["volts"]
    assert "10000 characters" in sentence
    assert len(sentence) < 200


@pytest.mark.parametrize(
    "typed",
    ["12,38", "12.38", "12,38 V", "12.38V", "+12.38", "12380 mV", "１２．３８", "12.38\u00a0V"],
)
def test_a_voltage_typed_in_any_usual_way_is_the_same(typed):
    assert step_of(tell(make_job(), volts=typed)).readings["volts"]["si"] == pytest.approx(12.38)


def test_the_unit_chosen_beside_the_field_counts():
    step = step_of(tell(make_job(), amps="3050", amps_unit="mA"))
    assert step.readings["amps"] == {"si": 3.05, "typed": "3050", "unit": "mA"}


def test_all_that_is_odd_is_asked_at_once():
    asked = errors_of(tell(make_job(), volts="123.8", amps="11", temperature="900", lets_go="yes"))
    assert {"volts", "amps", "temperature", "lets_go"} <= set(asked)
    assert asked["lets_go"].startswith("Asked only after it took hold. Answer again")


def test_slipping_with_the_engine_off_is_asked_about_and_can_stay_with_a_reason():
    job = make_job()
    assert "engine running" in errors_of(tell(job, holds="slips", pushed=None))["holds"]
    step = step_of(tell(job, holds="slips", pushed=None, holds_why="turned by hand"))
    assert step.kept == {"holds": "turned by hand"}


def test_a_value_kept_with_a_reason_is_stored_as_typed_and_marked():
    step = step_of(tell(make_job(), volts="17.2", volts_why="charger on"))
    assert step.readings["volts"]["typed"] == "17.2"
    assert step.kept == {"volts": "charger on"}
    (mark,) = step.marks
    assert (mark["code"], mark["why"]) == ("outside", "charger on")
    assert step.entry.marks == []  # the step's own are shown with the step


def test_what_cannot_be_is_kept_as_typed_and_feeds_nothing():
    job = make_job()
    step_of(tell(job, volts="123.8", volts_why="meter says so"))
    step_of(tell(job, volts=None))
    found = [one.meaning for one in steps_of(job)]
    assert found[0]
    assert found[1]
    assert found[0].outcome.code == found[1].outcome.code
    assert "123.8\u00a0V, kept as typed, not used." in found[0].notes[0]


def test_below_absolute_zero_can_be_kept_too():
    step = step_of(tell(make_job(), temperature="-300", temperature_why="display"))
    assert step.readings["temperature"]["typed"] == "-300"


def test_a_reason_without_anything_odd_is_no_mark():
    step = step_of(tell(make_job(), volts_why="no reason"))
    assert (step.kept, step.marks) == ({}, [])


# Orders and drives.


@pytest.mark.parametrize("hub", ["not_free", "not_done", None])
def test_power_with_the_engine_running_before_a_free_hub_is_recorded_and_an_open_point(hub):
    job = make_job()
    step_of(tell(job, engine="running", hub=hub, pushed=None))
    charge, point = step_points(steps_of(job))
    assert (charge.code, point.code) == ("charge_first", "gate")
    assert "in that step the hub was not told as turned by hand" in point.sentence


def test_a_step_on_a_barred_drive_is_recorded_tells_nothing_and_is_an_open_point():
    job = make_job(drive="electric_hv")
    step_of(tell(job))
    (assessed,) = steps_of(job)
    assert assessed.meaning
    assert assessed.meaning.outcome.code == "nothing_told"
    assert [point.code for point in step_points([assessed])] == ["barred"]


def test_a_step_in_order_leaves_no_point():
    job = make_job()
    step_of(tell(job))
    assert step_points(steps_of(job)) == []


# Not done, nothing told.


def test_could_not_be_done_is_recorded_with_its_reason_and_is_no_result():
    job = make_job()
    step_of(tell(job, not_done="unsafe", not_done_words="belt frayed"))
    (assessed,) = steps_of(job)
    assert assessed.meaning is None
    assert assessed.finding == "Could not be done: unsafe (belt frayed). That is no result."


def test_could_not_be_done_asks_nothing_about_what_was_read_before():
    step = step_of(tell(make_job(), not_done="no_time", volts="123.8"))
    assert [mark["code"] for mark in step.marks] == ["impossible"]


def test_could_not_be_done_still_tells_text_that_is_no_number():
    assert "volts" in errors_of(tell(make_job(), not_done="no_time", volts="twelve"))


def test_circumstances_alone_are_no_step():
    empty = dict.fromkeys(["volts", "amps", "magnet", "holds", "pushed"])
    outcome = tell(make_job(), **empty)
    assert "say why it could not be done" in errors_of(outcome)["__all__"]


def test_what_was_seen_is_enough():
    empty = dict.fromkeys(["volts", "amps", "magnet", "holds", "pushed"])
    assert step_of(tell(make_job(), **empty, seen="Smoke at once.")).seen == "Smoke at once."


def test_a_test_the_server_does_not_know_is_said_so():
    outcome = tell(make_job(), test_kind="tea_leaves")
    assert "does not know this kind of test" in errors_of(outcome)["__all__"]


def test_a_job_that_is_not_here_is_said_so():
    outcome = tell(make_job(), told={"job_key": some_key()})
    assert "no such job" in errors_of(outcome)["__all__"]
