"""What a computation of vacuum, nitrogen, oil and air says to what cannot be."""

import pytest

from diagnostics.physics.computations.answer import answer
from tests.physics.asked import fault, meaning

SAME = {"start_temperature": "20 °C", "end_temperature": "20 °C", "time": "30 min"}
AIR = {"entering_temperature": "30 °C", "entering_relative_humidity": "50 %"}
FULL = {"leaving_relative_humidity": "90 %"}


@pytest.mark.parametrize("unit", ["micron", "microns", "mTorr"])
def test_what_a_micron_gauge_shows_is_no_depth_and_no_gauge_pressure(unit):
    for name, asked in (("needle_to_absolute", "depth"), ("gauge_to_absolute", "pressure")):
        said = fault(name, "malformed", **{asked: f"500 {unit}"})
        assert "perfect vacuum" in said
    assert meaning("vacuum_target", pressure=f"400 {unit}")


def test_water_that_boils_above_the_air_s_pressure_needs_no_vacuum():
    assert "no vacuum" in meaning("water_boiling_depth", temperature="120 °C")
    assert "no vacuum" not in meaning("water_boiling_depth", temperature="20 °C")


def test_a_pressure_above_the_air_s_is_no_vacuum_on_a_needle():
    assert "no vacuum" in meaning("needle_shows", pressure="900000 micron")
    assert "no vacuum" not in meaning("needle_shows", pressure="500 micron")


def test_the_pressure_under_which_water_boils_is_said_to_be_absolute():
    # 29 inHg of vacuum typed as 29 inHg absolute
    assert "98.2\u00a0kPa absolute" in meaning("water_boiling_temperature", pressure="29 inHg")


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("vacuum_target", {"pressure": "0 micron"}),
        ("vacuum_hold", {"start": "0 micron", "end": "0 micron", "time": "15 min"}),
        ("vacuum_hold", {"start": "300 micron", "end": "0 micron", "time": "15 min"}),
        ("vacuum_rise", {"readings": "0:0 5:0 10:0 15:0 20:0"}),
    ],
)
def test_a_vacuum_gauge_at_nothing_has_seen_nothing(name, told):
    assert "no pump reaches" in fault(name, "impossible", **told)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("vacuum_hold", {"start": "760000 micron", "end": "760000 micron", "time": "15 min"}),
        ("vacuum_rise", {"readings": "0:760000 5:760000 10:760000 15:760000 20:760000"}),
        ("vacuum_rise", {"readings": "0:900000 5:950000 10:999000 15:1000000 20:2000000"}),
    ],
)
def test_where_no_vacuum_was_pulled_none_is_held(name, told):
    assert "no vacuum that could be held" in fault(name, "out_of_range", **told)


def test_more_than_the_air_at_the_end_came_from_something_else():
    told = {"start": "400 micron", "time": "15 min"}
    assert "more than the air" in fault("vacuum_hold", "out_of_range", **told, end="999999 micron")
    gone = answer("vacuum_hold", {**told, "end": "759000 micron"})
    assert "The vacuum is gone" in gone["meaning"]
    assert "or more" in gone["meaning"]
    assert "about" not in gone["meaning"]


def test_a_leak_that_fills_the_loop_has_no_straight_rise():
    told = {"leak": "100000 kg/yr", "time": "10000 min"}
    assert "fills the loop" in fault("leak_in_vacuum", "out_of_range", **told)


def test_a_hold_without_pressure_expects_none():
    told = {"start_temperature": "20 °C", "end_temperature": "25 °C"}
    for start in ("0 bar", "-0.5 bar"):
        said = fault("nitrogen_expected", "out_of_range", start=start, **told)
        assert "nothing to hold" in said


def test_a_maker_s_limit_of_nothing_is_outside_the_range():
    told = {"start": "10 bar", "end": "10 bar", "limit": "0 bar", **SAME}
    assert "outside" in fault("nitrogen_hold", "out_of_range", **told)


