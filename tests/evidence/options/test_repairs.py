import re
from itertools import product

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.inference.model import model_of
from diagnostics.evidence.inference.network import OTHER, VARIABLES
from diagnostics.evidence.leak_places import PLACES
from diagnostics.evidence.options import needs
from diagnostics.evidence.options.lines import FIND_AGAIN, FLUIDS, OPERATIONS, PARTS
from diagnostics.evidence.options.option import Ground, Need, faults, on_car
from diagnostics.evidence.options.repairs import OPTIONS, possible
from diagnostics.evidence.options.repairs_clutch import PARTS_OF_CLUTCH
from diagnostics.evidence.orders import ORDERS
from diagnostics.evidence.system import System, can_be_such
from jobs.models.changes import PARTS as FITTED
from tests.evidence.test_kind import BANNED

EACH = pytest.mark.parametrize("option", OPTIONS.values(), ids=OPTIONS)
DRIVES = ("", "belt_clutch", "belt_clutchless", "electric_hv", "electric_48", "belt_electric")
SYSTEMS = [
    System(drive=drive, clutch=clutch, displacement=displacement, branches=branches)
    for drive, clutch, displacement, branches in product(
        DRIVES,
        ("", "magnetic", "none"),
        ("", "fixed", "variable_outer", "speed"),
        (["front"], ["front", "rear"]),
    )
]
MAGNETIC = {"coil", "gap_set", "clutch_in_car", "clutch_unbolted"}
CLAIMS = re.compile(
    r"defective|no leak|leak[- ]free|\d ?%|percent|chance|probab|guarantee", re.IGNORECASE
)


def texts(option) -> list[str]:
    grounds = (*option.rests_on, *option.against, *option.cautions)
    return [
        option.words, option.because, option.leaves, *option.breaks, *option.asks,
        *(need.sentence for need in option.needs), *(ground.sentence for ground in grounds),
        *(OPERATIONS[code].words for code in option.operations),
        *(PARTS[code].words for code in option.parts),
        *(FLUIDS[code].words for code in option.fluids),
    ]  # fmt: skip


def codes_on(system: System) -> set[str]:
    return {one.code for one in possible(system, model_of(system).answers)}


@EACH
def test_each_option_says_when_what_it_leaves_and_what_comes_first(option):
    assert option.because
    assert option.leaves
    assert option.needs


@EACH
def test_its_words_claim_nothing_that_no_test_can_show(option):
    for text in texts(option):
        assert not CLAIMS.search(text), text
        assert not BANNED.search(text), text


@EACH
def test_what_it_cures_are_answers_that_there_are(option):
    known = {one.name: {answer.code for answer in one.answers} for one in VARIABLES}
    for variable, codes in option.all_cures.items():
        assert set(codes) <= known[variable]
        assert not {"ok", OTHER} & set(codes)
    for ground in (*option.rests_on, *option.against, *option.cautions):
        assert set(ground.answers) <= known[ground.variable]


@EACH
def test_its_lines_are_listed(option):
    assert set(option.operations) <= set(OPERATIONS)
    assert set(option.parts) <= set(PARTS)
    assert set(option.fluids) <= set(FLUIDS)


def test_every_line_is_wanted_by_an_option():
    def used(field):
        return {code for one in OPTIONS.values() for code in getattr(one, field)}

    assert used("operations") | {FIND_AGAIN} == set(OPERATIONS)
    assert used("parts") == set(PARTS)
    assert used("fluids") == set(FLUIDS)


def test_a_part_that_is_fitted_has_its_code_among_the_changes_of_a_car():
    assert {one.fitted for one in PARTS.values() if one.fitted} <= set(FITTED)


def test_orders_and_tests_named_by_needs_exist():
    every = [one for one in vars(needs).values() if isinstance(one, Need)]
    assert {one.order for one in every if one.order} <= set(ORDERS)
    assert {kind for one in every for kind in one.kinds} <= set(KINDS)


def test_every_need_and_ground_is_used():
    of_options = {id(one) for option in OPTIONS.values() for one in option.needs}
    of_options |= {
        id(one) for o in OPTIONS.values() for one in (*o.rests_on, *o.against, *o.cautions)
    }
    unused = [
        name
        for name, one in vars(needs).items()
        if isinstance(one, Need | Ground) and id(one) not in of_options
    ]
    assert unused == []


