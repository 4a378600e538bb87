"""Which points hold which ending: a golden table over jobs as they come, and who sees to it."""

from collections.abc import Callable
from typing import Any

import pytest

from diagnostics.closing import FALSE_BY, before_closing
from diagnostics.job_now import job_now
from jobs.entries import HANDOVER, SYSTEM, TAG, WAITING, WAITING_END
from jobs.logbook import REFUSED
from jobs.models.closing import ENDINGS
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, LIQUID, Told, stood
from tests.diagnostics.test_close import ANSWERS
from tests.diagnostics.test_gates import LOCKED, MIXED
from tests.diagnostics.test_loop_state import VACUUM
from tests.diagnostics.test_record import data_of

pytestmark = pytest.mark.django_db
FLAMMABLE = {**MIXED, "result": "flammable"}


def nothing(told: Told) -> None:
    """A car that was taken in."""


def looked_at(told: Told) -> None:
    """One test, which found nothing wrong."""
    told.test(HOLDS)


def failing(told: Told) -> None:
    """Tested while it failed."""
    told.failing("yes")
    told.test(COMES_NOT)


def repaired(told: Told) -> None:
    """The clutch was changed, and nothing was looked at since."""
    failing(told)
    told.change(**CLUTCH)


def verified(told: Told) -> None:
    """And tested again, with pressure in the loop, and it does not fail."""
    repaired(told)
    told.test(LIQUID)
    told.failing("no")
    told.test(HOLDS)


def found_again(told: Told) -> None:
    """Tested again, and found not to take hold."""
    repaired(told)
    told.test(LIQUID)
    told.failing("no")
    told.test(COMES_NOT)


def loop_open(told: Told) -> None:
    """Verified, and then the loop was opened."""
    verified(told)
    told.change(what="opened")


def seen(told: Told) -> None:
    """Somebody saw what the customer says."""
    told.test(SEEN)


def unplugged(told: Told) -> None:
    """Made safe."""
    looked_at(told)
    told.change(what="unplugged")


def locked(told: Told) -> None:
    """All as verified, but for a hub that was found locked."""
    told.test(LOCKED)
    verified(told)


def flammable(told: Told) -> None:
    """All as verified, but for a flammable gas that was found in it."""
    told.test(FLAMMABLE)
    verified(told)


def locked_and_adjusted(told: Told) -> None:
    """A hub found locked, and something adjusted since: nobody looked whether it turns now."""
    told.test(LOCKED)
    told.change(what="adjusted", where="hood latch")


def read_vacuum(told: Told) -> None:
    """Repaired, and under vacuum."""
    repaired(told)
    told.test(VACUUM)


def new_belt(told: Told) -> None:
    """An ordinary new belt, and nothing else."""
    looked_at(told)
    told.change(what="fitted", part="belt", source="new")


def under_vacuum(told: Told) -> None:
    """Verified, and then a vacuum was begun, and the car left with gauges and a tag on it."""
    verified(told)
    around(told)


def around(told: Told) -> None:
    """A vacuum timer, gauges on, a tag."""
    stood(told.tell(WAITING, what="vacuum", minutes="30"))
    stood(told.tell(HANDOVER, stands=["gauges_on", "vacuum"]))
    stood(told.tell(TAG, reasons=["vacuum"]))


