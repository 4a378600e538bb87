"""Air doors and heater: what pinching the hoses shows, and which part no vent tells."""

import pytest

from tests.evidence.trial import Trial, standing, subjects

DOORS = Trial("air_doors")
FOLLOW = DOORS.fine

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
    assert standing(DOORS.meaning({}, pinched="no"), "Heater warming") == "ruled_out"


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
