"""A leak search: what none found does not say, and what dye does not say.

Settings of 4, 7 and 14 g a year: SAE J2791 and J2913 (trade articles). At least 340 kPa for a
search by detector: SAE J1628, from memory; our judgement. Else common practice.
"""

import pytest

from diagnostics.evidence.leak_places import PLACES
from diagnostics.evidence.orders import ORDERS, Made
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects, words_of

SEARCH = Trial("leak_search")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a", "branches": ["front"]}
SWEEP = {"method": "electronic", "setting": "g7", "pressure": "400"}
LAMP = {"method": "dye", "in_oil": "yes"}
CLEAN = {one.name: "clean" for one in PLACES if one.name not in ("rear", "battery")}

PATTERNS = [
    (SWEEP | CLEAN, "none_found"),
    (LAMP | CLEAN, "none_found"),
    (SWEEP | CLEAN | {"evaporator": "no_reach"}, "part_searched"),
    (SWEEP | {"nose": "clean"}, "part_searched"),
    (SWEEP | CLEAN | {"condenser": "found"}, "found"),
    (SWEEP | {"condenser": "found", "again": "not_done"}, "found"),
    ({"condenser": "found"}, "found"),
    (LAMP | {"condenser": "found", "again": "came_back"}, "found_again"),
    (LAMP | {"condenser": "found", "again": "stayed_away"}, "suspect"),
    (LAMP, "nothing_told"),
    (LAMP | {"in_oil": "no"} | CLEAN, "nothing_told"),
    ({"method": "dye"} | CLEAN, "nothing_told"),
    (CLEAN, "nothing_told"),
    ({"method": "soap"} | CLEAN, "nothing_told"),
    (SWEEP | CLEAN | {"pressure": "5"}, "nothing_told"),
    (SWEEP | CLEAN | {"pressure": "20"}, "nothing_told"),
    (SWEEP | CLEAN | {"pressure": "50"}, "nothing_told"),
    (SWEEP | CLEAN | {"pressure": "300"}, "nothing_told"),
    (SWEEP | CLEAN | {"method": "soap", "setting": "", "pressure": "50"}, "nothing_told"),
    (SWEEP | CLEAN | {"method": "tracer", "setting": "", "pressure": "50"}, "nothing_told"),
    (SWEEP | CLEAN | {"pressure": "340"}, "none_found"),
    (LAMP | CLEAN | {"pressure": "50"}, "none_found"),
    (SWEEP | CLEAN | {"pressure": "50", "nose": "found"}, "found"),
    (SWEEP, "nothing_told"),
    ({"again": "came_back"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_search_has_its_outcome(typed, outcome):
    assert SEARCH.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in SEARCH.kind.outcomes}


@pytest.mark.parametrize("typed", [SWEEP | CLEAN, LAMP | CLEAN, SWEEP | {"nose": "clean"}])
def test_none_found_never_clears_the_loop(typed):
    result = SEARCH.meaning(CAR, **typed)
    assert subjects(result, "ruled_out") == []
    assert standing(result, "A leak") == "open"
    words = " ".join(words_of(result)).lower()
    assert "does not say that the loop is tight" in words
    assert not any(claim in words for claim in ("no leak", "leak-free", "leak free"))


def test_none_found_is_told_at_the_setting_used():
    result = SEARCH.meaning(CAR, **SWEEP, **CLEAN)
    assert "set to 7\u00a0g a year" in result.outcome.sentence
    assert "smaller than 7\u00a0g a year" in result.outcome.marks[0].sentence


def test_a_setting_that_was_not_told_is_named():
    told = SEARCH.meaning(CAR, **SWEEP | {"setting": "not_known"}, **CLEAN).outcome.not_tested
    assert "The detector’s setting: not told." in told


@pytest.mark.parametrize("pressure", ["", "0", "-50"])
def test_without_pressure_in_the_loop_a_silent_detector_tells_nothing(pressure):
    result = SEARCH.meaning(CAR, **SWEEP | {"pressure": pressure}, **CLEAN)
    assert not result.outcome.carries
    assert "pressure" in result.outcome.sentence


def test_what_is_found_is_found_whatever_the_pressure():
    assert SEARCH.code(CAR, **SWEEP | {"pressure": ""}, nose="found") == "found"


def test_dye_in_the_oil_alone_is_no_leak():
    result = SEARCH.meaning(CAR, **LAMP)
    assert not result.outcome.carries
    assert result.outcome.marks == ()
    assert any("dyed at the factory" in note for note in result.notes)
    with_clean = SEARCH.meaning(CAR, **LAMP, **CLEAN)
    assert subjects(with_clean, "likely", "proved") == []


def test_dye_at_a_spot_is_proved_only_after_cleaning_running_and_looking_again():
    once = SEARCH.meaning(CAR, **LAMP, condenser="found")
    assert standing(once, "A leak at: Condenser’s face") == "likely"
    assert "look again" in once.onward[0]
    again = SEARCH.meaning(CAR, **LAMP, condenser="found", again="came_back")
    assert standing(again, "A leak at: Condenser’s face") == "proved"


def test_an_alarm_that_comes_again_points_there_and_proves_nothing():
    result = SEARCH.meaning(CAR, **SWEEP, condenser="found", again="came_back")
    assert standing(result, "A leak at") == "likely"


def test_an_old_stain_that_stays_away_points_at_nothing():
    result = SEARCH.meaning(CAR, **LAMP, condenser="found", again="stayed_away")
    assert subjects(result, "likely", "proved") == []


def test_places_left_out_are_named():
    result = SEARCH.meaning(CAR, **SWEEP | CLEAN | {"evaporator": "no_reach", "lines": ""})
    told = " ".join(result.outcome.not_tested)
    assert "Out of reach: Evaporator, at its drain or vent." in told
    assert "Not told: Lines and their holders." in told


def test_the_rear_unit_is_a_place_of_its_own_only_where_there_is_one():
    rear: System = {**CAR, "branches": ["front", "rear"]}
    assert SEARCH.code(CAR, **SWEEP, **CLEAN) == "none_found"
    result = SEARCH.meaning(rear, **SWEEP, **CLEAN)
    assert result.outcome.code == "part_searched"
    assert "Not told: Rear unit and its lines." in result.outcome.not_tested


def test_no_shaft_seal_is_searched_on_an_electric_compressor():
    names = asked_on(SEARCH.kind, {"drive": "electric_hv"})
    assert "nose" not in names


def test_rest_clean_sets_the_places_alone_and_leaves_what_was_told():
    fine = SEARCH.kind.fine
    assert fine is not None
    assert fine.rest
    assert set(fine.taps) == {one.name for one in PLACES}


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_every_search_that_was_made_may_be_followed_by_recovery_and_no_other(typed, outcome):
    made = [Made("leak_search", SEARCH.code(CAR, **typed))]
    assert ORDERS["leak_search_first"].is_kept(made, CAR) == (outcome != "nothing_told")


def test_recovery_waits_for_the_leak_search():
    assert "leak_search_first" in Trial("recovered_share").kind.orders


def test_it_warns_of_lamp_flames_and_nitrogen_without_a_regulator():
    words = " ".join(SEARCH.kind.cautions)
    assert all(part in words for part in ("UV glasses", "flame", "only through a regulator"))


@pytest.mark.parametrize("asked", SEARCH.kind.choices, ids=lambda one: one.name)
def test_any_answer_alone_says_something_sensible(asked):
    for answer in asked.answers:
        assert SEARCH.meaning(CAR, **{asked.name: answer.code}).outcome.sentence


def test_nothing_comes_out_of_a_loop_under_vacuum():
    typed = {"method": "soap", "condenser": "found", "pressure": "-60"}
    asked = Trial("leak_search").asks({}, **typed)["pressure"]
    assert "Nothing comes out of a loop under vacuum, yet a place was found." in asked
    assert "pressure" not in Trial("leak_search").asks({}, **typed | {"pressure": "400"})
    stain = Trial("leak_search").asks({}, **typed | {"method": "dye"})["pressure"]
    assert not any("vacuum, yet" in sentence for sentence in stain)


@pytest.mark.parametrize("method", ["electronic", "soap", "tracer"])
def test_too_little_pressure_is_told_with_what_is_needed_and_what_comes_next(method):
    result = SEARCH.meaning(CAR, method=method, pressure="50", **CLEAN)
    assert "50\u00a0kPa is too little" in result.outcome.sentence
    assert "340\u00a0kPa (our judgement)" in result.outcome.sentence
    assert result.onward[0].startswith("Warm the loop")
    assert "smaller than" not in " ".join(words_of(result))
