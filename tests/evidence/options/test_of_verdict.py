"""Offers on the real network: readings in, plans out."""

import pytest

from diagnostics.evidence.inference import told
from diagnostics.evidence.options.costing import Prices
from diagnostics.evidence.options.of_verdict import OfVerdict
from diagnostics.evidence.options.offers import offers
from diagnostics.evidence.options.plans import Car
from diagnostics.evidence.options.repairs_clutch import PARTS_OF_CLUTCH
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import weigh
from tests.evidence.options.test_plans import BELT


def read(*tests) -> Car:
    made = [told.Test(number, *one) for number, one in enumerate(tests, 1)]
    weighed = weigh(BELT, made, [], TABLES).weighed
    return Car(BELT, weighed.plain.answers, OfVerdict(weighed))


def by_code(*tests):
    return {one.code: one for one in offers(read(*tests), Prices())}


COIL_OPEN = (("coil_resistance", "open"), ("coil_power", "no_current"))


def test_single_and_joint_shares_are_those_of_the_verdict():
    stands = read(*COIL_OPEN).stands
    coil, wet = {"clutch": ("coil_open", "melt_open")}, {"seal": ("wet",)}
    both = stands.share_of({**coil, **wet})
    assert max(stands.share_of(coil), stands.share_of(wet)) <= both
    assert both <= stands.share_of(coil) + stands.share_of(wet)


def test_a_set_over_several_variables_is_proved_where_a_part_is_and_ruled_out_where_all_are():
    stands = read(*COIL_OPEN, ("hub_turn", "free"), ("shaft_seal", "dry")).stands
    coil = {"clutch": ("coil_open", "melt_open")}
    locked, wet = {"mechanics": ("locked",)}, {"seal": ("wet",)}
    assert [stands.standing_of(one) for one in (coil, locked, wet)] == [
        "proved", "ruled_out", "ruled_out",
    ]  # fmt: skip
    assert stands.standing_of({**coil, **wet}) == "proved"
    assert stands.standing_of({**locked, **wet}) == "ruled_out"
    assert stands.standing_of({**locked, "amount": ("low",)}) == "open"


def test_an_open_coil_on_a_shaft_nobody_turned_keeps_the_compressor_in_sight():
    found = by_code(*COIL_OPEN)
    assert set(found) & set(PARTS_OF_CLUTCH)
    assert "compressor_device" in found
    assert "No test has shown that the shaft turns smooth." in found["coil"].unshown
    assert not found["coil"].is_defensible


def test_a_shaft_turned_smooth_takes_that_argument_away():
    found = by_code(*COIL_OPEN, ("hub_turn", "free"))
    assert not [text for text in found["coil"].unshown if "shaft turns" in text]


def test_a_locked_shaft_asks_for_compressor_drier_and_device():
    found = by_code(("hub_turn", "locked"))
    assert found["compressor_device"].whole
    assert found["compressor_device"].also_possible
    assert not any(found[code].whole for code in PARTS_OF_CLUTCH if code in found)


@pytest.mark.parametrize("tests", [(), COIL_OPEN, (("hub_turn", "locked"),)], ids=len)
def test_make_safe_and_nothing_always_stand_last(tests):
    assert list(by_code(*tests))[-2:] == ["make_safe", "nothing"]