SEEN = {"test_kind": "complaint_seen", "engages": "yes", "there": "yes"}
CASES: dict[str, Callable[[Told], None]] = {
    one.__name__: one
    for one in (
        *(nothing, looked_at, failing, repaired, verified, found_again, loop_open, seen, unplugged),
        *(locked, flammable, locked_and_adjusted, read_vacuum, new_belt, under_vacuum),
    )
}
# What holds, by case and ending; an ending that is not named is free.
HELD: dict[str, dict[str, set[str]]] = {
    "nothing": {
        "repaired_verified": {"nothing_repaired", "failing_not_told", "loop_not_ready"},
        "repaired_not_verifiable": {"nothing_repaired"},
        "tested_only": {"no_test"},
        "not_reproduced": {"no_test"},
        "as_designed": {"no_test", "nothing_read"},
        "made_safe": {"not_made_safe"},
    },
    "looked_at": {
        "repaired_verified": {"nothing_repaired", "failing_not_told", "loop_not_ready"},
        "repaired_not_verifiable": {"nothing_repaired"},
        "as_designed": {"nothing_read"},
        "made_safe": {"not_made_safe"},
    },
    "failing": {
        "repaired_verified": {"nothing_repaired", "failing", "loop_not_ready"},
        "repaired_not_verifiable": {"nothing_repaired"},
        "not_reproduced": {"failing", "failed_here"},
        "as_designed": {"nothing_read"},
        "made_safe": {"not_made_safe"},
    },
    "repaired": {
        "repaired_verified": {"not_tested_since", "failing_not_told", "loop_not_ready"},
        "as_designed": {"nothing_read"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here"},
        "made_safe": {"not_made_safe"},
    },
    "verified": {
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here"},
        "made_safe": {"not_made_safe"},
    },
    "found_again": {
        "repaired_verified": {"found_since"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here"},
        "made_safe": {"not_made_safe"},
    },
    "loop_open": {
        "repaired_verified": {"not_tested_since", "failing_not_told", "loop_not_ready"},
        "repaired_not_verifiable": {"must_not_run"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here", "must_not_run"},
        "as_designed": {"must_not_run"},
        "made_safe": {"not_made_safe"},
    },
    "under_vacuum": {
        "repaired_verified": {"loop_not_ready", "timer_runs"},
        "repaired_not_verifiable": {"timer_runs", "must_not_run"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here", "must_not_run"},
        "as_designed": {"must_not_run"},
        "made_safe": {"not_made_safe"},
    },
    "seen": {
        "repaired_verified": {"nothing_repaired", "failing_not_told", "loop_not_ready"},
        "repaired_not_verifiable": {"nothing_repaired"},
        "not_reproduced": {"seen_here"},
        "as_designed": {"nothing_read"},
        "made_safe": {"not_made_safe"},
    },
    "unplugged": {
        "as_designed": {"nothing_read"},
        "repaired_verified": {
            "nothing_repaired",
            "not_tested_since",
            "failing_not_told",
            "loop_not_ready",
        },
        "repaired_not_verifiable": {"nothing_repaired"},
    },
    "locked": {
        "repaired_verified": {"must_not_run"},
        "repaired_not_verifiable": {"must_not_run"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here", "must_not_run"},
        "as_designed": {"must_not_run"},
        "made_safe": {"not_made_safe"},
    },
    "flammable": {
        "repaired_verified": {"must_not_run"},
        "repaired_not_verifiable": {"must_not_run"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here", "must_not_run"},
        "as_designed": {"must_not_run"},
        "made_safe": {"not_made_safe"},
    },
    "locked_and_adjusted": {
        "repaired_verified": {
            "not_tested_since",
            "failing_not_told",
            "loop_not_ready",
            "must_not_run",
        },
        "repaired_not_verifiable": {"must_not_run"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"must_not_run"},
        "as_designed": {"must_not_run", "nothing_read"},
        "made_safe": {"not_made_safe"},
    },
    "read_vacuum": {
        "repaired_verified": {"not_tested_since", "failing_not_told", "loop_not_ready"},
        "repaired_not_verifiable": {"must_not_run"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here", "must_not_run"},
        "as_designed": {"must_not_run", "nothing_read"},
        "made_safe": {"not_made_safe"},
    },
    "new_belt": {
        "as_designed": {"nothing_read"},
        "repaired_verified": {"not_tested_since", "failing_not_told", "loop_not_ready"},
        "tested_only": {"something_repaired"},
    },
}


@pytest.mark.parametrize("case", CASES)
def test_what_holds_each_ending_is_what_would_make_it_untrue(case: str):
    told = Told()
    CASES[case](told)
    now = told.now
    held = {
        code: {point.code for point in before_closing(now, code) if point.in_the_way}
        for code in ENDINGS
    }
    assert {code: codes for code, codes in held.items() if codes} == HELD[case]


AROUND = {"loop_as_told", "timer_runs", "gauges_on", "tag_made"}


@pytest.mark.parametrize("code", ENDINGS)
def test_what_is_still_around_the_car_is_a_point_before_every_ending(code: str):
    told = Told()
    around(told)
    assert {point.code for point in before_closing(told.now, code)} >= AROUND


def test_what_is_still_around_the_car_is_printed_for_the_customer():
    told = Told()
    around(told)
    data = data_of(told.again)
    assert {point["code"] for point in data["open_points"]} >= AROUND
    assert "under vacuum" in " ".join(point["text"] for point in data["open_points"])


def test_a_timer_that_was_ended_and_gauges_told_off_are_no_points():
    told = Told()
    timer = stood(told.tell(WAITING, what="vacuum", minutes="30"))
    stood(told.tell(HANDOVER, stands=["gauges_on"]))
    stood(told.tell(WAITING_END, waiting=str(timer.key)))
    stood(told.tell(HANDOVER, stands=["hood_open"]))
    assert not {"timer_runs", "gauges_on"} & {point.code for point in told.now.points}


def test_under_vacuum_as_told_it_is_closed_with_a_tag_only():
    told = Told()
    told.test(HOLDS)
    around(told)
    answers: dict[str, Any] = ANSWERS["released_unfinished"]
    outcome = told.close("released_unfinished", **answers)
    assert outcome.state == REFUSED
    assert "it may be under vacuum: pumped on as told by" in outcome.why
    stood(told.close("released_unfinished", **answers, tag="yes"))


def test_not_reproduced_names_the_step_in_which_it_was_seen():
    told = Told()
    seen(told)
    [held] = [one for one in before_closing(told.now, "not_reproduced") if one.in_the_way]
    assert held.sentence == "Step 1, Complaint seen: what the customer says was there."


def test_every_ending_has_its_line_and_every_line_an_ending():
    assert set(FALSE_BY) == set(ENDINGS)


@pytest.mark.parametrize("case", [case for case in CASES if case != "verified"])
def test_nobody_closes_as_repaired_and_verified_what_was_not(case: str):
    told = Told()
    CASES[case](told)
    outcome = told.close("repaired_verified")
    assert outcome.state == REFUSED
    assert told.again.stage != "closed"


def test_what_would_make_the_sentence_untrue_cannot_be_waived():
    told = Told()
    repaired(told)
    told.test(LIQUID)
    told.failing("no")
    assert told.waive("not_tested_since").stands
    held = [one for one in before_closing(told.now, "repaired_verified") if one.in_the_way]
    assert [one.code for one in held] == ["not_tested_since"]
    assert told.close("repaired_verified").state == REFUSED


def test_a_test_that_must_not_stand_holds_what_rests_on_tests_until_it_is_waived():
    told = Told()
    told.test(HOLDS)
    told.tell(SYSTEM, drive="electric_hv")
    held = [one.code for one in before_closing(told.now, "tested_only") if one.in_the_way]
    assert held == ["barred"]
    assert told.close("tested_only").state == REFUSED
    told.waive("barred", "Made before anybody saw the orange cables.")
    assert told.close("tested_only").stands


def test_what_must_not_be_run_cannot_be_waived():
    told = Told()
    locked(told)
    held = [one for one in before_closing(told.now, "repaired_verified") if one.in_the_way]
    assert [one.can_be_waived for one in held] == [False]
    assert "the hub does not turn freely" in told.close("repaired_verified").why


def test_a_new_belt_alone_makes_no_car_safe():
    told = Told()
    new_belt(told)
    said: dict[str, Any] = {"tag": "yes", "told_how": "in_person"}
    outcome = told.close("made_safe", safe_by=["unplugged"], **said)
    assert outcome.state == REFUSED
    assert "a new belt makes nothing safe" in outcome.why
    stood(told.close("made_safe", safe_by=["short_belt"], **said))


def test_a_test_that_found_something_carries_no_working_as_designed():
    told = Told()
    told.test(COMES_NOT)
    outcome = told.close("as_designed", air="41", carried_by=["1"])
    assert outcome.state == REFUSED
    assert "Step 1, Power straight at the coil, does not carry it" in outcome.why
    told.test(LIQUID)
    stood(told.close("as_designed", air="41", carried_by=["2"]))


def test_an_ending_says_what_it_does_not_say():
    for ending in ENDINGS.values():
        assert ending.sentence.endswith(".")
        assert ending.not_said.endswith(".")
        assert "%" not in ending.sentence + ending.not_said
        assert "defective" not in ending.sentence


def test_queries_do_not_grow_with_what_was_told(django_assert_max_num_queries):
    told = Told()
    for _ in range(8):
        told.test(HOLDS)
    job = told.again
    with django_assert_max_num_queries(21):
        now = job_now(job)
    with django_assert_max_num_queries(0):
        for code in ENDINGS:
            before_closing(now, code)