def test_a_leak_at_every_place_has_a_repair_meant_for_it():
    meant = {place for one in OPTIONS.values() for place in one.places}
    closed = {place for one in OPTIONS.values() for place in one.all_places}
    assert meant == closed == {one.name for one in PLACES}


@pytest.mark.parametrize("system", SYSTEMS, ids=str)
def test_every_fault_that_a_car_can_have_is_cured_by_an_option_it_can_have(system):
    """But "other", which has no name yet, and what is rightly so, where nothing is broken."""
    answers = model_of(system).answers
    there = possible(system, answers)
    for variable, codes in faults(answers).items():
        for code in codes:
            assert any(code in one.all_cures.get(variable, ()) for one in there), (variable, code)


def test_what_is_rightly_so_is_cured_by_none():
    rightly = {(v.name, a.code) for v in VARIABLES for a in v.answers if a.rightly}
    cured = {
        (name, code)
        for one in OPTIONS.values()
        for name, codes in one.all_cures.items()
        for code in codes
    }
    assert not rightly & cured


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48"])
def test_no_part_of_a_magnetic_clutch_is_offered_where_there_is_none(drive):
    assert not codes_on(System(drive=drive)) & MAGNETIC


def test_a_double_drive_without_a_clutch_is_offered_none():
    codes = codes_on(System(drive="belt_electric", clutch="none"))
    assert not codes & MAGNETIC
    assert "electric_compressor" in codes


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_nothing_with_a_belt_is_offered_on_an_electric_compressor(drive):
    belted = {"belt", "compressor", "compressor_device", "shaft_seal", *PARTS_OF_CLUTCH}
    assert not codes_on(System(drive=drive)) & belted


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless"])
def test_no_electric_unit_is_offered_on_a_belt(drive):
    electric = {"electric_compressor", "electric_loop", "motor_command"}
    assert not codes_on(System(drive=drive)) & electric


def test_no_control_valve_is_offered_on_a_fixed_compressor():
    assert "control_valve" not in codes_on(System(drive="belt_clutch", displacement="fixed"))
    assert "control_valve" in codes_on(System(drive="belt_clutch", displacement="variable_outer"))


def test_no_rear_unit_is_offered_where_there_is_only_a_front_one():
    assert not codes_on(System(branches=["front"])) & {"rear_unit", "leak_branch"}
    assert codes_on(System(branches=["front", "rear"])) >= {"rear_unit", "leak_branch"}


@EACH
def test_what_opens_the_loop_keeps_the_orders_of_gas_leak_stop_and_search(option):
    orders = {need.order for need in option.needs}
    if option.opens_loop:
        assert orders >= {"gas_first", "leak_stop_first", "leak_search_first"}
        assert {"refrigerant", "oil"} <= set(option.fluids)


@EACH
def test_a_new_compressor_waits_for_a_look_at_the_expansion_device(option):
    if {"compressor", "electric_compressor"} & set(option.parts):
        assert needs.DEBRIS in option.needs


@EACH
def test_what_opens_or_moves_a_compressor_with_a_motor_waits_until_it_is_dead(option):
    at_it = {"unbolt", "hoses_off", "isolate", "control_valve", "shaft_seal"}
    for drive in WITH_HIGH_VOLTAGE:
        if can_be_such(option.on, System(drive=drive)) and at_it & set(option.operations):
            assert needs.DEAD in option.needs


@EACH
def test_the_oil_of_an_electric_compressor_is_its_makers_wherever_the_loop_is_opened(option):
    if option.opens_loop:
        assert needs.MAKER_OIL in option.needs


def test_a_compressor_alone_says_which_conditions_of_part_sellers_it_does_not_meet():
    assert OPTIONS["compressor"].breaks == (needs.NEW_DRIER, needs.NEW_DEVICE)
    assert OPTIONS["compressor_device"].breaks == ()


def test_an_answer_that_the_car_cannot_have_is_left_out_of_what_is_cured():
    answers = model_of(System(drive="belt_clutchless")).answers
    assert on_car(OPTIONS["clutch_in_car"].cures, answers) == {"clutch": ("hub_broken", "bearing")}
