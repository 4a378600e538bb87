from fractions import Fraction
from itertools import product
from random import Random

import pytest

from diagnostics.evidence.options.costing import (
    KEPT,
    Figure,
    Scales,
    Split,
    Terms,
    scales_of,
    split,
)
from diagnostics.evidence.options.prices import Cost, Line, Typed
from tests.evidence.options.stands import OfTable
from tests.evidence.options.there import there

AGAIN = Typed(rate=12_000, minutes={"find_again": 45})  # 9 000 to find it again
ANSWERS = {
    "clutch": ("ok", "coil_open", "worn"),
    "mechanics": ("ok", "locked", "stiff"),
    "tightness": ("ok", "leaks", "leaks_hidden"),
}


def cost(labor=0, parts=0, refrigerant=0) -> Cost:
    return Cost(
        (
            Line("labor", "work", "Work", 60, labor),
            Line("parts", "part", "Part", 1, parts),
            Line("refrigerant", "refrigerant", "Refrigerant", 1, refrigerant),
        )
    )


def joint(seed: int) -> OfTable:
    """A joint table whose variables hang together any way."""
    random = Random(seed)
    each = list(product(*ANSWERS.values()))
    weights = [random.random() ** 3 for _ in each]
    whole = sum(weights)
    return OfTable(
        ANSWERS, {one: weight / whole for one, weight in zip(each, weights, strict=True)}
    )


@pytest.mark.parametrize("seed", range(5))
def test_expected_cost_is_the_mean_over_all_cars_of_what_each_would_pay(seed):
    table = joint(seed)
    left = {"clutch": ("worn",), "mechanics": ("locked", "stiff")}
    mending = {
        ("clutch", "worn"): cost(20_000, 28_600),
        ("mechanics", "locked"): cost(30_000, 40_000, 6_000),
        ("mechanics", "stiff"): cost(30_000, 35_000, 6_000),
    }
    scales = scales_of(cost(11_400, 28_600), left, mending, (), Terms(), AGAIN)
    paid = 0.0
    for told, share in table.each():
        one = 40_000
        for thing in told.items():
            if thing in mending:
                one += 9_000 + there(mending[thing].total)
        paid += share * one
    assert scales.expected(table) == pytest.approx(paid, abs=0.51)


def test_something_that_is_not_typed_leaves_no_expected_cost():
    missing = Cost((Line("parts", "part", "Part", 1, None, "Price of “Part” not typed."),))
    left = {"clutch": ("worn",)}
    later = scales_of(cost(1), left, {("clutch", "worn"): missing}, (), Terms(), AGAIN)
    now = scales_of(missing, {}, {}, (), Terms(), AGAIN)
    assert later.expected(joint(0)) is None
    assert now.expected(joint(0)) is None
    assert later.missing == now.missing == ("Price of “Part” not typed.",)


def test_finding_it_again_has_to_be_typed_too():
    left = {"clutch": ("worn",)}
    scales = scales_of(cost(1), left, {("clutch", "worn"): cost(1)}, (), Terms(), Typed(rate=1))
    assert scales.missing == ("Hours of “Fault found again when the car comes back” not typed.",)


def test_without_terms_the_customer_pays_all_of_a_visit():
    assert split(cost(100, 50, 7), Terms(), fitted=False, at_once=True) == Split(157)


def test_a_fitted_part_that_fails_is_split_by_the_months_of_each_warranty():
    """36 months kept; the seller pays parts for 24, the shop labor for 12; the rest the customer.

    Parts 36 000: 24/36 seller 24 000. Labor 18 000: 12/36 shop 6 000. Customer 24 000.
    """
    terms = Terms(36, 12, ("labor",), False, 24, ("parts",))
    shared = split(cost(18_000, 36_000), terms, fitted=True, at_once=False)
    assert shared == Split(customer=24_000, shop=6_000, seller=24_000)


def test_a_part_seller_pays_nothing_for_what_was_left_in():
    terms = Terms(36, 12, ("labor",), False, 24, ("parts", "labor"))
    assert split(cost(18_000, 36_000), terms, fitted=False, at_once=False) == Split(54_000)


def test_the_shop_pays_for_what_it_left_in_only_where_it_said_so():
    terms = Terms(24, 12, ("labor", "parts"), shop_left=True)
    assert split(cost(1_000, 500), terms, fitted=False, at_once=False) == Split(750, 750)
    assert split(cost(1_000, 500), terms, fitted=False, at_once=True) == Split(0, 1_500)


def test_where_both_pay_the_seller_goes_first_and_the_shop_pays_what_is_longer():
    terms = Terms(10, 8, ("parts",), False, 5, ("parts",))
    assert split(cost(0, 1_000), terms, fitted=True, at_once=False) == Split(200, 300, 500)


@pytest.mark.parametrize("seed", range(20))
def test_the_three_always_pay_the_whole(seed):
    random = Random(seed)
    months = [random.randrange(60) for _ in range(2)]
    terms = Terms(
        random.randrange(1, 60), months[0], ("labor", "parts"), True, months[1], ("parts",)
    )
    paid = cost(*(random.randrange(100_000) for _ in range(3)))
    for fitted, at_once in product((True, False), repeat=2):
        shared = there(split(paid, terms, fitted=fitted, at_once=at_once))
        assert shared.whole == paid.total
        assert min(shared.customer, shared.shop, shared.seller) >= 0


@pytest.mark.parametrize(
    ("figure", "share"),
    [
        (Figure("coil", "compressor", 3, 19), None),
        (Figure("coil", "compressor", 3, 20), Fraction(3, 20)),
        (Figure("coil", "compressor", 0, 25), Fraction(0)),
        (Figure("coil", "compressor", 1, 8, owner=True), None),
        (Figure("coil", "compressor", 1, 8, " ", owner=True), None),
        (Figure("coil", "compressor", 1, 8, "last two summers", owner=True), Fraction(1, 8)),
        (Figure("coil", "compressor", 30, 20), None),
    ],
)
def test_the_shops_own_figure_counts_from_twenty_jobs_or_by_the_owners_word_and_basis(
    figure, share
):
    assert figure.share == share


def test_a_figure_puts_what_comes_due_on_top():
    """A quarter of 9 000 + 60 000 on 40 000: 57 250."""
    figure = Figure("coil", "compressor", 5, 20)
    scales = scales_of(cost(40_000), {}, {}, [(figure, cost(60_000))], Terms(24), AGAIN)
    assert scales.expected(joint(0)) == 57_250


def test_a_figure_that_may_not_be_used_changes_nothing():
    figure = Figure("coil", "compressor", 5, 19)
    scales = scales_of(cost(40_000), {}, {}, [(figure, cost(60_000))], Terms(24), AGAIN)
    assert scales == Scales(40_000, {})


def test_a_figure_needs_the_time_that_the_car_is_kept():
    figure = Figure("coil", "compressor", 5, 20)
    scales = scales_of(cost(40_000), {}, {}, [(figure, cost(60_000))], Terms(), AGAIN)
    assert scales.missing == (KEPT,)
