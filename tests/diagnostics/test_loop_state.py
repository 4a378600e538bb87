"""What is told of the loop: what was last seen or done and when, and never more than was read."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from diagnostics.assess import steps_of
from diagnostics.entries import STEP
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.loop_seen import AT_REST, BY_VACUUM, NO_CHARGE_SHOWN
from diagnostics.loop_state import SHOWS_PRESSURE, LoopState, loop_state
from diagnostics.loop_words import HEADS, MUST_NOT
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.changes import changes_of, standing
from jobs.models.loop_works import FILLS
from tests.factories import make_job, make_told

pytestmark = pytest.mark.django_db
START = timezone.now().replace(second=0, microsecond=0) - timedelta(hours=9)

# R-134a boils at 20 °C at 572 kPa absolute (published property tables; from memory): 470 over the
# air, where the taken air presses with 101.
SOAKED = {"temperature": "20", "where": "places", "soaked": "yes"}
LIQUID = {"test_kind": "static_pressure", "low": "470", **SOAKED}
SOME = {"test_kind": "static_pressure", "low": "200"}
LITTLE = {"test_kind": "static_pressure", "low": "200", **SOAKED}
NONE = {"test_kind": "static_pressure", "low": "0", **SOAKED}
BELOW_AIR = {"test_kind": "static_pressure", "low": "-80", "low_why": "twice", **SOAKED}
VACUUM = {"test_kind": "vacuum_hold", "gauge": "system", "depth": "300"}
NEEDLE = {"test_kind": "vacuum_hold", "gauge": "needle", "needle": "29"}
CAME_BACK = {**NEEDLE, "needle_after": "came_back"}
NITROGEN = {"test_kind": "nitrogen_hold", "gas": "nitrogen", "start": "1000", "end": "990"}
RECOVERED = {"test_kind": "recovered_share", "recovered": "310"}
RUNNING = {
    "test_kind": "running_pressures", "low": "200", "high": "1300", "ambient": "28",
    "shaft": "yes",
}  # fmt: skip
AS_LABEL = {"test_kind": "gas_identity", "how": "instrument", "result": "as_label"}
SEARCH = {"test_kind": "leak_search", "method": "tracer", "pressure": "400", "front": "none"}
DEBRIS = {"test_kind": "debris", "expansion": "clean"}
OPENED, CLOSED = {"what": "opened"}, {"what": "closed"}
HOSE = {"what": "fitted", "part": "hose", "source": "new"}


@pytest.fixture
def job() -> Job:
    return make_job()


def moment(minutes: int) -> datetime:
    return START + timedelta(minutes=minutes)


def clock(minutes: int) -> str:
    """As it stands in the words."""
    local = timezone.localtime(moment(minutes))
    return f"{local.day} {local:%b %Y, %H:%M}"


def tell(job: Job, minutes: int, fields: dict[str, Any], **more: Any) -> Any:
    """An entry that happened so many minutes after the start; odd values stay with a reason."""
    kind = STEP if "test_kind" in fields else CHANGE
    typed = {"test_version": "1"} | fields if kind is STEP else fields
    told = make_told(typed, job_key=job.key, happened_at=moment(minutes), **more)
    outcome = enter(kind, told)
    assert outcome.stands, outcome.form and outcome.form.errors
    return told.key


def state(job: Job) -> LoopState:
    return loop_state(steps_of(job), standing(changes_of(job)))


def after(job: Job, *told: dict[str, Any]) -> LoopState:
    """The state after these, ten minutes apart."""
    for count, fields in enumerate(told):
        tell(job, 10 * count, fields)
    return state(job)


# One thing told.


def test_before_anything_was_read_or_done_it_is_not_looked_at(job):
    seen = state(job)
    assert (seen.code, seen.words, seen.run) == ("not_looked_at", "not looked at yet", "")
    assert seen.text.endswith("Whether it is tight, open or empty: not told yet.")


def test_a_test_of_something_else_tells_nothing_of_the_loop(job):
    seen = after(job, {"test_kind": "clutch_face", "face": "even"})
    assert seen.code == "not_looked_at"


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        (LIQUID, "pressure in it as a loop with liquid rests, seen {at}"),
        (SOME, "pressure in it, seen {at}"),
        (RUNNING, "pressure in it while it ran, seen {at}"),
    ],
)
def test_pressure_is_told_with_its_time_and_is_no_charge(job, fields, words):
    seen = after(job, fields)
    assert (seen.words, seen.run) == (words.format(at=clock(0)), "")
    assert seen.seen_at == moment(0)
    assert "How much is in it, and of what: not told by a pressure." in seen.not_told


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        (LITTLE, "pressure in it, less than a loop with liquid rests at, seen {at}"),
        (NONE, "no pressure seen, {at}"),
        (BELOW_AIR, "under vacuum by the gauge when last read, {at}"),
        (VACUUM, "under vacuum when last read, {at}"),
        (NEEDLE, "pumped on {at}, how deep is not told"),
        (CAME_BACK, "pumped down, and its pressure rose again, {at}"),
        (NITROGEN, "under dry nitrogen when last read, {at}"),
        (RECOVERED, "refrigerant recovered {at}"),
        (DEBRIS, "open when it was looked into, {at}, closing not noted"),
        (OPENED, "opened {at}, closing not noted"),
        (CLOSED, "closed or capped {at}, evacuating since not noted"),
        ({"what": "flushed", "part": "hose"},
         "taken as opened {at} (Hose or line: flushed), closing not noted"),
        (HOSE, "taken as opened {at} (Hose or line: fitted or swapped, new), closing not noted"),
    ],
)  # fmt: skip
def test_what_must_not_be_run_is_said_so(job, fields, words):
    seen = after(job, fields)
    assert seen.words == words.format(at=clock(0))
    assert seen.run.startswith("Must not be run: ")


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({**RUNNING, "low": "-20"}, "low side under the air’s pressure"),
        (
            {**RUNNING, "low": "20", "high": "60", "high_why": "twice"},
            "next to no pressure on the high side",
        ),
        (
            {**RUNNING, "shaft": "no", "low": "0", "high": "0", "high_why": "twice"},
            "no pressure seen",
        ),
    ],
)
def test_running_pressures_that_do_harm_are_told_as_such(job, fields, words):
    seen = after(job, fields)
    assert seen.words.startswith(words)
    assert seen.run.startswith("Must not be run: ")


def test_one_side_under_vacuum_must_not_be_run_whatever_the_other_shows(job):
    seen = after(job, LIQUID, {**BELOW_AIR, "high": "400"})
    assert seen.words.startswith("one side under vacuum by the gauge, the other not")
    assert seen.run.startswith("Must not be run: ")


def test_pressures_of_a_shaft_that_stood_are_read_as_at_rest(job):
    seen = after(job, {**RUNNING, "shaft": "no", "low": "400", "high": "400"})
    assert seen.words == f"pressure in it, seen {clock(0)}"


def test_a_low_side_alone_while_it_ran_tells_nothing_of_the_loop(job):
    only_low = {name: value for name, value in RUNNING.items() if name != "high"}
    assert after(job, only_low).code == "not_looked_at"


@pytest.mark.parametrize(
    ("gas", "words"),
    [
        ("tracer", "under tracer gas when last read"),
        ("air", "under air or oxygen when last read"),
        (None, "under a gas that was not told when last read"),
    ],
)
def test_what_was_put_in_for_a_hold_is_named_as_it_was_told(job, gas, words):
    held = {name: value for name, value in (NITROGEN | {"gas": gas}).items() if value}
    assert after(job, held).words.startswith(words)


def test_a_hold_whose_end_was_not_read_is_only_told_as_put_in(job):
    held = {name: value for name, value in NITROGEN.items() if name != "end"}
    assert after(job, held).words.startswith("dry nitrogen put in")


def test_a_hold_that_lost_its_gas_is_not_under_it(job):
    assert "next to no pressure left" in after(job, {**NITROGEN, "end": "10"}).words


def test_a_search_by_tracer_under_pressure_is_under_tracer_gas(job):
    assert after(job, SEARCH).words.startswith("under tracer gas when last read")


def test_a_search_under_pressure_is_a_pressure_seen(job):
    assert after(job, {**SEARCH, "method": "soap"}).words.startswith("pressure in it, seen")


@pytest.mark.parametrize(
    ("grams", "words"),
    [("5", "next to nothing came out at a recovery"), ("", "recovery entered")],
)
def test_a_recovery_is_told_by_what_came_out(job, grams, words):
    fields = {"test_kind": "recovered_share", "recovered": grams, "repeated": "yes", "seen": "hiss"}
    seen = after(job, fields)
    assert seen.words.startswith(words)
    assert seen.run.startswith("Must not be run: ")


@pytest.mark.parametrize("fields", [NONE, {**RECOVERED, "recovered": "0"}])
def test_a_loop_that_shows_nothing_may_be_full_behind_a_shut_valve(job, fields):
    assert "Whether the coupler opened the port’s valve: not told." in after(job, fields).not_told


def test_after_a_recovery_what_stayed_and_the_oil_are_not_told(job):
    not_told = after(job, RECOVERED).not_told
    assert "What stayed behind in it: not told." in not_told
    assert "Oil put back in: not noted; never run it without." in not_told


@pytest.mark.parametrize("fields", [LIQUID, RUNNING, VACUUM, NITROGEN, CLOSED])
def test_nothing_tells_that_it_is_tight(job, fields):
    assert "Tight: not told by this." in after(job, fields).not_told


@pytest.mark.parametrize(
    "fields",
    [
        {"test_kind": "vacuum_hold", "seen": "the pump is in use"},
        {"test_kind": "vacuum_hold", "not_done": "no_tool"},
        {**BELOW_AIR, "low": "-150", "low_why": "read twice"},
    ],
)
def test_what_was_not_read_or_cannot_be_tells_nothing(job, fields):
    assert after(job, fields).code == "not_looked_at"


@pytest.mark.parametrize(
    ("kind", "named"),
    [
        ("static_pressure", AT_REST),
        ("vacuum_hold", BY_VACUUM),
        ("running_pressures", NO_CHARGE_SHOWN),
    ],
)
def test_the_outcomes_it_goes_by_are_those_of_the_kind(kind, named):
    assert set(named) <= {outcome.code for outcome in KINDS[kind].outcomes}


def test_whatever_shows_no_pressure_must_not_be_run():
    assert set(HEADS) == {*SHOWS_PRESSURE, *FILLS, *MUST_NOT}
    assert not {*SHOWS_PRESSURE} & {*MUST_NOT}


# One after another.


def test_later_events_win_by_when_they_happened_not_by_when_they_arrived(job):
    tell(job, 20, VACUUM)
    tell(job, 0, LIQUID)
    tell(job, 10, OPENED)
    assert state(job).words == f"under vacuum when last read, {clock(20)}"


def test_a_pressure_before_an_opening_never_speaks_for_after_it(job):
    assert after(job, LIQUID, OPENED).words == f"opened {clock(10)}, closing not noted"


def test_a_reading_corrected_after_an_opening_is_still_one_from_before_it(job):
    first = tell(job, 0, SOME)
    tell(job, 10, OPENED)
    why = {"why_asked": "1", "corrected_why": "misread"}
    tell(job, 20, LIQUID | why, corrects=first)
    assert state(job).code == "opened"


def test_of_one_moment_the_change_comes_before_the_test(job):
    tell(job, 0, VACUUM)
    tell(job, 0, OPENED)
    assert state(job).code == "vacuum"


def test_it_stays_open_since_it_was_opened(job):
    seen = after(job, OPENED, HOSE, DEBRIS)
    assert seen.words == f"opened {clock(0)}, closing not noted"


def test_a_change_entered_by_mistake_did_nothing_to_the_loop(job):
    opened = tell(job, 0, OPENED)
    tell(job, 10, {"what": "nothing", "corrected_why": "wrong car"}, corrects=opened)
    assert state(job).code == "not_looked_at"


def test_a_closing_after_it_was_open_says_that_air_may_be_in_it(job):
    seen = after(job, OPENED, CLOSED)
    assert seen.words == f"closed or capped {clock(10)}, evacuating since not noted"
    assert "nothing since shows that air is out of it" in seen.run


def test_caps_put_on_a_loop_that_was_not_open_leave_its_state_and_ask_to_read_it(job):
    seen = after(job, LIQUID, CLOSED)
    assert seen.words.endswith(f"seen {clock(0)}")
    assert seen.run.startswith("Before it is run, read its pressure at rest: Loop closed or capped")


@pytest.mark.parametrize(
    "change",
    [{"what": "fitted", "part": "other"}, {"what": "other", "where": "by the firewall"},
     {"what": "adjusted", "part": "hose"}],
)  # fmt: skip
def test_where_nobody_told_whether_it_was_opened_its_pressure_is_asked_for(job, change):
    seen = after(job, LIQUID, change)
    assert seen.code == "liquid"
    assert seen.run.startswith("Before it is run, read its pressure at rest: ")
    assert clock(10) in seen.run


def test_a_pressure_read_after_such_a_change_answers_it(job):
    assert after(job, {"what": "other", "where": "firewall"}, LIQUID).run == ""


@pytest.mark.parametrize(
    "change",
    [{"what": "fuse"}, {"what": "fitted", "part": "relay"},
     {"what": "gap_set", "part": "compressor"}],
)  # fmt: skip
def test_a_change_outside_the_loop_leaves_it_as_it_was_seen(job, change):
    seen = after(job, LIQUID, change)
    assert (seen.code, seen.run) == ("liquid", "")


def test_pressure_after_an_opening_says_what_was_not_noted_between(job):
    seen = after(job, OPENED, CLOSED, LIQUID)
    assert seen.code == "liquid"
    assert f"Evacuated since it was open ({clock(0)}): not noted." in seen.not_told
    assert "Oil put back in: not noted; never run it without." in seen.not_told


def test_a_vacuum_read_after_an_opening_answers_whether_it_was_evacuated(job):
    not_told = after(job, OPENED, CLOSED, VACUUM, LIQUID).not_told
    assert not any(sentence.startswith("Evacuated") for sentence in not_told)


@pytest.mark.parametrize(
    ("before", "last"),
    [(RECOVERED, "recovered"), (VACUUM, "under vacuum"), (OPENED, "opened"), (NEEDLE, "pumped on")],
)
def test_some_pressure_after_the_charge_was_out_is_no_charge(job, before, last):
    seen = after(job, before, SOME)
    assert seen.words == f"pressure in it, seen {clock(10)}"
    sure = "Before it is run, make sure of its charge"
    assert seen.run == f"{sure}: {last} {clock(0)}; none is shown since."


@pytest.mark.parametrize("shown", [LIQUID, RUNNING])
def test_liquid_at_rest_or_usual_running_pressures_show_that_some_was_charged(job, shown):
    assert after(job, VACUUM, shown).run == ""


def test_both_sides_low_after_a_recovery_show_no_charge(job):
    seen = after(job, RECOVERED, {**RUNNING, "low": "50", "high": "400"})
    assert seen.run.startswith("Before it is run, make sure of its charge: recovered")


def test_nitrogen_is_in_it_until_something_tells_that_it_is_out(job):
    seen = after(job, NITROGEN, LIQUID)
    out = "nothing since tells that it is out"
    assert seen.run == f"Must not be run: dry nitrogen was put in, {clock(0)}, and {out}."


@pytest.mark.parametrize("out", [VACUUM, AS_LABEL, OPENED])
def test_a_vacuum_an_identified_gas_or_an_opening_tells_that_nitrogen_is_out(job, out):
    seen = after(job, NITROGEN, out, LIQUID)
    assert "nitrogen" not in seen.text
