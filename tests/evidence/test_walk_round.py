"""The walk round: rows of 16 CCR 3366; what could not be reached is neither fine nor a fault."""

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.kinds.walk_round import ROWS
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects

ROUND = Trial("walk_round")
CAR: System = {"drive": "belt_clutch"}
ALL = {name: "fine" for name, *_row in ROWS}

PATTERNS = [
    (ALL, "all_fine"),
    (ROUND.fine, "part_fine"),
    (ALL | {"drier": "no_reach"}, "part_fine"),
    (ALL | {"hoses": "not_fine"}, "not_fine"),
    (ALL | {"turned": "not_fine"}, "not_turning"),
    (ALL | {"gas": "not_fine", "turned": "not_fine"}, "gas_not_label"),
    ({"hoses": "no_reach"}, "nothing_told"),
]
# What the regulation's list names, in words that are in the row for it.
LISTED = (
    "hoses", "compressor", "clutch", "turned by hand", "service ports", "caps", "labels",
    "condenser", "expansion device", "accumulator", "receiver-drier", "belt", "pulleys",
    "tensioner", "fan clutch", "fan", "wiring", "refrigerant",
)  # fmt: skip


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_walk_has_its_outcome(typed, outcome):
    assert ROUND.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in ROUND.kind.outcomes}


@pytest.mark.parametrize("part", LISTED)
def test_every_part_of_the_regulations_list_has_a_row(part):
    assert any(part in words.lower() for _name, words, *_row in ROWS)


def test_the_rest_is_fine_in_one_tap_except_what_a_hand_or_an_instrument_tells():
    assert ROUND.kind.fine is not None
    assert ROUND.kind.fine.rest
    assert not {"turned", "gas"} & ROUND.fine.keys()


def test_what_could_not_be_reached_is_named_and_is_no_fault():
    result = ROUND.meaning(CAR, **ALL | {"drier": "no_reach"})
    assert any("neither fine nor a fault: Accumulator" in one for one in result.outcome.not_tested)
    assert subjects(result, "proved", "likely") == []


def test_what_is_not_fine_is_seen_and_not_yet_the_cause():
    result = ROUND.meaning(CAR, **ALL | {"hoses": "not_fine"})
    assert standing(result, "Hoses and lines: not fine") == "proved"
    assert "whether it is the cause is not told" in " ".join(
        mark.sentence for mark in result.outcome.marks
    )


def test_all_seen_fine_clears_no_part():
    assert subjects(ROUND.meaning(CAR, **ALL), "ruled_out") == []


def test_where_no_belt_turns_it_no_row_of_a_belt_is_asked_or_missing():
    electric: System = {"drive": "electric_hv"}
    assert not {"turned", "belt", "fan_clutch"} & asked_on(ROUND.kind, electric).keys()
    told = {name: "fine" for name in asked_on(ROUND.kind, electric) if name in ALL}
    assert ROUND.code(electric, **told) == "all_fine"


def test_another_gas_keeps_the_shops_own_hoses_off():
    assert "own hoses off" in ROUND.meaning(CAR, gas="not_fine").onward[0]


def test_no_rule_of_law_is_named_without_the_local_ones():
    assert "check your local rules" in ROUND.words(CAR, **ALL)


def test_words_about_something_not_fine_without_a_row_that_is_not_are_asked_about():
    assert list(ROUND.asks(CAR, **ALL, what="hose rubbed through")) == ["what"]
    assert ROUND.asks(CAR, **ALL | {"hoses": "not_fine"}, what="rubbed through") == {}


@pytest.mark.parametrize(
    ("row", "subject", "told_by"),
    [
        ("hoses", "Hoses and lines", "seen"),
        ("turned", "Compressor turned by hand", "felt by hand"),
        ("gas", "Refrigerant, by identifier", "told by the identifier"),
    ],
)
def test_what_a_hand_or_an_instrument_told_is_not_said_to_be_seen(row, subject, told_by):
    (mark,) = ROUND.meaning(CAR, **ALL | {row: "not_fine"}).outcome.marks
    assert mark.subject.startswith(subject)
    assert mark.sentence.startswith(f"{told_by};")


@pytest.mark.parametrize("typed", [ALL, ALL | {"drier": "no_reach"}])
def test_rows_told_by_hand_or_identifier_are_not_summed_up_as_seen(typed):
    assert "seen" not in ROUND.meaning(CAR, **typed).outcome.sentence
    words = {one.code: one.words for one in ROUND.kind.outcomes}
    assert "seen" not in words["all_fine"]


def test_a_row_not_tried_or_not_known_is_not_said_to_be_out_of_reach_only():
    missing = ROUND.meaning(CAR, **ALL | {"gas": "no_reach"}).outcome.not_tested
    assert any(one.startswith("Not reached, tried or known") for one in missing)


@pytest.mark.parametrize("row", ["belt", "turned"])
def test_a_belt_or_a_shaft_that_is_not_fine_tells_the_customer_to_stop_driving(row):
    assert STOP_DRIVING in ROUND.meaning(CAR, **ALL | {row: "not_fine"}).notes
    assert STOP_DRIVING not in ROUND.meaning(CAR, **ALL).notes
    assert STOP_DRIVING not in ROUND.meaning(CAR, **ALL | {"hoses": "not_fine"}).notes
    electric: System = {"drive": "electric_hv"}
    assert STOP_DRIVING not in ROUND.meaning(electric, hoses="fine", **{row: "not_fine"}).notes
