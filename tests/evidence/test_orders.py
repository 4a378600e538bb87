"""What must come first: open until a test came out so, shut again by another, per system."""

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import ORDERS, Made, not_kept
from diagnostics.evidence.system import System

HUB = ORDERS["hub_first"]
BELT: System = {"drive": "belt_clutch"}


def test_an_order_is_open_until_the_test_came_out_so():
    assert not HUB.is_kept([], BELT)
    assert HUB.is_kept([Made("hub_turn", "free")], BELT)


def test_a_locked_hub_shuts_what_a_free_one_had_opened():
    assert not HUB.is_kept([Made("hub_turn", "free"), Made("hub_turn", "locked")], BELT)


def test_a_test_that_told_nothing_leaves_an_order_as_it_was():
    assert HUB.is_kept([Made("hub_turn", "free"), Made("hub_turn", "nothing_told")], BELT)


def test_nobody_has_to_turn_the_hub_of_an_electric_compressor():
    assert HUB.is_kept([], {"drive": "electric_hv"})


@pytest.mark.parametrize("drive", ["electric_hv", "belt_electric", ""])
def test_high_voltage_is_proven_dead_first_wherever_it_may_be(drive):
    assert not ORDERS["dead_first"].is_kept([], {"drive": drive})
    assert ORDERS["dead_first"].is_kept([Made("hv_isolation", "isolated_dead")], {"drive": drive})


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless", "electric_48"])
def test_nobody_proves_dead_what_has_no_high_voltage(drive):
    assert ORDERS["dead_first"].is_kept([], {"drive": drive})


def test_an_order_holds_where_the_drive_is_not_known():
    assert not HUB.is_kept([], {})


def test_what_is_open_is_told_by_the_orders_own_sentence():
    (order,) = not_kept(["hub_first"], [], BELT)
    assert "by hand" in order.first


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_a_kind_names_orders_that_exist(kind):
    assert set(kind.orders) <= set(ORDERS)


@pytest.mark.parametrize("order", ORDERS.values(), ids=ORDERS)
def test_an_order_names_kinds_and_outcomes_that_exist(order):
    for table in (order.opened, order.closed):
        for name, codes in table.items():
            assert set(codes) <= {one.code for one in KINDS[name].outcomes}
