"""The whole network against pyAgrum, which shares no line with ours: every car, any tests."""

import random

import numpy as np
import pytest

from diagnostics.evidence.inference.belief import Belief
from diagnostics.evidence.inference.factors import Factor
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.states import sliced
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import weigh
from tests.evidence.inference.cars import (
    BIGGEST,
    CLUTCHED,
    DRIVES,
    changes_at_random,
    made_at_random,
    systems,
)
from tests.evidence.inference.reference import Evidence, Reference, bayes_net, observed

CLOSE = 1e-9


def pairs_of(dice: random.Random, names: list[str]) -> list[tuple[str, str]]:
    return [tuple(dice.sample(names, 2)) for _ in range(3)]  # type: ignore[misc]


def assert_alike(belief: Belief, reference: Reference, pairs: list[tuple[str, str]]) -> None:
    for name in belief.sizes:
        assert np.abs(belief.of([name])[0] - reference.of(name)).max() < CLOSE, name
    for one, two in pairs:
        apart = belief.of([one, two])[0] - reference.together(one, two)
        assert np.abs(apart).max() < CLOSE, (one, two)


@pytest.mark.parametrize("drive", DRIVES)
def test_after_any_tests_and_hints_every_share_is_the_reference_librarys(drive):
    dice = random.Random(f"hints {drive}")
    for system in systems(drive):
        plain = model_of(system)
        network = sliced(plain, ())
        tests = made_at_random(dice)
        told = [one.factor for one in weigh(system, tests, (), TABLES).weighed.told]
        known, hinted = dice.sample([one.name for one in plain.variables], 2)
        at = dice.randrange(plain.sizes[known])
        hints = [dice.random() for _ in range(plain.sizes[hinted])]
        hard = plain.mask(known, (plain.answers[known][at],))
        belief = Belief(plain.sizes, [*plain.factors, *told, hard, Factor.of([hinted], hints)])
        pairs = pairs_of(dice, list(plain.answers))
        evidence: Evidence = {**observed(tests), known: at, hinted: hints}
        assert_alike(belief, Reference(bayes_net(network, tests), evidence, pairs), pairs)


@pytest.mark.parametrize("states", [1, 2, 3])
def test_so_it_is_over_several_states_of_the_car(states):
    dice = random.Random(states)
    for system in (CLUTCHED, BIGGEST, *dice.sample(systems(dice.choice(DRIVES)), 4)):
        changes = changes_at_random(dice, states)
        tests = made_at_random(dice, states, at_most=6)
        weighed = weigh(system, tests, changes, TABLES).weighed
        pairs = pairs_of(dice, list(weighed.model.answers))
        net = bayes_net(weighed.sliced, tests)
        assert_alike(weighed.now, Reference(net, observed(tests), pairs), pairs)


def test_without_each_kind_it_is_what_the_library_says_without_those_tests():
    dice = random.Random("without")
    for _ in range(6):
        tests = made_at_random(dice, at_most=6)
        weighed = weigh(BIGGEST, tests, (), TABLES).weighed
        net = bayes_net(weighed.sliced, tests)
        for at, one in enumerate(weighed.told):
            others = [test for test in tests if test not in one.tests]
            reference = Reference(net, observed(others))
            for name, rows in weighed.without.items():
                assert np.abs(rows[at] - reference.of(name)).max() < CLOSE, (one.kind, name)


def test_five_equal_readings_weigh_what_the_library_says_of_one_hidden_outcome():
    for kind, looks in TABLES.items():
        tests = made_at_random(random.Random(kind), tables={kind: looks}, at_most=5)
        weighed = weigh(CLUTCHED, tests, (), TABLES).weighed
        reference = Reference(bayes_net(weighed.sliced, tests), observed(tests))
        assert_alike(weighed.now, reference, [])


def test_that_any_of_several_faults_is_there_is_the_librarys_joint_share():
    dice = random.Random("any of")
    for _ in range(12):
        tests = made_at_random(dice)
        weighed = weigh(CLUTCHED, tests, (), TABLES).weighed
        one, two = dice.sample([each.name for each in weighed.plain.variables], 2)
        reference = Reference(bayes_net(weighed.sliced, tests), observed(tests), [(one, two)])
        neither = reference.together(one, two)[0, 0]
        faults = {name: weighed.plain.answers[name][1:] for name in (one, two)}
        assert abs(weighed.of_set(faults).share - (1 - neither)) < CLOSE
        both = reference.together(one, two)[1:, 1:].sum()
        assert abs(weighed.joint(faults) - both) < CLOSE
