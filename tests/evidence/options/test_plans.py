from itertools import combinations

import pytest

from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.options.plans import Car, cured, found, offered, plans, sees_to
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.evidence.system import System
from tests.evidence.options.stands import AsTold

BELT = System(
    drive="belt_clutch", clutch="magnetic", displacement="fixed", branches=["front"],
    refrigerant="R-134a",
)  # fmt: skip


def car(told=(), system=BELT, rest=0.0, **fields) -> Car:
    return Car(system, model_of(system).answers, AsTold(dict(told), rest), **fields)


def coded(some) -> list[str]:
    return ["+".join(one.code for one in plan) for plan in some]


COIL = {("clutch", "coil_open"): 0.995}
LEAK = {("tightness", "leaks"): 0.97, ("amount", "low"): 0.98}


def test_what_has_no_chance_is_not_offered():
    assert offered(car()) == []


def test_what_has_two_in_a_hundred_is_offered():
    assert [one.code for one in offered(car({("cabin", "door"): 0.02}))] == ["door"]
    assert offered(car({("cabin", "door"): 0.019})) == []


def test_nobody_is_quoted_a_whole_loop_on_a_small_suspicion():
    small, large = car({("gas", "mixed"): 0.1}), car({("gas", "mixed"): 0.3})
    assert "whole_loop" not in [one.code for one in offered(small)]
    assert "whole_loop" in [one.code for one in offered(large)]


@pytest.mark.parametrize(
    "told", [("dirt", "leak_stop"), ("gas", "mixed"), ("oil", "wrong")], ids=lambda one: one[1]
)
def test_leak_stop_mixed_gas_or_wrong_oil_ask_for_the_whole_loop(told):
    assert "whole_loop" in coded(plans(car({told: 0.995})))


def test_with_parts_of_a_clutch_the_compressor_is_offered_until_the_shaft_is_shown_smooth():
    shown = [one.code for one in offered(car(COIL))]
    not_shown = [one.code for one in offered(car(COIL | {("mechanics", "locked"): 0.011}))]
    assert "compressor_device" not in shown
    assert "compressor_device" in not_shown


def test_two_faults_make_plans_of_two_repairs():
    assert "coil+leak_place" in coded(plans(car(COIL | LEAK)))


def test_a_leak_that_was_found_is_repaired_at_its_place():
    codes = coded(plans(car(COIL | LEAK, places=frozenset({"suction"}))))
    assert "coil+leak_hose" in codes
    assert not [code for code in codes if "leak_place" in code]


def test_leaks_at_two_places_want_both_repairs():
    at_both = car(LEAK, places=frozenset({"suction", "low_port"}))
    whole = coded(plans(at_both))[0]
    assert set(whole.split("+")) == {"leak_joint", "leak_hose"}
    hose, joint = OPTIONS["leak_hose"], OPTIONS["leak_joint"]
    assert "leaks" not in cured([hose], at_both).get("tightness", ())
    assert "leaks" in cured([hose, joint], at_both)["tightness"]


def test_a_wet_shaft_seal_is_a_place_that_a_compressor_closes():
    wet = car({("seal", "wet"): 0.995} | LEAK)
    assert ("place", "nose") in found(wet)
    assert {"shaft_seal", "compressor", "compressor_device"} <= set(coded(plans(wet)))


def test_a_plan_has_no_repair_that_could_be_left_away():
    at = car(COIL | LEAK | {("dirt", "metal"): 0.9}, places=frozenset({"suction"}))
    things = found(at)
    for plan in [one for one in plans(at) if len(one) > 1]:
        for fewer in combinations(plan, len(plan) - 1):
            assert not all(any(sees_to(one, thing) for one in fewer) for thing in things)


def test_plans_are_few_and_none_is_told_twice():
    told = COIL | {("flow", "drier_hose"): 0.9, ("outside", "fan"): 0.9}
    at = car(told, rest=0.03)
    whole = [plan for plan in plans(at) if all(sees_to_any(plan, one) for one in found(at))]
    assert len(whole) == 8
    codes = coded(plans(at))
    assert len(codes) == len({frozenset(code.split("+")) for code in codes})


def test_six_things_that_go_together_find_six_repairs():
    told = COIL | {("flow", "drier_hose"): 0.9, ("outside", "fan"): 0.9, ("cabin", "door"): 0.9}
    told |= {("command", "relay_open"): 0.9, ("belt", "off"): 0.9}
    assert len(plans(car(told))[0]) == 6


def sees_to_any(plan, thing) -> bool:
    return any(sees_to(one, thing) for one in plan)


def test_where_the_answer_is_not_settled_but_the_fault_is_all_that_can_be_are_cured():
    told = {("clutch", "coil_open"): 0.5, ("clutch", "worn"): 0.495}
    codes = coded(plans(car(told)))
    assert codes[:2] == ["clutch_in_car", "clutch_unbolted"]


def test_a_missing_charge_that_nobody_can_place_may_be_weighed_again():
    told = {("amount", "low"): 0.99, ("tightness", "leaks"): 0.4}
    told |= {("tightness", "leaks_hidden"): 0.3, ("tightness", "short_filled"): 0.29}
    assert coded(plans(car(told)))[0] == "charge_dye"


def test_what_the_technician_set_aside_is_not_offered():
    at = car(COIL, set_aside={"clutch_in_car": "The frame is in the way."})
    assert "clutch_in_car" not in coded(plans(at))
    assert "clutch_unbolted" in coded(plans(at))


def test_a_car_without_a_belt_asks_nothing_of_the_belt():
    electric = car({("mechanics", "isolation"): 0.995}, System(drive="electric_hv"))
    assert coded(plans(electric)) == ["electric_compressor"]
