"""What must come first: open until a test came out so, shut again by another, per system."""

import pytest

from diagnostics.evidence.bears import _LOOKS
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.orders import ORDERS, OWN_HOSES, RUN, Made, not_kept
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial

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


@pytest.mark.parametrize("drive", ["electric_hv", "belt_electric"])
def test_high_voltage_is_proven_dead_first_wherever_it_is(drive):
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


# What shuts an order that was open, by what was read or done: common practice, no source.
CHARGED = ("static_pressure", {"low": "470", "high": "470", "temperature": "20", "soaked": "yes"})
FREE = ("hub_turn", {"turns": "free"})
IDENTIFIED = ("gas_identity", {"how": "instrument", "result": "as_label", "share": "100"})
DEAD = ("hv_isolation", {
    "qualified": "yes", "plug": "out", "waited": "10", "figure": "5", "proof": "dead",
    "volts": "0.3",
})  # fmt: skip
CLEAN_KIT = ("sealant_test", {"kit": "nothing", "signs": "none", "flowed": "yes"})
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a", "label_charge_kg": 0.65}
HV: System = {**CAR, "drive": "electric_hv"}


def a_test(name: str, typed: dict[str, str], system: System = CAR) -> Made:
    """A test made with these readings, as the shop server takes it."""
    trial = Trial(name)
    bears = trial.kind.bears(trial.readings(**typed), system)
    return Made(name, trial.code(system, **typed), opens=bears.opens, shuts=bears.shuts)


def kept(order: str, *tests: tuple[str, dict[str, str]], system: System = CAR) -> bool:
    """Whether the order is kept after these tests."""
    return ORDERS[order].is_kept([a_test(*one, system) for one in tests], system)


@pytest.mark.parametrize("kind", _LOOKS)
def test_only_kinds_that_exist_bear_on_an_order(kind):
    assert kind in KINDS


@pytest.mark.parametrize(
    "later",
    [
        ("recovered_share", {"recovered": "640", "machine": "newer", "temperature": "21"}),
        ("recovered_share", {"recovered": "0"}),
        ("recovered_share", {"machine": "newer"}),
        ("vacuum_hold", {"gauge": "system", "depth": "400"}),
        ("vacuum_hold", {"gauge": "needle", "needle_after": "stayed"}),
        ("nitrogen_hold", {"start": "1000"}),
        ("running_pressures", {"low": "10", "high": "40", "shaft": "yes"}),
        ("running_pressures", {"low": "-30", "high": "1200", "shaft": "yes"}),
        ("line_temperatures", {"high": "40"}),
        ("condenser_face", {"dry": "60"}),
        ("control_valve_duty", {"low_full": "-40"}),
        ("pressure_switch", {"contacts": "open", "rest": "5"}),
        ("leak_search", {"method": "electronic", "pressure": "10"}),
        ("debris", {"expansion": "clean"}),
        ("filter_second_look", {"shows": "clean"}),
        ("oil_condition", {"amount": "60"}),
    ],
)
def test_what_takes_the_charge_out_or_finds_none_shuts_running(later):
    assert kept("charge_first", CHARGED)
    assert not kept("charge_first", CHARGED, later)
    assert kept("charge_first", CHARGED, later, CHARGED)


@pytest.mark.parametrize(
    "later",
    [
        ("running_pressures", {"low": "200", "high": "1400", "shaft": "yes"}),
        ("pressure_switch", {"contacts": "closed", "rest": "470"}),
        ("leak_search", {"method": "electronic", "pressure": "470"}),
        ("debris", {"expansion": "not_opened"}),
        ("condenser_face", {"dirt": "no"}),
        ("condenser_face", {"dry": "1800"}),
        ("control_valve_duty", {"ohm": "10"}),
        ("vent_temperature", {"vent": "8"}),
    ],
)
def test_what_leaves_the_charge_in_leaves_running_open(later):
    assert kept("charge_first", CHARGED, later)


def test_what_shut_an_order_stays_so_though_the_car_was_changed_since():
    charged, out = a_test(*CHARGED), Made("recovered_share", "low", True, (), ("charge_first",))
    assert not ORDERS["charge_first"].is_kept([charged, out], CAR)


