"""Which points hold which ending: a golden table over jobs as they come, and who sees to it."""

from collections.abc import Callable

import pytest

from diagnostics.closing import FALSE_BY, before_closing
from diagnostics.job_now import job_now
from jobs.entries import SYSTEM
from jobs.logbook import REFUSED
from jobs.models.closing import ENDINGS
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, LIQUID, Told

pytestmark = pytest.mark.django_db


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


SEEN = {"test_kind": "complaint_seen", "engages": "yes", "there": "yes"}
CASES: dict[str, Callable[[Told], None]] = {
    one.__name__: one
    for one in (
        *(nothing, looked_at, failing, repaired, verified, found_again, loop_open, seen, unplugged),
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
        "repaired_not_verifiable": {"loop_open"},
        "tested_only": {"something_repaired"},
        "not_reproduced": {"failed_here"},
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
    with django_assert_max_num_queries(9):
        now = job_now(job)
    with django_assert_max_num_queries(0):
        for code in ENDINGS:
            before_closing(now, code)
