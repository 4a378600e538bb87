"""A car before and after a change: what a test still says, and what it said of an old part."""

import random
from dataclasses import replace

import pytest

from diagnostics.evidence.changed import DONE, FITTED
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.states import NEW_PARTS, Changed, touched
from diagnostics.evidence.inference.told import Test as Made
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import MOST_CELLS, Verdict
from tests.evidence.inference.cars import (
    BIGGEST,
    CLUTCHED,
    made,
    made_at_random,
    one_made,
    verdict_on,
)

EVERY_CHANGE = {**FITTED, **DONE}
GAP = made(("coil_power", "holds_when_pushed"), ("air_gap", "far_wide"), ("clutch_face", "clean"))


def shares(verdict: Verdict, variable: str) -> dict[str, float]:
    return {
        one.code: one.share
        for one in verdict.stands
        if one.variable == variable and one.code != "not_ok"
    }


@pytest.mark.parametrize("name", EVERY_CHANGE)
def test_what_a_change_does_not_touch_stays_exactly_as_it_stood(name):
    change = EVERY_CHANGE[name]
    tests = made_at_random(random.Random(name))
    before, after = verdict_on(tests, BIGGEST), verdict_on(tests, BIGGEST, [change])
    moved = touched(model_of(BIGGEST), change)
    for one, two in zip(before.stands, after.stands, strict=True):
        if one.variable not in moved:
            assert two.share == pytest.approx(one.share, abs=1e-12)
            assert two.standing == one.standing


CAR = model_of(CLUTCHED)


def elsewhere(kind: str) -> Changed | None:
    """A change that touches nothing that a kind of test looks at."""
    given = {*TABLES[kind].rows.given}
    changes = (FITTED["cabin_filter"], FITTED["belt"], FITTED["fan"])
    return next((one for one in changes if not {*touched(CAR, one)} & given), None)


@pytest.mark.parametrize("kind", [kind for kind in TABLES if elsewhere(kind)])
def test_a_test_made_again_after_a_change_elsewhere_is_a_repeat(kind):
    """Else the same slip, or the same blind spot, would count once for each change."""
    change = elsewhere(kind) or {}
    outcome = TABLES[kind].outcomes[0]
    once = [one_made(kind, outcome, number) for number in (1, 2, 3)]
    between = [one_made(kind, outcome, number, state=number - 1) for number in (1, 2, 3)]
    one = verdict_on(once, CLUTCHED, [change, change])
    two = verdict_on(between, CLUTCHED, [change, change])
    assert [each.share for each in one.stands] == [each.share for each in two.stands]


def test_a_new_part_begins_as_a_new_part_whatever_was_found_of_the_old_one():
    after = verdict_on(GAP, CLUTCHED, [FITTED["clutch"]])
    found = shares(after, "clutch")
    for code, share in NEW_PARTS["clutch"].items():
        assert found[code] == pytest.approx(share, abs=1e-12), code


def test_a_new_clutch_has_its_gap_set_wrong_sooner_than_a_worn_face():
    """Gap the new part before it is fitted: a trade article."""
    after = verdict_on([one_made("air_gap", "far_wide", 1, state=1)], CLUTCHED, [FITTED["clutch"]])
    assert after.of("clutch", "gap_wide").share > 5 * after.of("clutch", "worn").share


def test_nothing_of_a_new_part_is_settled_by_tests_of_the_old_one():
    after = verdict_on(GAP, CLUTCHED, [FITTED["clutch"]])
    settled = [one for one in after.stands if one.standing in ("proved", "ruled_out")]
    assert "clutch" not in {one.variable for one in settled}


def test_an_old_shaft_that_was_turned_says_nothing_of_a_new_compressor():
    tests = made(("hub_turn", "free"), ("running_pressures", "inside"))
    after = verdict_on(tests, CLUTCHED, [FITTED["compressor"]])
    assert after.of("mechanics", "locked").standing == "open"
    assert after.of("mechanics", "ok").standing != "proved"


def test_a_test_of_the_new_part_is_weighed_on_the_new_part_only():
    tests = [*GAP, one_made("coil_power", "takes_hold", 9, state=1)]
    after = verdict_on(tests, CLUTCHED, [FITTED["clutch"]])
    assert after.of("clutch", "ok").standing == "proved"
    assert after.disagree == ()


def test_a_gap_that_was_set_is_mostly_cured_and_a_coil_that_was_open_is_still_open():
    gap = verdict_on(GAP, CLUTCHED)
    set_right = verdict_on(GAP, CLUTCHED, [DONE["gap_set"]])
    wide = gap.of("clutch", "gap_wide").share
    assert set_right.of("clutch", "gap_wide").share == pytest.approx(0.03 * wide, abs=0.002)
    coil = made(("coil_resistance", "open"), ("coil_power", "no_current"))
    after = verdict_on(coil, CLUTCHED, [DONE["gap_set"]])
    still = after.of("clutch", "coil_open").share + after.of("clutch", "melt_open").share
    assert still > 0.98


