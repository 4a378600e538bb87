"""What tests would tell, worked out for all together, held to each by itself."""

import numpy as np
import pytest

from diagnostics.evidence.inference import ahead
from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.told import Test as Made
from diagnostics.evidence.inference.verdict import Weighed
from diagnostics.evidence.inference.worth import outcomes
from diagnostics.evidence.system import System
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import weigh

CARS = (
    System(drive="belt_clutch", displacement="variable_inner", branches=["front", "rear"]),
    System(drive="electric_hv"),
    System(),
)
WANTED = ("command", "mechanics", "amount", "dirt", "flow", "cabin")


def after_some_tests(system: System, number: int) -> Weighed:
    rng = np.random.default_rng(number)
    kinds = rng.choice(sorted(TABLES), number, replace=False)
    tests = [Made(at, kind, rng.choice(TABLES[kind].outcomes)) for at, kind in enumerate(kinds)]
    return weigh(system, tests, (), TABLES).weighed


@pytest.mark.parametrize("system", CARS)
@pytest.mark.parametrize("number", [0, 3, 9])
def test_each_table_gives_what_it_gives_when_it_is_told_alone(system, number):
    weighed = after_some_tests(system, number)
    told = [outcomes(weighed, looks) for looks in TABLES.values()]
    found = ahead.afters(weighed.now, weighed.model.factors, told, WANTED)
    for one, (chances, shares) in zip(told, found, strict=True):
        alone = Belief(weighed.now.sizes, [*weighed.now.factors, one])
        weights = np.exp(alone.weight - weighed.now.weight)
        assert np.allclose(chances, weights, rtol=1e-10, atol=1e-12)
        for name in WANTED:
            assert np.allclose(shares[name], alone.alone(name), rtol=0, atol=1e-12)


def test_tests_shared_out_to_more_trees_tell_the_same(monkeypatch):
    weighed = after_some_tests(CARS[0], 4)
    told = [outcomes(weighed, looks) for looks in TABLES.values()]
    plain = weighed.model.factors
    few = ahead.afters(weighed.now, plain, told, WANTED)
    ahead.shared_out.cache_clear()
    monkeypatch.setattr(ahead, "LARGE", 3_000)
    many = ahead.afters(weighed.now, plain, told, WANTED)
    ahead.shared_out.cache_clear()
    for (_, one), (_, two) in zip(few, many, strict=True):
        assert all(np.allclose(one[name], two[name], rtol=0, atol=1e-12) for name in WANTED)
