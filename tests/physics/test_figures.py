"""The digits of a result: no more than the readings had, three at least.

Saturation of R-134a by CoolProp: 20 °C 571.707 kPa; 300 kPa 0.672 °C.
"""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnostics.physics.computations.answer import answer
from diagnostics.physics.computations.catalogue import COMPUTATIONS
from tests.physics.test_catalogue import value_of

GAS = {"refrigerant": "R-134a"}


def shown(name, **told):
    found = answer(name, told)
    assert "error" not in found, found
    return found["shown"]


@pytest.mark.parametrize(
    ("typed", "kpa"),
    [
        ("20 °C", 572.0), ("20.0 °C", 571.7), ("68 °F", 572.0), (293.15, 571.71),
        ("293.15", 571.71), ("2.9315e2 K", 571.71), ("293.150 K", 571.707), (20 + 273.15, 571.71),
    ],
)  # fmt: skip
def test_a_pressure_has_the_figures_of_the_temperature_as_typed(typed, kpa):
    assert shown("saturation_pressure", **GAS, temperature=typed)["value"] == kpa


@pytest.mark.parametrize(("typed", "celsius"), [("300 kPa", 0.7), ("3 bar", 0.7), (300_000, 0.672)])
def test_a_temperature_counts_from_absolute_zero_and_has_tenths(typed, celsius):
    assert shown("saturation_temperature", **GAS, pressure=typed)["value"] == celsius


def test_the_coarsest_reading_counts_and_three_figures_at_least():
    told = {"voltage": "13.52 V", "joint": "0.512 Ω"}
    assert shown("joint_with_coil", **told, coil="3.64 Ω")["value"] == 11.9
    assert shown("joint_with_coil", **told, coil="3.641 Ω")["value"] == 11.9
    assert shown("joint_with_coil", **told | {"joint": "0.5120"}, coil="3.641")["value"] == 11.85
    assert shown("joint_with_coil", voltage="9", joint="1", coil="2")["value"] == 6.0


def test_an_uncertain_number_ends_with_its_uncertainty_of_two_digits():
    # JCGM 100:2008, 7.2.6
    found = shown("superheat", **GAS, temperature="283.1500 K", pressure="200.000 kPa")
    assert (found["value"], found["uncertainty"]) == (9.2, 1.4)
    finer = {"thermometer": "0.01 K", "gauge": "0.05 kPa"}
    sharp = {"barometer": "101.3250 kPa"}
    found = shown(
        "static_reading", **GAS, temperature="293.1500 K", pressure="480.0000 kPa", soaked="yes",
        **finer, **sharp,
    )  # fmt: skip
    assert found["value"] == pytest.approx(9.618, abs=0.01)
    assert len(repr(found["uncertainty"]).lstrip("0.")) <= 2


def test_a_difference_of_readings_ends_where_the_readings_do():
    assert shown("absolute_to_gauge", pressure="101.3 kPa", barometer="101.325 kPa")["value"] == 0
    told = {"start": "10 bar", "start_temperature": "25 °C", "end_temperature": "20 °C"}
    assert shown("nitrogen_expected", **told)["value"] == 9.8
    assert shown("nitrogen_expected", **told | {"start": "10.00 bar"})["value"] == 9.8
    warm = {"start_temperature": "25.0 °C", "end_temperature": "20.0 °C"}
    assert shown("nitrogen_expected", **warm, start="10.00 bar")["value"] == 9.82


def test_a_limit_is_never_shown_larger_than_it_is():
    # 0.8 x 26.195 kg = 20.956 kg; 0.8 x 21.6 kg = 17.28 kg
    found = answer("fill_limit", {**GAS, "water_capacity": "26.195 kg", "rule": "water"})
    assert found["shown"]["value"] == 20.956
    assert "20.95\u00a0kg" in found["meaning"]
    assert shown("fill_limit", **GAS, water_capacity="26.2 kg", rule="water")["value"] == 20.9
    assert "17.28\u00a0kg" in answer("fill_limit", {**GAS, "water_capacity": "21.6 kg"})["meaning"]


def test_a_leak_as_refrigerant_has_two_digits_however_fine_the_readings():
    hold = {"start": "400.00 micron", "end": "1234.56 micron", "time": "15.0000 min"}
    leaks = answer("vacuum_hold", hold)["more"]
    for name in ("leak", "smallest_leak"):
        told = leaks[name]["shown"]["value"]
        assert told == float(f"{told:.2g}")


def test_the_air_around_and_limits_of_error_count_for_nothing():
    found = shown("gauge_to_absolute", pressure="203.45 kPa", altitude="5 m", barometer="")
    assert found["value"] == pytest.approx(304.7, abs=0.11)
    assert answer("gauge_to_absolute", {"pressure": "203.45 kPa", "altitude": "5 m"})["value"] > 0


def test_what_comes_of_no_number_is_a_table_s():
    assert shown("critical_temperature", **GAS)["value"] == 101.062


def test_a_factor_between_units_has_seven_figures():
    # NIST SP 811 (2008), B.8: 1 psi = 6.894 757 E+03 Pa
    assert shown("convert", value="1 psi", to="kPa")["value"] == 6.894757
    assert shown("convert", value="1 in", to="mm")["value"] == 25.4


def test_several_readings_in_one_text_count_by_the_finest():
    found = shown("air_gap", points="0.35 0.402 0.40", feeler="0.0001 mm")
    assert found["value"] == 0.35
    assert answer("gap_shims", {"points": "0.9 1.0 1.05"})["shown"]["value"] == 0.9


@pytest.mark.parametrize("computation", COMPUTATIONS.values(), ids=COMPUTATIONS)
@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_what_is_shown_is_the_value_rounded(computation, data):
    told = {one.name: data.draw(value_of(one), one.name) for one in computation.inputs}
    found = answer(computation.name, told)
    if "error" in found or found["shown"]["unit"] not in ("", found["unit"]):
        return
    near = max(abs(found["value"]) * 0.011, 2 * (found["uncertainty"] or 0), 0.1)
    assert found["shown"]["value"] == pytest.approx(found["value"], abs=near)
