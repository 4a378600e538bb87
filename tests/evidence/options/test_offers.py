from dataclasses import replace
from itertools import pairwise

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.drives import NOT_NOTED
from diagnostics.evidence.options.costing import Figure, Prices, Terms
from diagnostics.evidence.options.offer import Offer
from diagnostics.evidence.options.offers import NAMED_FROM, OPENED, least, offers, why_also
from diagnostics.evidence.options.plans import Car
from diagnostics.evidence.options.prices import Cost, PartPrice, Typed, cost_now
from diagnostics.evidence.options.turn import between
from diagnostics.evidence.system import System
from tests.evidence.options.test_costing import ANSWERS, joint
from tests.evidence.options.test_plans import BELT, COIL, LEAK, car
from tests.evidence.options.test_prices import FULL
from tests.evidence.options.test_repairs import CLAIMS
from tests.evidence.options.there import there
from tests.evidence.test_kind import BANNED

NOTHING_TYPED = Prices()
PRICED = Prices(FULL, Terms(24))
PRICES = {"coil": 8_000, "clutch": 28_000, "compressor": 60_000}
DIFFERENT = Prices(
    replace(
        FULL, parts={**FULL.parts, **{code: PartPrice(p, "new") for code, p in PRICES.items()}}
    ),
    Terms(24),
)


def by_code(told, prices=NOTHING_TYPED, **fields) -> dict[str, Offer]:
    return {one.code: one for one in offers(car(told, **fields), prices)}


def test_made_safe_and_nothing_stand_last_on_every_car_and_are_also_possible():
    for told in ({}, COIL, LEAK, {("mechanics", "locked"): 1.0}):
        last = offers(car(told), NOTHING_TYPED)[-2:]
        assert [one.code for one in last] == ["make_safe", "nothing"]
        assert {one.mark for one in last} == {"also possible"}
        assert {one.expected for one in last} == {None}


def test_nothing_costs_nothing_and_made_safe_costs_what_is_typed():
    found = by_code(COIL, PRICED)
    assert found["nothing"].cost.total == 0
    assert found["make_safe"].cost.total == 6_000
    assert by_code(COIL)["make_safe"].cost.missing == ("Hours of “Made safe” not typed.",)


def test_coil_open_shaft_smooth_nose_dry_charge_right_the_coil_is_defensible():
    found = by_code(COIL)
    assert found["coil"].is_defensible
    assert found["coil"].cheapest_defensible
    assert found["coil"].mark == "also possible"
    assert sum(one.cheapest_defensible for one in found.values()) == 1


def an_offer(code: str, total: int | None, extent: int) -> Offer:
    found = by_code(COIL, PRICED)["coil"]
    part = replace(found.options[0], code=code, extent=extent)
    line = replace(found.cost.lines[0], amount=total, missing="" if total else "Not typed.")
    return replace(found, options=(part,), cost=Cost((line,)))


def test_a_way_without_a_price_in_which_more_is_done_takes_the_cheapest_nothing():
    whole, dear, unpriced = (
        an_offer("small", 800, 5), an_offer("big", 1000, 4), an_offer("other", None, 6)
    )  # fmt: skip
    found = least([dear, unpriced, whole])
    assert found is whole
    assert why_also(whole, [whole, dear, unpriced]) == (
        "the cheapest that the tests ask for, as far as prices are typed;"
        " nothing it rests on is open"
    )


def test_less_work_without_a_price_goes_before_and_is_not_called_the_cheapest():
    dear, unpriced = an_offer("big", 1000, 9), an_offer("small", None, 2)
    assert least([dear, unpriced]) is unpriced
    assert "cheapest" not in why_also(unpriced, [dear, unpriced])


@pytest.mark.parametrize(
    ("told", "sentence"),
    [
        ({("mechanics", "locked"): 0.02}, "No test has shown that the shaft turns smooth."),
        ({("mechanics", "stiff"): 0.06}, "That the shaft turns smooth is not settled."),
        ({("seal", "wet"): 0.05}, "No test has shown that the shaft seal is dry."),
        ({("amount", "low"): 0.3}, "The charge is not shown to be right."),
    ],
)
def test_what_no_test_has_shown_stands_with_it_and_it_is_not_called_defensible(told, sentence):
    found = by_code(COIL | told)
    assert found["coil"].unshown == (sentence,)
    assert not found["coil"].is_defensible
    assert not any(one.cheapest_defensible for one in found.values())
    assert found["coil"].mark == "also possible"


def test_a_charge_that_the_plan_puts_right_need_not_be_shown_before():
    assert by_code(COIL | LEAK)["coil+leak_place"].unshown == ()


def test_a_locked_shaft_with_an_open_melt_fuse_leaves_no_clutch_to_defend():
    told = {("mechanics", "locked"): 0.995, ("clutch", "melt_open"): 0.995}
    found = by_code(told)
    assert not found["coil"].whole
    assert not found["coil"].is_defensible
    assert found["compressor_device"].cheapest_defensible
    assert "Compressor: locked (shown by test)" in [one.words for one in found["coil"].leaves]


