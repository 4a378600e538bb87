"""Oil by drain and match. Common practice, no source: the figures are worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.oil import OilTold, match_oil

ML = 1_000
AMOUNT = st.integers(0, 300_000)


def told(arrived="some", **amounts):
    return OilTold(arrived, **{name: round(one * ML) for name, one in amounts.items()})


def plan(arrived="some", **amounts):
    found = match_oil(told(arrived, **amounts))
    return found.needed / ML, found.add / ML, found.drain / ML


@pytest.mark.parametrize(
    ("arrived", "amounts", "expected"),
    [
        # (needed, put in, drain), in mL
        ("some", {"drained_old": 60, "drained_new": 120}, (60, 0, 60)),
        ("some", {"drained_old": 60, "drained_new": 20}, (60, 40, 0)),
        ("some", {"drained_old": 60, "drained_new": 60}, (60, 0, 0)),
        ("dry", {"drained_old": 60, "with_refrigerant": 10, "allotted": 20}, (90, 90, 0)),
        # less came out than the maker's floor
        ("dry", {"drained_old": 15, "floor": 30}, (30, 30, 0)),
        ("dry", {"floor": 30}, (30, 30, 0)),
        # filled with a whole loop's oil: what is still in the loop is drained off
        ("whole_system", {"drained_old": 40, "allotted": 20, "system": 150}, (60, 0, 90)),
        ("whole_system", {"drained_old": 40, "system": 150, "drained_new": 140}, (40, 0, 100)),
        ("kept", {"with_refrigerant": 12, "allotted": 20}, (32, 32, 0)),
    ],
)
def test_what_left_the_loop_goes_back_and_what_is_brought_counts_against_it(
    arrived, amounts, expected
):
    assert plan(arrived, **amounts) == expected


def test_a_floor_goes_in_place_of_what_was_drained_never_on_top():
    assert plan("dry", drained_old=25, floor=30) == plan("dry", drained_old=30)


@given(AMOUNT, AMOUNT, AMOUNT, AMOUNT, AMOUNT)
def test_oil_is_never_counted_twice(old, floor, out, allotted, new):
    found = match_oil(OilTold("some", old, floor, out, allotted, new))
    assert new + found.add - found.drain == max(old, floor) + out + allotted == found.needed
    assert 0 in (found.add, found.drain)


@given(AMOUNT, AMOUNT, AMOUNT)
def test_a_new_compressor_that_brings_more_never_asks_for_more(old, one, other):
    less, more = sorted((one, other))
    adds = [match_oil(OilTold("some", old, drained_new=new)).add for new in (less, more)]
    assert adds[0] >= adds[1]


def test_more_than_the_whole_loop_holds_is_named():
    found = match_oil(told("dry", drained_old=100, with_refrigerant=30, allotted=40, system=150))
    assert "more_than_system" in found.faults
    assert "more_than_system" not in match_oil(told("dry", drained_old=100, system=150)).faults


def test_what_was_not_told_is_named_and_not_taken_as_nothing():
    found = match_oil(told("dry", drained_old=60))
    assert {"not_told", "no_system"} <= set(found.faults)
    assert "out with the refrigerant: not told" in found.sentence
    whole = match_oil(told("dry", drained_old=60, with_refrigerant=0, allotted=0, system=150))
    assert whole.faults == ()


def test_less_than_the_floor_is_named():
    assert "below_floor" in match_oil(told("dry", drained_old=10, floor=30)).faults
    assert "below_floor" not in match_oil(told("dry", drained_old=30, floor=30)).faults


@pytest.mark.parametrize(
    ("arrived", "amounts", "words"),
    [
        ("some", {"drained_old": 60, "drained_new": 120}, "drain 60"),
        ("some", {"drained_old": 60, "drained_new": 20}, "add 40"),
        ("dry", {"drained_old": 60}, "put in 60"),
        ("some", {"drained_old": 60, "drained_new": 60}, "add none"),
        ("kept", {"allotted": 20}, "Put in 20"),
        ("dry", {"floor": 45}, "45\u00a0mL as the maker’s floor"),
    ],
)
def test_the_sentence_says_what_to_do(arrived, amounts, words):
    assert words in match_oil(told(arrived, **amounts)).sentence


@pytest.mark.parametrize(
    ("arrived", "amounts", "words"),
    [
        ("dry", {"drained_old": 60, "drained_new": 30}, "arrived dry"),
        ("kept", {"drained_new": 30}, "is the old one"),
        ("kept", {"drained_old": 30}, "is kept"),
        ("some", {"drained_old": 60}, "measure how much"),
        ("whole_system", {"drained_old": 60}, "how much is that"),
        ("dry", {}, "Nothing to match"),
    ],
)
def test_what_does_not_agree_is_named(arrived, amounts, words):
    with pytest.raises(Malformed, match=words):
        told(arrived, **amounts)


def test_less_than_nothing_and_more_than_any_vehicle_are_refused():
    with pytest.raises(Impossible, match="Less than no oil"):
        told("dry", drained_old=-1)
    with pytest.raises(OutOfRange, match="20 L"):
        told("dry", drained_old=25_000)
