"""The evaporator's sensor: beside what is measured, and against this vehicle's figure only."""

import pytest

from tests.evidence.trial import Trial, standing, subjects

SENSOR = Trial("evaporator_sensor")
SOAKED = {"still": "soaked"}

PATTERNS = [
    (SOAKED | {"shown": "3", "beside": "22"}, "too_cold"),
    (SOAKED | {"shown": "30", "beside": "22"}, "too_warm"),
    ({"ohm": "2000", "figure": "3000"}, "outside"),
    ({"iced": "yes"}, "iced"),
    ({"refused": "yes", "beside": "3", "shown": "3", "still": "steady"}, "refused_cold"),
    (SOAKED | {"shown": "22", "beside": "22"}, "agrees"),
    ({"ohm": "3000", "figure": "3000"}, "inside"),
    (SOAKED | {"shown": "17", "beside": "22"}, "cannot_tell"),
    ({"still": "changing", "shown": "3", "beside": "22"}, "cannot_tell"),
    ({"shown": "3"}, "nothing_told"),
    ({"ohm": "3000"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert SENSOR.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in SENSOR.kind.outcomes}


# Mistakes: a refusal called a fault; a part judged without the vehicle's own figure.


def test_a_refusal_in_the_cold_is_a_finding_not_a_fault():
    result = SENSOR.meaning({}, refused="yes", beside="3", shown="3", still="steady")
    assert "a finding, not a fault" in result.outcome.sentence
    assert subjects(result, "likely") == ["Kept off by the cold"]


def test_without_this_vehicles_figure_a_resistance_is_recorded_and_not_judged():
    result = SENSOR.meaning({}, ohm="3000")
    assert not result.outcome.carries
    assert any("recorded, not judged" in one for one in result.outcome.not_tested)


def test_a_sensor_that_tells_too_cold_points_at_itself():
    result = SENSOR.meaning({}, **SOAKED, shown="3", beside="22", refused="yes")
    assert standing(result, "Evaporator’s sensor") == "likely"


def test_ice_is_seen_and_why_stays_open():
    result = SENSOR.meaning({}, iced="yes")
    assert standing(result, "Evaporator iced") == "proved"
    assert standing(result, "Why it ices") == "open"


def test_what_changed_while_it_was_read_is_held_against_nothing():
    result = SENSOR.meaning({}, still="changing", shown="3", beside="22")
    assert subjects(result, "likely", "proved", "ruled_out") == []
    assert any("changing while it was read" in note for note in result.notes)


def test_ice_in_a_warm_soaked_car_is_asked_about():
    assert list(SENSOR.asks({}, **SOAKED, iced="yes", beside="25")) == ["iced"]
