"""The computations about units, gauge pressure and the air, as they are run by name."""

import pytest

from diagnostics.physics.computations import atmosphere, units
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.units import UNITS, from_si, to_si

NAMED = {one.name: one for one in (*units.COMPUTATIONS, *atmosphere.COMPUTATIONS)}


def run(name, **told):
    """Value in the unit to show it in."""
    found = NAMED[name].run(told)
    return from_si(found.value, found.unit)


@pytest.mark.parametrize(
    ("value", "start", "end", "found"),
    [
        (100.0, "psi", "kPa", 689.4757), (29.92, "in. Hg", "kPa", 101.3207),
        (500.0, "microns", "Pa", 66.66119), ("500 micron", "", "mTorr", 500.00007),
        ("75 F", "", "°C", 23.88889), (18.0, "Δ°F", "K", 10.0), (1.0, "lb", "g", 453.59237),
        ("24 oz", "", "g", 680.3886), ("8 fl oz", "", "mL", 236.5882), ("25 Δ°C", "", "f", 45.0),
        ("2,5 bar", "", "psi", 36.2594),
        ("0.5 MΩ", "", "kΩ", 500), ("0.5 mΩ", "", "Ω", 0.0005), (60.0, "psia", "bar", 4.136854),
        (60.0, "psig", "kPa g", 413.6854), (14.0, "g/yr", "oz/yr", 0.4938355),
    ],
)  # fmt: skip
def test_a_number_is_converted_as_it_is_typed(value, start, end, found):
    told = {"value": value, "to": end} | ({"from": start} if start else {})
    assert run("convert", **told) == pytest.approx(found, rel=2e-6)


@pytest.mark.parametrize(
    ("value", "start", "end", "words"),
    [
        (1.0, "psi", "g", "pressure"), (1.0, "psia", "psig", "air"),
        (1.0, "furlong", "m", "furlong"),
        (1.0, "oz", "mL", "mass"), ("1 m", "", "MΩ", "length"), ("3", "", "V", "no unit"),
        (20.0, "Δ°C", "kPa", "kPa"),
        (float("nan"), "V", "mV", "no number"), ("abc", "V", "mV", "no number"),
    ],
)  # fmt: skip
def test_what_cannot_be_converted_says_why(value, start, end, words):
    with pytest.raises(Malformed, match=words):
        run("convert", **{"value": value, "from": start, "to": end})


def test_colder_than_absolute_zero_is_not_converted():
    with pytest.raises(Impossible, match="absolute zero"):
        run("convert", **{"value": -300.0, "from": "C", "to": "F"})


def test_a_gauge_reading_becomes_absolute_by_altitude_and_the_barometer_wins():
    reading = to_si(29.4, "psi")
    sea = run("gauge_to_absolute", pressure=reading)
    high = run("gauge_to_absolute", pressure=reading, altitude=1_609.344)
    told = run("gauge_to_absolute", pressure=reading, altitude=1_609.344, barometer=84_000.0)
    assert sea == pytest.approx(from_si(reading, "kPa") + 101.325)
    assert high == pytest.approx(from_si(reading, "kPa") + 83.427, abs=0.01)
    assert told == pytest.approx(from_si(reading, "kPa") + 84.0)


def test_a_weather_report_is_brought_back_to_the_shop_s_altitude():
    reported = to_si(30.10, "inHg")
    air = run("air_pressure", altitude=1_609.344, reported=reported)
    assert air == pytest.approx(83.944, abs=0.005)  # 83.427 of the standard day and 0.855 x 0.605
    assert run("station_pressure", altitude=1_609.344, reported=reported) == air


def test_gauge_and_absolute_are_each_other_s_way_back():
    there = NAMED["absolute_to_gauge"].run({"pressure": 300e3, "altitude": 2_000.0}).value
    back = NAMED["gauge_to_absolute"].run({"pressure": there, "altitude": 2_000.0}).value
    assert back == pytest.approx(300e3)


def test_a_vacuum_deeper_than_perfect_is_impossible_where_the_air_is_thin():
    reading = to_si(-27.0, "inHg")
    assert run("gauge_to_absolute", pressure=reading) == pytest.approx(9.9, abs=0.05)
    with pytest.raises(Impossible, match="perfect vacuum"):
        run("gauge_to_absolute", pressure=reading, altitude=1_500.0)


def test_an_altitude_no_shop_has_is_out_of_range():
    with pytest.raises(OutOfRange):
        run("standard_pressure", altitude=20_000.0)


def test_altitude_and_pressure_are_each_other_s_way_back():
    pascal = NAMED["standard_pressure"].run({"altitude": 1_500.0}).value
    assert run("pressure_altitude", pressure=pascal) == pytest.approx(1_500)
    station = NAMED["station_pressure"].run({"reported": 102e3, "altitude": 1_500.0}).value
    assert run("reported_pressure", station=station, altitude=1_500.0) == pytest.approx(102)


def test_a_barometer_s_number_of_sea_level_is_named_and_brought_back():
    found = NAMED["barometer_reading"].run({"reading": 101_325.0, "altitude": 1_600.0})
    assert "brought to sea level" in found.meaning
    assert from_si(found.value, "kPa") == pytest.approx(83.52, abs=0.01)


@pytest.mark.parametrize("one", NAMED.values(), ids=NAMED)
def test_units_named_are_known_ones(one):
    assert all(
        not unit or unit in UNITS for unit in (one.unit, *(told.unit for told in one.inputs))
    )


@pytest.mark.parametrize("typed", ["5 psi", "2e5", "12abc", "5 °C", "1e400"])
def test_a_unit_behind_the_number_that_is_not_the_one_told_is_refused(typed):
    with pytest.raises(Malformed, match="tell one"):
        run("convert", value=typed, **{"from": "kPa"}, to="bar")
