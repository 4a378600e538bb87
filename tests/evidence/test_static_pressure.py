"""Pressure at rest: liquid is there, never how much.

Saturation pressures of R-134a and R-1234yf at 10 to 40 °C (gauge, sea level) stand in the tables'
own checks; trade articles: above by more than 30 kPa after a full soak is air or another gas.
"""

import pytest

from diagnostics.evidence.cautions import NEVER_DRY
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.orders import ORDERS, Made
from diagnostics.evidence.system import System
from diagnostics.physics.computations.answer import answer
from diagnostics.physics.pressure import Absolute
from tests.evidence.trial import Trial, standing, subjects, words_of

REST = Trial("static_pressure")
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a", "label_charge_kg": 0.52}
SOAKED = {"soaked": "yes", "where": "places"}
AT_20 = SOAKED | {"temperature": "20"}

PATTERNS = [
    (AT_20 | {"low": "470"}, "as_expected"),
    (AT_20 | {"high": "470"}, "as_expected"),
    (AT_20 | {"low": "465", "high": "480"}, "as_expected"),
    (AT_20 | {"low": "530"}, "a_little_above"),
    (AT_20 | {"low": "600"}, "above"),
    (AT_20 | {"low": "200"}, "below"),
    (AT_20 | {"low": "30"}, "below"),
    (SOAKED | {"low": "470"}, "some"),
    ({"low": "470", "temperature": "20"}, "unsoaked_some"),
    ({"low": "470", "temperature": "20", "soaked": "no"}, "unsoaked_some"),
    ({"low": "470", "temperature": "20", "soaked": "cannot_tell"}, "unsoaked_some"),
    (AT_20 | {"low": "300", "high": "600"}, "unsoaked_some"),
    (AT_20 | {"low": "5"}, "empty"),
    ({"low": "0"}, "empty"),
    ({"low": "-90"}, "vacuum"),
    ({"low": "-30", "temperature": "-30"}, "nothing_told"),
    (AT_20, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert REST.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in REST.kind.outcomes}


# R-134a and R-1234yf: saturation from the property library, gauge at sea level.
@pytest.mark.parametrize(
    ("gas", "temperature", "pressure"),
    [
        ("R-134a", "10", "313"), ("R-134a", "20", "470"), ("R-134a", "30", "669"),
        ("R-134a", "40", "915"), ("R-1234yf", "10", "336"), ("R-1234yf", "20", "491"),
        ("R-1234yf", "30", "682"), ("R-1234yf", "40", "917"),
    ],
)  # fmt: skip
def test_a_soaked_loop_with_liquid_rests_where_the_table_says(gas, temperature, pressure):
    typed = SOAKED | {"temperature": temperature, "low": pressure}
    assert REST.code({"refrigerant": gas}, **typed) == "as_expected"


@pytest.mark.parametrize("typed", [typed for typed, _outcome in PATTERNS])
def test_a_pressure_at_rest_is_never_read_as_the_amount(typed):
    result = REST.meaning(CAR, **typed)
    said = [text for text in words_of(result) if "not told by a pressure at rest" in text]
    assert len(said) == 1
    words = " ".join(words_of(result)).lower()
    assert "fully charged" not in words
    assert "charge ok" not in words
    for mark in result.outcome.marks:
        assert not (mark.subject == "Amount of refrigerant" and mark.standing != "open")


def test_a_full_needle_says_how_many_grams_could_be_gone_unseen():
    # 3 L x 27.8 kg/m³, the saturated vapor of R-134a at 20 °C: 83 g; of 520 g, 437 g could be gone.
    result = REST.meaning(CAR, **AT_20, low="470")
    shown = {value.words: value.shown for value in result.values}
    assert shown["Could be gone unseen (loop of 3\u00a0L taken)"] == "437\u00a0g"
    assert shown["The needle stays there down to (loop of 3\u00a0L taken)"] == "83\u00a0g"
    assert result.plot is not None
    assert "437\u00a0g of the label charge gone" in result.plot.caption


def test_without_a_label_charge_it_says_down_to_how_many_grams_the_needle_stays():
    result = REST.meaning({"refrigerant": "R-134a"}, **AT_20, low="470")
    assert not any("gone" in value.words for value in result.values)
    assert result.plot is not None
    assert "down to 83\u00a0g" in result.plot.caption


@pytest.mark.parametrize("soaked", ["no", "cannot_tell", ""])
def test_an_unsoaked_loop_tells_some_from_none_and_no_more(soaked):
    # 45 °C at the condenser reads 1059 kPa where the loop rests at 669 kPa once it is at 30 °C.
    result = REST.meaning(CAR, low="1059", temperature="30", soaked=soaked)
    assert result.outcome.code == "unsoaked_some"
    assert subjects(result, "likely", "proved") == []
    assert result.plot is None
    assert not any("Expected" in text for text in words_of(result))


def test_above_by_more_than_30_kpa_over_the_band_points_at_air_or_another_gas():
    assert standing(REST.meaning(CAR, **AT_20, low="600"), "Air or") == "likely"
    assert standing(REST.meaning(CAR, **AT_20, low="530"), "Air or") == "open"


def test_a_nearly_empty_loop_says_what_gas_is_left():
    # An ideal gas of 102 g/mol at 3 bar absolute and 20 °C: 3 L hold about 38 g; real gas more.
    (left,) = [v for v in REST.meaning(CAR, **AT_20, low="200").values if "Gas left" in v.words]
    assert 0.038 < left.si < 0.043


def test_gauge_is_not_taken_for_absolute_and_the_air_is_named():
    band = REST.meaning(CAR, **AT_20, low="470").band
    assert "Gauge pressure, over the 101.3\u00a0kPa of the air, at sea level" in band


def test_at_1500_m_the_same_loop_rests_at_a_higher_gauge_reading():
    # The air presses with 84.56 kPa there (ISO 2533): the gauge shows 16.8 kPa more.
    high = Circumstances(CAR, air=Absolute(84_560.0), air_words="at 1500 m")
    at_sea = REST.meaning(CAR, **AT_20, low="470").band
    there = REST.kind.meaning(REST.readings(**AT_20, low="470"), high).band
    assert "Expected 426 to 515" in at_sea
    assert "Expected 442 to 532" in there
    assert "at 1500 m" in there


def test_a_vacuum_deeper_than_the_place_allows_is_asked_about_and_used_for_nothing():
    high = Circumstances(CAR, air=Absolute(84_560.0))
    readings = REST.readings(low="-95")
    assert "low" in REST.kind.problems(readings, high)
    result = REST.kind.meaning(readings, high)
    assert result.outcome.code == "nothing_told"
    assert NEVER_DRY in result.notes
    assert REST.code(CAR, low="-95") == "vacuum"


@pytest.mark.parametrize(
    ("low", "high", "stops"),
    [("-50", "470", True), ("470", "-70", True), ("0", "470", False), ("300", "470", False)],
)
def test_a_side_under_vacuum_stops_the_running_though_the_other_has_pressure(low, high, stops):
    """No pressure may be a coupler that does not open; a vacuum was read through an open one."""
    result = REST.meaning(CAR, low=low, high=high)
    assert result.outcome.code == ("nothing_told" if stops else "unsoaked_some")
    assert (NEVER_DRY in result.notes) is stops
    assert "both sides again" in result.onward[0]
    made = [Made("static_pressure", result.outcome.code)]
    assert ORDERS["charge_first"].is_kept(made, CAR) is not stops


def test_r_744_is_judged_below_31_degrees_and_recorded_above():
    car: System = {"refrigerant": "R-744"}
    assert REST.code(car, **SOAKED, temperature="20", high="5630") == "as_expected"
    hot = REST.meaning(car, **SOAKED, temperature="33", high="7600")
    assert hot.outcome.code == "some"
    assert "recorded, not judged" in hot.outcome.sentence
    assert hot.plot is None


@pytest.mark.parametrize("temperature", ["1", "10"])
def test_a_cold_loop_says_that_no_click_is_normal(temperature):
    # A full R-134a loop rests at 202 kPa at 1 °C and at 313 kPa at 10 °C (property library).
    words = REST.words(CAR, **SOAKED, temperature=temperature, low="202")
    assert "No click in a cold bay is normal, and not a fault." in words
    assert "No click" not in REST.words(CAR, **AT_20, low="470")


def test_an_empty_loop_in_the_cold_is_not_excused_by_the_cold():
    assert "No click" not in REST.words(CAR, **SOAKED, temperature="5", low="0")


def test_so_cold_that_a_full_loop_rests_near_nothing_it_tells_nothing():
    # R-134a boils at −26 °C under sea level air.
    assert REST.code(CAR, **SOAKED, temperature="-26", low="0") == "nothing_told"
    assert "warm" not in REST.meaning(CAR, low="0").outcome.sentence


@pytest.mark.parametrize(("typed", "kept"), [("470", True), ("200", False), ("0", False)])
def test_it_may_be_run_only_with_pressure_that_liquid_makes(typed, kept):
    made = [Made("static_pressure", REST.code(CAR, **AT_20, low=typed))]
    assert ORDERS["charge_first"].is_kept(made, CAR) == kept


def test_an_empty_loop_may_be_opened_without_a_search_under_pressure_and_a_full_one_not():
    order = ORDERS["leak_search_first"]
    assert order.is_kept([Made("static_pressure", "empty")], CAR)
    assert order.is_kept([Made("static_pressure", "below")], CAR)  # too little to search by
    assert not order.is_kept([Made("static_pressure", "as_expected")], CAR)


def test_sides_that_have_not_met_are_not_at_rest():
    result = REST.meaning(CAR, **AT_20, low="300", high="600")
    assert "have not met" in result.outcome.sentence
    assert any("valve shut" in note for note in result.notes)


def test_what_was_not_read_is_named():
    told = REST.meaning(CAR, low="470").outcome.not_tested
    assert "Temperature of the loop: no reading to go by." in told
    assert "Whether it had soaked to one temperature: not told." in told
    told = REST.meaning(CAR, **AT_20).outcome.not_tested
    assert "Low side: no reading to go by." in told
    told = REST.meaning(CAR, low="-300").outcome.not_tested
    assert "Low side: kept as typed, not used." in told


def test_the_temperature_of_the_air_is_said_to_stand_for_the_loops():
    typed = AT_20 | {"where": "air", "low": "470"}
    assert "The air’s temperature is taken as the loop’s." in REST.meaning(CAR, **typed).notes


def test_the_band_said_is_the_band_worked_out_while_it_is_typed():
    result = REST.meaning(CAR, **AT_20, low="470")
    (shown,) = [v.shown for v in result.values if v.words.startswith("With any liquid")]
    assert shown == "426–515\u00a0kPa"
    assert "Expected 426 to 515\u00a0kPa" in result.band


def test_pressure_and_temperature_are_told_in_the_other_unit_too():
    shown = [value.shown for value in REST.meaning(CAR, **AT_20, low="470").values]
    assert {"68.2\u00a0psi", "68\u00a0°F"} <= set(shown)


def test_the_curve_is_drawn_around_the_reading_with_both_errors():
    plot = REST.meaning(CAR, **AT_20, low="470").plot
    assert plot is not None
    assert plot.x.high - plot.x.low < 40
    (spot,) = plot.spots
    assert spot.error_x > 2
    assert 18 < spot.error_y < 19  # 2 x 16 kPa / sqrt(3)
    edges = [line for line in plot.lines if line.looks == "edge"]
    assert edges[0].points[0][1] - edges[1].points[0][1] == pytest.approx(60)


def test_an_empty_or_pumped_loop_is_not_to_be_run():
    for typed in ("0", "-90", "200"):
        assert "Never run it" in REST.words(CAR, **AT_20, low=typed)


def test_another_refrigerant_is_held_against_nothing():
    other: System = {"refrigerant": "other"}
    assert REST.code(other, **AT_20, low="470") == "some"
    assert REST.code({}, **AT_20, low="470") == "some"


def test_what_only_the_shop_server_works_out_is_told_from_what_the_page_does():
    live = {value.words: value.live for value in REST.meaning(CAR, **AT_20, low="470").values}
    assert live["Low side"]
    assert not live["Could be gone unseen (loop of 3\u00a0L taken)"]


@pytest.mark.parametrize("low", ["-10", "0", "10", "25"])
@pytest.mark.parametrize("soaked", ["yes", "no", ""])
def test_one_side_without_pressure_says_nothing_of_a_loop_whose_other_side_has_some(low, soaked):
    result = REST.meaning(CAR, low=low, high="470", temperature="20", soaked=soaked)
    assert result.outcome.code == "unsoaked_some"
    assert "the two sides have not met" in result.outcome.sentence
    assert subjects(result, "proved", "likely") == []
    assert any("a coupler that does not open" in note for note in result.notes)
    assert not any("never run" in text.lower() for text in result.onward)


def test_both_sides_without_pressure_are_empty_though_they_stand_apart():
    assert REST.code(CAR, low="-80", high="-20") == "vacuum"


@pytest.mark.parametrize(
    ("soaked", "words"),
    [
        ("no", "it had not soaked to one temperature"),
        ("cannot_tell", "whether it had soaked to one temperature cannot be told"),
        ("", "whether it had soaked to one temperature was not told"),
    ],
)
def test_a_soak_that_was_not_told_is_not_said_to_be_none(soaked, words):
    assert f"no more is told: {words}." in REST.words(CAR, low="470", soaked=soaked)


def test_two_sides_apart_send_to_valves_and_couplers():
    onward = " ".join(Trial("static_pressure").meaning({}, low="10", high="470").onward)
    assert "coupler" in onward
    assert "both sides" in onward


@pytest.mark.parametrize("low", ["405", "420"])
def test_a_needle_under_the_band_of_its_own_gauge_rules_no_empty_loop_out(low):
    assert REST.code(CAR, **AT_20, low=low) == "below"
    assert REST.code(CAR, **AT_20, high=low) == "as_expected"  # the coarser gauge cannot tell


def test_a_cold_loop_with_half_the_pressure_of_liquid_is_below():
    # R-134a at −10 °C: 99 kPa gauge, from the property library
    assert REST.code(CAR, **SOAKED, temperature="-10", low="42") == "below"


def test_the_page_and_the_computation_name_one_band():
    found = answer("static_pressure", {"refrigerant": "R-134a", "temperature": "20 °C"})
    band = REST.meaning(CAR, **AT_20, low="470").band
    low, high = (round(found["more"][end]["value"] / 1000) for end in ("low", "high"))
    assert f"Expected {low} to {high}" in band


def test_a_label_charge_too_small_for_any_liquid_is_held_against_nothing():
    # Vapor of R-744 at 20 °C: 194 kg/m³ (property library), so 3 L hold 583 g without a drop.
    car: System = {"refrigerant": "R-744", "label_charge_kg": 0.4}
    result = REST.meaning(car, **AT_20, high="5600")
    assert result.outcome.code == "some"
    assert "no liquid in it" in result.outcome.sentence
    assert not any("gone unseen" in value.words for value in result.values)


def test_r_744_is_read_by_a_gauge_of_its_own_scale():
    band = REST.meaning({"refrigerant": "R-744"}, **AT_20, high="5630").band
    assert "R-744 gauge ±256\u00a0kPa" in band
