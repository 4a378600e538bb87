"""The hub turned by hand: what each feel tells, and what it never tells.

How a hub feels: common practice, no source. The sheared damper of a clutchless one: trade articles.
"""

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.orders import ORDERS, Made
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects, words_of

HUB = Trial("hub_turn")
FIXED: System = {"drive": "belt_clutch", "displacement": "fixed"}
VARIABLE: System = {"drive": "belt_clutch", "displacement": "variable_inner"}
CLUTCHLESS: System = {"drive": "belt_clutchless", "displacement": "variable_outer"}

PATTERNS: list[tuple[System, dict[str, str], str]] = [
    (FIXED, {"turns": "free"}, "free"),
    (VARIABLE, {"turns": "no_resistance"}, "free_no_resistance"),
    ({}, {"turns": "no_resistance"}, "free_no_resistance"),
    (FIXED, {"turns": "no_resistance"}, "broken_inside"),
    (FIXED, {"turns": "rough"}, "rough"),
    (FIXED, {"turns": "locked"}, "locked"),
    (FIXED, {"turns": "frees_backwards"}, "frees_backwards"),
    (CLUTCHLESS, {"drive": "stands"}, "drive_broken"),
    (CLUTCHLESS, {"drive": "stands", "turns": "free"}, "drive_broken"),
    (CLUTCHLESS, {"drive": "stands", "turns": "locked"}, "locked"),
    (CLUTCHLESS, {"drive": "along"}, "nothing_told"),
    (FIXED, {"warmth": "cold"}, "nothing_told"),
]


@pytest.mark.parametrize(("system", "typed", "outcome"), PATTERNS)
def test_each_feel_has_its_outcome(system, typed, outcome):
    assert HUB.code(system, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for *_rest, outcome in PATTERNS} == {one.code for one in HUB.kind.outcomes}


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_it_is_barred_where_there_is_no_hub_and_says_nothing_there(drive):
    assert HUB.kind.forbids({"drive": drive})
    assert HUB.code({"drive": drive}, turns="locked") == "nothing_told"


def test_a_hub_that_was_turned_behind_a_broken_drive_is_not_asked_to_be_turned_again():
    assert "Turn the hub itself" in HUB.meaning(CLUTCHLESS, drive="stands").onward[0]
    onward = HUB.meaning(CLUTCHLESS, drive="stands", turns="free").onward
    assert onward == ("Look for metal at the expansion device before parts are ordered.",)


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless", "belt_electric", ""])
def test_it_is_offered_wherever_there_may_be_a_hub(drive):
    assert HUB.kind.forbids({"drive": drive}) is None


def test_whether_the_hub_goes_along_is_asked_only_where_no_clutch_parts_them():
    assert list(asked_on(HUB.kind, FIXED)) == ["turns", "warmth"]
    assert "drive" in asked_on(HUB.kind, CLUTCHLESS)


@pytest.mark.parametrize(
    "system",
    [FIXED, {}, {"drive": "belt_electric"}, {"drive": "belt_electric", "clutch": "magnetic"}],
)
def test_a_hub_that_stands_still_proves_no_broken_drive_where_a_clutch_may_let_go(system):
    result = HUB.meaning(system, drive="stands")
    assert subjects(result, "proved", "likely") == []
    assert result.outcome.code == "nothing_told"
    assert STOP_DRIVING not in result.notes


def test_a_hub_that_stands_still_is_explained_where_the_drive_is_not_noted():
    assert "How this one is driven is not noted." in HUB.words({}, drive="stands")
    magnetic: System = {"drive": "belt_electric", "clutch": "magnetic"}
    assert "so it should be" in HUB.words(magnetic, drive="stands")


def test_a_hub_that_stands_still_is_asked_about_on_a_car_with_a_clutch():
    assert list(HUB.asks(FIXED, drive="stands")) == ["drive"]
    assert HUB.asks(CLUTCHLESS, drive="stands") == {}


