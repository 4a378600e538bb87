"""Exact shares on small networks drawn at random: against pyAgrum and against the whole table."""

import random
from dataclasses import dataclass

import numpy as np
import pyagrum as gum
import pytest

from diagnostics.evidence.inference.ahead import Ahead, afters
from diagnostics.evidence.inference.belief import Belief, Contradiction
from diagnostics.evidence.inference.factors import Array, Factor, product
from tests.evidence.inference.reference import Reference, fill

CLOSE = 1e-9
NETWORKS = 240


@dataclass(frozen=True)
class Small:
    """A network over a few variables. `factors[n]` is the table of variable n after its parents."""

    sizes: dict[str, int]
    factors: list[Factor]

    @property
    def net(self) -> gum.BayesNet:
        """The same for the library."""
        net = gum.BayesNet("small")
        for name, size in self.sizes.items():
            net.add(gum.LabelizedVariable(name, name, size))
        for one in self.factors:
            fill(net, one.names[-1], one.names[:-1], one.values[0])
        return net

    def whole(self, *told: Factor) -> Array:
        """Every combination of answers with its weight, the case first."""
        return product([*self.factors, *told], list(self.sizes), self.sizes).values


def small(seed: int) -> Small:
    """Three to eight variables, each on up to three earlier ones; now and then an impossibility."""
    dice, numbers = random.Random(seed), np.random.default_rng(seed)
    names = [f"v{at}" for at in range(dice.randint(3, 8))]
    dice.shuffle(names)
    sizes = {name: dice.randint(2, 4) for name in names}
    factors = []
    for at, name in enumerate(names):
        given = dice.sample(names[:at], dice.randint(0, min(3, at)))
        values = numbers.random([*(sizes[one] for one in given), sizes[name]])
        if dice.random() < 0.3:
            values = values * (numbers.random(values.shape) > 0.2) + 1e-6 * (values > 0.9)
            values[..., 0] += 1e-3
        factors.append(Factor.of([*given, name], values / values.sum(axis=-1, keepdims=True)))
    return Small(sizes, factors)


def hints(network: Small, seed: int) -> dict[str, list[float]]:
    """What was told of two variables: of one for certain, of the other by strengths."""
    dice = random.Random(f"hints {seed}")
    known, hinted = dice.sample(list(network.sizes), 2)
    certain = [0.0] * network.sizes[known]
    certain[0] = 1.0  # an answer that is never impossible
    return {known: certain, hinted: [0.05 + dice.random() for _ in range(network.sizes[hinted])]}


def test_each_variable_and_any_two_have_the_librarys_shares():
    for seed in range(NETWORKS):
        network = small(seed)
        told = hints(network, seed)
        factors = [*network.factors, *(Factor.of([name], one) for name, one in told.items())]
        belief = Belief(network.sizes, factors)
        one, two = random.Random(seed).sample(list(network.sizes), 2)
        reference = Reference(network.net, told, [(one, two)])
        for name in network.sizes:
            assert np.abs(belief.of([name])[0] - reference.of(name)).max() < CLOSE, seed
        assert np.abs(belief.of([one, two])[0] - reference.together(one, two)).max() < CLOSE, seed


def test_the_weight_of_what_was_told_is_the_sum_of_the_whole_table():
    for seed in range(NETWORKS):
        network = small(seed)
        told = [Factor.of([name], one) for name, one in hints(network, seed).items()]
        belief = Belief(network.sizes, [*network.factors, *told])
        assert belief.weight[0] == pytest.approx(np.log(network.whole(*told).sum()), abs=CLOSE)


def test_three_variables_together_are_summed_from_the_whole_table():
    for seed in range(NETWORKS):
        network = small(seed)
        names = random.Random(seed).sample(list(network.sizes), 3)
        order = [list(network.sizes).index(name) for name in names]
        others = tuple(at for at in range(len(network.sizes)) if at not in order)
        left = [name for name in network.sizes if name in names]
        summed = network.whole()[0].sum(axis=others)
        shares = summed.transpose([left.index(name) for name in names]) / summed.sum()
        assert np.abs(Belief(network.sizes, network.factors).of(names)[0] - shares).max() < CLOSE


def test_several_cases_at_once_are_each_as_if_it_were_alone():
    for seed in range(0, NETWORKS, 4):
        network, numbers = small(seed), np.random.default_rng(seed)
        names = random.Random(seed).sample(list(network.sizes), 2)
        cases = Factor(
            tuple(names), 0.01 + numbers.random([5, *(network.sizes[one] for one in names)])
        )
        belief = Belief(network.sizes, [*network.factors, cases])
        for at in range(5):
            alone = Belief(
                network.sizes, [*network.factors, Factor(cases.names, cases.values[at : at + 1])]
            )
            assert abs(belief.weight[at] - alone.weight[0]) < CLOSE
            for name in network.sizes:
                shares = belief.of([name])
                case = shares[at] if len(shares) > 1 else shares[0]
                assert np.abs(case - alone.of([name])[0]).max() < CLOSE


def one_more(network: Small, seed: int) -> Factor:
    """A table of four cases over two of its variables."""
    names = tuple(random.Random(seed).sample(list(network.sizes), 2))
    shape = [4, *(network.sizes[one] for one in names)]
    return Factor(names, 0.01 + np.random.default_rng(seed).random(shape))


def assert_as_told(before: Belief, more: Factor, weights: Array, shares: dict[str, Array]) -> None:
    for at in range(4):
        told = before.also([Factor(more.names, more.values[at : at + 1])])
        likely = np.exp(told.weight - before.weight)[0]
        assert weights[at] == pytest.approx(likely, abs=CLOSE)
        for name, each in shares.items():
            case = each[at] if len(each) > 1 else each[0]
            assert np.abs(case - told.of([name])[0]).max() < CLOSE


def test_one_more_table_walked_outward_is_the_same_as_told_from_the_start():
    for seed in range(0, NETWORKS, 4):
        network = small(seed)
        more = one_more(network, seed)
        before = Belief(network.sizes, network.factors, [more.names])
        assert_as_told(before, more, *Ahead(before, network.sizes).after(more))


def test_looking_ahead_at_several_tables_is_the_same_as_telling_each():
    for seed in range(0, NETWORKS, 4):
        network = small(seed)
        some = [one_more(network, seed), one_more(network, seed + 1000)]
        before = Belief(network.sizes, network.factors)
        found = afters(before, network.factors, some, list(network.sizes))
        for more, (weights, shares) in zip(some, found, strict=True):
            assert_as_told(before, more, weights, shares)


def test_how_likely_a_statement_is_comes_from_the_whole_table():
    for seed in range(0, NETWORKS, 4):
        network = small(seed)
        masks = [
            Factor.of([name], [1.0] + [0.0] * (network.sizes[name] - 1))
            for name in list(network.sizes)[:2]
        ]
        share = Belief(network.sizes, network.factors).share(*masks)[0]
        assert share == pytest.approx(network.whole(*masks).sum(), abs=CLOSE)


def test_what_cannot_be_is_said_and_not_shared_out():
    sizes = {"one": 2, "two": 2}
    same = Factor.of(["one", "two"], [[0.5, 0.0], [0.0, 0.5]])
    told = [Factor.of(["one"], [1.0, 0.0]), Factor.of(["two"], [0.0, 1.0])]
    with pytest.raises(Contradiction):
        _ = Belief(sizes, [same, *told]).weight
