"""The evaporator's sensor: beside what is measured, and against this vehicle's figure only."""

import pytest

from diagnostics.record.readings import shown_meaning
from tests.evidence.trial import Trial, standing, subjects

SENSOR = Trial("evaporator_sensor")
SOAKED = {"still": "soaked"}

PATTERNS = [
    (SOAKED | {"shown": "3", "beside": "22"}, "too_cold"),
    (SOAKED | {"shown": "30", "beside": "22"}, "too_warm"),
    ({"ohm": "2000", "figure": "3000"}, "outside"),
    ({"iced": "seen"}, "iced"),
    ({"iced": "fades"}, "may_ice"),
    ({"refused": "yes", "beside": "3", "shown": "3", "still": "steady"}, "refused_cold"),
    (SOAKED | {"shown": "22", "beside": "22"}, "agrees"),
    ({"ohm": "3000", "figure": "3000"}, "inside"),
    (SOAKED | {"shown": "17", "beside": "22"}, "cannot_tell"),
    (SOAKED | {"shown": "17", "beside": "22", "ohm": "3000", "figure": "3000"}, "cannot_tell"),
    (SOAKED | {"shown": "22", "beside": "22", "ohm": "2720", "figure": "3000"}, "cannot_tell"),
    ({"still": "changing", "ohm": "2000", "figure": "3000"}, "cannot_tell"),
    ({"still": "changing", "shown": "3", "beside": "22"}, "cannot_tell"),
    ({"shown": "3"}, "nothing_told"),
    ({"ohm": "3000"}, "nothing_told"),
    ({"refused": "yes", "beside": "3", "still": "steady"}, "nothing_told"),
    ({"refused": "yes", "beside": "4", "shown": "0", "still": "steady"}, "cannot_tell"),
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
    result = SENSOR.meaning({}, iced="seen")
    assert standing(result, "Evaporator iced") == "proved"
    assert standing(result, "Why it ices") == "open"


def test_fading_air_that_comes_back_is_a_suspicion_of_ice_and_not_ice_seen():
    result = SENSOR.meaning({}, iced="fades")
    assert standing(result, "Evaporator iced") == "likely"
    assert subjects(result, "proved") == []
    assert "not seen" in result.outcome.sentence


@pytest.mark.parametrize(("told", "stands"), [("seen", "proved"), ("fades", "likely")])
def test_ice_is_told_beside_a_sensor_that_tells_too_warm(told, stands):
    result = SENSOR.meaning({}, still="steady", shown="9", beside="0", iced=told)
    assert standing(result, "Evaporator’s sensor") == "likely"
    assert standing(result, "Evaporator iced") == stands


def test_what_changed_while_it_was_read_is_held_against_nothing():
    result = SENSOR.meaning({}, still="changing", shown="3", beside="22")
    assert subjects(result, "likely", "proved", "ruled_out") == []
    assert any("changing while it was read" in note for note in result.notes)


def test_ice_in_a_warm_soaked_car_is_asked_about():
    assert list(SENSOR.asks({}, **SOAKED, iced="seen", beside="25")) == ["iced"]


def test_air_that_faded_before_is_not_at_odds_with_a_car_soaked_since():
    assert not SENSOR.asks({}, **SOAKED, iced="fades", beside="25")


@pytest.mark.parametrize("ohm", ["3000", "2000"])
def test_the_tolerance_of_the_vehicles_figure_is_said_to_be_our_judgement(ohm):
    result = SENSOR.meaning({}, ohm=ohm, figure="3000")
    assert "10\u00a0% (our judgement)" in result.band
    assert "(our judgement)" in result.outcome.sentence
    assert all("our judgement" in mark.sentence for mark in result.outcome.marks)
    figure = SENSOR.kind.asked("figure")
    assert figure is not None
    assert "our judgement" in figure.hint


def test_the_tolerance_stands_on_the_record_too():
    shown = shown_meaning(SENSOR.meaning({}, ohm="3000", figure="3000"))
    assert "our judgement" in shown.source


def test_a_refusal_by_a_sensor_that_was_not_read_is_told_and_blames_no_cold():
    result = SENSOR.meaning({}, refused="yes", beside="3", still="steady")
    assert result.outcome.marks == ()
    assert any("keeps the compressor off" in note for note in result.notes)


def test_what_counts_as_cold_there_is_said_to_be_our_judgement():
    result = SENSOR.meaning({}, refused="yes", beside="3", shown="3", still="steady")
    assert "5\u00a0°C counts as cold there (our judgement)" in result.band


@pytest.mark.parametrize(
    "typed",
    [
        {"shown": "17", "beside": "22", "ohm": "3000", "figure": "3000", **SOAKED},
        {"shown": "22", "beside": "22"},
        {"still": "changing", "ohm": "3000", "figure": "3000"},
        {"ohm": "3000", "figure": "3 kΩ"},
    ],
    ids=["apart cannot tell", "steady not told", "changing", "figure too coarse"],
)
def test_the_sensor_is_not_ruled_out_by_what_cannot_tell(typed):
    assert standing(SENSOR.meaning({}, **typed), "Evaporator’s sensor") == "open"


def test_what_both_were_held_against_is_one_sentence():
    band = SENSOR.meaning({}, **SOAKED, shown="22", beside="22", ohm="3000", figure="3000").band
    assert band.startswith("Apart by more than 5")
    assert "; resistance is held" in band


def test_two_temperatures_whose_steadiness_is_not_told_name_no_sensor():
    result = SENSOR.meaning({}, shown="5", beside="15")
    assert result.outcome.code == "cannot_tell"
    assert any("not told" in note for note in result.notes)
    assert SENSOR.code({}, shown="5", beside="15", still="soaked") == "too_cold"
