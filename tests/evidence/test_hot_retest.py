"""The same test cold and hot: good cold and bad hot is a pattern. Trade articles."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

HOT = Trial("hot_retest")
WARM = {"minutes": "20", "bay": "80", "test": "takes_hold"}

PATTERNS = [
    (WARM | {"hot": "quits", "cold": "works"}, "quits_hot"),
    (WARM | {"hot": "at_times", "cold": "works"}, "at_times"),
    (WARM | {"hot": "quits"}, "quits"),
    (WARM | {"hot": "quits", "cold": "not"}, "dead_both"),
    (WARM | {"hot": "works", "cold": "not"}, "only_hot"),
    (WARM | {"hot": "works", "cold": "works"}, "not_made_to_quit"),
    ({"hot": "works", "cold": "works"}, "nothing_told"),
    ({"hot": "works", "minutes": "0"}, "nothing_told"),
    ({"hot": "works", "cold": "works", "minutes": "4"}, "nothing_told"),
    ({"hot": "works", "cold": "works", "minutes": "30", "bay": "25"}, "nothing_told"),
    ({"hot": "quits", "cold": "works"}, "nothing_told"),
    ({"hot": "quits", "cold": "not"}, "nothing_told"),
    ({"hot": "quits"}, "nothing_told"),
    ({"hot": "at_times", "cold": "works"}, "nothing_told"),
    ({"hot": "quits", "cold": "works", "minutes": "4"}, "early"),
    ({"hot": "quits", "minutes": "4"}, "early"),
    ({"hot": "quits", "cold": "not", "minutes": "4"}, "early"),
    ({"hot": "at_times", "cold": "works", "minutes": "30", "bay": "49"}, "early"),
    ({"hot": "at_times", "cold": "works", "minutes": "10"}, "at_times"),
    ({"hot": "at_times", "cold": "works", "bay": "122 °F"}, "at_times"),
    ({"hot": "quits", "cold": "works", "bay": "80"}, "quits_hot"),
    (WARM, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_pair_has_its_outcome(typed, outcome):
    assert HOT.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in HOT.kind.outcomes}


# Mistake: good cold and bad hot called a contradiction.


def test_good_cold_and_bad_hot_is_a_pattern_and_asks_nothing():
    typed = WARM | {"hot": "quits", "cold": "works"}
    assert HOT.asks({}, **typed) == {}
    result = HOT.meaning({}, **typed)
    assert "no contradiction" in " ".join(mark.sentence for mark in result.outcome.marks)
    assert standing(result, "What the heat opens") == "open"
    assert subjects(result, "likely") == []


def test_works_hot_says_nothing_while_how_warm_it_was_is_not_told():
    result = HOT.meaning({}, **HOT.fine)
    assert result.outcome.sentence == "It works, but how warm it was is not told."
    assert not result.outcome.carries


def test_what_could_not_be_made_to_quit_settles_no_complaint():
    result = HOT.meaning({}, **WARM | HOT.fine)
    assert standing(result, "The complaint") == "open"
    assert not HOT.meaning({}, failing="no", **WARM | HOT.fine).outcome.carries


def test_which_test_was_repeated_is_named_as_missing():
    missing = HOT.meaning({}, hot="quits", test="other").outcome.not_tested
    assert "Which test was repeated: not told." in missing


def test_it_is_run_only_once_the_hub_and_the_pressure_were_looked_at():
    assert HOT.kind.orders == ("hub_first", "charge_first")


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48"])
def test_a_clutch_that_takes_hold_where_there_is_none_is_asked_about(drive):
    assert list(HOT.asks({"drive": drive}, hot="quits", test="takes_hold")) == ["test"]
    assert HOT.asks({"drive": "belt_clutch"}, hot="quits", test="takes_hold") == {}


def test_the_coil_of_a_valve_can_be_measured_hot_where_there_is_no_clutch():
    assert HOT.asks({"drive": "belt_clutchless"}, hot="works", test="resistance") == {}
    assert list(HOT.asks({"drive": "electric_hv"}, test="resistance")) == ["test"]


def test_another_test_is_named_only_where_another_was_repeated():
    assert list(HOT.asks({}, hot="quits", test="voltage", which="fan")) == ["which"]


@pytest.mark.parametrize("hot", ["quits", "at_times"])
def test_nothing_is_measured_at_a_plug_where_a_motor_turns_it(hot):
    words = HOT.words(
        {"drive": "electric_hv"}, **WARM | {"test": "pressures"}, hot=hot, cold="works"
    )
    assert "scan data" in words
    for part in ("at the plug", "wiggle", "coil"):
        assert part not in words


@pytest.mark.parametrize("hot", ["quits", "at_times", "works"])
def test_nothing_is_made_of_a_hot_test_while_how_warm_it_was_is_not_told(hot):
    result = HOT.meaning({}, hot=hot, cold="works", test="takes_hold")
    assert result.outcome.sentence.endswith("but how warm it was is not told.")
    assert not result.outcome.carries
    assert result.outcome.marks == ()


def test_what_quits_before_it_is_hot_does_not_show_heat_as_its_cause():
    result = HOT.meaning({}, hot="quits", cold="works", minutes="4")
    assert standing(result, "Heat") == "open"
    assert subjects(result, "proved") == ["Quits before it is hot"]


@pytest.mark.parametrize("cold", ["works", "not", ""])
@pytest.mark.parametrize("hot", ["quits", "at_times"])
def test_what_fails_before_it_is_hot_is_never_said_to_fail_when_hot(hot, cold):
    sentence = HOT.meaning({}, hot=hot, cold=cold, minutes="4").outcome.sentence
    assert sentence.endswith("less warm than we take for hot.")
    assert "when hot" not in sentence


def test_what_it_takes_for_hot_is_said_to_be_our_judgement():
    """No published limit is known: from memory."""
    for hot in ("works", "quits", "at_times"):
        band = HOT.meaning({}, **WARM | {"hot": hot, "cold": "works"}).band
        assert "10\u00a0min" in band
        assert "50\u00a0°C" in band
        assert "our judgement" in band
    assert "our judgement" in HOT.asks({}, hot="works", minutes="1")["minutes"][0]
    assert "our judgement" in HOT.asks({}, hot="works", bay="10")["bay"][0]


def test_how_long_and_how_warm_it_ran_stands_before_the_sentence():
    lead = HOT.meaning({}, **WARM | HOT.fine).lead
    assert lead == "20\u00a0min run, engine bay 80\u00a0°C."


@pytest.mark.parametrize("warm", [{"minutes": "4"}, {"minutes": "30", "bay": "25"}])
def test_less_than_hot_is_named_as_not_tested(warm):
    missing = HOT.meaning({}, hot="at_times", cold="works", **warm).outcome.not_tested
    assert any(one.startswith("Hot, as we take it") for one in missing)
    full = HOT.meaning({}, **WARM | {"hot": "at_times"}).outcome.not_tested
    assert not any(one.startswith("Hot, as we take it") for one in full)


@pytest.mark.parametrize("hot", ["quits", "at_times"])
@pytest.mark.parametrize("minutes", ["20", "4"])
@pytest.mark.parametrize("system", [{}, {"drive": "belt_electric"}])
def test_nobody_is_sent_to_a_plug_while_how_it_is_driven_is_not_noted(system, minutes, hot):
    typed = {"hot": hot, "cold": "works", "minutes": minutes}
    onward = HOT.meaning(system, **typed).onward
    assert "look first" in onward[0]
    assert not any("plug" in one or "coil" in one for one in onward)


def test_a_clutch_that_quits_hot_is_measured_hot_at_its_plug():
    (onward,) = HOT.meaning({"drive": "belt_clutch"}, **WARM, hot="quits", cold="works").onward
    assert "voltage at the plug" in onward


def test_without_a_clutch_the_control_valve_is_what_is_measured_hot():
    typed = WARM | {"test": "pressures", "hot": "quits", "cold": "works"}
    (onward,) = HOT.meaning({"drive": "belt_clutchless"}, **typed).onward
    assert "control valve’s command and current" in onward


def test_beside_a_motor_only_the_clutchs_own_plug_is_measured_hot():
    system: System = {"drive": "belt_electric", "clutch": "magnetic"}
    (onward,) = HOT.meaning(system, **WARM, hot="quits", cold="works").onward
    assert "magnetic clutch’s own plug" in onward


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48", ""])
def test_no_gap_is_named_for_what_works_hot_only_where_no_clutch_is_known_to_be(drive):
    typed = WARM | {"test": "pressures", "hot": "works", "cold": "not"}
    assert not any("gap" in one for one in HOT.meaning({"drive": drive}, **typed).onward)


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48", "belt_electric", ""])
def test_an_electric_or_unknown_drive_is_warned_of(drive):
    assert HOT.kind.remarks_for({"drive": drive})
