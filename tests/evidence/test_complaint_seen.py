"""The complaint as the technician sees it: one moment, and nothing about why. Common practice."""

import pytest

from diagnostics.evidence.cautions import HIGH_VOLTAGE
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects

SEEN = Trial("complaint_seen")
CAR: System = {"drive": "belt_clutch"}

PATTERNS = [
    ({"engages": "no"}, "not_engaging"),
    ({"engages": "no", "there": "no"}, "not_engaging"),
    ({"engages": "at_times"}, "at_times"),
    ({"engages": "yes", "there": "yes"}, "seen_engages"),
    ({"there": "yes"}, "seen"),
    ({"engages": "yes", "there": "hot"}, "only_then"),
    ({"there": "rain"}, "only_then"),
    ({"engages": "yes", "blower": "no"}, "blower_dead"),
    ({"engages": "yes", "there": "no"}, "not_now"),
    ({"engages": "yes"}, "engages"),
    ({"cold": "yes"}, "nothing_told"),
    ({"engages": "cannot_tell"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert SEEN.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in SEEN.kind.outcomes}


def test_what_is_seen_is_shown_and_why_stays_open():
    result = SEEN.meaning(CAR, engages="no")
    assert standing(result, "Compressor does not engage") == "proved"
    assert standing(result, "Why") == "open"
    assert subjects(result, "likely") == []


def test_a_complaint_that_is_not_there_now_settles_nothing():
    result = SEEN.meaning(CAR, **SEEN.fine)
    assert result.outcome.code == "not_now"
    assert standing(result, "What the customer says") == "open"
    assert "bring that about" in result.onward[0]


def test_good_cold_and_bad_hot_is_no_contradiction():
    assert SEEN.asks(CAR, engages="yes", there="hot") == {}
    assert "only when hot" in SEEN.words(CAR, engages="yes", there="hot")


def test_a_plate_that_turns_though_it_does_not_engage_is_asked_about():
    assert list(SEEN.asks(CAR, engages="no", plate="yes")) == ["plate"]
    assert SEEN.code(CAR, engages="no", plate="yes") == "nothing_told"


def test_a_plate_that_stands_though_it_engages_is_asked_about_where_only_a_belt_turns_it():
    assert list(SEEN.asks(CAR, engages="yes", plate="no")) == ["plate"]
    assert SEEN.asks({"drive": "belt_electric"}, engages="yes", plate="no") == {}


def test_cold_air_from_a_dead_blower_is_asked_about():
    assert list(SEEN.asks(CAR, blower="no", cold="yes")) == ["cold"]


def test_it_says_what_is_never_run_before_it_is_switched_on():
    assert any("Never run it locked" in one for one in SEEN.kind.cautions)


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48", "belt_clutchless"])
def test_click_and_plate_are_asked_only_where_there_can_be_a_clutch(drive):
    assert not {"click", "plate"} & asked_on(SEEN.kind, {"drive": drive}).keys()
    assert {"click", "plate"} <= asked_on(SEEN.kind, CAR).keys()


def test_what_was_not_told_is_named():
    missing = " ".join(SEEN.meaning(CAR, engages="yes").outcome.not_tested)
    for words in ("Whether the complaint is there now", "Blower", "cold at all"):
        assert words in missing


@pytest.mark.parametrize("engages", ["no", "at_times"])
def test_nothing_is_turned_or_measured_by_hand_where_a_motor_turns_it(engages):
    onward = " ".join(SEEN.meaning({"drive": "electric_hv"}, engages=engages).onward)
    assert "scan data" in onward
    assert "by hand" not in onward
    assert "plug" not in onward


@pytest.mark.parametrize("drive", ["belt_clutch", ""])
def test_cold_air_though_the_compressor_does_not_engage_is_asked_about(drive):
    told = {"engages": "no", "cold": "yes", "blower": "yes"}
    assert list(SEEN.asks({"drive": drive}, **told)) == ["cold"]
    assert SEEN.code({"drive": drive}, **told) == "nothing_told"


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48"])
def test_cold_air_without_engaging_is_not_asked_about_where_no_clutch_engages(drive):
    assert SEEN.asks({"drive": drive}, engages="no", cold="yes") == {}


def test_cold_air_is_not_asked_about_where_a_motor_can_turn_it_beside_its_clutch():
    assert SEEN.asks({"drive": "belt_electric"}, engages="no", cold="yes") == {}


def test_high_voltage_is_minded_on_an_electric_compressor():
    for drive in ("electric_hv", "belt_electric"):
        assert SEEN.kind.remarks_for({"drive": drive}) == (HIGH_VOLTAGE,)
    assert SEEN.kind.remarks_for(CAR) == ()
