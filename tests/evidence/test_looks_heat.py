"""What the tests of cleanliness and of the air say of the car, by themselves."""

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference import told
from diagnostics.evidence.looks import (
    air_doors,
    cabin_airflow,
    condenser_face,
    condenser_fan,
    debris,
    evaporator_sensor,
    filter_second_look,
    line_temperatures,
    oil_condition,
    vent_temperature,
)
from diagnostics.evidence.system import System
from diagnostics.evidence.weigh import Verdict, weigh

ALL = (
    debris.LOOKS,
    oil_condition.LOOKS,
    filter_second_look.LOOKS,
    condenser_fan.LOOKS,
    condenser_face.LOOKS,
    line_temperatures.LOOKS,
    evaporator_sensor.LOOKS,
    vent_temperature.LOOKS,
    air_doors.LOOKS,
    cabin_airflow.LOOKS,
)
TABLES = {one.kind: one for one in ALL}
CAR: System = {
    "drive": "belt_clutch",
    "displacement": "fixed",
    "refrigerant": "R-134a",
    "branches": ["front", "rear"],
}
EACH = [(one.kind, outcome) for one in ALL for outcome in one.outcomes]


def after(*read: tuple[str, str]) -> Verdict:
    """The verdict after these outcomes, in the car's first state."""
    tests = [told.Test(at, kind, outcome) for at, (kind, outcome) in enumerate(read)]
    return weigh(CAR, tests, (), TABLES)


def standing(verdict: Verdict, variable: str, code: str) -> str:
    return verdict.of(variable, code).standing


@pytest.mark.parametrize("looks", ALL, ids=lambda looks: looks.kind)
def test_a_table_has_the_outcomes_of_its_kind_that_carry(looks):
    kind = KINDS[looks.kind]
    assert looks.outcomes == tuple(one.code for one in kind.outcomes if one.carries)
    assert set(looks.normal) == {one.code for one in kind.outcomes if one.carries and one.normal}


@pytest.mark.parametrize(("kind", "outcome"), EACH)
def test_no_outcome_alone_names_the_compressor(kind, outcome):
    for one in after((kind, outcome)).stands:
        if one.variable == "mechanics" and one.code != "ok":
            assert one.standing == "open", one


@pytest.mark.parametrize(("kind", "outcome"), EACH)
def test_no_outcome_alone_proves_a_part(kind, outcome):
    assert not [one for one in after((kind, outcome)).stands if one.standing == "proved"]


def test_a_fan_that_stands_means_less_where_nothing_pumps():
    alone = after(("condenser_fan", "all_stand"))
    cooling = after(("condenser_fan", "all_stand"), ("vent_temperature", "colder"))
    assert standing(alone, "outside", "fan") == "open"
    assert cooling.of("outside", "fan").share > 2 * alone.of("outside", "fan").share


def test_a_look_at_one_clean_place_rules_out_nothing():
    verdict = after(("debris", "part_clean"))
    faults = [one for one in verdict.stands if one.variable == "dirt" and one.code != "ok"]
    assert {one.standing for one in faults} == {"open"}


@pytest.mark.parametrize("answer", ["metal", "moisture", "leak_stop"])
def test_clear_oil_rules_out_no_wear_no_moisture_and_no_leak_stop(answer):
    assert standing(after(("oil_condition", "clear")), "dirt", answer) == "open"


def test_debris_seen_is_debris_there_whatever_the_oil_looks_like():
    verdict = after(("debris", "metal"), ("oil_condition", "clear"))
    assert standing(verdict, "dirt", "not_ok") == "likely"


def test_a_step_at_the_drier_points_at_it_and_not_at_the_device():
    verdict = after(("line_temperatures", "step_drier"), ("vent_temperature", "colder"))
    assert verdict.of("flow", "drier_hose").share > 10 * verdict.of("flow", "device_blocked").share


def test_no_step_before_the_device_leaves_the_device_open():
    verdict = after(("line_temperatures", "no_step"))
    assert standing(verdict, "flow", "device_blocked") == "open"
    assert verdict.of("flow", "device_blocked").share > verdict.of("flow", "drier_hose").share


def test_pinched_hoses_tell_that_heat_comes_in_and_not_by_which_part():
    verdict = after(("air_doors", "heater"))
    assert standing(verdict, "cabin", "not_ok") == "likely"
    assert standing(verdict, "cabin", "heater") == standing(verdict, "cabin", "door") == "open"


def test_one_side_warmer_points_at_the_charge_before_the_door():
    before, verdict = after(), after(("air_doors", "sides_differ"))
    assert verdict.of("amount", "low").share > 1.5 * before.of("amount", "low").share
    assert verdict.of("cabin", "door").share < 0.2


def test_ice_suspected_twice_is_not_ice_seen():
    suspected = after(("cabin_airflow", "ices"), ("evaporator_sensor", "may_ice"))
    seen = after(("cabin_airflow", "ices"), ("evaporator_sensor", "iced"))
    assert standing(suspected, "cabin", "iced") == "likely"
    assert 1 - seen.of("cabin", "iced").share < (1 - suspected.of("cabin", "iced").share) / 3


@pytest.mark.parametrize("answer", ["rear", "door", "iced", "other", "as_designed"])
def test_strong_air_at_the_front_and_doors_that_follow_leave_the_rest_open(answer):
    verdict = after(("cabin_airflow", "strong"), ("air_doors", "follow"))
    assert standing(verdict, "cabin", answer) == "open"


@pytest.mark.parametrize("variable", ["amount", "mechanics", "outside", "flow", "cabin"])
def test_a_cold_vent_clears_nothing(variable):
    verdict = after(("vent_temperature", "colder"), ("vent_temperature", "colder"))
    stands = {one.standing for one in verdict.stands if one.variable == variable}
    assert "proved" not in stands
    assert standing(verdict, variable, "not_ok") == "open"
