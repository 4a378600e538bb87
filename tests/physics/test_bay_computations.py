"""Coil, wiring, gap, vacuum, nitrogen and oil as they are run by name."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.physics.computations import (
    diode,
    electrics,
    gap,
    nitrogen,
    oil,
    rise,
    vacuum,
    wiring,
)
from diagnostics.physics.computations.answer import answer
from diagnostics.physics.computations.several import pairs, several
from diagnostics.physics.errors import Malformed
from diagnostics.physics.units import UNITS, from_si, to_si

SUBJECTS = (electrics, diode, wiring, gap, vacuum, rise, nitrogen, oil)
ALL = [one for subject in SUBJECTS for one in subject.COMPUTATIONS]
EACH = pytest.mark.parametrize("one", ALL, ids=[one.name for one in ALL])
TEXTS = ["", "0.4 0.5 0.6", "0:400 5:900 10:1400 15:1900 20:2400", "OL", "3.6", "abc", ";", "1:2:3"]


def run(name: str, **told: Any) -> dict[str, Any]:
    found = answer(name, told)
    assert "error" not in found, found
    return found


def whole(found: dict[str, Any]) -> float:
    """The value with all its digits, in the unit that is shown."""
    unit = found["shown"]["unit"]
    return from_si(found["value"], unit) if unit else float(found["value"])


def shown(name: str, **told: Any) -> float:
    return whole(run(name, **told))


def more(found: dict[str, Any], name: str) -> float:
    return whole(found["more"][name])


def test_names_are_each_used_once():
    assert len({one.name for one in ALL}) == len(ALL)


@EACH
def test_units_are_known_and_sources_named(one):
    assert one.source
    assert all(
        not unit or unit in UNITS for unit in (one.unit, *(told.unit for told in one.inputs))
    )


@EACH
def test_every_input_names_its_range_or_its_answers_or_how_it_is_written(one):
    for told in one.inputs:
        assert told.words
        written = any(sign.isdigit() for sign in told.words) or "OL" in told.words
        assert told.answers or told.low is not None or written


def values(one):
    if one.answers:
        return st.sampled_from([answer_ for answer_ in one.answers if answer_])
    if not one.unit and one.low is None:
        return st.sampled_from(TEXTS)
    low, high = (to_si(edge, one.unit) if one.unit else edge for edge in (one.low, one.high or 1e3))
    return st.floats(low, high)


@EACH
@given(data=st.data())
def test_nothing_told_within_the_ranges_ends_in_a_fault_of_the_program(one, data):
    told = {
        asked.name: data.draw(values(asked), label=asked.name)
        for asked in one.inputs
        if asked.default is None or data.draw(st.booleans())
    }
    found = answer(one.name, told)
    assert found.get("error") != "not_computed", found
    if "error" in found:
        assert found["sentence"].endswith(".")
        return
    assert found["meaning"].endswith(".")
    assert math.isfinite(found["value"])


@pytest.mark.parametrize(
    ("name", "told", "expected", "off"),
    [
        # trade facts, computed, unless said otherwise
        ("resistance_at_20", {"resistance": "4.7", "temperature": "100 °C"}, 3.58, 0.01),
        ("resistance_at_temperature", {"resistance_20": 3.6, "temperature": "100 C"}, 4.73, 0.01),
        ("coil_current", {"voltage": 13.5, "resistance_20": "3.6 ohm"}, 3.75, 1e-9),
        ("coil_pull", {"voltage": 11.5, "temperature": "100 C"}, 42.0, 0.1),
        ("copper_resistance_ratio", {"temperature": "120 C"}, 1.39293, 1e-4),  # IEC 60228 formula
        ("coil_resistance", {"voltage": 12.6, "current": 3.5}, 3.6, 1e-9),
        ("wire_resistance", {"awg": 12}, 5.21, 0.01),  # HyperPhysics table
        ("wire_resistance", {"awg": 18, "length": "1000 ft"}, 6_385, 5),  # the same
        ("wire_diameter", {"awg": 10}, 2.588, 0.001),  # ASTM B258, from memory
        ("voltage_drop", {"drop": "450 mV", "current": 3.5}, 128.57, 0.01),
        ("joint_with_lamp", {"voltage": 13.5, "joint": 10}, 5.0, 0.1),
        ("joint_with_coil", {"voltage": 13.5, "joint": 0.5, "coil": 3.6}, 11.854, 0.001),
        ("joint_by_lamp", {"voltage": 13.5, "at_lamp": 4.9647}, 10.0, 0.01),
        ("water_vapor_pressure", {"temperature": "25 C"}, 3_169.7, 1),  # ASHRAE table
        ("water_vapor_pressure", {"temperature": 230.0}, 8.94735, 1e-4),  # IAPWS R14-08
        ("water_boiling_temperature", {"pressure": "5000 micron"}, 1.2, 0.1),
        ("water_boiling_depth", {"temperature": "0 C"}, 29.741, 0.002),
        ("water_boiling_depth", {"temperature": "20 C", "altitude": 1_600}, 23.974, 0.003),
        ("needle_shows", {"pressure": "500 micron"}, 29.902, 0.001),
        ("needle_best", {"altitude": "1500 m"}, 25.0, 0.05),
        ("needle_to_absolute", {"depth": "29 inHg"}, 23_400, 10),
        ("leak_in_vacuum", {"leak": "14 g/yr"}, 0.2, 0.02),
        ("leak_in_vacuum", {"leak": "1 kg/yr"}, 13, 0.6),
        (
            "nitrogen_expected",
            {"start": "10 bar", "start_temperature": "25 C", "end_temperature": "20 C"},
            9.82,
            0.005,
        ),
        ("oil_match", {"compressor": "dry", "drained_old": "60 mL"}, 60, 1e-6),
    ],
)
def test_a_computation_gives_the_known_figure(name, told, expected, off):
    assert shown(name, **told) == pytest.approx(expected, abs=off)


def test_a_good_coil_read_hot_is_inside_and_its_figure_is_named():
    found = run("coil_check", resistance=4.7, temperature="100 °C", figure=3.6)
    assert "inside" in found["meaning"]
    assert "vehicle's own figure" in found["meaning"]
    found = run("coil_check", resistance=3.6, temperature="20 °C")
    assert "trade articles" in found["meaning"]
    assert "no limit" in found["meaning"]


def test_a_24_volt_coil_needs_its_own_figure():
    found = answer("coil_check", {"resistance": 12, "system": "24"})
    assert found["error"] == "out_of_range"
    assert "own figure" in found["sentence"]
    assert (
        "inside"
        in run("coil_check", resistance=12, system="24", figure=12, temperature="20C")["meaning"]
    )


@pytest.mark.parametrize(
    ("forward", "backward", "code"),
    [("3.6", "3.6", 4), (2.4, 3.6, 1), ("0.2 ohm", "200 mΩ", 2), ("OL", "600", 1), ("OL", "OL", 4)],
)
def test_two_ohm_readings_tell_of_the_diode_what_they_can(forward, backward, code):
    assert shown("coil_diode", forward=forward, backward=backward) == code


def test_a_drop_without_current_shows_nothing():
    assert "shows nothing" in answer("voltage_drop", {"drop": 0.3, "current": 0})["sentence"]


@pytest.mark.parametrize("points", ["0.35 0.40 0.55", "0.35, 0.40, 0.55", "0,35 0,40 0,55",
                                    "0.35;0.40;0.55", "0.35 mm 0.40 mm 0.55 mm",
                                    "350 µm; 400 µm; 550 µm"])  # fmt: skip
def test_points_of_a_gap_are_read_however_they_are_set_apart(points):
    found = run("air_gap", points=points)
    assert found["shown"]["value"] == pytest.approx(0.35)
    assert more(found, "wobble") == pytest.approx(0.2)
    assert "trade articles" in found["basis"]


def test_a_gap_says_how_much_shims_have_to_change_and_not_to_go_below():
    found = run("air_gap", points="0.9 1.0 1.1")
    assert "Take out 0.30 to 0.60" in found["meaning"]
    assert "below is a fault too" in found["meaning"]
    plan = run("gap_shims", points="0.9 1.0 1.05", fitted="0.1 0.3 0.5")
    assert (more(plan, "out"), more(plan, "put_in")) == pytest.approx((0.5, 0))
    after = run("gap_after_shims", points="0.9 1.0 1.05", out="0.3 0.5")
    assert "not taken out below" in after["meaning"]
    assert "fault too" in after["meaning"]


def test_a_vacuum_deeper_than_perfect_names_the_altitude_as_a_suspect():
    found = answer("needle_to_absolute", {"depth": "29 inHg", "altitude": "1500 m"})
    assert found["error"] == "impossible"
    assert "Check altitude" in found["sentence"]


@pytest.mark.parametrize(
    ("readings", "code"),
    [
        ("0:400 5:900 10:1400 15:1900 20:2400", 2),
        ("0 min: 350 micron; 60 s: 600; 2: 800; 5: 1150; 10: 1400 micron; 15: 1500; 20: 1530", 3),
        ("0:450, 5:451, 10:450, 15:452, 20:450", 1), ("0:400 5:900", 5),
    ],
)  # fmt: skip
def test_timed_readings_are_told_apart(readings, code):
    found = run("vacuum_rise", readings=readings)
    assert more(found, "seen") == code
    assert "gross check" in found["meaning"]
    assert "3.0\u00a0L assumed" in found["basis"]


def test_a_held_vacuum_names_the_smallest_leak_it_could_have_shown():
    found = run("vacuum_hold", start="400 micron", end="402 micron", time="15 min")
    assert "No rise is seen" in found["meaning"]
    assert "would not show" in found["meaning"]
    assert more(found, "smallest_leak") > 14
    assert "no leak" not in found["meaning"].lower()


@pytest.mark.parametrize(("end", "words"), [(9.82, "No drop is seen"), (9.2, "a leak.")])
def test_a_nitrogen_hold_takes_the_temperature_out_first(end, words):
    found = run(
        "nitrogen_hold",
        start="10 bar",
        end=f"{end} bar",
        start_temperature="25 C",
        end_temperature="20 C",
        time="30 min",
    )
    assert words in found["meaning"]
    assert "ask, do not guess" in found["meaning"]
    assert "never oxygen" in found["meaning"]
    assert more(found, "expected") == pytest.approx(9.815, abs=0.001)


def test_a_nitrogen_pressure_above_the_maker_s_limit_is_named():
    told = {"start": "12 bar", "end": "12 bar", "time": "30 min", "limit": "10 bar"}
    found = run("nitrogen_hold", start_temperature="20 C", end_temperature="20 C", **told)
    assert "let it down" in found["meaning"]


def test_oil_is_matched_and_what_was_not_told_is_named():
    found = run("oil_match", compressor="some", drained_old="60 mL", drained_new="4 fl oz")
    assert more(found, "drain") == pytest.approx(58.294, abs=0.001)
    assert found["shown"]["value"] == 0
    assert "not told" in found["meaning"]


@pytest.mark.parametrize(
    ("told", "found"),
    [
        ("1 2 3", [1, 2, 3]), ("1,5 2,5", [1.5, 2.5]), ("1.5,2.5", [1.5, 2.5]),
        ("1 in; 2 in", [25.4, 50.8]), (2.0, [2]), ("", []),
    ],
)  # fmt: skip
def test_several_readings_in_one_text_are_read(told, found):
    assert [from_si(one, "mm") for one in several(told, "points", ("mm", "in"))] == pytest.approx(
        found
    )


@pytest.mark.parametrize("told", ["0:1 1:2", "0: 1, 1: 2", "0:1;1:2", "0 min: 1 Pa; 60 s: 2 Pa"])
def test_pairs_in_one_text_are_read(told):
    assert pairs(told, "readings", ("min", "s"), ("Pa",)) == [(0, 1), (60, 2)]


@pytest.mark.parametrize("told", ["0", "0:", ":1", "0:1 psi", "a:b", "0:1:2", 5.0, "1" * 30_000])
def test_what_is_no_pair_is_named(told):
    with pytest.raises(Malformed):
        pairs(told, "readings", ("min",), ("Pa",))