def test_metal_asks_for_the_condenser_too():
    found = by_code({("mechanics", "locked"): 0.995, ("dirt", "metal"): 0.995})
    assert not found["compressor_device"].whole
    assert found["compressor_condenser"].is_defensible


def test_a_compressor_alone_is_not_defensible_before_the_loop_was_looked_into():
    found = by_code({("mechanics", "locked"): 0.995, ("dirt", "metal"): 0.05})
    assert found["compressor"].unshown == ("No test has shown that the loop is free of metal.",)


def test_against_the_dearer_one_stands_what_was_found_in_order():
    told = COIL | {("mechanics", "not_pumping"): 0.03}
    said = [one.sentence for one in by_code(told)["compressor_device"].against]
    assert "A locked shaft, which would ask for a compressor, is ruled out by test." in said
    assert "A leaking shaft seal is ruled out by test." in said
    assert "That it turns and does not pump is ruled out by test." not in said
    assert OPENED in said


def test_each_argument_names_the_answers_whose_tests_say_so():
    told = COIL | {("mechanics", "not_pumping"): 0.03}
    of = {one.sentence: one.of for one in by_code(told)["compressor_device"].against}
    assert of["A leaking shaft seal is ruled out by test."] == {"seal": ("wet",)}


def test_nothing_is_held_against_a_compressor_that_locks():
    told = {("mechanics", "locked"): 0.995, ("seal", "wet"): 0.3}
    assert by_code(told)["compressor_device"].against == ()


def test_where_the_cheapest_cures_something_unproved_it_says_so():
    likely = by_code({("clutch", "coil_open"): 0.9})
    assert likely["coil"].warning == (
        "It costs least today, and what it cures is most likely: it may be paid and change nothing."
    )
    assert by_code(COIL)["coil"].warning == ""
    assert not any(one.warning for code, one in likely.items() if code != "coil")


def test_the_warning_goes_with_the_price_not_with_the_size_of_the_repair():
    used = PartPrice(100, "used")
    typed = replace(FULL, parts={**FULL.parts, "clutch": used}, rate=0)
    found = by_code({("clutch", "coil_open"): 0.9}, Prices(typed, Terms(24)))
    assert next(iter(found)) == "clutch_in_car"
    assert found["clutch_in_car"].warning
    assert not found["coil"].warning


def test_priced_plans_are_sorted_by_what_they_are_expected_to_cost():
    made = [one for one in offers(car(COIL | LEAK), DIFFERENT) if one.sees_to_found][:-2]
    amounts = [there(one.expected) for one in made]
    assert all(less <= more for less, more in pairwise(amounts))


def test_a_plan_that_leaves_what_was_found_is_expected_to_cost_the_visit_too():
    found = by_code(COIL | LEAK, DIFFERENT)
    alone, both = found["coil"], found["coil+leak_place"]
    assert there(alone.cost.total) < there(both.cost.total)
    assert there(alone.expected) > there(both.expected)


def test_what_is_not_priced_has_no_total_and_no_expected_cost():
    for one in offers(car(COIL | LEAK), NOTHING_TYPED):
        if one.repairs:
            assert one.cost.total is None
            assert one.cost.missing
            assert one.expected is None


def test_two_repairs_of_a_plan_that_share_work_pay_it_once():
    found = by_code(COIL | LEAK | {("flow", "condenser_blocked"): 0.99}, PRICED)
    plan = found["coil+leak_place+condenser"]
    codes = [(line.kind, line.code) for line in plan.cost.lines]
    assert len(codes) == len(set(codes))


def test_a_plan_of_two_stands_as_the_weaker_of_them():
    found = by_code(COIL | LEAK)
    assert found["coil"].standing == "proved"
    assert found["coil+leak_place"].standing == "likely"


def test_nothing_is_not_called_ruled_out():
    assert {by_code(COIL)[code].standing for code in ("nothing", "make_safe")} == {"open"}


def test_what_was_found_stands_before_what_is_only_not_settled():
    made = offers(car(COIL, rest=0.03), NOTHING_TYPED)[:-2]
    turned = [one.sees_to_found for one in made]
    assert turned == sorted(turned, reverse=True)
    assert True in turned
    assert False in turned


def test_what_is_hardly_so_is_not_named_among_what_is_left():
    told = COIL | {
        ("flow", "device_open"): NAMED_FROM - 0.01,
        ("flow", "drier_hose"): NAMED_FROM + 0.01,
    }
    left = [one.words for one in by_code(told)["coil"].leaves]
    assert left == ["Flow: drier or hose blocked (not settled)"]


def test_what_is_rightly_so_is_never_left_as_a_fault():
    told = COIL | {("command", "refused_low"): 0.9, ("cabin", "as_designed"): 0.9}
    assert by_code(told)["coil"].leaves == ()


