"""What a computation of coil, wiring, gap, vacuum, nitrogen and oil says to what cannot be."""

import pytest

from diagnostics.physics.computations.answer import answer
from tests.physics.asked import fault, meaning

SAME = {"start_temperature": "20 °C", "end_temperature": "20 °C", "time": "30 min"}


def test_a_coil_that_reads_next_to_nothing_is_no_copper():
    told = {"temperature": "100 °C"}
    assert "leads touch" in meaning("resistance_at_20", resistance="0 Ω", **told)
    assert "leads touch" not in meaning("resistance_at_20", resistance="4.7 Ω", **told)


def test_current_without_voltage_is_no_coil():
    assert "voltage across" in fault("coil_resistance", "impossible", voltage="0 V", current="3 A")


def test_a_current_that_the_meter_may_not_have_seen_gives_no_resistance():
    # ±30 mA of the meter by default
    assert "Cannot tell" in meaning("coil_resistance", voltage="12 V", current="3 mA")
    assert "Cannot tell" not in meaning("coil_resistance", voltage="12 V", current="3.3 A")


@pytest.mark.parametrize(
    ("name", "told", "said"),
    [
        ("coil_current", {"voltage": "12 V", "resistance_20": "0.001 Ω"}, "outside"),
        ("resistance_at_temperature", {"resistance_20": "0 Ω", "temperature": "20 °C"}, "outside"),
        ("coil_current_band", {"voltage": "0 V"}, "nothing is fed"),
        ("coil_current_band", {"voltage": "60 V"}, "No 12 V vehicle"),
        ("coil_current_band", {"voltage": "37 V", "system": "24", "figure": "12 Ω"}, "No 24 V"),
        ("coil_pull", {"voltage": "60 V", "temperature": "20 °C"}, "half as much again"),
        ("joint_with_coil", {"voltage": "0 V", "joint": "1", "coil": "3.6"}, "outside"),
        ("joint_with_lamp", {"voltage": "0 V", "joint": "1"}, "outside"),
        ("wire_resistance", {"area": "1 mm²", "length": "0 m"}, "outside"),
        ("gap_shims", {"points": "0.9 1.0 1.05", "fitted": "100"}, "thicker than a centimeter"),
    ],
)  # fmt: skip
def test_what_no_vehicle_has_is_out_of_range(name, told, said):
    assert said in fault(name, "out_of_range", **told)


def test_a_thermometer_that_was_told_is_not_called_the_default():
    told = {"resistance": "4.7", "temperature": "100 °C"}
    assert "by default" in answer("resistance_at_20", told)["basis"]
    basis = answer("resistance_at_20", told | {"thermometer": "0.5 K"})["basis"]
    assert "thermometer ±0.5\u00a0K as told" in basis
    for name in ("coil_check", "water_in_vacuum"):
        more = {"pressure": "500 micron"} if name == "water_in_vacuum" else {"resistance": "4.7"}
        found = answer(name, {"temperature": "20 °C", "thermometer": "0.5 K"} | more)
        assert "±0.5\u00a0K as told" in found["basis"]


@pytest.mark.parametrize(("one", "other"), [("3.6", "OL"), ("0", "OL"), ("OL", "3.6")])
def test_a_coil_that_reads_one_way_only_lost_contact(one, other):
    found = answer("coil_diode", {"forward": one, "backward": other})
    assert found["value"] == 4
    assert "lost contact" in found["meaning"]
    assert answer("coil_diode", {"forward": "OL", "backward": "600"})["value"] == 1
    strong = {"test_current": "100 mA", "test_voltage": "3 V"}  # 0.7 V / 0.1 A = 7 Ω
    assert answer("coil_diode", {"forward": "OL", "backward": "7", **strong})["value"] == 1


def test_a_current_that_no_battery_drives_through_the_wire_is_named():
    wire = {"awg": 40, "length": "1000 m"}
    assert "cannot flow" in meaning("wire_resistance", **wire, current="1000 A")
    assert "cannot flow" not in meaning("wire_resistance", awg=18, current="5 A")


def test_a_drop_against_its_current_has_the_leads_swapped_and_no_power_below_nothing():
    found = answer("voltage_drop", {"drop": "-0.3 V", "current": "3 A"})
    assert "other way round" in found["meaning"]
    assert found["more"]["power"]["value"] == pytest.approx(0.9)
    assert "other way round" not in meaning("voltage_drop", drop="-0.3 V", current="-3 A")


def test_a_lamp_that_gets_far_more_than_it_is_made_for_burns_through():
    lamp = {"lamp_power": "21 W", "lamp_voltage": "6 V"}
    assert "burns" in meaning("joint_with_lamp", voltage="13.5 V", joint="0 Ω", **lamp)
    assert "burns" not in meaning("joint_with_lamp", voltage="13.5 V", joint="0 Ω")


def test_a_drop_that_cannot_be_placed_is_told_in_a_whole_sentence():
    said = meaning("voltage_drop", drop="0.3 V", current="3 A", side="feed")
    assert "is cannot" not in said
    assert "Cannot tell with this instrument whether the drop is inside or outside" in said
