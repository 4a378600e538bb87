"""The pulley's bearing: felt with the belt off, heard with A/C off.

A noise that is there with A/C off comes from pulley or belt drive: trade articles. Otherwise common
practice, no source.
"""

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

PULLEY = Trial("pulley_bearing")
BELT: System = {"drive": "belt_clutch"}
CLUTCHLESS: System = {"drive": "belt_clutchless"}

PATTERNS: list[tuple[System, dict[str, str], str]] = [
    (BELT, {"by_hand": "smooth", "play": "none"}, "smooth"),
    (BELT, {"by_hand": "smooth"}, "smooth"),
    (BELT, {"by_hand": "smooth", "play": "play"}, "play"),
    (BELT, {"by_hand": "rough"}, "rough"),
    (BELT, {"by_hand": "noisy", "running": "noise"}, "noisy"),
    (BELT, {"running": "noise"}, "noise_running"),
    (BELT, {"by_hand": "smooth", "running": "noise"}, "noise_running"),
    (BELT, {"by_hand": "smooth", "grease": "seen"}, "grease"),
    (BELT, {"by_hand": "rough", "belt": "on"}, "not_parted"),
    (CLUTCHLESS, {"by_hand": "rough"}, "not_parted"),
    (CLUTCHLESS, {"running": "noise"}, "not_parted"),
    ({"drive": "belt_electric", "clutch": "none"}, {"running": "noise"}, "not_parted"),
    (BELT, {"by_hand": "smooth", "belt": "on"}, "nothing_told"),
    (BELT, {"running": "quiet"}, "nothing_told"),
]


@pytest.mark.parametrize(("system", "typed", "outcome"), PATTERNS)
def test_each_feel_has_its_outcome(system, typed, outcome):
    assert PULLEY.code(system, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for *_rest, outcome in PATTERNS} == {one.code for one in PULLEY.kind.outcomes}


@pytest.mark.parametrize("feel", ["rough", "noisy"])
def test_what_the_hand_feels_is_shown_and_the_bearing_only_pointed_at(feel):
    result = PULLEY.meaning(BELT, by_hand=feel)
    assert standing(result, "Pulley rough or noisy") == "proved"
    assert standing(result, "Pulley’s bearing") == "likely"
    assert any("Measure the air gap" in one for one in result.onward)


def test_a_noise_with_ac_off_is_the_pulleys_or_the_belt_drives():
    result = PULLEY.meaning(BELT, running="noise")
    assert standing(result, "Pulley’s bearing") == "likely"
    assert "idler and tensioner" in PULLEY.words(BELT, running="noise")
    assert "even with A/C off" in result.outcome.sentence


def test_without_a_clutch_noise_is_not_parted_and_points_at_nothing():
    result = PULLEY.meaning(CLUTCHLESS, running="noise")
    assert subjects(result, "likely", "proved") == []
    assert any("turns the shaft along" in one for one in PULLEY.kind.remarks_for(CLUTCHLESS))


def test_with_the_belt_on_nothing_is_said_of_the_bearing_alone():
    result = PULLEY.meaning(BELT, by_hand="smooth", belt="on")
    assert not result.outcome.carries
    assert any("belt off: not done" in one for one in result.outcome.not_tested)


@pytest.mark.parametrize(
    "typed", [{"play": "play"}, {"by_hand": "rough"}, {"running": "noise"}, {"by_hand": "noisy"}]
)
def test_a_bearing_that_may_seize_tells_the_customer_to_stop_driving(typed):
    assert STOP_DRIVING in PULLEY.meaning(BELT, **typed).notes
    assert STOP_DRIVING not in PULLEY.meaning(BELT, by_hand="smooth").notes


def test_a_good_pulley_does_not_clear_the_compressor_and_names_what_was_not_tried():
    result = PULLEY.meaning(BELT, by_hand="smooth")
    assert standing(result, "Compressor’s inside") == "open"
    assert "Rocked by hand: not told." in result.outcome.not_tested
    assert "Heard running, A/C off: not told." in result.outcome.not_tested


def test_smooth_by_hand_and_noisy_running_sends_to_the_belt_drive():
    notes = PULLEY.meaning(BELT, by_hand="smooth", running="noise").notes
    assert any("idler and tensioner are looked at first" in note for note in notes)


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_it_is_barred_where_no_belt_is_and_says_nothing_there(drive):
    assert PULLEY.kind.forbids({"drive": drive})
    assert not PULLEY.meaning({"drive": drive}, by_hand="rough").outcome.carries


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless", "belt_electric", ""])
def test_it_is_offered_wherever_a_belt_turns_a_pulley(drive):
    assert PULLEY.kind.forbids({"drive": drive}) is None


def test_fine_is_smooth_without_play():
    assert PULLEY.code(BELT, **PULLEY.fine) == "smooth"
    assert not PULLEY.meaning(BELT, failing="no", **PULLEY.fine).outcome.carries


def test_it_is_listened_to_with_ac_off_only():
    assert any("A/C off only" in caution for caution in PULLEY.kind.cautions)
