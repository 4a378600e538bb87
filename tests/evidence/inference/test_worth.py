"""What a test would tell, before it is made: as if each of its outcomes were told in turn."""

import random

import numpy as np

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.changed import DONE, FITTED
from diagnostics.evidence.inference.factors import Factor
from diagnostics.evidence.inference.worth import outcomes, worth
from diagnostics.evidence.plan import Asked, plan
from diagnostics.evidence.tables import TABLES
from tests.evidence.inference.cars import (
    BIGGEST,
    CLUTCHED,
    made_at_random,
    verdict_on,
)

CLOSE = 1e-9


def test_each_outcome_has_the_chance_and_the_shares_it_would_have_if_told():
    """On a car that nothing was changed on; after a change the look ahead is only near to it."""
    dice = random.Random("ahead")
    for system in (CLUTCHED, BIGGEST):
        weighed = verdict_on(made_at_random(dice, at_most=5), system).weighed
        looks = [TABLES[kind] for kind in dice.sample(sorted(TABLES), 6)]
        for one, found in zip(looks, worth(weighed, looks), strict=True):
            table = outcomes(weighed, one)
            at = dice.randrange(len(one.outcomes))
            after = weighed.now.also([Factor(table.names, table.values[at : at + 1])])
            chance = np.exp(after.weight - weighed.now.weight)[0]
            assert abs(found.chances[at] - chance) < CLOSE, one.kind
            for name, shares in found.shares.items():
                told = after.of([weighed.sliced.latest[name]])[0]
                assert np.abs(shares[at] - told).max() < CLOSE, (one.kind, name)


def test_the_chances_of_a_tests_outcomes_sum_to_one():
    weighed = verdict_on(made_at_random(random.Random(1))).weighed
    for one in worth(weighed, list(TABLES.values())):
        assert abs(one.chances.sum() - 1) < CLOSE, one.kind


def test_no_test_makes_deciding_dearer_on_the_whole():
    weighed = verdict_on(made_at_random(random.Random(2))).weighed
    for one in worth(weighed, list(TABLES.values())):
        assert min(one.by_variable.values()) > -1e-6, one.kind


def test_a_next_step_is_found_after_every_change_of_a_car():
    for change in (*FITTED.values(), *DONE.values()):
        weighed = verdict_on(made_at_random(random.Random(3)), CLUTCHED, [change]).weighed
        assert plan(weighed, Asked(CLUTCHED), KINDS, TABLES).best, change
