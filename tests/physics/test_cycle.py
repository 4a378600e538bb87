"""The running loop: differences of temperature, ratios of pressure, the estimate of a cycle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.cycle import (
    RATIO_BANDS,
    difference_u,
    estimate,
    exchanged,
    isentropic_efficiency,
    judge_ratio,
    pressure_ratio,
    ratio_band,
    ratio_u,
    subcooling,
    superheat,
)
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.saturation import saturated, saturation_pressure
from diagnostics.physics.uncertainty import Measured

ZERO_C = 273.15
CAR = st.sampled_from(["R-134a", "R-1234yf", "R-12", "R-152a"])
LOW, HIGH = Absolute(300e3), Absolute(1500e3)


@given(CAR, st.floats(ZERO_C - 20, ZERO_C + 60), st.floats(-10, 40))
def test_superheat_and_subcooling_are_the_same_distance_from_opposite_sides(name, kelvin, step):
    rest = saturation_pressure(name, kelvin)
    assert superheat(name, kelvin + step, rest) == pytest.approx(step, abs=1e-6)
    assert subcooling(name, kelvin + step, rest) == pytest.approx(-step, abs=1e-6)


@given(CAR, st.floats(150e3, 2e6), st.floats(0, 2), st.floats(0, 50e3))
def test_a_gauge_counts_by_the_slope_of_the_saturation_line(name, pa, warm_u, gauge_u):
    u = difference_u(name, Absolute(pa), warm_u, gauge_u)
    moved = superheat(name, 300, Absolute(pa)) - superheat(name, 300, Absolute(pa + 10))
    assert u == pytest.approx(math.hypot(warm_u, gauge_u * moved / 10), rel=1e-3, abs=1e-9)


def test_a_gauge_pressure_in_place_of_an_absolute_one_is_refused():
    with pytest.raises(TypeError):
        superheat("R-134a", 280, Gauge(200e3))  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        pressure_ratio(HIGH, Gauge(200e3))  # type: ignore[arg-type]


@pytest.mark.parametrize("name", RATIO_BANDS)
@pytest.mark.parametrize("ambient", [20, 40])
def test_a_band_of_ratios_is_the_one_of_the_trade(name, ambient):
    # trade facts, computed: evaporator at 2 °C, high side at ambient + 15 to 25 K
    found = ratio_band(name, ZERO_C + ambient)
    assert found == pytest.approx(RATIO_BANDS[name][ambient], abs=0.06)


@given(st.floats(20, 40), st.floats(20, 40))
def test_a_hotter_day_asks_for_more_ratio(one, other):
    cool, hot = sorted((one, other))
    before, after = ratio_band("R-134a", ZERO_C + cool), ratio_band("R-134a", ZERO_C + hot)
    assert before[0] <= after[0]
    assert before[1] <= after[1]


def test_ratios_are_of_absolute_pressures():
    assert pressure_ratio(HIGH, LOW) == 5
    assert pressure_ratio(Gauge(900e3).absolute(Absolute(100e3)), Absolute(200e3)) == 5


def test_a_ratio_s_uncertainty_adds_relative_parts_in_squares():
    # JCGM 100:2008, 5.1.6
    relative = ratio_u(HIGH, LOW, 15e3, 6e3) / 5
    assert relative == pytest.approx(math.hypot(0.01, 0.02))


@pytest.mark.parametrize(
    ("ratio", "where"),
    [
        (1.2, "not_pumping"), (1.95, "below"), (2.6, "below"), (2.82, "cannot_tell"),
        (3.2, "inside"), (3.72, "cannot_tell"), (4.5, "above"),
    ],
)  # fmt: skip
def test_a_ratio_is_placed_with_its_uncertainty(ratio, where):
    assert judge_ratio(Measured(ratio, 0.05), (2.8, 3.7)) == where


@pytest.mark.parametrize("celsius", [19.9, 40.1, float("nan")])
def test_no_band_is_made_up_for_other_days(celsius):
    with pytest.raises(OutOfRange, match="20 to 40"):
        ratio_band("R-134a", ZERO_C + celsius)


def test_no_band_is_made_up_for_other_refrigerants():
    with pytest.raises(OutOfRange, match="R-12"):
        ratio_band("R-12", ZERO_C + 30)


@given(
    CAR, st.floats(-5, 12), st.floats(35, 65), st.floats(0, 15), st.floats(0, 10), st.floats(0.4, 1)
)
def test_a_cycle_keeps_its_energy(name, cold, hot, over, under, efficiency):
    low, high = (saturation_pressure(name, ZERO_C + t) for t in (cold, hot))
    found = estimate(name, low, high, superheated=over, subcooled=under, efficiency=efficiency)
    assert found.rejected == pytest.approx(found.cooling + found.work)
    assert found.cop == pytest.approx(found.cooling / found.work)
    assert found.discharge.enthalpy >= found.ideal_enthalpy - 0.1
    assert found.discharge.entropy >= found.suction.entropy - 0.05
    assert 0 < found.quality < 1
    # Carnot's is the most that any cycle between both temperatures has
    carnot = found.evaporating_kelvin / (found.condensing_kelvin - found.evaporating_kelvin)
    assert found.cop < carnot


@given(st.floats(0.4, 0.95), st.floats(2, 15))
def test_an_efficiency_put_in_is_read_out_again(efficiency, over):
    found = estimate("R-134a", LOW, HIGH, superheated=over, efficiency=efficiency)
    again = isentropic_efficiency(
        "R-134a", (found.suction.kelvin, LOW), (found.discharge.kelvin, HIGH)
    )
    assert again == pytest.approx(efficiency, rel=1e-3)


@given(st.sampled_from(["IIR", "ASHRAE"]))
def test_a_cycle_does_not_depend_on_where_heat_is_counted_from(reference):
    plain, other = estimate("R-134a", LOW, HIGH), estimate("R-134a", LOW, HIGH, reference=reference)
    assert plain.cop == pytest.approx(other.cop)
    assert plain.quality == pytest.approx(other.quality)


def test_dry_gas_of_r1234yf_ends_a_little_wet_without_superheat():
    low, high = (saturation_pressure("R-1234yf", ZERO_C + t) for t in (2, 55))
    found = estimate("R-1234yf", low, high)
    assert found.discharge.kelvin == pytest.approx(found.condensing_kelvin)
    assert found.discharge.enthalpy < saturated("R-1234yf", ZERO_C + 55).vapor_enthalpy


@pytest.mark.parametrize(
    ("error", "given_"),
    [
        (Impossible, {"efficiency": 0}),
        (Impossible, {"efficiency": 1.2}),
        (Impossible, {"efficiency": float("nan")}),
        (OutOfRange, {"superheated": -1}),
        (OutOfRange, {"subcooled": -1}),
        (Malformed, {"superheated": float("nan")}),
    ],
)
def test_a_cycle_that_cannot_be_is_refused(error, given_):
    with pytest.raises(error):
        estimate("R-134a", LOW, HIGH, **given_)


@pytest.mark.parametrize("name", RATIO_BANDS)
def test_liquid_colder_than_the_evaporator_is_impossible(name):
    low, high = (saturation_pressure(name, ZERO_C + t) for t in (5, 50))
    with pytest.raises(Impossible, match=r"−10\.0\s°C, colder than the evaporator at 5\.0\s°C"):
        estimate(name, low, high, subcooled=60)


def test_more_cooling_than_carnot_allows_is_impossible():
    # Carnot: 278.15 / (323.15 - 278.15) = 6.18; liquid cooled to 10 °C would make it 6.82
    low, high = (saturation_pressure("R-134a", ZERO_C + t) for t in (5, 50))
    with pytest.raises(Impossible, match=r"6\.82 times .* 6\.18 times \(Carnot\)"):
        estimate("R-134a", low, high, subcooled=40)
    assert estimate("R-134a", low, high, subcooled=10).cop < 6.18


@pytest.mark.parametrize(
    ("ratio", "wrong"), [(0.19, True), (0.94, True), (0.97, False), (3, False)]
)
def test_a_high_side_surely_below_the_low_side_is_no_ratio_of_a_loop(ratio, wrong):
    assert exchanged(Measured(ratio, 0.02)) is wrong


def test_pressures_the_wrong_way_round_are_impossible():
    with pytest.raises(Impossible, match="nothing is pumped"):
        estimate("R-134a", HIGH, LOW)
    with pytest.raises(Impossible, match="nothing is pumped"):
        isentropic_efficiency("R-134a", (340, HIGH), (340, LOW))


def test_gas_that_did_not_warm_up_was_not_compressed():
    with pytest.raises(Impossible, match="no work"):
        isentropic_efficiency("R-134a", (400, LOW), (335, HIGH))


def test_r744_above_its_critical_pressure_is_recorded_and_not_judged():
    with pytest.raises(OutOfRange, match="recorded, not judged"):
        estimate("R-744", Absolute(3.5e6), Absolute(9e6))


def test_a_low_side_of_nothing_has_no_ratio():
    with pytest.raises(Impossible, match="perfect vacuum"):
        pressure_ratio(HIGH, Absolute(0))


def test_a_line_below_absolute_zero_is_impossible():
    with pytest.raises(Impossible):
        superheat("R-134a", -4, LOW)
