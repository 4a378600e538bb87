"""What `compute` offers of refrigerants: inputs complete, units known, sentences, no odd errors."""

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnostics.physics.computations import charge, cycle, cylinder, recovery, saturation
from diagnostics.physics.computations.computation import Computation, Input, Result
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange, PhysicsError
from diagnostics.physics.units import UNITS, from_si, scaled, to_si

SUBJECTS = (saturation, charge, cycle, recovery, cylinder)
ALL = {one.name: one for subject in SUBJECTS for one in subject.COMPUTATIONS}
EACH = pytest.mark.parametrize("computation", ALL.values(), ids=ALL)
FAR = 1e6  # where an input has no bound of its own


def si(one: Input, value: Any) -> Any:
    if isinstance(value, str) or not one.unit:
        return value
    return scaled(value, one.unit)


def run(name: str, **given_: Any) -> Result:
    """With numbers in the inputs' own units and the defaults filled in."""
    computation = ALL[name]
    assert set(given_) <= {one.name for one in computation.inputs}
    return computation.run(
        {one.name: si(one, given_.get(one.name, one.default)) for one in computation.inputs}
    )


def attempt(name: str, given_: dict[str, Any]) -> Result | str:
    """The result, or the sentence that stands for it."""
    try:
        return run(name, **given_)
    except PhysicsError as fault:
        return fault.sentence


def shown(result: Result) -> float:
    return from_si(result.value, result.unit) if result.unit else result.value


def more(result: Result, name: str) -> float:
    return shown(result.more[name])


@EACH
def test_a_computation_names_inputs_units_range_and_source(computation: Computation):
    assert computation.source
    assert computation.unit == "" or computation.unit in UNITS
    names = [one.name for one in computation.inputs]
    assert len(names) == len(set(names))
    for one in computation.inputs:
        assert one.words
        assert one.answers or one.low is not None
        assert one.unit == "" or one.unit in UNITS
        pressure = bool(one.unit) and UNITS[one.unit].quantity == "pressure"
        limit_of_error = one.words.startswith("Limit of error")
        assert (one.reference != "") == (pressure and not limit_of_error)


def value_of(one: Input) -> st.SearchStrategy[Any]:
    if one.answers:
        return st.sampled_from(one.answers)
    numbers = st.floats(one.low, FAR if one.high is None else one.high)
    return st.one_of(numbers, st.just(one.default)) if one.default is not None else numbers


@EACH
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_any_input_in_range_gives_a_number_with_a_sentence_or_a_sentence_alone(computation, data):
    given_ = {one.name: data.draw(value_of(one), one.name) for one in computation.inputs}
    result = attempt(computation.name, given_)
    if isinstance(result, str):
        assert result.endswith(".")
        return
    assert math.isfinite(result.value)
    assert result.unit == computation.unit
    assert result.meaning.endswith(".")
    assert result.basis
    assert result.u is None or result.u >= 0
    for one in result.more.values():
        assert math.isfinite(one.value)
        assert one.unit == "" or one.unit in UNITS


def test_saturation_goes_both_ways_and_tells_the_gauge():
    found = run("saturation_pressure", refrigerant="R-134a", temperature=20)
    assert shown(found) == pytest.approx(571.7, abs=0.1)
    assert more(found, "gauge_pressure") == pytest.approx(470.4, abs=0.1)
    back = run("saturation_temperature", refrigerant="R-134a", pressure=shown(found))
    assert shown(back) == pytest.approx(20, abs=1e-6)


def test_a_property_at_rest_is_found_by_temperature_or_by_pressure():
    # cycle-C-02 and r134a-h-05 of the published values
    by_pressure = run(
        "saturated_liquid_enthalpy", refrigerant="R-134a", pressure=1600, reference="ASHRAE"
    )
    assert shown(by_pressure) == pytest.approx(135.93, abs=0.06)
    by_temperature = run(
        "saturated_liquid_enthalpy", refrigerant="R-134a", temperature=40, reference="ASHRAE"
    )
    assert shown(by_temperature) == pytest.approx(108.27, abs=0.05)
    for given_ in ({}, {"temperature": 20, "pressure": 500}):
        with pytest.raises(Malformed, match="either"):
            run("latent_heat", refrigerant="R-134a", **given_)


def test_a_phase_alone_is_told_and_counted_by_the_reference_asked_for():
    # r134a-h-09 and r134a-h-31 of the published values
    gas = run(
        "refrigerant_enthalpy", refrigerant="R-134a", temperature=20, pressure=320,
        reference="ASHRAE",
    )  # fmt: skip
    assert shown(gas) == pytest.approx(267.7, abs=0.06)
    assert "vapor" in gas.meaning
    wet = run("refrigerant_enthalpy", refrigerant="R-134a", temperature=36.85, pressure=1000)
    assert shown(wet) == pytest.approx(251.72, abs=0.01)
    assert "liquid" in wet.meaning


def test_hot_vapor_says_that_it_could_not_condense():
    found = run("refrigerant_density", refrigerant="R-744", temperature=60, pressure=3000)
    assert "above the temperature" in found.meaning


