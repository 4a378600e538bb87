"""The filter looked at again: clean counts only after running. Common practice, no source."""

import pytest

from diagnostics.evidence.cautions import HIGH_VOLTAGE
from tests.evidence.trial import Trial, standing, subjects

FILTER = Trial("filter_second_look")
RUN = {"minutes": "30", "place": "inline"}

PATTERNS = [
    (RUN | {"shows": "debris"}, "debris"),
    ({"shows": "debris"}, "debris"),
    (RUN | {"shows": "specks"}, "specks"),
    (RUN | {"shows": "clean"}, "clean"),
    ({"shows": "clean"}, "nothing_told"),
    ({"shows": "clean", "minutes": "0"}, "nothing_told"),
    (RUN, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert FILTER.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in FILTER.kind.outcomes}


def test_clean_before_it_ran_says_nothing():
    result = FILTER.meaning({}, **FILTER.fine)
    assert not result.outcome.carries
    assert "that it ran since is not told" in result.outcome.sentence


def test_clean_after_running_rules_nothing_out_elsewhere():
    result = FILTER.meaning({}, **RUN, shows="clean")
    assert standing(result, "The rest of the loop") == "open"
    assert subjects(result, "ruled_out") == []


def test_new_debris_is_not_yet_new_wear():
    result = FILTER.meaning({}, **RUN, shows="debris")
    assert standing(result, "Where it comes from") == "open"
    assert "before it runs on" in " ".join(result.onward)


def test_what_was_not_told_is_named():
    missing = " ".join(FILTER.meaning({}, shows="debris").outcome.not_tested)
    assert "Minutes run since" in missing
    assert "Where it sits: not told." in missing


def test_what_is_in_a_filter_that_is_clean_is_asked_about():
    assert list(FILTER.asks({}, **RUN, shows="clean", what="grey specks")) == ["what"]
    assert FILTER.asks({}, **RUN, shows="specks", what="grey specks") == {}


def test_high_voltage_is_minded_on_an_electric_compressor():
    assert HIGH_VOLTAGE in FILTER.kind.remarks_for({"drive": "electric_hv"})
    assert FILTER.kind.remarks_for({"drive": "belt_clutch"}) == ()
