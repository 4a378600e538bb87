from fractions import Fraction

import pytest

from diagnostics.evidence.options.costing import Figure, Prices, Terms
from diagnostics.evidence.options.prices import Cost, Typed, labor
from diagnostics.evidence.options.turn import NO_FIGURE, PRICES_ONLY, turn
from tests.evidence.options.test_costing import AGAIN, cost
from tests.evidence.options.there import there

CLUTCH = ("coil", cost(22_800, 28_600))  # 514.00
COMPRESSOR = ("compressor", cost(25_000, 30_000, 5_100))  # 601.00
TWO_YEARS = Prices(AGAIN, Terms(keep_months=24))


def test_the_turning_point_of_a_hand_worked_example():
    """Today 601.00 - 514.00 = 87.00 apart.

    If the old compressor gives out: 90.00 to find it again + 601.00 = 691.00. The dearer one pays
    where more than 87.00 / 691.00 of such cars come back: about one in eight. Both cost the same
    today where the clutch's parts cost 286.00 + 87.00 = 373.00 (373.00 + 228.00 = 601.00).
    """
    found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], TWO_YEARS))
    assert (found.cheaper, found.dearer) == ("coil", "compressor")
    assert found.gap == 8_700
    assert found.later == 69_100
    assert found.share == Fraction(8_700, 69_100)
    assert found.parts == 37_300


def test_on_either_side_of_it_the_other_choice_costs_less():
    found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], TWO_YEARS))
    for thousandth in range(1001):
        share = Fraction(thousandth, 1000)
        cheaper = 51_400 + share * (9_000 + 60_100)
        assert (cheaper > 60_100) == (share > there(found.share))


def test_what_the_shop_promised_to_pay_moves_it():
    """The shop pays labor for 12 of 24 months, for what it left in too: half of 340.00.

    Labor of the visit: 90.00 + 250.00 = 340.00; the customer pays 691.00 - 170.00 = 521.00.
    """
    terms = Terms(24, 12, ("labor",), shop_left=True)
    found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], Prices(AGAIN, terms)))
    assert found.later == 52_100
    assert found.share == Fraction(8_700, 52_100)


def test_without_a_figure_of_the_shop_prices_stand_side_by_side():
    for figure in (None, Figure("coil", "compressor", 15, 19)):
        found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], TWO_YEARS, figure))
        assert found.pays == ""
        assert NO_FIGURE in found.share_rests_on


@pytest.mark.parametrize(("came", "pays"), [(0, "coil"), (2, "coil"), (3, "compressor")])
def test_a_figure_of_twenty_jobs_says_which_one_pays(came, pays):
    figure = Figure("coil", "compressor", came, 20)
    found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], TWO_YEARS, figure))
    assert found.pays == pays
    assert found.share_rests_on[-1] == f"Counted from the shop’s closed jobs: {came} of 20."


def test_the_owners_figure_is_told_with_its_basis():
    figure = Figure("coil", "compressor", 1, 10, "the last two summers", owner=True)
    found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], TWO_YEARS, figure))
    assert found.share_rests_on[-1] == "Typed by the owner: 1 of 10, the last two summers"


@pytest.mark.parametrize(
    ("cheaper", "dearer"),
    [
        (CLUTCH, ("compressor", Cost((labor("unbolt", Typed()),)))),
        (("coil", Cost((labor("unbolt", Typed()),))), COMPRESSOR),
        (COMPRESSOR, CLUTCH),
        (CLUTCH, CLUTCH),
    ],
    ids=["dearer not priced", "cheaper not priced", "the other way round", "the same"],
)
def test_there_is_no_turning_point_where_nothing_stands_against_a_price(cheaper, dearer):
    assert turn(cheaper, dearer, dearer[1], TWO_YEARS) is None


@pytest.mark.parametrize("prices", [Prices(AGAIN), Prices(Typed(), Terms(24))])
def test_where_the_time_or_the_visit_is_not_typed_today_s_prices_still_turn_on_the_parts(prices):
    figure = Figure("coil", "compressor", 9, 20)
    found = there(turn(CLUTCH, COMPRESSOR, COMPRESSOR[1], prices, figure))
    assert found.parts == 37_300
    assert found.rests_on == (PRICES_ONLY,)
    assert found.share is None
    assert found.later is None
    assert found.pays == ""


def test_a_choice_without_parts_has_no_price_of_parts_to_turn_on():
    found = there(turn(("face", cost(1_000)), COMPRESSOR, COMPRESSOR[1], TWO_YEARS))
    assert found.parts is None
