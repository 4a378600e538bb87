"""What holds whatever was told: of any tests, in any order, on any car."""

import random
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.states import NEW, sliced
from diagnostics.evidence.inference.told import Test as Made
from diagnostics.evidence.inference.told import told_by
from diagnostics.evidence.inference.verdict import Carries
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import Verdict
from tests.evidence.inference.cars import (
    BIGGEST,
    CLUTCHED,
    cars,
    changes_at_random,
    made_at_random,
    one_made,
    verdict_on,
)

ROUNDS = 12
each_table = pytest.mark.parametrize("looks", TABLES.values(), ids=TABLES)


def plainly(one: Carries) -> tuple[str, float]:
    return one.kind, one.odds


def said(verdict: Verdict) -> list[tuple[object, ...]]:
    """All that a verdict says of every answer, without the numbers of the steps."""
    return [
        (
            one.variable, one.code, one.standing, one.share, one.weaker, one.alone,
            sorted(map(plainly, one.carried)),
        )
        for one in verdict.stands
    ]  # fmt: skip


def renumbered(tests: Sequence[Made]) -> list[Made]:
    return [replace(test, number=number) for number, test in enumerate(tests, 1)]


def test_the_order_of_entry_changes_nothing():
    dice = random.Random("order")
    for system in dice.sample(cars(), ROUNDS):
        changes = changes_at_random(dice, dice.randint(0, 2))
        tests = made_at_random(dice, len(changes))
        one = verdict_on(tests, system, changes)
        dice.shuffle(tests)
        two = verdict_on(renumbered(tests), system, changes)
        assert said(one) == said(two)
        assert one.joint == two.joint
        assert one.something_else == two.something_else


def test_the_order_of_entry_changes_nothing_of_what_disagrees():
    dice = random.Random("disagree")
    for _ in range(ROUNDS):
        tests = made_at_random(dice)
        told = [
            {(one.what, frozenset(one.kinds), one.again) for one in verdict_on(made).disagree}
            for made in (tests, renumbered(dice.sample(tests, len(tests))))
        ]
        assert told[0] == told[1]


def test_an_outcome_that_carries_nothing_changes_nothing():
    dice = random.Random("nothing")
    silent = [
        Made(90 + at, kind.name, one.code, "yes")
        for at, kind in enumerate(KINDS.values())
        for one in kind.outcomes
        if not one.carries
    ]
    assert silent
    for system in (CLUTCHED, BIGGEST):
        tests = made_at_random(dice)
        assert said(verdict_on(tests, system)) == said(verdict_on([*tests, *silent], system))


@each_table
def test_five_equal_readings_say_what_one_true_outcome_says_and_no_more(looks):
    model = model_of(CLUTCHED)
    true = looks.true(model) * looks.readable(model)
    for at, outcome in enumerate(looks.outcomes):
        five = looks.told(model, [outcome] * 5).values[0]
        assert np.allclose(five, true[..., at] / true[..., at].max(), atol=1e-4), outcome
        ten = looks.told(model, [outcome] * 10).values[0]
        assert np.abs(ten - five).max() < 1e-4


@each_table
def test_readings_of_one_way_never_tell_apart_more_than_some_true_outcome_does(looks):
    dice = random.Random(looks.kind)
    model = model_of(CLUTCHED)
    true = (looks.true(model) * looks.readable(model)).reshape([-1, len(looks.outcomes)])
    most = (true.max(axis=0) / true.min(axis=0)).max()
    for _ in range(5):
        way = looks.way(dice.choice(looks.outcomes))
        codes = [code for code in looks.outcomes if looks.way(code) == way]
        told = looks.told(model, dice.choices(codes, k=dice.randint(1, 6))).values
        assert told.max() / told.min() <= most * (1 + 1e-9)