@pytest.mark.parametrize(
    "later",
    [
        ("walk_round", {"turned": "not_fine"}),
        ("walk_round", {"turned": "not_fine", "gas": "not_fine"}),
        ("coil_power", {"engine": "running", "hub": "not_free"}),
    ],
)
def test_a_shaft_that_does_not_turn_shuts_running_however_it_was_found(later):
    assert kept("hub_first", FREE)
    assert not kept("hub_first", FREE, later)


@pytest.mark.parametrize("shaft", ["not_free", "free", "not_done"])
def test_a_sheared_drive_shuts_running(shaft):
    clutchless: System = {**CAR, "drive": "belt_clutchless"}
    later = ("limiter", {"hub": "stands", "shaft": shaft})
    assert not kept("hub_first", FREE, later, system=clutchless)


@pytest.mark.parametrize("turned", ["fine", "no_reach"])
def test_a_walk_round_opens_no_running(turned):
    assert not kept("hub_first", ("walk_round", {"turned": turned}))


def test_another_gas_met_on_the_walk_round_keeps_the_hoses_off():
    assert kept("gas_first", IDENTIFIED)
    assert not kept("gas_first", IDENTIFIED, ("walk_round", {"gas": "not_fine"}))


# Leak-stop: a kit before the hoses where there is any sign of it, or a can was added.


@pytest.mark.parametrize(
    "sign",
    [
        ("sealant_test", {"kit": "found", "flowed": "yes"}),
        ("sealant_test", {"signs": "seen"}),
        ("sealant_test", {"kit": "unclear"}),
        ("sealant_test", {"can_added": "yes"}),
        ("sealant_test", {"kit": "nothing", "flowed": "no", "can_added": "yes"}),
        ("debris", {"expansion": "found", "jelly": "yes", "beads": "yes"}),
    ],
)
def test_leak_stop_or_a_sign_of_it_keeps_the_hoses_off_until_a_kit_shows_none(sign):
    assert kept("leak_stop_first")
    assert not kept("leak_stop_first", sign)
    assert kept("leak_stop_first", sign, CLEAN_KIT)


def test_a_can_with_a_clean_kit_keeps_no_hoses_off():
    name, typed = CLEAN_KIT
    assert kept("leak_stop_first", (name, typed | {"can_added": "yes"}))


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_whoever_puts_hoses_on_minds_gas_and_leak_stop_alike(kind):
    assert len({*OWN_HOSES} & {*kind.orders}) in (0, 2)


@pytest.mark.parametrize("kind", ["static_pressure", "recovered_share", "running_pressures"])
def test_the_shops_hoses_wait_for_leak_stop(kind):
    made = [a_test("sealant_test", {"kit": "found"}), a_test(*IDENTIFIED), a_test(*CHARGED)]
    assert ORDERS["leak_stop_first"] in KINDS[kind].not_kept(made, CAR)
    typed = {"recovered": "600"} if kind == "recovered_share" else {"low": "470"}
    read = Trial(kind).readings(**typed)
    assert ORDERS["leak_stop_first"] in KINDS[kind].orders_broken(read, made, CAR)


# Recovery before a pump or nitrogen.


@pytest.mark.parametrize("kind", ["vacuum_hold", "nitrogen_hold"])
def test_a_pump_and_nitrogen_wait_for_recovery(kind):
    assert KINDS[kind].orders == ("recovered_first",)


@pytest.mark.parametrize(
    ("tests", "is_kept"),
    [
        ([], False),
        ([CHARGED], False),
        ([CHARGED, ("recovered_share", {"recovered": "600"})], True),
        ([CHARGED, ("recovered_share", {"recovered": "0"})], False),
        ([("static_pressure", {"low": "0", "temperature": "20"})], True),
        ([("static_pressure", {"low": "150", "temperature": "20", "soaked": "yes"})], False),
        ([("recovered_share", {"recovered": "600"}), CHARGED], False),
        ([("recovered_share", {"recovered": "600"}), ("running_pressures", {"low": "200"})], False),
        ([("debris", {"expansion": "clean"})], True),
    ],
)
def test_a_loop_is_taken_as_recovered_only_as_long_as_nothing_was_filled_in(tests, is_kept):
    assert kept("recovered_first", *tests) == is_kept


def test_a_test_of_what_was_changed_since_opens_nothing_but_what_lasts():
    for order in ORDERS.values():
        for name, codes in order.opened.items():
            before = [Made(name, codes[0], touched=True)]
            assert order.is_kept(before, HV | {"drive": "belt_electric"}) == (
                order.lasting or order.at_first
            )


