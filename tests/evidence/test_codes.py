"""Trouble codes: pointers, written down before anything is cleared. Common practice, no source."""

import pytest

from tests.evidence.trial import Trial, standing, subjects

CODES = Trial("codes")

PATTERNS = [
    ({"stored": "stored", "relevant": "yes", "which": "P0645"}, "stored_ac"),
    ({"stored": "stored", "relevant": "no"}, "stored_other"),
    ({"stored": "stored"}, "stored"),
    ({"stored": "stored", "relevant": "not_sure"}, "stored"),
    ({"stored": "no_answer"}, "no_answer"),
    ({"stored": "none"}, "none"),
    ({"stored": "none", "cleared": "after"}, "none"),
    ({"stored": "none", "cleared": "before"}, "lost"),
    ({"stored": "not_read"}, "nothing_told"),
    ({"cleared": "no"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert CODES.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in CODES.kind.outcomes}


def test_a_code_is_told_as_it_was_read_and_names_no_part():
    result = CODES.meaning({}, stored="stored", relevant="yes", which="P0645, B1234")
    assert "P0645, B1234" in result.outcome.sentence
    assert standing(result, "What the code names") == "open"
    assert subjects(result, "likely") == []
    assert "replace nothing by code alone" in result.onward[0]


def test_no_code_clears_no_circuit():
    result = CODES.meaning({}, **CODES.fine)
    assert result.outcome.code == "none"
    assert standing(result, "A/C circuits") == "open"
    assert subjects(result, "ruled_out") == []


def test_none_stored_after_somebody_cleared_them_says_nothing():
    result = CODES.meaning({}, stored="none", cleared="before")
    assert not result.outcome.carries
    assert "cleared before they were written down" in result.outcome.sentence


def test_codes_without_their_letters_are_named_as_missing():
    assert "Which codes: not told." in CODES.meaning({}, stored="stored").outcome.not_tested


def test_letters_of_codes_are_asked_only_where_codes_are_stored():
    assert list(CODES.asks({}, stored="none", which="P0645")) == ["which"]


def test_it_says_to_write_down_before_clearing():
    assert CODES.kind.cautions[0] == "Write codes down before clearing any."
