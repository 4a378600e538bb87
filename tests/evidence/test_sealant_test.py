"""Leak-stop: what a kit shows, and what it cannot. Common practice, no source."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing

KIT = Trial("sealant_test")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
FLOWED = {"flowed": "yes"}

PATTERNS = [
    (FLOWED | {"kit": "nothing"}, "clean"),
    (FLOWED | {"kit": "nothing", "signs": "none", "can_added": "yes"}, "clean"),
    (FLOWED | {"kit": "found"}, "found"),
    ({"kit": "found"}, "found"),
    ({"kit": "found", "signs": "seen"}, "found"),
    ({"signs": "seen"}, "signs"),
    (FLOWED | {"kit": "nothing", "signs": "seen"}, "signs"),
    ({"kit": "unclear"}, "unclear"),
    ({"kit": "nothing"}, "nothing_told"),
    ({"kit": "nothing", "flowed": "no"}, "nothing_told"),
    ({"kit": "not_used", "signs": "none"}, "nothing_told"),
    ({"which": "red can"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_finding_has_its_outcome(typed, outcome):
    assert KIT.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in KIT.kind.outcomes}


@pytest.mark.parametrize("typed", [{"kit": "nothing"}, {"kit": "nothing", "flowed": "no"}])
def test_a_kit_through_which_no_gas_is_told_to_have_flowed_tests_nothing(typed):
    result = KIT.meaning(CAR, **typed)
    assert not result.outcome.carries
    assert "tested nothing" in result.outcome.sentence


@pytest.mark.parametrize("typed", [{"kit": "found"}, {"signs": "seen"}, {"kit": "unclear"}])
def test_as_long_as_it_may_be_there_the_shops_machine_is_kept_off(typed):
    assert "machine is at stake" in KIT.meaning(CAR, **typed).onward[0]


def test_a_can_that_was_added_and_no_test_puts_the_machine_at_stake():
    assert "machine is at stake" in KIT.words(CAR, kit="not_used", can_added="yes")
    assert "machine is at stake" not in KIT.words(CAR, kit="not_used", can_added="no")


def test_a_kit_that_shows_nothing_after_a_can_says_how_far_that_goes():
    assert "not every kind of leak-stop" in KIT.words(CAR, **KIT.fine, can_added="yes")


def test_signs_without_a_kit_that_shows_it_prove_nothing():
    assert standing(KIT.meaning(CAR, signs="seen"), "Leak-stop") == "likely"
    assert standing(KIT.meaning(CAR, kit="found"), "Leak-stop") == "proved"


@pytest.mark.parametrize(
    ("told", "words"),
    [({}, "not told"), ({"can_added": "not_known"}, "not known")],
)
def test_whether_a_can_was_added_is_named_where_it_was_not_told(told, words):
    missing = KIT.meaning(CAR, **KIT.fine, **told).outcome.not_tested
    assert f"Whether a can was added: {words}." in missing


def test_what_was_not_looked_at_is_named():
    told = KIT.meaning(CAR, signs="seen").outcome.not_tested
    assert "Leak-stop: not tested with a kit." in told
    told = KIT.meaning(CAR, kit="found").outcome.not_tested
    assert "Jelly or crystals at ports and caps: not looked." in told


def test_nobody_is_accused_of_having_put_it_in():
    assert "who put it in is not told" in KIT.words(CAR, kit="found", can_added="no")


def test_fine_is_a_clean_kit():
    assert KIT.code(CAR, **KIT.fine) == "clean"


def test_it_warns_before_the_shops_machine_goes_on():
    assert KIT.kind.cautions[0].startswith("Before the shop’s own hoses and machine")


def test_a_kit_that_shows_it_without_gas_points_and_proves_nothing():
    result = Trial("sealant_test").meaning({}, kit="found", flowed="no")
    assert [mark.standing for mark in result.outcome.marks] == ["likely"]
    assert any("no gas flowed" in note.lower() for note in result.notes)
    assert any("machine" in words for words in result.onward)