def test_a_free_hub_does_not_say_that_it_pumps():
    result = HUB.meaning(FIXED, turns="free")
    assert standing(result, "Compressor locked") == "ruled_out"
    assert "Whether it pumps: not tested by hand." in result.outcome.not_tested


def test_a_hub_free_cold_leaves_hot_untested():
    line = "Turned hot or under load: not tested."
    assert line in HUB.meaning(FIXED, turns="free", warmth="cold").outcome.not_tested
    assert line not in HUB.meaning(FIXED, turns="free", warmth="hot").outcome.not_tested


def test_no_resistance_is_broken_inside_only_on_a_fixed_compressor():
    assert standing(HUB.meaning(FIXED, turns="no_resistance"), "Compressor broken") == "likely"
    assert standing(HUB.meaning(VARIABLE, turns="no_resistance"), "Compressor broken") == "open"
    assert "is not noted" in HUB.words({}, turns="no_resistance")


def test_a_sheared_drive_points_at_a_locked_compressor_until_the_hub_was_turned():
    result = HUB.meaning(CLUTCHLESS, drive="stands")
    assert standing(result, "Drive broken") == "proved"
    assert standing(result, "Compressor locked") == "likely"
    assert subjects(HUB.meaning(CLUTCHLESS, drive="stands", turns="free"), "likely") == []


@pytest.mark.parametrize("typed", [{"turns": "locked"}, {"turns": "rough"}])
def test_a_harmed_compressor_tells_the_customer_to_stop_driving(typed):
    assert STOP_DRIVING in HUB.meaning(FIXED, **typed).notes
    assert STOP_DRIVING not in HUB.meaning(FIXED, turns="free").notes


@pytest.mark.parametrize("turns", ["free", "no_resistance", "frees_backwards", "locked", ""])
def test_a_broken_drive_stops_the_driving_however_the_hub_turns(turns):
    assert STOP_DRIVING in HUB.meaning(CLUTCHLESS, drive="stands", turns=turns).notes


def test_a_locked_hub_is_not_yet_a_locked_compressor():
    assert "a plate stuck to the pulley" in HUB.words(FIXED, turns="locked")
    assert subjects(HUB.meaning(FIXED, turns="locked"), "proved") == []


def test_one_that_frees_backwards_is_turned_ten_times_before_it_is_run():
    assert "ten turns" in HUB.meaning(FIXED, turns="frees_backwards").onward[0]


def test_only_a_hub_that_may_be_run_opens_the_running_tests():
    order = ORDERS["hub_first"]
    opens = {
        one.code
        for one in HUB.kind.outcomes
        if order.is_kept([Made("hub_turn", one.code)], {"drive": "belt_clutch"})
    }
    assert opens == {"free", "free_no_resistance"}
    for code in ("rough", "locked", "frees_backwards", "broken_inside", "drive_broken"):
        made = [Made("hub_turn", "free"), Made("hub_turn", code)]
        assert not order.is_kept(made, {"drive": "belt_clutch"})


def test_a_free_hub_of_a_car_that_is_not_failing_carries_nothing():
    assert not HUB.meaning(FIXED, failing="no", turns="free").outcome.carries
    assert HUB.meaning(FIXED, failing="no", turns="locked").outcome.carries


def test_an_answer_from_another_page_is_told_and_used_for_nothing():
    result = HUB.meaning(FIXED, turns="wobbly")
    assert result.outcome.code == "nothing_told"
    assert any("wobbly" in text for text in words_of(result))


def test_fine_is_a_free_hub_and_at_odds_with_nothing():
    assert HUB.code(FIXED, **HUB.fine) == "free"


def test_it_warns_of_an_engine_that_starts_by_itself():
    assert any("start by itself" in caution for caution in HUB.kind.cautions)


def test_a_compressor_without_a_clutch_has_no_plate_to_look_at():
    onward = HUB.meaning({"drive": "belt_clutchless"}, turns="locked").onward
    assert not any("plate" in text for text in onward)
