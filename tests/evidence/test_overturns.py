"""What would overturn a standing: only what may be made, and only outcomes that would do it."""

from typing import Any

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.concluded import ToWeigh, conclude, plain_system
from diagnostics.evidence.inference import told
from diagnostics.evidence.inference.verdict import FALLS
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import weigh

BELT = System(drive="belt_clutch", displacement="fixed", voltage="12")
TOLD = (
    told.Test(1, "coil_power", "holds_when_pushed", "yes"),
    told.Test(2, "hub_turn", "free", "yes"),
    told.Test(3, "clutch_face", "even", "yes"),
)


def asked(**more: Any) -> ToWeigh:
    return ToWeigh(plain_system(BELT), TOLD, **more)


FOUND = conclude(asked(), KINDS, TABLES)


def test_something_would_overturn_what_stands():
    assert FOUND.overturns
    standing = {(one.variable, one.code) for one in FOUND.stands if one.standing != "open"}
    assert {(one.variable, one.code) for one in FOUND.overturns} <= standing


# A second reading of a kind hangs on the first, and is told otherwise.
MADE_ONCE = [one for one in FOUND.overturns if one.kind not in {test.kind for test in TOLD}]


@pytest.mark.parametrize("one", MADE_ONCE, ids=lambda one: f"{one.variable} {one.code}")
def test_an_outcome_that_would_overturn_it_does_so_once_it_is_read(one):
    after = weigh(BELT, [*TOLD, told.Test(9, one.kind, one.outcome, "yes")], [], TABLES)
    before = next(s for s in FOUND.stands if (s.variable, s.code) == (one.variable, one.code))
    share, least = after.of(one.variable, one.code).share, FALLS[before.standing]
    assert share > least if before.standing == "ruled_out" else share < least


def test_a_test_that_may_not_be_made_overturns_nothing():
    named = {one.kind for one in FOUND.overturns}
    without = conclude(asked(unable=frozenset(named)), KINDS, TABLES)
    assert not {one.kind for one in without.overturns} & named


def test_of_one_standing_two_tests_are_named_at_most():
    pairs = [(one.variable, one.code) for one in FOUND.overturns]
    assert max(pairs.count(pair) for pair in pairs) <= 2
