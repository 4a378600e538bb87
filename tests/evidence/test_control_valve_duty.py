"""The outer control valve: command, coil, response.

About the 10 ohm class, judged by duty, never battery power for long: trade articles. The vehicle's
figures below are invented. Copper +0.393 %/K: IEC 60028.
"""

import pytest

from diagnostics.evidence.charge_told import WEIGH_FIRST
from diagnostics.evidence.kinds.control_valve_duty import CONTROL_VALVE_DUTY
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

VALVE = Trial("control_valve_duty")
OUTER: System = {"drive": "belt_clutchless", "displacement": "variable_outer"}
RIGHT = {"charge_known": "weighed_in"}
SPEC = {"spec": "10.0", "temperature": "20"}

PATTERNS = [
    ({"follows": "yes"}, "follows"),
    ({"low_small": "300", "low_full": "180"}, "follows"),
    ({"follows": "no"}, "stays"),
    ({"low_small": "180", "low_full": "300"}, "stays"),
    ({"duty": "80", "amps": "0.6", "follows": "no"}, "stays_fed"),
    ({"low_small": "200", "low_full": "195"}, "nothing_told"),
    ({"duty": "2"}, "not_commanded"),
    ({"over_range": "yes"}, "coil_open"),
    (SPEC | {"ohm": "6.0"}, "coil_low"),
    (SPEC | {"ohm": "15"}, "coil_high"),
    (SPEC | {"ohm": "10.1"}, "coil_inside"),
    ({"spec": "10.0", "ohm": "14.5"}, "coil_unsure"),
    ({"ohm": "10.1"}, "nothing_told"),
    ({"duty": "80", "amps": "0.6"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert VALVE.code(OUTER, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in VALVE.kind.outcomes}


@pytest.mark.parametrize(
    "system",
    [
        {"drive": "electric_hv"},
        {"drive": "electric_48"},
        {"displacement": "fixed"},
        {"displacement": "speed"},
        {"displacement": "variable_inner"},
    ],
)
def test_it_is_barred_where_no_outer_valve_is(system):
    assert VALVE.kind.forbids(system)
    assert VALVE.code(system, over_range="yes") == "nothing_told"


def test_it_asks_first_where_the_displacement_is_not_noted():
    assert VALVE.kind.forbids({"drive": "belt_clutch"}) is None
    assert "Look first" in (VALVE.kind.asks({"drive": "belt_clutch"}) or "")


def test_without_the_vehicles_figure_no_ohm_condemns_or_clears_the_coil():
    for ohm in ("0.5", "4", "10", "20", "200"):
        result = VALVE.meaning(OUTER, ohm=ohm)
        assert not result.outcome.carries
        assert "not judged" in result.band


def test_a_hot_coil_is_brought_to_20_degrees_before_it_is_judged():
    # 10 ohm at 20 °C reads 13.1 ohm at 100 °C
    assert VALVE.code(OUTER, spec="10.0", temperature="100", ohm="13.1") == "coil_inside"
    assert VALVE.code(OUTER, spec="10.0", temperature="20", ohm="13.1") == "coil_high"


def test_a_coil_whose_temperature_was_not_read_is_no_pass():
    result = VALVE.meaning(OUTER, spec="10.0", ohm="13.1")
    assert result.outcome.code == "coil_unsure"
    assert "temperature not read" in result.band
    assert "Temperature of the coil: no reading to go by." in result.outcome.not_tested
    assert subjects(result, "ruled_out") == []


def test_while_the_charge_is_not_known_a_low_side_that_stays_names_no_part():
    result = VALVE.meaning(OUTER, follows="no", amps="0.6")
    assert [mark.subject for mark in result.outcome.marks] == ["Charge"]
    assert result.onward == (WEIGH_FIRST,)
    assert not any("ompressor" in text for text in words_of(result))


def test_with_charge_and_current_shown_it_points_at_valve_or_compressor_together():
    result = VALVE.meaning(OUTER, follows="no", amps="0.6", **RIGHT)
    assert subjects(result, "likely") == ["Control valve stuck, or compressor that cannot follow"]
    assert subjects(VALVE.meaning(OUTER, follows="no", **RIGHT), "likely") == []


def test_a_small_command_is_no_fault_of_the_valve():
    result = VALVE.meaning(OUTER, duty="2", follows="no", **RIGHT)
    assert result.outcome.code == "not_commanded"
    assert subjects(result, "likely", "proved") == []
    assert "small share means a large stroke" in result.outcome.marks[0].sentence


def test_over_range_and_a_reading_or_a_current_do_not_fit():
    assert "ohm" in VALVE.asks(OUTER, over_range="yes", ohm="10")
    assert "amps" in VALVE.asks(OUTER, over_range="yes", amps="0.6")
    assert not VALVE.meaning(OUTER, over_range="yes", amps="0.6").outcome.carries


def test_told_to_fall_and_read_to_rise_do_not_fit():
    assert "low_full" in VALVE.asks(OUTER, follows="yes", low_small="180", low_full="300")


def test_battery_power_is_warned_of():
    assert any("Never straight battery power" in one for one in VALVE.kind.cautions)


def test_gas_hub_and_charge_come_first_where_it_was_run_and_not_for_a_coil_on_the_meter():
    codes = [one.code for one in VALVE.kind.orders_broken({"follows": "no"}, [], OUTER)]
    assert codes == ["gas_first", "hub_first", "charge_first"]
    assert VALVE.kind.orders_broken(VALVE.readings(ohm="10"), [], OUTER) == ()


def test_a_value_that_cannot_be_is_not_called_unread():
    missing = VALVE.meaning(OUTER, duty="130").outcome.not_tested
    assert "Command: kept as typed, not used." in missing


def test_fine_sets_that_it_follows():
    assert VALVE.code(OUTER, **VALVE.fine) == "follows"
    assert standing(VALVE.meaning(OUTER, **VALVE.fine), "Control valve") == "ruled_out"


@pytest.mark.parametrize("number", CONTROL_VALVE_DUTY.numbers, ids=lambda one: one.name)
def test_any_number_alone_says_something_sensible(number):
    for typed in ("0", "1", "-3", "99", "5000"):
        assert VALVE.meaning(OUTER, **{number.name: typed}).outcome.sentence


def test_a_valve_without_current_while_commanded_names_its_wiring_and_not_the_compressor():
    result = VALVE.meaning(OUTER, follows="no", duty="60", amps="0.00", **RIGHT)
    assert [mark.subject for mark in result.outcome.marks] == ["Valve’s wiring, driver or coil"]
    assert "0.00\u00a0A" in result.outcome.marks[0].sentence


def test_current_and_no_command_do_not_fit():
    assert "which way the share counts" in VALVE.asks(OUTER, duty="0", amps="0.8")["duty"][0]


def test_a_low_side_that_follows_and_no_current_while_commanded_do_not_fit():
    assert "amps" in VALVE.asks(OUTER, follows="yes", duty="60", amps="0.00")
    assert VALVE.asks(OUTER, follows="yes", duty="60", amps="0.6") == {}


def test_told_to_stay_and_read_to_fall_do_not_fit():
    assert "low_full" in VALVE.asks(OUTER, follows="no", low_small="300", low_full="100")


def test_a_fall_that_the_gauge_does_not_show_is_asked_about():
    assert "low_full" in VALVE.asks(OUTER, follows="yes", low_small="300", low_full="299")


def test_a_command_without_current_is_told_though_nobody_watched_the_low_side():
    result = VALVE.meaning(OUTER, duty="90", amps="0.00")
    assert standing(result, "Valve’s wiring") == "open"