@pytest.mark.parametrize(
    ("kpa", "soaked", "said"),
    [
        (470, "yes", "not how much"),
        (470, "no", "no more than some or none"),
        (5, "yes", "empty loop"),
        (200, "yes", "no liquid is left"),
        (900, "yes", "air or another gas"),
        (540, "yes", "cannot tell"),
    ],
)
def test_a_reading_at_rest_never_says_how_full_the_loop_is(kpa, soaked, said):
    found = run("static_reading", refrigerant="R-134a", temperature=20, pressure=kpa, soaked=soaked)
    assert said in found.meaning


def test_the_expected_pressure_at_rest_has_a_band_and_knows_the_mountain():
    found = run("static_pressure", refrigerant="R-134a", temperature=20)
    assert shown(found) == pytest.approx(470.4, abs=0.1)
    assert more(found, "low") < shown(found) < more(found, "high")
    high_up = run("static_pressure", refrigerant="R-134a", temperature=20, altitude=1500)
    assert shown(high_up) - shown(found) == pytest.approx(101.325 - 84.556, abs=0.05)


def test_grams_that_can_be_gone_unseen_are_told():
    left = run("last_liquid", refrigerant="R-134a", temperature=25)
    assert shown(left) == pytest.approx(97, abs=0.5)
    gone = run("unseen_loss", refrigerant="R-134a", label_charge=650, temperature=25)
    assert shown(gone) == pytest.approx(553, abs=0.5)


def test_a_cold_bay_is_no_fault():
    found = run("cold_day_lockout", refrigerant="R-134a", pressure=202)
    assert shown(found) == pytest.approx(1, abs=0.1)
    assert "normal" in found.meaning


def test_superheat_and_subcooling_take_gauge_readings():
    # R-134a boils at 2 °C under 314.6 kPa absolute
    dry = run("superheat", refrigerant="R-134a", temperature=14, pressure=314.62 - 101.325)
    assert shown(dry) == pytest.approx(12, abs=0.01)
    assert dry.u is not None
    assert "no normal range" in dry.meaning.casefold()
    wet = run("superheat", refrigerant="R-134a", temperature=-10, pressure=314.62 - 101.325)
    assert "not what was said" in wet.meaning
    full = run("subcooling", refrigerant="R-134a", temperature=45, pressure=1491.51 - 101.325)
    assert shown(full) == pytest.approx(10, abs=0.01)
    gas = run("subcooling", refrigerant="R-134a", temperature=65, pressure=1491.51 - 101.325)
    assert "gas, no liquid" in gas.meaning


def test_a_superheat_near_zero_cannot_be_told():
    found = run("superheat", refrigerant="R-134a", temperature=3, pressure=314.62 - 101.325)
    assert "Cannot tell" in found.meaning


def test_a_ratio_is_made_of_absolute_pressures():
    found = run("pressure_ratio", high=1400, low=200)
    assert shown(found) == pytest.approx(1501.325 / 301.325)
    assert "not pumping" not in found.meaning
    assert "not pumping" in run("pressure_ratio", high=450, low=420).meaning


def test_both_gauges_count_for_the_uncertainty_of_a_ratio():
    exact = run("pressure_ratio", high=1400, low=200, high_gauge=0, low_gauge=0, barometer=101.3)
    for gauge in ("high_gauge", "low_gauge"):
        given_ = {"high_gauge": 0, "low_gauge": 0, gauge: 16}
        rough = run("pressure_ratio", high=1400, low=200, barometer=101.3, **given_)
        assert rough.u > exact.u + 0.01  # type: ignore[operator]


def test_a_ratio_is_held_to_the_day():
    expected = run("pressure_ratio_expected", refrigerant="R-134a", ambient=40)
    assert (more(expected, "low"), more(expected, "high")) == pytest.approx((4.7, 6.0), abs=0.06)
    found = run("pressure_ratio_reading", refrigerant="R-134a", ambient=40, high=1550, low=213)
    assert "Inside" in found.meaning
    low = run("pressure_ratio_reading", refrigerant="R-134a", ambient=40, high=700, low=300)
    assert "Below" in low.meaning


def test_the_published_cycle_comes_out_of_both_doors():
    # cycle-A: 140 and 800 kPa, 0.05 kg/s
    found = run(
        "cycle", refrigerant="R-134a", evaporating_pressure=140, condensing_pressure=800,
        mass_flow=0.05, reference="ASHRAE",
    )  # fmt: skip
    assert shown(found) == pytest.approx(3.97, abs=0.02)
    assert more(found, "work") == pytest.approx(1.81, abs=0.01)
    again = run(
        "cycle_by_temperature", refrigerant="R-134a",
        evaporating_temperature=more(found, "evaporating_temperature"),
        condensing_temperature=more(found, "condensing_temperature"), mass_flow=0.05,
    )  # fmt: skip
    assert shown(again) == pytest.approx(shown(found), rel=1e-6)


