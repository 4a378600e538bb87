"""The limiter of a compressor without a clutch: sheared points at a locked shaft behind it.

Pulley turns and hub still means drive broken, compressor probably locked: trade articles.
"""

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

LIMITER = Trial("limiter")
CLUTCHLESS: System = {"drive": "belt_clutchless", "displacement": "variable_outer"}

PATTERNS: list[tuple[dict[str, str], str]] = [
    ({"hub": "along", "looks": "whole"}, "whole"),
    ({"hub": "along"}, "goes_along"),
    ({"hub": "stands"}, "sheared"),
    ({"hub": "stands", "shaft": "free"}, "sheared"),
    ({"hub": "stands", "shaft": "not_free"}, "sheared_locked"),
    ({"hub": "slips"}, "slips"),
    ({"hub": "along", "looks": "torn"}, "torn"),
    ({"looks": "pieces"}, "torn"),
    ({"hub": "along", "shaft": "not_free"}, "shaft_not_free"),
    ({"hub": "cannot_tell"}, "nothing_told"),
    ({"looks": "whole"}, "nothing_told"),
    ({"shaft": "free"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert LIMITER.code(CLUTCHLESS, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in LIMITER.kind.outcomes}


def test_a_hub_that_stands_still_shows_a_broken_drive_and_points_at_a_locked_compressor():
    result = LIMITER.meaning(CLUTCHLESS, hub="stands")
    assert standing(result, "Drive broken") == "proved"
    assert standing(result, "Compressor locked") == "likely"
    assert "Turn the hub by hand" in result.onward[0]
    assert STOP_DRIVING in result.notes


def test_a_hub_found_free_behind_a_broken_drive_is_not_called_locked():
    result = LIMITER.meaning(CLUTCHLESS, hub="stands", shaft="free")
    assert subjects(result, "likely") == []
    assert "why the drive gave is not told" in LIMITER.words(CLUTCHLESS, hub="stands", shaft="free")


def test_a_locked_hub_is_not_run_and_metal_is_looked_for_before_parts():
    onward = LIMITER.meaning(CLUTCHLESS, hub="stands", shaft="not_free").onward
    assert onward[0] == "Do not run it."
    assert "before parts are ordered" in onward[1]


def test_a_whole_limiter_says_nothing_of_pumping():
    result = LIMITER.meaning(CLUTCHLESS, hub="along", looks="whole")
    assert "Whether it pumps: not tested by this step." in result.outcome.not_tested
    assert standing(result, "Drive broken") == "ruled_out"


def test_a_limiter_not_seen_is_named():
    assert (
        "Limiter itself: not told." in LIMITER.meaning(CLUTCHLESS, hub="along").outcome.not_tested
    )


@pytest.mark.parametrize(
    "system",
    [
        {"drive": "belt_clutch"},
        {"drive": "belt_electric", "clutch": "magnetic"},
        {"drive": "electric_hv"},
        {"drive": "electric_48"},
    ],
)
def test_it_is_barred_where_no_limiter_is_and_says_nothing_there(system):
    assert LIMITER.kind.forbids(system)
    assert not LIMITER.meaning(system, hub="stands").outcome.carries


@pytest.mark.parametrize(
    "system", [CLUTCHLESS, {}, {"drive": "belt_electric"}, {"drive": "belt_electric", "clutch": ""}]
)
def test_it_is_offered_where_there_may_be_one(system):
    assert LIMITER.kind.forbids(system) is None


def test_a_drive_not_noted_is_looked_at_first():
    assert LIMITER.kind.asks({})
    assert LIMITER.kind.asks(CLUTCHLESS) is None


def test_fine_is_a_whole_limiter_that_takes_the_hub_along():
    assert LIMITER.code(CLUTCHLESS, **LIMITER.fine) == "whole"
    assert LIMITER.meaning(CLUTCHLESS, failing="no", **LIMITER.fine).outcome.carries


def test_it_is_never_run_locked():
    assert any("Never run it locked" in caution for caution in LIMITER.kind.cautions)


def test_a_hub_that_stands_still_is_no_broken_drive_while_the_drive_is_not_noted():
    result = LIMITER.meaning({}, hub="stands")
    assert result.outcome.code == "nothing_told"
    assert subjects(result, "proved", "likely") == []
    assert "How this one is driven is not noted." in " ".join(result.notes)


def test_a_whole_limiter_with_a_hub_that_stands_still_points_past_it():
    result = LIMITER.meaning(CLUTCHLESS, hub="stands", looks="whole")
    assert any("look again, and at hub, its nut and its splines" in one for one in result.notes)
    assert STOP_DRIVING in result.notes
    assert standing(result, "Drive broken") == "proved"
    assert standing(result, "Compressor locked") == "open"


def test_a_hub_that_was_turned_is_not_asked_to_be_turned_again():
    result = LIMITER.meaning(CLUTCHLESS, hub="stands", shaft="free")
    assert not any("Turn the hub" in one for one in result.onward)
    assert any("metal" in one for one in result.onward)
