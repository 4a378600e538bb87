"""The air inside: felt at the vents; how cold it is this step does not tell. Common practice."""

import re

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects, words_of

AIR = Trial("cabin_airflow")

PATTERNS = [
    ({"flow": "none"}, "no_air"),
    ({"blower": "none"}, "no_air"),
    ({"flow": "weak", "fades": "yes"}, "ices"),
    ({"flow": "weak", "filter": "blocked"}, "filter"),
    ({"flow": "weak"}, "weak"),
    ({"flow": "weak", "filter": "clean"}, "weak"),
    ({"flow": "some"}, "some"),
    ({"flow": "strong", "blower": "some"}, "steps"),
    ({"flow": "strong", "rear": "weak"}, "rear"),
    (AIR.fine, "strong"),
    (AIR.fine | {"filter": "blocked"}, "strong_filter"),
    (AIR.fine | {"filter": "dirty"}, "strong_filter"),
    ({"filter": "dirty"}, "nothing_told"),
    ({"drain": "inside"}, "nothing_told"),
]
REAR: System = {"branches": ["front", "rear"]}


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert AIR.code(REAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in AIR.kind.outcomes}


def test_weak_air_is_felt_and_why_stays_open():
    result = AIR.meaning({}, flow="weak")
    assert standing(result, "Little air inside") == "proved"
    assert standing(result, "Why it is weak") == "open"


def test_air_that_comes_back_after_a_rest_points_at_ice():
    assert standing(AIR.meaning({}, flow="weak", fades="yes"), "Evaporator iced") == "likely"


def test_strong_air_says_nothing_of_cold():
    result = AIR.meaning({}, **AIR.fine)
    assert subjects(result, "ruled_out") == ["Too little air inside"]
    assert "How cold the air is: not told by this step." in result.outcome.not_tested


def test_water_inside_and_a_sweet_smell_are_told_beside_the_rest():
    result = AIR.meaning({}, **AIR.fine, drain="inside", smell="sweet")
    assert standing(result, "Drain blocked") == "likely"
    assert standing(result, "Heater leaks coolant") == "likely"


def test_a_burnt_smell_stops_the_blower_first():
    assert "switch the blower off" in AIR.meaning({}, **AIR.fine, smell="burnt").notes[0]


def test_air_from_a_blower_that_does_not_turn_is_asked_about():
    assert list(AIR.asks({}, blower="none", flow="strong")) == ["blower"]
    assert AIR.code({}, blower="none", flow="strong") == "nothing_told"


def test_the_rear_unit_is_asked_about_only_where_there_is_one():
    assert "rear" in asked_on(AIR.kind, REAR)
    assert "rear" not in asked_on(AIR.kind, {"branches": ["front"]})


def test_airbags_are_warned_of():
    assert any("Airbags" in one for one in AIR.kind.cautions)


@pytest.mark.parametrize(
    "typed",
    [
        {"filter": "blocked"},
        {"filter": "clean"},
        {"blower": "none"},
        {"blower": "none", "filter": "blocked"},
        {"blower": "some"},
        {"drain": "inside"},
        {"smell": "sweet"},
    ],
    ids=str,
)
def test_no_air_is_said_to_be_felt_where_nothing_was_told_of_it(typed):
    result = AIR.meaning({}, **typed)
    assert not any(re.search(r"\bfelt\b", text) for text in words_of(result))
    assert not [mark for mark in result.outcome.marks if mark.subject == "Little air inside"]


def test_a_blower_that_stands_is_not_told_as_no_air_and_no_air_not_as_a_blower():
    assert AIR.meaning({}, blower="none").outcome.sentence == "The blower does not turn."
    assert AIR.meaning({}, flow="none").outcome.sentence == "No air comes at the vents."


def test_a_clogged_filter_is_told_beside_strong_air():
    result = AIR.meaning({}, **AIR.fine | {"filter": "blocked"})
    assert standing(result, "Cabin filter clogged, wet") == "proved"
    assert standing(result, "Too little air inside") == "ruled_out"
    assert "filter" in result.outcome.sentence
    assert not AIR.kind.is_normal(result.outcome.code)


@pytest.mark.parametrize(
    "typed",
    [
        {"flow": "none"},
        {"flow": "weak", "fades": "yes"},
        {"flow": "some"},
        {"flow": "strong", "blower": "some"},
        {"flow": "strong", "rear": "weak"},
    ],
    ids=str,
)
def test_a_clogged_filter_is_told_beside_whatever_else_was_found(typed):
    result = AIR.meaning(REAR, **typed, filter="dirty")
    assert standing(result, "Cabin filter dirty") == "proved"


def test_weak_air_that_fades_is_felt_too():
    assert standing(AIR.meaning({}, flow="weak", fades="yes"), "Little air inside") == "proved"


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"filter": "blocked"}, "Cabin filter: clogged, wet."),
        ({"drain": "inside"}, "Water from the drain: wet inside."),
        ({"smell": "sweet"}, "Smells of: sweet, foggy."),
    ],
)
def test_what_was_seen_is_said_though_the_air_was_not_told(typed, words):
    assert any(words in note for note in AIR.meaning({}, **typed).notes)