def test_an_efficiency_is_read_from_both_lines():
    made = run(
        "cycle", refrigerant="R-134a", evaporating_pressure=315, condensing_pressure=1490,
        superheat=8, efficiency=65,
    )  # fmt: skip
    found = run(
        "isentropic_efficiency", refrigerant="R-134a", suction_pressure=315,
        suction_temperature=more(made, "suction_temperature"), discharge_pressure=1490,
        discharge_temperature=more(made, "discharge_temperature"),
    )  # fmt: skip
    assert shown(found) == pytest.approx(65, abs=0.1)


def test_an_efficiency_above_one_names_the_fault():
    found = run(
        "isentropic_efficiency", refrigerant="R-134a", suction_pressure=315,
        suction_temperature=10, discharge_pressure=1490, discharge_temperature=60,
    )  # fmt: skip
    assert shown(found) > 100
    assert "more than any compressor" in found.meaning


@pytest.mark.parametrize(
    ("grams", "machine", "celsius", "said"),
    [
        (290, "older", 10, "Low against the label"),
        (560, "older", 21, "Cannot tell"),
        (560, "older", 5, "no upper end is known"),
        (700, "newer", 22, "More than the label says came out"),
    ],
)
def test_recovered_grams_are_called_a_lower_bound(grams, machine, celsius, said):
    found = run(
        "recovered_share", recovered=grams, label_charge=650, machine=machine, temperature=celsius
    )
    assert shown(found) == pytest.approx(grams / 6.5)
    assert said in found.meaning
    assert "lower bound" in found.meaning


def test_a_machine_s_share_is_told_or_said_to_be_unknown():
    assert shown(run("machine_share", machine="older", temperature=21)) == pytest.approx(82)
    with pytest.raises(OutOfRange, match="nothing can be said"):
        run("machine_share", machine="newer", temperature=0)


def test_losses_are_told_in_grams():
    assert shown(run("normal_loss", time=6)) == pytest.approx(90.6)
    found = run(
        "loss_per_day", charged=650, recovered=290, machine="newer", temperature=22, time=100,
        scale=0,
    )  # fmt: skip
    assert more(found, "most") == pytest.approx(3.6)
    assert more(found, "least") == pytest.approx((650 - 290 / 0.95) / 100)


def test_hose_and_gas_left_are_told_in_grams():
    hose = run("hose_content", refrigerant="R-134a", length=1.8, temperature=20)
    assert shown(hose) == pytest.approx(40, abs=1)
    left = run("residual_gas", refrigerant="R-134a", temperature=25, pressure=0)
    assert shown(left) == pytest.approx(12.7, abs=0.2)
    with pytest.raises(OutOfRange):
        run("residual_gas", refrigerant="R-134a", temperature=25, pressure=700)


def test_carbon_dioxide_is_told_with_its_report():
    found = run("co2_equivalent", refrigerant="R-134a", mass=650)
    assert shown(found) == pytest.approx(929.5)
    assert "AR4" in found.meaning
    fifth = run("co2_equivalent", refrigerant="R-1234yf", mass=650, report="AR5")
    assert "less than" in fifth.meaning
    assert "A2L" in run("warming_potential", refrigerant="R-1234yf").meaning


def test_the_lower_fill_limit_is_the_default_and_the_rule_is_named():
    light = run("fill_limit", refrigerant="R-152a", water_capacity=11.9)
    assert shown(light) == pytest.approx(more(light, "by_density"))
    assert "specific gravity" in light.meaning
    heavy = run("fill_limit", refrigerant="R-134a", water_capacity=11.9)
    assert shown(heavy) == pytest.approx(9.52)
    other = run("fill_limit", refrigerant="R-134a", water_capacity=11.9, rule="density")
    assert shown(other) == pytest.approx(11.48789, rel=1e-4)  # cylinder-04
    r22 = run("fill_limit_by_gravity", water_capacity=1000, specific_gravity=1.197, rule="density")
    assert shown(r22) == pytest.approx(957.6)  # cylinder-01


def test_room_in_a_cylinder_is_told_and_a_full_one_too():
    given_ = {"refrigerant": "R-134a", "water_capacity": 11.9, "tare": 8}
    assert shown(run("cylinder_room", scale_reading=15, **given_)) == pytest.approx(2.52)
    over = run("cylinder_room", scale_reading=18, **given_)
    assert "take refrigerant out" in over.meaning


def test_the_liquid_full_temperature_warns_where_a_cylinder_can_get_that_warm():
    safe = run("liquid_full_temperature", refrigerant="R-134a", mass=9.52, water_capacity=11.9)
    assert shown(safe) > 80
    full = run("liquid_full_temperature", refrigerant="R-134a", mass=13.5, water_capacity=11.9)
    assert shown(full) < 52
    assert "take refrigerant out" in full.meaning


def test_specific_gravity_is_at_25_degrees_unless_told():
    assert shown(run("specific_gravity", refrigerant="R-134a")) == pytest.approx(1.2067, abs=1e-3)


def test_below_absolute_zero_stays_impossible():
    with pytest.raises(Impossible):
        to_si(-300, "°C")
    with pytest.raises(Impossible):
        ALL["saturation_pressure"].run(
            {"refrigerant": "R-134a", "temperature": -1.0, "reference": "IIR"}
        )
