"""Pressure of the air, held to published tables (atmosphere.json names each source)."""

import json
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.atmosphere import (
    ALTITUDES,
    SEA_LEVEL,
    air_around,
    pressure_altitude,
    reported_pressure,
    standard_pressure,
    station_pressure,
    told_as,
)
from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import from_si, to_si

ROWS: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "atmosphere.json").read_text("utf-8")
)
UNITS = {"psia": "psi"}
HEIGHT = st.floats(*ALTITUDES)
SHOPS = st.floats(-400, 5_000)  # m: from the Dead Sea to the highest towns


def rows(role: str) -> list[Any]:
    return [pytest.param(row, id=row["id"]) for row in ROWS if row["role"] == role]


def computed(row: dict[str, Any]) -> float:
    """In the row's unit."""
    told = row["input"]
    altitude = told["alt_m"] if "alt_m" in told else to_si(told["alt_ft"], "ft")
    if "reported_hPa" in told or "reported_inHg" in told:
        name = next(name for name in told if name.startswith("reported"))
        reported = Absolute(to_si(told[name], name.removeprefix("reported_")))
        found = station_pressure(reported, altitude)
    else:
        found = standard_pressure(altitude)
    return from_si(found.pa, UNITS.get(row["units"], row["units"]))


def close(row: dict[str, Any]) -> bool:
    return computed(row) == pytest.approx(
        row["expected"], **{row["tolerance_kind"]: row["tolerance"]}
    )


@pytest.mark.parametrize("row", rows("check"))
def test_the_air_s_pressure_is_the_published_one(row):
    assert close(row)


@pytest.mark.parametrize("row", rows("regression"))
def test_the_air_s_pressure_stays_what_it_was(row):
    assert close(row)


@pytest.mark.parametrize("row", rows("trap"))
def test_a_rule_of_thumb_is_not_adopted(row):
    assert not close(row)


@given(HEIGHT)
def test_an_altitude_survives_the_way_to_its_pressure_and_back(altitude):
    assert pressure_altitude(standard_pressure(altitude)) == pytest.approx(altitude, abs=1e-6)


@given(HEIGHT, HEIGHT)
def test_higher_up_the_air_never_presses_more(one, other):
    low, high = sorted((one, other))
    assert standard_pressure(low) >= standard_pressure(high)


@given(st.floats(96_000, 105_000), SHOPS)
def test_a_report_survives_the_way_to_the_shop_and_back(pascal, altitude):
    station = station_pressure(Absolute(pascal), altitude)
    assert reported_pressure(station, altitude).pa == pytest.approx(pascal, rel=1e-9)


@given(SHOPS)
def test_a_report_of_the_standard_day_gives_the_standard_pressure(altitude):
    station = station_pressure(SEA_LEVEL, altitude)
    assert station.pa == pytest.approx(standard_pressure(altitude).pa, rel=1e-9)


@pytest.mark.parametrize("altitude", [math.nan, math.inf, -math.inf])
def test_an_altitude_that_is_no_number_is_malformed(altitude):
    with pytest.raises(Malformed):
        standard_pressure(altitude)


@pytest.mark.parametrize("altitude", [-5_001, 11_001, 1e9])
def test_an_altitude_outside_the_standard_is_said_to_be_so(altitude):
    with pytest.raises(OutOfRange, match="standard atmosphere"):
        standard_pressure(altitude)


@pytest.mark.parametrize("pascal", [0, 22_600, 178_000, 1e7])
def test_a_pressure_that_no_air_has_is_said_to_be_so(pascal):
    with pytest.raises(OutOfRange, match="no air pressure"):
        pressure_altitude(Absolute(pascal))


@pytest.mark.parametrize(
    ("pascal", "altitude", "told"),
    [
        (101_325, 0, "either"), (101_325, 1_600, "sea_level"), (83_500, 1_600, "station"),
        (102_700, 1_000, "sea_level"), (90_000, 0, "neither"), (70_000, 1_600, "neither"),
        (98_900, 200, "either"), (92_000, 700, "station"), (106_500, -400, "station"),
    ],
)  # fmt: skip
def test_a_pressure_brought_to_sea_level_is_told_from_the_place_s_own(pascal, altitude, told):
    assert told_as(Absolute(pascal), altitude) == told


def test_a_barometer_wins_over_report_and_altitude():
    air = air_around(1_600, Absolute(82_000), Absolute(101_000))
    assert air.pressure == Absolute(82_000)
    assert air.basis == "barometer 82.0\u00a0kPa"


def test_a_barometer_set_by_the_weather_report_is_used_and_told():
    air = air_around(1_600, Absolute(101_325))
    assert air.pressure == SEA_LEVEL
    assert "brought to sea level" in air.basis
    assert "83.5\u00a0kPa" in air.basis


def test_a_report_wins_over_the_altitude_alone_and_is_surer():
    reported, altitude = air_around(1_600, reported=Absolute(102_500)), air_around(1_600)
    assert reported.pressure > altitude.pressure
    assert reported.u < altitude.u


def test_a_report_without_an_altitude_asks_for_it():
    with pytest.raises(Malformed, match="altitude is needed"):
        air_around(reported=Absolute(101_325))


def test_nothing_known_is_sea_level_and_says_so():
    air = air_around()
    assert air.pressure == SEA_LEVEL
    assert "sea level" in air.basis


def test_weather_is_what_an_altitude_does_not_know():
    # 101.325 kPa, and most days at the sea within 3 kPa of it: from memory
    assert 3_000 / 3 <= air_around(0).u <= 3_000 / 2
