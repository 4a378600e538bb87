"""Inputs as people and programs tell them: SI, or the unit that is written."""

import pytest

from diagnostics.physics.computations.answer import answer
from diagnostics.physics.computations.computation import Computation, Input, Result
from diagnostics.physics.computations.told import Unasked, named, range_words, taken, within
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange

TRIED = Computation(
    "tried",
    "For this test",
    (
        Input("temperature", "Temperature", "°C", -40, 100),
        Input("pressure", "Pressure", "kPa", 0, 500, reference="absolute", default=100),
        Input("reading", "Needle", "kPa", -100, 500, reference="gauge", default=""),
        Input("share", "Share", "%", 0, 100, default=50),
        Input("ratio", "Ratio", low=0, high=10, default=1.0),
        Input("gas", "Gas", answers=("R-134a", "R-12"), default="R-134a"),
        Input("note", "Anything", default=""),
    ),
    "",
    "this test",
    lambda inputs: Result(float(inputs["temperature"]), "K"),
)


def one(name, value):
    return taken(TRIED, {"temperature": 300, name: value})[name]


@pytest.mark.parametrize(
    ("name", "value", "si"),
    [
        ("temperature", 298.15, 298.15), ("temperature", "298.15", 298.15),
        ("temperature", "25°C", 298.15), ("temperature", "77 F", 298.15),
        ("temperature", "−5 °C", 268.15), ("temperature", "2.9815e2", 298.15),
        ("temperature", "298,15K", 298.15),
        ("pressure", "470kPa", 470e3), ("pressure", 470e3, 470e3), ("pressure", "4.7E5 Pa", 470e3),
        ("pressure", "50 psia", 344_737.9), ("reading", "50 psig", 344_737.9),
        ("reading", "-20 inHg", -67_727.8), ("reading", "", ""),
        ("share", "40%", 0.4), ("share", 0.4, 0.4), ("ratio", "2.5", 2.5), ("ratio", 2, 2.0),
        ("gas", "R-12", "R-12"), ("gas", "r12", "R-12"), ("note", "as it is", "as it is"),
        ("note", 5, 5.0), ("note", [1, 2.5, "3 mm", 1e-5], "1.0; 2.5; 3 mm; 0.00001"),
        ("note", [[0, 500], [5, "620 micron"]], "0.0:500.0; 5.0:620 micron"),
    ],
)  # fmt: skip
def test_a_number_is_si_unless_a_unit_is_written(name, value, si):
    found = one(name, value)
    assert found == (pytest.approx(si, rel=1e-6) if isinstance(si, float) else si)


def test_what_is_left_out_has_its_default_in_si():
    found = taken(TRIED, {"temperature": "20°C"})
    assert found["pressure"] == 100e3
    assert found["share"] == 0.5
    assert found["reading"] == ""
    assert found["gas"] == "R-134a"


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("temperature", "warm", "no number"), ("temperature", float("nan"), "no number"),
        ("temperature", "nan", "no number"), ("temperature", "1e999", "too large"),
        ("temperature", 10**400, "no number"), ("temperature", True, "bool"),
        ("temperature", [20], "list"), ("note", [None], "pairs of two"),
        ("note", [[1, 2, 3]], "pairs of two"), ("note", [True], "pairs of two"),
        ("temperature", "20 kPa", "no unit of temperature"),
        ("temperature", "", "no number"),
        ("pressure", "50 psig", "asked as absolute"), ("reading", "50 psia", "asked as gauge"),
        ("ratio", "5 V", "bare number"), ("gas", "water", "R-134a, R-12"),
        ("pressure", "1,234", "Pa|point"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_says_why(name, value, words):
    with pytest.raises(Malformed, match=words):
        one(name, value)


def test_a_missing_input_is_named():
    with pytest.raises(Unasked, match="needs temperature"):
        taken(TRIED, {})


def test_an_input_nobody_asked_for_is_named_with_what_is_near():
    with pytest.raises(Unasked, match=r"temperatur.*near to it: temperature"):
        taken(TRIED, {"temperatur": 300})


def test_an_unknown_name_is_told_with_what_is_near():
    with pytest.raises(Unasked, match="near to it: tried"):
        named("tryed", {"tried": TRIED})


def test_outside_its_range_a_number_says_that_it_was_taken_as_si():
    with pytest.raises(OutOfRange, match="25 K; without a unit a number is in SI"):
        within(TRIED, taken(TRIED, {"temperature": 25}))


def test_a_number_far_too_large_is_told_shortly():
    found = answer("standard_pressure", {"altitude": 1.7e308})
    assert found["error"] == "out_of_range"
    assert len(found["sentence"]) < 120


def test_a_bound_itself_is_inside_whatever_the_unit():
    within(TRIED, taken(TRIED, {"temperature": "212 °F", "pressure": "0.5 MPa", "share": 1}))


def test_below_absolute_zero_is_impossible_before_it_is_out_of_range():
    with pytest.raises(Impossible, match="absolute zero"):
        within(TRIED, taken(TRIED, {"temperature": "-300°C"}))


def test_the_physical_fault_is_told_before_the_range():
    found = answer("dew_point", {"temperature": "25°C", "relative_humidity": "130%"})
    assert found["error"] == "impossible"
    assert "fog or dew" in found["sentence"]


def test_an_answer_is_in_si_and_in_the_shown_unit():
    found = answer("dew_point", {"temperature": "25°C", "relative_humidity": "60%"})
    assert (found["unit"], found["shown"]["unit"]) == ("K", "°C")
    assert found["shown"]["value"] == pytest.approx(found["value"] - 273.15, abs=0.05)
    assert found["shown"]["uncertainty"] == pytest.approx(found["uncertainty"], abs=0.05)
    assert found["meaning"]
    assert found["source"]


def test_the_uncertainty_is_scaled_to_the_shown_unit():
    found = answer("vapor_pressure", {"temperature": "25°C", "relative_humidity": "60%"})
    assert found["shown"]["uncertainty"] == pytest.approx(found["uncertainty"] / 1000, rel=0.05)


def test_ranges_are_told_in_words():
    ranges = [range_words(one) for one in TRIED.inputs]
    assert ranges[0] == "-40 to 100 °C"
    assert ranges[5] == "R-134a | R-12"
    assert ranges[6] == "a number or text"
