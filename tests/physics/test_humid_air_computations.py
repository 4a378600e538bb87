"""Humid air, cooled air and vent readings as they are run by name."""

import pytest

from diagnostics.physics.computations.answer import answer

HOT = {"temperature": "35°C", "relative_humidity": "40%"}
COIL = {
    "entering_temperature": "30°C", "entering_relative_humidity": "50%",
    "leaving_temperature": "10°C", "leaving_relative_humidity": "100%", "flow": 5,
}  # fmt: skip
VENTS = {
    f"{side}_{name}": told
    for side in ("first", "second")
    for name, told in {
        "ambient": "30°C", "humidity": "normal", "speed": "1500 rpm", "fan": "max",
        "doors": "closed", "recirculation": "recirculated", "run": "15 min",
    }.items()
}  # fmt: skip


def shown(name, **told):
    found = answer(name, told)
    assert "error" not in found, found
    return found["shown"]["value"]


@pytest.mark.parametrize(
    ("name", "unit", "value", "within"),
    [
        # Çengel and Boles, example 14-4, read off a chart; from memory
        ("dew_point", "°C", 19.4, 0.3), ("humidity_ratio", "g/kg", 14.2, 0.2),
        ("wet_bulb", "°C", 24, 0.3), ("humid_air_enthalpy", "kJ/kg", 71.5, 0.6),
        ("humid_air_volume", "m³/kg", 0.893, 0.002),
    ],
)  # fmt: skip
def test_a_hot_day_is_the_textbook_s(name, unit, value, within):
    found = answer(name, HOT)
    assert found["shown"]["unit"] == unit
    assert found["shown"]["value"] == pytest.approx(value, abs=within)


def test_the_station_s_pressure_counts():
    high = HOT | {"altitude": "1600 m"}
    assert shown("humid_air_enthalpy", **high) == pytest.approx(79.4, abs=0.1)  # psychro-29
    assert shown("humid_air_enthalpy", **HOT, barometer="83.5235 kPa") == pytest.approx(
        shown("humid_air_enthalpy", **high), abs=0.01
    )


def test_humidity_is_told_in_one_way_only():
    assert "give one of" in answer("dew_point", {"temperature": "35°C"})["sentence"]
    two = answer("dew_point", HOT | {"wet_bulb": "20°C"})
    assert two["sentence"] == (
        "Give one of relative_humidity, wet_bulb: the others follow from it."
    )


def test_two_thermometers_tell_a_humidity_badly_and_it_says_so():
    told = {"temperature": "35°C", "wet_bulb": "24°C"}
    poor = answer("relative_humidity", told)["shown"]
    good = answer("relative_humidity", told | {"thermometer": "0.2 K"})["shown"]
    assert poor["value"] == good["value"]
    assert poor["uncertainty"] == pytest.approx(10 * good["uncertainty"], rel=0.05)
    assert poor["uncertainty"] > 5  # percent points, with thermometers of ±2 °C


def test_the_published_coil_drips_and_takes_what_was_published():
    assert shown("condensate", **COIL) == pytest.approx(0.0325 * 3600, rel=0.01)
    assert shown("coil_cooling", **COIL) == pytest.approx(198.18, rel=0.005)
    shares = [shown(name, **COIL) for name in ("sensible_share", "latent_share")]
    assert sum(shares) == pytest.approx(100)


def test_without_the_leaving_humidity_the_condensate_is_a_least():
    told = {name: value for name, value in COIL.items() if name != "leaving_relative_humidity"}
    found = answer("condensate", told)
    assert found["meaning"].startswith("At least ")
    assert "not told" in found["basis"]
    assert found["value"] == answer("condensate", COIL)["value"]


def test_a_share_needs_no_flow():
    told = {name: value for name, value in COIL.items() if name != "flow"}
    assert shown("sensible_share", **told) == pytest.approx(shown("sensible_share", **COIL))


def test_vents_under_the_same_conditions_compare_and_the_change_is_told():
    found = answer("vent_comparable", VENTS | {"first_vent": "12°C", "second_vent": "6°C"})
    assert found["value"] == 1
    assert found["more"]["vent_change"]["value"] == pytest.approx(-6)
    assert found["meaning"].endswith("The vent got colder by 6.0\u00a0K.")


def test_vents_under_other_conditions_do_not_compare_and_no_change_is_told():
    told = VENTS | {"second_ambient": "22°C", "first_vent": "12°C", "second_vent": "6°C"}
    found = answer("vent_comparable", told)
    assert found["value"] == 0
    assert "vent_change" not in found["more"]
    assert found["meaning"] == ("Not comparable. Ambient temperature: 30\u00a0°C and 22\u00a0°C.")


def test_a_condition_nobody_noted_leaves_it_open():
    told = {name: value for name, value in VENTS.items() if name != "second_fan"}
    found = answer("vent_comparable", told)
    assert found["value"] == 0
    assert found["meaning"].startswith("Cannot tell")


@pytest.mark.parametrize(
    ("humidity", "error"), [("130%", "impossible"), ("wet", "malformed"), ("5 kPa", "malformed")]
)
def test_a_humidity_of_a_vent_reading_is_a_number_or_a_known_word(humidity, error):
    assert answer("vent_comparable", VENTS | {"first_humidity": humidity})["error"] == error


@pytest.mark.parametrize("verdict", ["warm enough", "too warm", "normal range", "should be"])
def test_what_a_vent_should_show_is_never_judged(verdict):
    found = answer("vent_comparable", VENTS | {"first_vent": "25°C", "second_vent": "24°C"})
    assert verdict not in found["meaning"]
