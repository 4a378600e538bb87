"""Fill limits by both rules, and where liquid fills a cylinder; refrigerants.json names sources."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.cylinder import (
    AT_25,
    FILL,
    HOTTEST,
    fill_limits,
    liquid_full_temperature,
    net_mass,
    specific_gravity,
)
from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.saturation import saturated
from tests.physics.cases import deviation, rows

ZERO_C = 273.15
FILLS = [row for row in rows("check", "regression", group="cylinder") if "fill" in row["quantity"]]
GRAVITIES = [row for row in rows("check", group="cylinder") if "gravity" in row["quantity"]]
FILLED = st.sampled_from(["R-134a", "R-1234yf", "R-12", "R-152a"])


@pytest.mark.parametrize("row", FILLS, ids=[row["id"] for row in FILLS])
def test_a_fill_limit_follows_the_published_rule(row):
    given_ = row["input"]
    gravity = given_.get("SG") or specific_gravity(
        row["quantity"].split()[0], ZERO_C + given_["t_C"]
    )
    limits = fill_limits(given_.get("WC_lb") or given_["WC_kg"], gravity)
    assert deviation(row, limits.by_density) <= 1


@pytest.mark.parametrize("row", GRAVITIES, ids=[row["id"] for row in GRAVITIES])
def test_gravity_counts_against_water_of_1000(row):
    # R-22 is none of ours: the library stands in
    density = PropsSI("Dmass", "T", ZERO_C + row["input"]["t_C"], "Q", 0, "R22")
    assert deviation(row, density / 1000) <= 1


def test_every_row_of_the_group_is_asserted():
    assert len(FILLS) + len(GRAVITIES) == len(rows("check", "regression", group="cylinder")) == 6


def test_the_short_rule_overfills_with_a_liquid_lighter_than_water():
    light = fill_limits(11.9, specific_gravity("R-152a"))
    assert light.by_water > light.by_density
    assert light.rule == "density"
    assert light.by_water / 11.9 / specific_gravity("R-152a") > FILL  # share of liquid at 25 °C


@pytest.mark.parametrize("name", ["R-134a", "R-1234yf", "R-12"])
def test_with_a_heavier_liquid_the_short_rule_is_the_lower(name):
    limits = fill_limits(11.9, specific_gravity(name))
    assert limits.rule == "water"
    assert limits.lower == pytest.approx(9.52)


@given(FILLED, st.floats(1, 100))
def test_the_default_keeps_liquid_at_25_degrees_to_80_percent(name, capacity):
    kilogram = fill_limits(capacity, specific_gravity(name)).lower
    liquid = kilogram / saturated(name, AT_25).liquid_density * 1000
    assert liquid <= FILL * capacity * (1 + 1e-9)


@given(FILLED, st.floats(1, 100))
def test_filled_to_the_default_it_is_not_full_of_liquid_where_it_may_stand(name, capacity):
    kilogram = fill_limits(capacity, specific_gravity(name)).lower
    assert liquid_full_temperature(name, kilogram, capacity) > HOTTEST


@given(FILLED, st.floats(ZERO_C - 50, ZERO_C + 90), st.floats(1, 100))
def test_the_liquid_full_temperature_is_where_the_liquid_takes_all_the_room(name, kelvin, capacity):
    kilogram = saturated(name, kelvin).liquid_density * capacity / 1000
    assert liquid_full_temperature(name, kilogram, capacity) == pytest.approx(kelvin, abs=1e-4)


@given(FILLED, st.floats(8, 10), st.floats(8, 10))
def test_more_in_it_is_full_of_liquid_earlier(name, one, other):
    less, more = sorted((one, other))
    earlier, later = (liquid_full_temperature(name, mass, 10) for mass in (more, less))
    assert earlier <= later + 1e-6  # masses as good as equal: the root is found to so many digits


def test_so_little_never_fills_it_and_so_much_never_fits():
    with pytest.raises(OutOfRange, match="never fills"):
        liquid_full_temperature("R-134a", 1, 10)
    with pytest.raises(OutOfRange, match="does not fit"):
        liquid_full_temperature("R-134a", 16, 10)


def test_r744_cylinders_follow_another_rule():
    with pytest.raises(OutOfRange, match="stamped"):
        specific_gravity("R-744")


def test_net_is_the_scale_less_the_tare():
    assert net_mass(17.25, 8.0) == 9.25
    with pytest.raises(OutOfRange, match="tare"):
        net_mass(7.9, 8.0)


@pytest.mark.parametrize("value", [0, -1, float("nan")])
def test_a_cylinder_of_no_size_is_refused(value):
    with pytest.raises(OutOfRange):
        fill_limits(value, 1.2)
    with pytest.raises(OutOfRange):
        liquid_full_temperature("R-134a", value, 10)


def test_an_unknown_refrigerant_is_named():
    with pytest.raises(Malformed):
        specific_gravity("R-999")