def test_a_shaft_that_may_seize_tells_the_customer_to_stop_driving():
    found = by_code({("mechanics", "locked"): 0.9})
    assert found["nothing"].cautions == (STOP_DRIVING,)
    assert by_code(COIL)["nothing"].cautions == ()


def test_where_the_drive_is_not_noted_that_comes_first():
    found = by_code(COIL, system=System())
    assert found["coil"].needs[0].sentence == NOT_NOTED
    assert by_code(COIL)["coil"].needs[0].code == "hub"


def test_needs_that_do_not_concern_such_a_car_are_left_out():
    plan = by_code({("mechanics", "locked"): 0.99}, system=System(drive="belt_clutchless"))
    codes = {need.code for need in plan["compressor_device"].needs}
    assert "gap" not in codes
    assert {"debris", "hub", "gas"} <= codes


def test_a_rear_branch_is_counted_wherever_the_loop_is_opened():
    rear = System({**BELT, "branches": ["front", "rear"]})
    assert "branches" in {one.code for one in by_code(LEAK, system=rear)["leak_place"].needs}
    assert "branches" not in {one.code for one in by_code(LEAK)["leak_place"].needs}


def test_filling_alone_says_that_a_leak_is_left_and_that_rules_may_forbid_it():
    found = by_code(LEAK)["charge_dye"]
    assert found.unshown == ("It leaks at a place: filled again, it loses it again.",)
    assert not found.is_defensible
    assert "refill" in {one.code for one in found.needs}


def test_the_turning_point_of_two_plans_leaves_out_what_both_do():
    found = by_code(COIL | LEAK | {("mechanics", "locked"): 0.015}, DIFFERENT)
    cheap, dear = found["coil+leak_place"], found["compressor_device+leak_place"]
    turn = there(between(cheap, dear, DIFFERENT))
    alone = there(found["compressor_device"].cost.total)
    assert turn.gap == there(dear.cost.total) - there(cheap.cost.total)
    assert turn.later == alone + 6_000


def test_the_shops_figure_for_these_two_speaks_for_one_of_them():
    own = replace(DIFFERENT, figures=(Figure("coil", "compressor_device", 20, 20),))
    found = by_code(COIL | {("mechanics", "locked"): 0.015}, own)
    turn = there(between(found["coil"], found["compressor_device"], own))
    assert turn.pays == "compressor_device"


TOLD = [
    {},
    COIL,
    COIL | LEAK,
    {("mechanics", "locked"): 0.9, ("dirt", "metal"): 0.5},
    {("gas", "mixed"): 0.99, ("oil", "wrong"): 0.5},
]


@pytest.mark.parametrize("told", TOLD, ids=range(len(TOLD)))
@pytest.mark.parametrize("drive", ["", "belt_clutch", "belt_clutchless", "electric_hv"])
def test_no_word_of_an_offer_claims_too_much_or_shows_a_chance(told, drive):
    for one in offers(car(told, System(drive=drive), rest=0.03), PRICED):
        said = [
            one.words, one.warning, one.mark, *one.leaves_words, *one.unshown, *one.cautions,
            *(left.words for left in one.leaves), *(need.sentence for need in one.needs),
            *(argument.sentence for argument in one.against), *one.cost.missing, *one.cost.notes,
        ]  # fmt: skip
        for text in said:
            assert not CLAIMS.search(text), text
            assert not BANNED.search(text), text


def test_every_repair_offered_says_what_it_leaves_and_what_comes_first():
    for one in offers(car(COIL | LEAK, rest=0.03), Prices(Typed())):
        assert one.leaves_words
        assert one.needs


@pytest.mark.parametrize("seed", range(3))
def test_expected_costs_are_the_mean_over_all_cars_of_a_joint_table(seed):
    """Each car that is left with a fault in question pays a visit and its cheapest repair."""
    table = joint(seed)
    at = Car(BELT, ANSWERS, table)
    made = [one for one in offers(at, DIFFERENT) if one.repairs]
    singles = {option.code: option for one in made for option in one.options}
    meant = {thing for one in singles.values() for thing in pairs(one.cures)}
    for offer in made:
        mends = {thing for one in offer.options for thing in pairs(one.all_cures)}
        paid = 0.0
        for told, share in table.each():
            left = [thing for thing in told.items() if thing in meant - mends]
            paid += share * sum(6_000 + cheapest(thing, singles) for thing in left)
        assert offer.expected == pytest.approx(there(offer.cost.total) + paid, abs=0.51)


def pairs(cures) -> set[tuple[str, str]]:
    return {(name, code) for name, codes in cures.items() for code in codes}


def cheapest(thing, singles) -> int:
    curing = [one for one in singles.values() if thing in pairs(one.all_cures)]
    return min(there(cost_now([one], DIFFERENT.typed).total) for one in curing)
