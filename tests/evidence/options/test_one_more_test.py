import numpy as np
import pytest

from diagnostics.evidence.inference import told
from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.states import sliced
from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.inference.worth import outcomes
from diagnostics.evidence.looks import coil_resistance, hub_turn
from diagnostics.evidence.options.costing import Scales
from diagnostics.evidence.options.one_more_test import one_more_test
from diagnostics.evidence.system import System

MODEL = model_of(System(drive="belt_clutch", displacement="fixed", branches=["front"]))
CAR = sliced(MODEL, [])
LOOKS = (hub_turn.LOOKS, coil_resistance.LOOKS)
CLUTCH = Scales(51_400, {("mechanics", "locked"): 69_100, ("mechanics", "stiff"): 69_100})
COMPRESSOR = Scales(60_100, {})


def now() -> Weighed:
    tests = [told.Test(1, "coil_resistance", "open")]
    return Weighed(CAR, tuple(told.told_by(CAR, tests, {one.kind: one for one in LOOKS})))


def expected(plan: Scales, belief: Belief) -> float:
    """What a plan is expected to cost, answer by answer."""
    shares = [
        belief.of([name])[0][MODEL.at(name, code)] * loss
        for (name, code), loss in plan.losses.items()
    ]
    return plan.now + sum(shares)


def by_hand(looks) -> float:
    """What a test saves, by telling each of its outcomes in turn."""
    belief = now().now
    plans = (CLUTCH, COMPRESSOR)
    table = outcomes(now(), looks)
    after = 0.0
    for case in range(len(table.values)):
        one = type(table)(table.names, table.values[case : case + 1])
        after_it = belief.also([one])
        chance = float(np.exp(after_it.weight - belief.weight)[0])
        after += chance * min(expected(plan, after_it) for plan in plans)
    return min(expected(plan, belief) for plan in plans) - after


@pytest.mark.parametrize("looks", LOOKS, ids=lambda one: one.kind)
def test_what_a_test_saves_is_what_telling_each_outcome_would_save(looks):
    found = one_more_test(now(), [(looks, 3)], [CLUTCH, COMPRESSOR], 12_000)
    assert found[0].saves == pytest.approx(by_hand(looks), abs=1e-6)


def test_turning_the_hub_pays_before_a_clutch_is_ordered():
    candidates = [(looks, 5) for looks in LOOKS]
    found = one_more_test(now(), candidates, [CLUTCH, COMPRESSOR], 12_000)
    assert [one.kind for one in found] == ["hub_turn", "coil_resistance"]
    assert found[0].costs == 1_000
    assert found[0].net > 0


def test_a_test_saves_nothing_where_one_plan_is_better_whatever_it_reads():
    dear = Scales(900_000, {})
    found = one_more_test(now(), [(LOOKS[0], 5)], [CLUTCH, dear], 12_000)
    assert found[0].saves == pytest.approx(0, abs=1e-6)
    assert found[0].net == pytest.approx(-1_000)


@pytest.mark.parametrize(
    ("plans", "rate"),
    [
        ([CLUTCH, Scales(0, {}, ("Price not typed.",))], 12_000),
        ([CLUTCH], 12_000),
        ([CLUTCH, COMPRESSOR], None),
    ],
    ids=["one not priced", "one alone", "no rate"],
)
def test_nothing_is_said_where_prices_are_missing(plans, rate):
    assert one_more_test(now(), [(LOOKS[0], 5)], plans, rate) == []