def test_nitrogen_that_is_all_gone_was_lost_at_least_so_fast():
    assert "or more: all of it is gone" in meaning(
        "nitrogen_hold", start="10 bar", end="0 bar", **SAME
    )
    assert "all of it is gone" not in meaning("nitrogen_hold", start="10 bar", end="9 bar", **SAME)


def test_more_oil_than_the_loop_holds_is_never_told_to_be_put_in_without_its_limit():
    told = {"compressor": "dry", "drained_old": "500 mL", "system": "150 mL"}
    assert "no more than the label's 150\u00a0mL" in meaning("oil_match", **told)
    assert "no more than" not in meaning("oil_match", **told | {"drained_old": "60 mL"})


def test_a_report_that_no_weather_makes_is_outside_the_range():
    assert "outside" in fault("station_pressure", "out_of_range", reported="30 kPa", altitude="0 m")
    assert "No weather report tells" in meaning(
        "reported_pressure", station="101.3 kPa", altitude="3000 m"
    )
    assert "No weather report tells" not in meaning(
        "reported_pressure", station="84 kPa", altitude="1600 m"
    )


def test_without_air_no_coil_cools():
    told = {**AIR, "leaving_temperature": "10 °C", **FULL, "flow": "0 m³/h"}
    for name in ("condensate", "air_cooling", "coil_cooling", "sensible_share"):
        assert "No air flows" in fault(name, "out_of_range", **told)


def test_below_freezing_water_stays_on_the_coil_as_ice():
    told = {**AIR, "leaving_temperature": "-10 °C", **FULL, "flow": "300 m³/h"}
    for name in ("condensate", "coil_cooling"):
        said = meaning(name, **told)
        assert "ice" in said
        assert "drip" not in said


def test_a_vapor_pressure_is_told_with_few_digits():
    assert "1\u00a0555\u00a0kPa" in meaning("saturation_vapor_pressure", temperature="200 °C")
    assert "3.169\u00a0kPa" in meaning("saturation_vapor_pressure", temperature="25 °C")


def test_a_leak_good_to_a_factor_of_two_has_two_digits():
    said = meaning("vacuum_hold", start="400 micron", end="300000 micron", time="15 min")
    assert "about 7\u00a0400\u00a0kg/yr" in said
    assert "15\u00a0g/yr" in meaning("leak_in_vacuum", leak="15.4 g/yr")


def test_a_hold_repeats_what_was_read_so_that_a_slipped_unit_shows():
    # bare numbers are SI: 400 Pa, 15 s
    said = meaning("vacuum_hold", start="400", end="402", time="15")
    assert said.startswith("From 3\u00a0000 to 3\u00a0015\u00a0micron in 0.25\u00a0min.")
    assert "in 0.0000694\u00a0d" not in meaning("normal_loss", time="6")
    assert "0\u00a0g in 0.000069\u00a0d" in meaning("normal_loss", time="6")
    assert "91\u00a0g in 6.00\u00a0yr" in meaning("normal_loss", time="6 yr")


def test_a_hold_no_higher_than_the_gauge_is_read_shows_nothing():
    told = {"start": "0.01 bar", "end": "0 bar", **SAME}
    assert "nothing to hold" in fault("nitrogen_hold", "out_of_range", **told)


def test_no_leak_empties_a_loop_below_the_air():
    told = {"start": "10 bar", "end": "-1 bar", **SAME}
    assert "no leak does that" in fault("nitrogen_hold", "impossible", **told)
    cold = SAME | {"start": "0.2 bar", "end": "-0.04 bar", "end_temperature": "-40 °C"}
    assert "no leak" not in meaning("nitrogen_hold", **cold)


def test_air_that_leaves_with_a_dew_point_below_freezing_left_ice():
    # at 10 °C and 1 % the dew point is near −47 °C, and the coil was at least as cold
    dry = {"leaving_temperature": "10 °C", "leaving_relative_humidity": "1 %", "flow": "300 m³/h"}
    assert "ice" in meaning("coil_cooling", **AIR, **dry)
    assert "drip" in meaning("coil_cooling", **AIR, **dry | FULL)
