"""A verdict in words: a line a question, parts with answers, nothing that was not tested."""

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import Concluded, ToWeigh, conclude, plain_system
from diagnostics.evidence.findings import Standing
from diagnostics.evidence.inference import told
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.verdict_shown import (
    IN_ORDER,
    NOT_TESTED,
    Part,
    in_a_line,
    plain_words,
    questions_shown,
)

CLUTCHED = System(drive="belt_clutch", displacement="fixed", voltage="12")


def found(*outcomes: tuple[str, str]) -> Concluded:
    tests = tuple(
        told.Test(number, kind, outcome, "yes")
        for number, (kind, outcome) in enumerate(outcomes, start=1)
    )
    return conclude(ToWeigh(plain_system(CLUTCHED), tests), KINDS, TABLES)


def part(standing: Standing, said: str, *, looked_at: bool = True, words: str = "Belt") -> Part:
    return Part("belt", words, standing, said, looked_at)


@pytest.mark.parametrize(
    ("parts", "line"),
    [
        ([part("open", NOT_TESTED, looked_at=False)], ("open", NOT_TESTED)),
        ([part("proved", IN_ORDER)], ("proved", IN_ORDER)),
        ([part("proved", IN_ORDER), part("likely", IN_ORDER)], ("likely", IN_ORDER)),
        ([part("proved", IN_ORDER), part("likely", "slips")], ("likely", "belt: slips")),
        ([part("proved", "off"), part("likely", "slips")], ("proved", "belt: off")),
        (
            [part("proved", IN_ORDER), part("open", NOT_TESTED, looked_at=False, words="Gas")],
            ("open", "belt in order; open: gas"),
        ),
    ],
)
def test_a_line_says_what_is_wrong_before_what_is_in_order(parts, line):
    assert in_a_line(tuple(parts)) == line


def test_a_question_with_an_untested_part_is_never_in_order():
    told = questions_shown(found(("hub_turn", "free"), ("air_gap", "inside")), KINDS)
    partly = [one for one in told if 0 < len(one.untested) < len(one.parts)]
    assert partly
    assert IN_ORDER not in {one.said for one in partly}


def test_what_lies_between_a_few_answers_is_told_with_all_of_them():
    clutch = next(
        one
        for one in questions_shown(found(("coil_power", "holds_when_pushed")), KINDS)
        if one.code == "clutch"
    )
    assert "air gap too wide" in clutch.said
    assert " or " in clutch.said


def test_the_plain_words_are_the_customers_and_tell_of_nothing_in_order():
    sentences = list(plain_words(questions_shown(found(("hub_turn", "locked")), KINDS)))
    assert sentences
    assert all(one.startswith(("Shown by test: ", "Most likely: ")) for one in sentences)
    assert not any(IN_ORDER in one for one in sentences)


def test_what_no_test_speaks_for_is_told_as_open():
    stands = found(("hub_turn", "free")).stands
    assert {one.standing for one in stands if one.variable == "belt"} == {"open"}


def test_every_sentence_of_a_part_names_its_steps():
    told = questions_shown(found(("hub_turn", "free"), ("air_gap", "inside")), KINDS)
    spoken = [one for question in told for part in question.parts for one in part.spoken]
    assert {number for one in spoken for number in one.steps} == {1, 2}
    assert all(one.steps for one in spoken)


def clutch_of(*outcomes: tuple[str, str]) -> Part:
    questions = questions_shown(found(*outcomes), KINDS)
    parts = [one for question in questions for one in question.parts]
    return next(one for one in parts if one.name == "clutch")


def test_the_few_answers_between_which_the_fault_lies_stand_first_and_as_one():
    told = clutch_of(("coil_power", "no_current"), ("coil_resistance", "open"))
    first = told.answers[0]
    assert first.words == told.said
    assert "coil open" in first.words
    assert first.standing == told.standing
    assert not any("coil open" in words for words in told.untested)


def test_open_answers_that_the_same_steps_speak_against_stand_in_one_line():
    told = clutch_of(("coil_power", "no_current"), ("coil_resistance", "open"))
    weak = [one.by_against for one in told.answers if one.standing == "open" and not one.by_for]
    assert len(weak) == len(set(weak))


def test_a_part_that_is_only_likely_in_order_is_not_told_as_shown():
    parts = (part("likely", IN_ORDER), part("open", NOT_TESTED, looked_at=False, words="Gas"))
    assert in_a_line(parts) == ("open", "most likely belt in order; open: gas")