def test_a_loop_that_was_emptied_and_filled_by_weight_is_filled():
    low = made(("recovered_share", "far_low"))
    after = verdict_on(low, CLUTCHED, [DONE["recovered"], DONE["evacuated"], DONE["charged"]])
    assert 0.85 < after.of("amount", "ok").share < 0.955  # what leaked before may go on leaking
    assert after.of("amount", "ok").standing == "open"  # no test has looked at it since


def test_water_that_boils_off_while_it_is_pumped_is_still_in_it():
    """A pump dries a loop slowly, so having pumped says less than how the vacuum rises."""
    tests = [one_made("oil_condition", "moist", 1), one_made("vacuum_hold", "moisture", 2, state=1)]
    found = verdict_on(tests, CLUTCHED, [DONE["evacuated"]])
    assert found.of("dirt", "moisture").standing == "likely"


def test_a_leak_stays_a_leak_when_the_loop_is_filled():
    tests = made(("leak_search", TABLES["leak_search"].outcomes[0]), ("recovered_share", "far_low"))
    before = verdict_on(tests, CLUTCHED)
    after = verdict_on(tests, CLUTCHED, [DONE["charged"]])
    leaks = before.of("tightness", "leaks").share
    assert after.of("tightness", "leaks").share == pytest.approx(leaks, abs=1e-12)


def test_a_loop_that_leaked_and_is_low_again_after_it_was_filled_is_low():
    """A comeback: what was weighed out now goes before what was weighed in then."""
    low = [
        *made(("recovered_share", "far_low")),
        one_made("recovered_share", "clearly_low", 2, state=1),
    ]
    after = verdict_on(low, CLUTCHED, [DONE["charged"]])
    assert after.of("amount", "low").standing == "likely"


def test_what_was_refused_rightly_is_asked_anew_when_the_loop_is_filled():
    tests = made(("command_data", "refused_low"), ("static_pressure", "empty"))
    before = verdict_on(tests, CLUTCHED)
    after = verdict_on(tests, CLUTCHED, [DONE["charged"]])
    assert before.of("command", "refused_low").share > 0.9
    assert after.of("command", "refused_low").share < 0.05
    assert after.of("command", "ok").share > 0.9


def test_a_relay_that_does_not_close_stays_so_when_the_loop_is_filled():
    tests = made(("relay", "swap_cures"), ("feed_voltage", "no_voltage"))
    before = verdict_on(tests, CLUTCHED).of("command", "relay_open").share
    after = verdict_on(tests, CLUTCHED, [DONE["charged"]]).of("command", "relay_open").share
    assert after == pytest.approx(before, abs=0.01)
    assert before > 0.5


def test_a_change_on_a_part_that_the_car_has_not_changes_nothing():
    electric: System = {"drive": "electric_hv", "displacement": "speed", "branches": ["front"]}
    tests = made_at_random(random.Random(4))
    one = verdict_on(tests, electric)
    two = verdict_on(tests, electric, [FITTED["belt"]])
    assert [each.share for each in one.stands] == [each.share for each in two.stands]


def many_changes(states: int) -> tuple[list[Made], list[Changed]]:
    """A car whose loop was opened and filled again and again, and everything tested in between."""
    changes = [DONE["charged"], DONE["gap_set"], DONE["recovered"], FITTED["compressor"]]
    dice = random.Random(states)
    tests = [
        replace(one, number=100 * state + at, state=state)
        for state in range(states + 1)
        for at, one in enumerate(made_at_random(dice))
    ]
    return tests, [changes[at % len(changes)] for at in range(states)]


@pytest.mark.parametrize("states", [3, 5, 10])
def test_a_car_changed_many_times_is_weighed_within_what_a_shop_s_computer_has(states):
    tests, changes = many_changes(states)
    weighed = verdict_on(tests, BIGGEST, changes).weighed
    assert weighed.now.tree.cells(weighed.now.sizes) <= MOST_CELLS


def test_what_is_left_out_for_that_is_told_and_is_of_what_was_changed_since():
    tests, changes = many_changes(10)
    found = verdict_on(tests, BIGGEST, changes)
    weighed = {number for told in found.weighed.told for number in told.steps}
    assert found.too_old
    assert not found.too_old & weighed
    assert not [one for one in tests if one.state == 10 and one.number in found.too_old]
    assert not verdict_on(made_at_random(random.Random(1)), BIGGEST).too_old
