"""The best order of tests on a small network, and how near the program's choice comes to it."""

from itertools import product

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.worth import tables_of
from diagnostics.evidence.simulation.reduced import (
    Choose,
    Reduced,
    compared,
    expected,
    optimum,
    reduced_to,
)
from diagnostics.evidence.tables import TABLES


def small(*tests: str) -> Reduced:
    return reduced_to(("clutch",), tests, KINDS, TABLES)


def written_out(reduced: Reduced, policy: dict[tuple, str]) -> float:
    """What a policy costs, every answer and every outcome by itself.

    `policy` has the next test after what was read so far; where it has none it is decided.
    """
    model = reduced.model
    losses = tables_of(reduced.weighed(()))["clutch"]
    prior = reduced.prior
    leaves: dict[tuple, list[float]] = {}
    minutes: dict[tuple, float] = {}
    for answer, share in enumerate(prior):
        read = {
            name: (looks.true(model) @ looks.slips())[answer]
            for name, looks in reduced.tables.items()
        }
        for outcomes in product(*(range(len(one)) for one in read.values())):
            told = dict(zip(read, outcomes, strict=True))
            chance, time = float(share), 0.0
            path: tuple[tuple[str, int], ...] = ()
            for name, outcome in told.items():
                chance *= float(read[name][outcome])
            while path in policy:
                kind = policy[path]
                time += reduced.minutes(kind, path)
                path = (*path, (kind, told[kind]))
            leaves.setdefault(path, [0.0] * len(prior))[answer] += chance
            minutes[path] = time
    return sum(
        minutes[path] * sum(weights)
        + min(sum(a * b for a, b in zip(row, weights, strict=True)) for row in losses)
        for path, weights in leaves.items()
    )


def policies(reduced: Reduced) -> list[dict[tuple, str]]:
    """Every policy of two tests: none; one, and after each of its outcomes the other or none."""
    one, two = reduced.tables
    found: list[dict[tuple, str]] = [{}]
    for first, second in ((one, two), (two, one)):
        count = len(reduced.tables[first].outcomes)
        for goes_on in product((False, True), repeat=count):
            after = {((first, at),): second for at, on in enumerate(goes_on) if on}
            found.append({(): first, **after})
    return found


def test_the_best_is_the_best_of_all_policies_written_out():
    """Two tests of a clutch with outcomes few enough that every policy can be tried."""
    reduced = small("air_gap", "pulley_bearing")
    assert optimum(reduced) == pytest.approx(
        min(written_out(reduced, policy) for policy in policies(reduced)), abs=1e-9
    )


def test_a_policy_costs_what_it_costs_written_out():
    reduced = small("air_gap", "pulley_bearing")
    policy = {(): "air_gap", (("air_gap", 1),): "pulley_bearing"}
    cost = expected(reduced, lambda made: policy.get(made, ""))
    assert cost == pytest.approx(written_out(reduced, policy), abs=1e-9)


def test_deciding_at_once_is_the_policy_without_a_test():
    reduced = small("air_gap", "pulley_bearing")
    assert expected(reduced, lambda _made: "") == pytest.approx(reduced.deciding(reduced.prior))


def in_order(kinds: list[str]) -> Choose:
    """The tests one after another, then none."""
    return lambda made: (kinds[len(made) :] or [""])[0]


def test_no_choice_costs_less_than_the_best_one():
    reduced = small("air_gap", "pulley_bearing")
    best = optimum(reduced)
    for tests in product(("", "air_gap"), ("", "pulley_bearing")):
        cost = expected(reduced, in_order([one for one in tests if one]))
        assert cost >= best - 1e-9


def test_the_program_comes_within_a_twentieth_of_the_best():
    found = compared(KINDS, TABLES)
    assert found["optimum"] < found["cost"] < found["at_once"]
    assert found["kept"]
