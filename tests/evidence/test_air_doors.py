"""Air doors and heater: what pinching the hoses shows, and which part no vent tells."""

import pytest

from tests.evidence.trial import Trial, standing, subjects

DOORS = Trial("air_doors")
FOLLOW = DOORS.fine
WARM = {"warmth": "warm"}
COLD = {"warmth": "cold"}

PATTERNS = [
    ({"pinched": "yes"}, "heater"),
    ({"before": "18", "after": "9"}, "heater"),
    (FOLLOW | {"blend": "no"}, "blend_stays"),
    (FOLLOW | {"mode": "no"}, "other_stays"),
    (FOLLOW | {"sides": "left"}, "sides_differ"),
    ({"pinched": "no"}, "not_heater"),
    ({"before": "9", "after": "9"}, "not_heater"),
    (FOLLOW, "follow"),
    ({"blend": "yes"}, "nothing_told"),
    ({"before": "18"}, "nothing_told"),
    (COLD | {"pinched": "yes"}, "nothing_told"),
    (COLD | {"pinched": "no"}, "nothing_told"),
    (COLD | {"before": "18", "after": "9"}, "nothing_told"),
    (COLD | {"blend": "no"}, "nothing_told"),
    (COLD | {"mode": "no"}, "other_stays"),
    (COLD | FOLLOW | {"pinched": "no"}, "follow"),
    ({"pinched": "not_tried", "before": "18", "after": "9"}, "nothing_told"),
    (FOLLOW | {"pinched": "not_tried", "before": "18", "after": "9"}, "follow"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_try_has_its_outcome(typed, outcome):
    assert DOORS.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in DOORS.kind.outcomes}


def test_colder_with_the_hoses_pinched_points_at_the_heater_and_names_no_actuator():
    result = DOORS.meaning({}, pinched="yes")
    assert standing(result, "Heater’s valve") == "likely"
    for typed, _outcome in PATTERNS:
        marks = DOORS.meaning({}, **typed).outcome.marks
        assert not any("actuator" in mark.subject.lower() for mark in marks)
        assert subjects(DOORS.meaning({}, **typed), "proved") == []


def test_no_colder_rules_out_the_heater_at_this_setting_only():
    assert standing(DOORS.meaning({}, pinched="no", **WARM), "Heater warming") == "ruled_out"


def test_without_the_engines_warmth_no_heater_is_ruled_out_and_no_door_blamed():
    assert standing(DOORS.meaning({}, pinched="no"), "Heater warming") == "open"
    assert standing(DOORS.meaning({}, blend="no"), "A door that does not follow") == "open"
    assert standing(DOORS.meaning({}, blend="no", **WARM), "A door that does not") == "likely"
    assert standing(DOORS.meaning({}, mode="no"), "A door that does not follow") == "likely"


@pytest.mark.parametrize(
    "typed",
    [
        {"pinched": "yes"},
        {"pinched": "no"},
        {"before": "18", "after": "9"},
        {"blend": "no"},
        FOLLOW | {"pinched": "no"},
        FOLLOW | {"mode": "no", "pinched": "yes", "blend": "no"},
    ],
    ids=str,
)
def test_a_cold_engine_tells_nothing_of_heat_that_leaks_in(typed):
    result = DOORS.meaning({}, **COLD, **typed)
    assert not [mark for mark in result.outcome.marks if "eat" in mark.subject]
    assert any("cold engine" in line for line in result.outcome.not_tested)


def test_with_a_cold_engine_one_side_warmer_is_no_door_that_leaks_heat():
    (mark,) = DOORS.meaning({}, **COLD, **FOLLOW | {"sides": "left"}).outcome.marks
    assert mark.standing == "open"
    assert "engine was cold" in mark.sentence


def test_a_cold_engine_is_run_warm_first():
    result = DOORS.meaning({}, **COLD, pinched="no")
    assert "engine was cold" in result.outcome.sentence
    assert "warm" in result.onward[0]
    follow = DOORS.meaning({}, **COLD, **FOLLOW)
    assert "warm" in follow.onward[0]


def test_a_temperature_with_hoses_that_were_not_pinched_is_asked_about_and_not_used():
    typed = FOLLOW | {"pinched": "not_tried", "before": "18", "after": "9"}
    assert list(DOORS.asks({}, **typed)) == ["after"]
    result = DOORS.meaning({}, **typed)
    assert "Heater’s hoses pinched: not tried." in result.outcome.not_tested
    assert not [value for value in result.values if value.about == "after"]


def test_a_vent_that_turned_warmer_is_not_said_to_be_untried():
    result = DOORS.meaning({}, **WARM, before="9", after="18")
    assert "Heater’s hoses pinched: not tried." not in result.outcome.not_tested
    assert any("turned warmer" in line for line in result.outcome.not_tested)


def test_one_side_warmer_can_be_the_charge():
    result = DOORS.meaning({}, **FOLLOW | {"sides": "right"})
    assert standing(result, "One side warmer") == "open"
    assert "weigh it before a door is named" in result.onward[0]


@pytest.mark.parametrize(
    "typed",
    [
        {"pinched": "yes", "before": "9", "after": "18"},
        {"pinched": "no", "before": "18", "after": "9"},
    ],
)
def test_a_tap_against_the_two_temperatures_is_asked_about(typed):
    assert list(DOORS.asks({}, **typed)) == ["after"]
    assert DOORS.code({}, **typed) == "nothing_told"


def test_hot_coolant_is_warned_of_and_a_heat_pump_is_not_pinched():
    assert "Hot coolant" in DOORS.kind.cautions[0]
    assert any("nothing is" in one for one in DOORS.kind.remarks_for({"drive": "electric_hv"}))


def test_where_the_engines_warmth_was_not_told_it_is_run_warm_before_the_loop_is_measured():
    assert "engine warm" in DOORS.meaning({}, pinched="no").onward[0]
    told = DOORS.meaning({}, pinched="no", **WARM)
    assert told.onward == ("Measure at the vent and along the loop.",)
