"""What a computation says to readings that cannot be true together."""

import re

import pytest

from diagnostics.physics.computations.answer import answer
from diagnostics.physics.computations.catalogue import COMPUTATIONS
from tests.physics.asked import fault, meaning

GAS = {"refrigerant": "R-134a"}
LOOP = {**GAS, "evaporating_temperature": "5 °C", "condensing_temperature": "50 °C"}
WEIGHED = {"machine": "newer", "temperature": "25 °C"}


@pytest.mark.parametrize(
    ("high", "low", "said"),
    [
        ("2 bar", "15 bar", "exchanged, or one of them is wrong"),
        ("6 bar", "6 bar", "the same, as far as these gauges can tell"),
        ("5.9 bar", "6 bar", "the same, as far as these gauges can tell"),
        ("7 bar", "5.5 bar", "not pumping"),
        ("15 bar", "2 bar", "High over low"),
    ],
)
def test_a_ratio_near_one_or_below_says_what_the_two_readings_can_be(high, low, said):
    found = meaning("pressure_ratio", high=high, low=low)
    assert said in found
    if said == "High over low":
        return
    day = meaning("pressure_ratio_reading", **GAS, ambient="30 °C", high=high, low=low)
    assert day == found


def test_subcooling_below_the_evaporator_is_named_whichever_way_the_cycle_is_told():
    assert "colder than the evaporator" in fault(
        "cycle_by_temperature", "impossible", **LOOP, subcooling="60 K"
    )
    sides = {"evaporating_pressure": "350 kPa", "condensing_pressure": "1318 kPa"}
    assert "colder than the evaporator" in fault(
        "cycle", "impossible", **GAS, **sides, subcooling="60 K"
    )


def test_a_label_charge_that_does_not_fit_the_loop_is_impossible():
    # CoolProp: liquid R-134a at 25 °C has 1206.7 kg/m³, so 1 L holds 1207 g
    told = {**GAS, "temperature": "25 °C", "volume": "1 L"}
    assert "1\u00a0207\u00a0g" in fault("unseen_loss", "impossible", label_charge="1300 g", **told)
    assert "can be gone" in meaning("unseen_loss", label_charge="1200 g", **told)


def test_a_label_charge_that_is_gas_alone_cannot_hide_a_loss():
    # CoolProp: vapor of R-134a at 25 °C has 32.35 kg/m³, so 3 L hold 97.0 g without liquid
    found = answer("unseen_loss", {**GAS, "label_charge": "60 g", "temperature": "25 °C"})
    assert found["value"] == 0
    assert "no liquid" in found["meaning"]
    assert found["more"]["last_liquid"]["value"] == pytest.approx(0.0970, abs=1e-4)


@pytest.mark.parametrize(
    ("recovered", "scale", "said"),
    [
        ("900 g", "15 g", "More than the label says came out"),
        ("110 g", "0.5 g", "More than the label says came out"),
        ("101 g", "0.5 g", "More than the label says came out"),
        ("105 g", "15 g", "a little more than the label, by less than the scale may be off"),
    ],
)
def test_more_than_the_label_is_never_called_as_the_label_says(recovered, scale, said):
    told = {"recovered": recovered, "label_charge": "99 g", "scale": scale}
    found = meaning("recovered_share", **told, **WEIGHED)
    assert said in found
    assert "As the label says" not in found
    assert said.startswith("a little") or "overfilled" in found


def test_more_out_than_was_charged_gives_no_loss_a_day():
    told = {"charged": "600 g", "time": "30 d", **WEIGHED}
    assert "More came out" in fault("loss_per_day", "impossible", recovered="900 g", **told)
    assert "were lost" in meaning("loss_per_day", recovered="610 g", **told)


@pytest.mark.parametrize("name", ["superheat", "subcooling"])
@pytest.mark.parametrize("told", ["5 °C", "41 °F", "5 C", "5 degrees C"])
def test_a_temperature_where_a_difference_is_asked_is_refused(name, told):
    # 45 °C of the liquid line is not 45 K of subcooling
    found = fault("cycle_by_temperature", "malformed", **LOOP, **{name: told})
    assert "a difference is asked" in found
    assert "such as 5 K" in found


def test_what_is_no_degree_at_all_is_not_called_a_temperature():
    found = fault("cycle_by_temperature", "malformed", **LOOP, superheat="5 kPa")
    assert "no unit of temperature difference" in found