@pytest.mark.parametrize(
    "looks",
    [one for one in TABLES.values() if one.kind not in LASTING],
    ids=lambda looks: looks.kind,
)
def test_normal_results_of_what_comes_and_goes_change_nothing_while_it_is_not_failing(looks):
    dice = random.Random(looks.kind)
    tests = [test for test in made_at_random(dice, at_most=4) if test.kind != looks.kind]
    calm = [one_made(looks.kind, code, 50 + at, "no") for at, code in enumerate(looks.normal * 2)]
    before, after = verdict_on(tests), verdict_on([*tests, *calm])
    for one, two in zip(before.stands, after.stands, strict=True):
        assert two.share == pytest.approx(one.share, abs=1e-12)
        assert not {looks.kind} & {carries.kind for carries in two.carried}


@pytest.mark.parametrize("kind", sorted(LASTING))
def test_what_does_not_come_and_go_tells_as_much_while_it_is_not_failing(kind):
    looks, network = TABLES[kind], sliced(model_of(CLUTCHED), ())
    calm, hot = (
        told_by(network, [one_made(kind, looks.normal[0], failing=switch)], TABLES)
        for switch in ("no", "yes")
    )
    assert [
        (one.factor.values == two.factor.values).all() for one, two in zip(calm, hot, strict=True)
    ]


def test_a_new_part_tested_while_nothing_fails_is_taken_at_its_word():
    """That it does not fail any more is what the repair was for."""
    tests = [
        one_made("air_gap", "inside", 1, "no", 1),
        one_made("coil_power", "takes_hold", 2, "no", 1),
    ]
    stands = verdict_on(tests, CLUTCHED, [{"clutch": NEW}]).of("clutch", "ok")
    assert stands.standing == "proved"


@each_table
def test_a_fault_seen_while_it_was_not_failing_was_seen_all_the_same(looks):
    network = sliced(model_of(CLUTCHED), ())
    for code in [one for one in looks.outcomes if one not in looks.normal]:
        calm, hot = (
            told_by(network, [one_made(looks.kind, code, failing=switch)], TABLES)[0].factor
            for switch in ("no", "yes")
        )
        assert (calm.values == hot.values).all()


@each_table
def test_where_it_cannot_be_told_whether_it_fails_normal_results_say_less(looks):
    model = model_of(CLUTCHED)
    for code in looks.normal:
        spread = [np.ptp(looks.told(model, [code], there).values) for there in (1.0, 0.5, 0.0)]
        assert spread[0] >= spread[1] >= spread[2]
        assert spread[2] < 1e-12


def test_shares_of_a_variable_sum_to_one_after_anything():
    dice = random.Random("sums")
    for system in dice.sample(cars(), ROUNDS):
        changes = changes_at_random(dice, dice.randint(0, 2))
        verdict = verdict_on(made_at_random(dice, len(changes)), system, changes)
        for variable in verdict.weighed.plain.variables:
            found = [one for one in verdict.stands if one.variable == variable.name]
            assert sum(one.share for one in found if one.code != "not_ok") == pytest.approx(1)
            assert all(-1e-12 <= one.share <= 1 + 1e-12 for one in found)


def test_at_most_one_answer_of_a_variable_is_proved_and_none_that_no_test_named():
    dice = random.Random("proved")
    for system in dice.sample(cars(), ROUNDS):
        verdict = verdict_on(made_at_random(dice), system)
        named = {
            (variable, code)
            for told in verdict.weighed.told
            for variable, codes in told.looks.direct.items()
            for code in codes
        }
        proved = [one for one in verdict.stands if one.standing == "proved"]
        answers = [(one.variable, one.code) for one in proved if one.code != "not_ok"]
        assert set(answers) <= named
        assert len({variable for variable, _ in answers}) == len(answers)


def test_counting_for_a_third_never_turns_the_likeliest_into_more():
    """A standing may get weaker by it; it is never proved where the whole is not."""
    dice = random.Random("third")
    for system in dice.sample(cars(), ROUNDS):
        for one in verdict_on(made_at_random(dice), system).stands:
            if one.weaker == "proved":
                assert one.standing in ("proved", "likely")
