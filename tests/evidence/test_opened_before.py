"""Signs of earlier work: what they tell, and that nobody is named.

Dye in the oil alone says little, many loops are dyed at the factory: trade articles.
"""

import re

import pytest

from tests.evidence.trial import Trial, standing, subjects, words_of

OPENED = Trial("opened_before")
NONE = OPENED.fine

PATTERNS = [
    (NONE | {"fittings": "yes"}, "likely"),
    ({"parts": "yes"}, "likely"),
    (NONE | {"caps": "marked", "dye": "yes"}, "likely"),
    (NONE | {"label": "yes", "dye": "yes"}, "likely"),
    (NONE | {"caps": "missing", "label": "yes", "dye": "yes"}, "likely"),
    (NONE | {"caps": "marked"}, "one_sign"),
    (NONE | {"caps": "missing"}, "one_sign"),
    (NONE | {"caps": "marked", "label": "yes"}, "one_sign"),
    (NONE | {"caps": "missing", "label": "yes"}, "one_sign"),
    (NONE | {"caps": "missing", "dye": "yes"}, "one_sign"),
    ({"label": "yes"}, "one_sign"),
    (NONE | {"dye": "yes"}, "dye_only"),
    (NONE, "nothing_seen"),
    (NONE | {"seals": "not_looked"}, "nothing_told"),
    ({"caps": "no"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_set_of_signs_has_its_outcome(typed, outcome):
    assert OPENED.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in OPENED.kind.outcomes}


# Mistake: factory dye read as a leak.


def test_dye_in_the_oil_alone_is_neither_a_leak_nor_earlier_work():
    result = OPENED.meaning({}, **NONE | {"dye": "yes"})
    assert standing(result, "Loop opened before") == "open"
    assert standing(result, "A leak") == "open"
    assert subjects(result, "likely", "proved") == []


# Mistake: another shop accused in print.


def test_nobody_is_said_to_have_done_it_or_done_it_badly():
    for typed, _outcome in PATTERNS:
        words = " ".join(words_of(OPENED.meaning({}, **typed))).lower()
        assert not re.search(r"\b(shop|garage|mechanic|botched|badly|wrongly)\b", words), words
        assert "not told by a look" in words or "not told." in words


def test_earlier_work_is_never_shown_by_signs_alone():
    for typed, _outcome in PATTERNS:
        assert subjects(OPENED.meaning({}, **typed), "proved", "ruled_out") == []


def test_no_sign_seen_settles_nothing():
    assert standing(OPENED.meaning({}, **NONE), "Loop opened before") == "open"


# Mistake: a lost cap beside factory dye taken for earlier work.


def test_missing_caps_are_lost_without_any_work_with_dye_in_the_oil_too():
    result = OPENED.meaning({}, **NONE | {"caps": "missing", "dye": "yes"})
    assert subjects(result, "likely", "proved") == []
    words = " ".join(words_of(result))
    assert "a cap is lost without any work" in words
    assert "many loops are dyed at the factory" in words


def test_port_signs_without_dye_open_no_joint():
    result = OPENED.meaning({}, **NONE | {"caps": "marked", "label": "yes"})
    assert standing(result, "Loop opened before") == "open"
    assert "without opening a joint" in " ".join(words_of(result))


def test_dye_in_the_oil_is_no_leak_beside_other_signs_either():
    for more in ({"caps": "marked"}, {"caps": "missing"}, {"fittings": "yes"}):
        result = OPENED.meaning({}, **NONE | {"dye": "yes"} | more)
        assert standing(result, "A leak") == "open"