@pytest.mark.parametrize("told", ["5 K", "5 Δ°C", "9 Δ°F", "9 delta F", 5, "5"])
def test_a_difference_that_is_written_as_one_is_taken(told):
    found = answer("cycle_by_temperature", {**LOOP, "superheat": told})
    assert found["more"]["suction_temperature"]["value"] == pytest.approx(283.15)


@pytest.mark.parametrize("told", ["10 ΔK", "10 Δ°C", "18 delta F"])
def test_a_difference_where_a_temperature_is_asked_is_refused(told):
    found = fault("saturation_pressure", "malformed", **GAS, temperature=told)
    assert "a temperature is asked" in found


def test_a_limit_of_error_may_be_in_degrees_and_is_no_temperature():
    told = {**GAS, "temperature": "10 °C", "pressure": "2 bar"}
    one, other = (answer("superheat", told | {"thermometer": typed}) for typed in ("2 °C", "2 K"))
    assert one == other
    assert "20 K" in fault("superheat", "out_of_range", **told, thermometer="275 K")


@pytest.mark.parametrize("computation", COMPUTATIONS.values(), ids=COMPUTATIONS)
def test_a_limit_of_error_has_an_end(computation):
    for one in computation.inputs:
        assert one.limit_of_error == one.words.startswith("Limit of error")
        assert not one.limit_of_error or one.high is not None


@pytest.mark.parametrize(("value", "to"), [("20 °C", "ΔK"), ("20 Δ°C", "K"), ("20 K", "Δ°F")])
def test_a_difference_that_is_converted_is_called_one(value, to):
    assert "a difference of temperature" in meaning("convert", value=value, to=to)
    assert "difference" not in meaning("convert", value="20 °C", to="K")


LINES = [
    ("superheat", "200 °C", "2 bar", "No suction line is so far above"),
    ("superheat", "12 °C", "2 bar", "The gas is dry there"),
    ("subcooling", "-50 °C", "15 bar", "No liquid line is so far below"),
    ("subcooling", "45 °C", "15 bar", "All liquid there"),
]


@pytest.mark.parametrize(("name", "line", "pressure", "said"), LINES)
def test_a_line_far_from_saturation_is_not_called_dry_or_liquid(name, line, pressure, said):
    # 60 K: our judgement
    assert said in meaning(name, **GAS, temperature=line, pressure=pressure)


@pytest.mark.parametrize("soaked", ["yes", "no"])
def test_a_loop_in_a_vacuum_is_called_so_and_not_empty_alone(soaked):
    told = {**GAS, "temperature": "20 °C", "soaked": soaked}
    assert "in a vacuum" in meaning("static_reading", **told, pressure="-0.9 bar")
    assert "empty loop" in meaning("static_reading", **told, pressure="-0.1 bar")
    assert "perfect vacuum" in fault(
        "static_reading", "impossible", **told, pressure="-95 kPa", altitude="1600 m"
    )


@pytest.mark.parametrize("soaked", ["yes", "no"])
def test_more_than_the_critical_pressure_at_rest_is_no_reading_of_that_gas(soaked):
    # CoolProp: the critical pressure of R-134a is 4059 kPa absolute
    told = {**GAS, "temperature": "20 °C", "soaked": soaked}
    assert "4\u00a0059\u00a0kPa" in meaning("static_reading", **told, pressure="90 bar")


def test_a_switch_that_no_warm_loop_would_close_is_no_low_pressure_switch():
    assert "no low-pressure switch" in meaning("cold_day_lockout", **GAS, pressure="30 bar")
    assert "no click in a cold bay" in meaning("cold_day_lockout", **GAS, pressure="1.5 bar")


def test_suction_gas_warmer_than_the_condenser_has_its_heat_from_elsewhere():
    assert "not from the cabin" in meaning("cycle_by_temperature", **LOOP, superheat="60 K")
    assert "not from the cabin" not in meaning("cycle_by_temperature", **LOOP, superheat="20 K")