def test_what_was_recovered_stays_so_while_parts_are_changed():
    out = Made("recovered_share", "low", True, ("recovered_first",))
    assert ORDERS["recovered_first"].is_kept([out], CAR)


# High voltage: who works at the compressor waits until it is proven dead.


@pytest.mark.parametrize(
    ("kind", "typed", "breaks"),
    [
        ("oil_condition", {"amount": "60", "source": "compressor"}, True),
        ("oil_condition", {"amount": "10", "source": "machine"}, False),
        ("debris", {"port": "clean"}, True),
        ("debris", {"expansion": "clean", "port": "not_opened"}, False),
    ],
)
def test_work_at_an_electric_compressor_waits_until_it_is_proven_dead(kind, typed, breaks):
    dead = ORDERS["dead_first"]
    trial = Trial(kind)
    read = trial.readings(**typed)
    assert dead in trial.kind.not_kept([], HV)
    assert (dead in trial.kind.orders_broken(read, [], HV)) == breaks
    assert dead not in trial.kind.orders_broken(read, [a_test(*DEAD, HV)], HV)
    assert dead not in trial.kind.orders_broken(read, [], CAR)


@pytest.mark.parametrize(
    "kind", [name for name, one in KINDS.items() if "dead_first" in one.orders]
)
def test_where_the_drive_is_not_noted_it_is_looked_at_first_and_nothing_else_waits(kind):
    assert "orange" in (KINDS[kind].asks({}) or "")
    assert KINDS[kind].not_kept([], {}) == ()


@pytest.mark.parametrize(
    "later",
    [
        ("hv_command", {"commanded": "3000", "actual": "3000"}),
        ("running_pressures", {"low": "200"}),
        ("complaint_seen", {"engages": "yes"}),
        ("noise", {"on": "yes"}),
    ],
)
def test_a_car_that_was_switched_on_since_is_not_dead_any_more(later):
    assert kept("dead_first", DEAD, system=HV)
    assert not kept("dead_first", DEAD, later, system=HV)


# Running asks for hub and charge, whichever test it is.


@pytest.mark.parametrize("order", RUN)
def test_a_noise_is_listened_to_with_hub_and_charge_known(order):
    ear = Trial("noise")
    assert ORDERS[order] in ear.kind.orders_broken(ear.readings(on="yes"), [], CAR)
    assert ear.kind.orders_broken(ear.readings(on="not_tried", off="no"), [], CAR) == ()


def test_power_at_the_coil_asks_for_a_charge_only_with_the_engine_running_and_is_offered_before():
    coil = Trial("coil_power")
    running, off = coil.readings(engine="running", hub="free"), coil.readings(volts="12")
    assert coil.kind.orders_broken(running, [], CAR) == (ORDERS["charge_first"],)
    assert coil.kind.orders_broken(running, [a_test(*CHARGED)], CAR) == ()
    assert coil.kind.orders_broken(off, [], CAR) == ()
    assert coil.kind.not_kept([], CAR) == ()


@pytest.mark.parametrize("kind", ["hub_turn", "limiter"])
def test_a_shaft_with_a_motor_on_it_is_turned_by_hand_only_once_it_is_proven_dead(kind):
    both: System = {"drive": "belt_electric", "clutch": "none"}
    assert KINDS[kind].not_kept([], both) == (ORDERS["dead_first"],)
    assert KINDS[kind].not_kept([a_test(*DEAD, both)], both) == ()
    assert KINDS[kind].not_kept([], {"drive": "belt_clutchless"}) == ()


@pytest.mark.parametrize(
    ("kind", "by_gauge", "without"),
    [
        ("leak_search", {"method": "electronic", "pressure": "470"}, {"method": "dye"}),
        ("pressure_switch", {"contacts": "open", "rest": "470"}, {"contacts": "open"}),
    ],
)
def test_a_gauge_put_on_beside_a_test_asks_for_the_gas_and_the_test_is_offered_before(
    kind, by_gauge, without
):
    trial = Trial(kind)
    gas = ORDERS["gas_first"]
    assert gas in trial.kind.orders_broken(trial.readings(**by_gauge), [], CAR)
    assert trial.kind.orders_broken(trial.readings(**by_gauge), [a_test(*IDENTIFIED)], CAR) == ()
    assert trial.kind.orders_broken(trial.readings(**without), [], CAR) == ()
    assert trial.kind.not_kept([], CAR) == ()
