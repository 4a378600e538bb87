"""What a computation says to readings that cannot be true together."""

from typing import Any

import pytest

from diagnostics.physics.computations.answer import answer

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