def test_a_cycle_is_told_with_no_more_digits_than_shown():
    assert "138\u00a0kW with 27.5\u00a0kW" in meaning(
        "cycle_by_temperature", **LOOP, subcooling="5 K"
    )


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("cycle_by_temperature", LOOP | {"mass_flow": "0 kg/s"}),
        ("loss_per_day", {"charged": "0 g", "recovered": "0 g", "time": "30 d", **WEIGHED}),
        ("recovered_share", {"recovered": "500 g", "label_charge": "600 g", **WEIGHED}
         | {"temperature": "200 °C"}),
        ("cylinder_room", {**GAS, "water_capacity": "21.6 kg", "scale_reading": "24 kg",
                           "tare": "0 kg"}),
        ("fill_limit_by_gravity", {"water_capacity": "21.6 kg", "specific_gravity": 2.5}),
        ("normal_loss", {"time": "50 yr"}),
    ],
)  # fmt: skip
def test_what_nothing_in_a_shop_has_is_outside_the_range(name, told):
    assert "outside" in fault(name, "out_of_range", **told)


def test_a_cylinder_with_more_in_it_than_fits_is_impossible():
    # CoolProp: liquid R-134a at −60 °C has 1474 kg/m³, so 21.6 L never hold more than 31.9 kg
    told = {**GAS, "water_capacity": "21.6 kg", "tare": "12 kg"}
    assert "do not fit" in fault("cylinder_room", "impossible", **told, scale_reading="50 kg")
    assert "over the limit" in meaning("cylinder_room", **told, scale_reading="40 kg")


def test_a_scale_that_is_far_off_is_named_beside_the_machine():
    told = {"recovered": "590 g", "label_charge": "600 g", "scale": "200 g", **WEIGHED}
    assert "the scale may be off" in meaning("recovered_share", **told)


def test_nothing_is_never_shown_with_a_minus():
    told = {**GAS, "temperature": "20 °C", "pressure": "4.7 bar", "gauge": "250 kPa"}
    found = answer("static_reading", told | {"soaked": "yes"})
    assert repr(found["shown"]["value"]) == "0.0"


def test_a_band_at_rest_does_not_reach_below_perfect_vacuum():
    told = {**GAS, "temperature": "-20 °C", "gauge": "250 kPa"}
    found = answer("static_pressure", told)
    assert found["more"]["low"]["value"] == -101_325
    assert "−101\u00a0kPa" in found["meaning"]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("superheat", {"temperature": "10 °C", "pressure": "2 bar"}),
        ("subcooling", {"temperature": "40 °C", "pressure": "15 bar"}),
        ("static_pressure", {"temperature": "20 °C"}),
        ("static_reading", {"temperature": "20 °C", "pressure": "4 bar", "soaked": "yes"}),
        ("cold_day_lockout", {"pressure": "2 bar"}),
        ("residual_gas", {"temperature": "20 °C", "pressure": "1 bar"}),
        ("pressure_ratio_reading", {"ambient": "30 °C", "high": "12 bar", "low": "2 bar"}),
        ("vacuum_hold", {"start": "400 micron", "end": "420 micron", "time": "15 min"}),
    ],
)
def test_a_barometer_that_cannot_be_the_place_s_own_is_named(name, told):
    air = {"altitude": "2000 m", "barometer": "101.3 kPa"}
    assert "brought to sea level" in answer(name, {**GAS, **told, **air})["basis"]


def test_absolute_zero_is_shown_with_its_digits():
    assert answer("convert", {"value": "0 K", "to": "°F"})["shown"]["value"] == -459.67


def test_a_ratio_over_a_low_side_near_perfect_vacuum_cannot_be_told():
    assert "Cannot tell" in meaning("pressure_ratio", high="100 bar", low="-1 bar")


def test_a_high_side_in_a_vacuum_is_no_running_loop():
    assert "below the air's pressure" in meaning("pressure_ratio", high="-0.7 bar", low="-0.9 bar")


def test_two_sides_as_good_as_equal_make_no_cycle():
    told = LOOP | {"condensing_temperature": "5.000001 °C"}
    assert "too near" in fault("cycle_by_temperature", "out_of_range", **told)


def test_where_no_test_is_known_no_share_is_given():
    told = {"machine": "newer", "temperature": "5 °C"}
    assert "nothing can be said" in fault("machine_share", "out_of_range", **told)


def test_a_loss_a_day_is_told_with_three_digits():
    told = {"charged": "600 g", "recovered": "0 g", "time": "1 h", **WEIGHED}
    assert re.search(r"and [\d\u00a0]+\u00a0g/d were lost", meaning("loss_per_day", **told))
