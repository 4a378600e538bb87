"""What a computation says to readings that cannot be true together."""

from typing import Any

import pytest

from diagnostics.physics.computations.answer import answer
from diagnostics.physics.computations.catalogue import COMPUTATIONS

GAS = {"refrigerant": "R-134a"}
LOOP = {**GAS, "evaporating_temperature": "5 °C", "condensing_temperature": "50 °C"}
WEIGHED = {"machine": "newer", "temperature": "25 °C"}


def meaning(name: str, **told: Any) -> str:
    found = answer(name, told)
    assert "error" not in found, found
    return str(found["meaning"])


def fault(name: str, code: str, **told: Any) -> str:
    """The sentence of an error, whose code is the one expected."""
    found = answer(name, told)
    assert found.get("error") == code, found
    return str(found["sentence"])


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
