"""The condenser's face: any condenser gives off more when wet: a falling pressure says little."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

FACE = Trial("condenser_face")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
WATER = {"dry": "1800", "wet": "1300"}

PATTERNS = [
    ({"dirt": "much"}, "blocked"),
    ({"between": "much", "colder": "yes"}, "blocked"),
    ({"colder": "yes"}, "colder_wet"),
    ({"bent": "some"}, "some"),
    ({"guides": "gaps"}, "some"),
    (WATER, "falls_wet"),
    (WATER | {"colder": "no"}, "no_colder"),
    (FACE.fine, "clear"),
    (FACE.fine | {"oily": "some"}, "oily"),
    ({"oily": "much"}, "oily"),
    ({"oily": "no"}, "nothing_told"),
    ({"dry": "1800", "wet": "1795"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert FACE.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in FACE.kind.outcomes}


def test_a_pressure_that_falls_when_wet_points_at_nothing_by_itself():
    result = FACE.meaning(CAR, **WATER)
    assert subjects(result, "likely", "proved") == []
    assert "any condenser gives off more when it is wet" in " ".join(
        mark.sentence for mark in result.outcome.marks
    )
    (fall,) = [value for value in result.values if value.words.startswith("Falls when wet")]
    assert fall.shown == "500\u00a0kPa"


def test_vents_that_turn_colder_point_at_too_little_air():
    assert standing(FACE.meaning(CAR, colder="yes"), "Air through the condenser") == "likely"


def test_a_clear_face_does_not_clear_the_air_through_it():
    result = FACE.meaning(CAR, **FACE.fine)
    assert standing(result, "Air through the condenser") == "open"
    assert "Tubes blocked inside: not seen from outside." in result.outcome.not_tested
    assert any("between it and the radiator" in one for one in result.outcome.not_tested)


def test_oily_spots_are_a_place_to_search_and_no_leak_yet():
    result = FACE.meaning(CAR, oily="some")
    assert "Oily spots: search there for a leak." in result.notes
    assert not any("leak" in subject.lower() for subject in subjects(result, "proved", "likely"))


@pytest.mark.parametrize("typed", [{}, {"dirt": "much"}, {"colder": "yes"}, FACE.fine])
def test_oil_outside_is_a_place_to_look_at_whatever_else_was_seen(typed):
    # Common practice, no source.
    result = FACE.meaning(CAR, **typed | {"oily": "some"})
    assert standing(result, "Leak at the condenser") == "open"
    clean = FACE.meaning(CAR, **typed | {"oily": "no"})
    assert not any("Leak" in mark.subject for mark in clean.outcome.marks)


def test_oil_alone_points_at_no_fault_of_the_air():
    result = FACE.meaning(CAR, oily="much")
    assert subjects(result, "likely", "proved") == []
    assert "Oily spots" in result.outcome.sentence


def test_a_wet_side_that_stands_higher_is_asked_about():
    assert list(FACE.asks(CAR, dry="1300", wet="1800")) == ["wet"]


def test_a_wet_side_a_little_higher_is_called_a_rise_and_shown_without_a_minus():
    result = FACE.meaning(CAR, dry="1800", wet="1810")
    (rise,) = [value for value in result.values if "when wet" in value.words]
    assert rise.words.startswith("Rises when wet")
    assert rise.shown == "10\u00a0kPa"
    assert FACE.asks(CAR, dry="1800", wet="1810") == {}
    assert any("no more than one gauge scatters" in note for note in result.notes)


def test_water_is_kept_off_exhaust_belts_plugs_and_orange_cables():
    assert "never on a hot exhaust, belts or plugs" in FACE.kind.cautions[0]
    assert any("No water near orange" in one for one in FACE.kind.remarks_for(
        {"drive": "electric_hv"}
    ))  # fmt: skip


def test_only_the_water_test_has_to_wait_for_gas_hub_and_pressure():
    assert FACE.kind.orders_broken(FACE.readings(dry="1800"), [], CAR)
    assert not FACE.kind.orders_broken(FACE.readings(dirt="no"), [], CAR)


def test_oil_on_it_is_nothing_in_the_way_of_the_air():
    result = FACE.meaning(CAR, **FACE.fine | {"oily": "much"})
    assert subjects(result, "proved") == []
    assert "Clean it" not in " ".join(result.onward)
