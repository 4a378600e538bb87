"""Two running pressures: the pattern, what it leaves open, and what it never names.

The patterns with their suspects are from trade articles. The bands by which a side is sorted are
our judgement. Saturation values come from the tables, which tests/physics holds to their source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.charge_told import WEIGH_FIRST
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Number
from diagnostics.evidence.kinds.running_pressures import RUNNING_PRESSURES
from diagnostics.evidence.orders import Made
from diagnostics.evidence.system import System
from diagnostics.physics.pressure import Absolute
from tests.evidence.trial import Trial, standing, subjects, words_of

RUN = Trial("running_pressures")
FIXED: System = {"drive": "belt_clutch", "displacement": "fixed", "refrigerant": "R-134a"}
OUTER: System = {
    "drive": "belt_clutchless",
    "displacement": "variable_outer",
    "refrigerant": "R-1234yf",
}
BARE: System = {"drive": "belt_clutch", "displacement": "fixed"}
CO2: System = {**FIXED, "refrigerant": "R-744"}
AT_30 = {"ambient": "30", "shaft": "yes"}
RIGHT = {"charge_known": "weighed_in"}
# R-134a at 30 °C outside: 200 kPa boils at about 0 °C, 1200 kPa condenses about 20 K over the air.
INSIDE = AT_30 | {"low": "200", "high": "1200"}
HIGH_LOW = AT_30 | {"low": "370", "high": "820"}
CLOSE = AT_30 | {"low": "450", "high": "700"}

PATTERNS: list[tuple[System, dict[str, str], str]] = [
    (FIXED, INSIDE, "inside"),
    (FIXED, INSIDE | {"vents": "cold"}, "inside"),
    (FIXED, INSIDE | {"vents": "warm"}, "inside_vents_warm"),
    (FIXED, AT_30 | {"low": "60", "high": "800"}, "low_low"),
    (FIXED, AT_30 | {"low": "-30", "high": "800"}, "low_low"),
    (FIXED, AT_30 | {"low": "420", "high": "2500"}, "high_high"),
    (FIXED, HIGH_LOW, "high_low"),
    (FIXED, CLOSE, "close_together"),
    (FIXED, AT_30 | {"low": "-20", "high": "1200"}, "starved"),
    (FIXED, AT_30 | {"low": "60", "high": "2200"}, "starved"),
    (FIXED, AT_30 | {"low": "200", "high": "2200"}, "one_side_off"),
    (FIXED, AT_30 | {"low": "60", "high": "1200"}, "one_side_off"),
    (FIXED, AT_30 | {"low": "340", "high": "1200"}, "at_the_edge"),
    (FIXED, INSIDE | {"ambient": ""}, "nothing_told"),
    (FIXED, INSIDE | {"ambient": "12"}, "nothing_told"),
    (FIXED, INSIDE | {"shaft": "no"}, "nothing_told"),
    (FIXED, CLOSE | {"shaft": ""}, "nothing_told"),
    (FIXED, INSIDE | {"low": ""}, "nothing_told"),
    (FIXED, INSIDE | {"high": ""}, "nothing_told"),
    (FIXED, {"vents": "warm"}, "nothing_told"),
    (BARE, INSIDE, "nothing_told"),
    (CO2, AT_30 | {"low": "3500", "high": "9000"}, "nothing_told"),
]


@pytest.mark.parametrize(("system", "typed", "outcome"), PATTERNS)
def test_each_pattern_of_pressures_has_its_outcome(system, typed, outcome):
    assert RUN.code(system, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for *_rest, outcome in PATTERNS} == {one.code for one in RUN.kind.outcomes}


# The charge: mistake of naming the compressor from pressures.

TYPED = st.fixed_dictionaries(
    {},
    optional={
        **{
            one.name: st.sampled_from([answer.code for answer in one.answers])
            for one in RUNNING_PRESSURES.choices
            if one.name != "charge_known"
        },
        "low": st.integers(-110, 4000).map(str),
        "high": st.integers(-110, 15000).map(str),
        "ambient": st.integers(-70, 80).map(str),
        "suction": st.integers(-60, 120).map(str),
        "liquid": st.integers(-60, 120).map(str),
        "stroke": st.integers(-5, 120).map(str),
        "on_s": st.integers(0, 90).map(str),
        "off_s": st.integers(0, 90).map(str),
    },
)
SYSTEMS = st.fixed_dictionaries(
    {},
    optional={
        "refrigerant": st.sampled_from(["R-134a", "R-1234yf", "R-12", "R-152a", "R-744", "other"]),
        "displacement": st.sampled_from(["fixed", "variable_inner", "variable_outer", "speed"]),
        "drive": st.sampled_from(["belt_clutch", "belt_clutchless", "electric_hv"]),
    },
)


@given(SYSTEMS, TYPED, st.sampled_from(["", "not_known"]))
def test_nothing_that_pumps_is_named_while_the_charge_is_not_known(system, typed, charge):
    result = RUN.meaning(system, **(typed | {"charge_known": charge}))
    assert not any("ompressor" in text for text in words_of(result))
    assert subjects(result, "likely", "proved", "ruled_out") == []


@given(SYSTEMS, TYPED)
def test_the_compressor_is_pointed_at_only_with_charge_shaft_and_command_told(system, typed):
    result = RUN.meaning(system, **(typed | RIGHT))
    if any("ompressor" in one for one in subjects(result, "likely")):
        assert typed["shaft"] == "yes"
        assert result.outcome.code in ("high_low", "close_together")
        commanded = system.get("displacement") in ("variable_outer", "speed", None)
        assert not commanded or 70 <= float(typed["stroke"]) <= 100


@pytest.mark.parametrize("typed", [HIGH_LOW, CLOSE])
def test_with_the_charge_unknown_it_is_weighed_first(typed):
    result = RUN.meaning(FIXED, **typed)
    assert standing(result, "Charge") == "open"
    assert result.onward == (WEIGH_FIRST,)


@pytest.mark.parametrize("how", ["weighed_in", "agrees"])
def test_with_the_charge_told_as_right_a_fixed_one_is_pointed_at_with_its_rival(how):
    result = RUN.meaning(FIXED, **CLOSE, charge_known=how)
    (subject,) = subjects(result, "likely")
    assert subject == "Compressor not pumping, or an expansion device wide open"
    assert "cannot tell them apart" in result.outcome.marks[0].sentence
    assert "Look for metal" in result.onward[1]


YF_CLOSE = AT_30 | RIGHT | {"low": "450", "high": "700"}


def test_a_variable_one_is_not_pointed_at_before_its_command_is_known():
    result = RUN.meaning(OUTER, **YF_CLOSE)
    assert subjects(result, "likely") == []
    assert "the command is not known" in result.outcome.marks[0].sentence
    assert "Command: no reading to go by." in result.outcome.not_tested


def test_one_that_is_told_to_do_little_is_no_worn_one():
    result = RUN.meaning(OUTER, **YF_CLOSE, stroke="20")
    assert standing(result, "Output held small by its command") == "open"
    assert not any("not pumping" in text for text in words_of(result))


def test_one_that_is_told_to_do_all_is_pointed_at_with_its_control_valve():
    result = RUN.meaning(OUTER, **YF_CLOSE, stroke="90")
    assert subjects(result, "likely") == [
        "Compressor not pumping, its control valve, or an expansion device wide open"
    ]


def test_a_displacement_not_noted_counts_as_a_command_not_known():
    system: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
    assert subjects(RUN.meaning(system, **CLOSE, **RIGHT), "likely") == []


def test_both_sides_inside_with_the_charge_right_rule_out_that_it_does_not_pump():
    assert standing(RUN.meaning(FIXED, **INSIDE, **RIGHT), "Compressor not pumping") == "ruled_out"
    assert standing(RUN.meaning(FIXED, **INSIDE), "Charge") == "open"


def test_low_charge_is_no_suspect_once_the_charge_is_told_as_right():
    typed = AT_30 | {"low": "60", "high": "800"}
    assert "Low charge" in RUN.words(FIXED, **typed)
    assert "Low charge" not in RUN.words(FIXED, **typed, **RIGHT)


def test_pressures_never_tell_how_much_is_in_it():
    for _system, typed, _outcome in PATTERNS:
        told = RUN.meaning(FIXED, **typed).outcome.not_tested
        assert "How much refrigerant is in it: not told by a pressure." in told


# Gauge and absolute.


def test_the_ratio_is_of_absolute_pressures():
    shown = {one.words: one.shown for one in RUN.meaning(FIXED, **INSIDE).values}
    assert shown["Ratio, absolute"] == "4.3"  # (1200 + 101.325) / (200 + 101.325); gauge gives 6


def test_a_ratio_band_is_told_with_where_it_comes_from_and_is_no_limit():
    band = RUN.meaning(FIXED, **INSIDE).band
    assert "to compare, no limit" in band
    assert "from memory" in band


def test_in_the_mountains_the_same_gauge_reading_is_less_absolute():
    sea, high = (
        RUN.kind.meaning(RUN.readings(**INSIDE), Circumstances(FIXED, air=Absolute(pa)))
        for pa in (101_325, 84_000)
    )
    boils = [next(v.si for v in one.values if "boils" in v.words) for one in (sea, high)]
    assert boils[1] < boils[0]


# What is shown and never judged.


def test_the_high_side_over_the_air_is_shown_and_not_judged():
    value = next(v for v in RUN.meaning(FIXED, **INSIDE).values if "over the air" in v.words)
    # R-134a: 1301 kPa absolute condenses at about 49.4 °C (1318 kPa at 50 °C)
    assert value.shown == "19\u00a0K"
    assert "not judged" in value.words
    assert value.u is not None


def test_a_cycle_is_shown_as_a_share_and_not_judged():
    result = RUN.meaning(FIXED, **INSIDE, cycles="yes", on_s="10", off_s="30")
    value = next(v for v in result.values if v.words.startswith("Runs"))
    assert value.shown == "25\u00a0%"
    assert "not judged" in value.words
    assert result.outcome.code == "inside"


def test_superheat_and_subcooling_are_shown_where_the_lines_were_read():
    result = RUN.meaning(FIXED, **INSIDE, suction="12", liquid="40")
    words = [value.words for value in result.values]
    assert {"Superheat", "Subcooling"} <= set(words)
    assert not any("uperheat" in text for text in words_of(RUN.meaning(FIXED, **INSIDE)))


def test_r_744_is_recorded_and_not_judged():
    result = RUN.meaning(CO2, **AT_30, low="3500", high="9000")
    assert result.outcome.sentence == "R-744: recorded, not judged."
    assert RUN.asks(CO2, **AT_30, low="3500", high="9000") == {}


def test_a_standing_shaft_makes_them_no_running_pressures():
    result = RUN.meaning(FIXED, **INSIDE | {"shaft": "no"})
    assert "no running pressures" in result.outcome.sentence
    assert not result.outcome.carries


def test_a_cool_day_sorts_nothing():
    assert "too little heat" in RUN.meaning(FIXED, **INSIDE | {"ambient": "12"}).outcome.sentence


# The vehicle's own chart.


def test_the_vehicles_own_chart_goes_before_our_sorting():
    chart = {"low_chart": "below", "high_chart": "below"}
    result = RUN.meaning(FIXED, **INSIDE, **chart)
    assert result.outcome.code == "low_low"
    assert result.outcome.basis == "vehicle"
    assert "this vehicle’s own chart" in result.band
    assert RUN.meaning(FIXED, **INSIDE).outcome.basis == "general"


def test_a_chart_serves_where_the_refrigerant_is_not_noted():
    chart = {"low_chart": "inside", "high_chart": "inside"}
    assert RUN.code(BARE, **INSIDE, **chart) == "inside"


# What cannot be.


def test_sides_the_wrong_way_round_are_asked_about_and_carry_nothing():
    typed = INSIDE | {"low": "1200", "high": "200"}
    assert any("changed places" in sentence for sentence in RUN.asks(FIXED, **typed)["low"])
    assert not RUN.meaning(FIXED, **typed).outcome.carries


def test_equal_sides_within_the_gauges_are_not_asked_about():
    assert "low" not in RUN.asks(FIXED, **AT_30, low="600", high="590")


def test_a_suction_line_colder_than_the_gas_boils_is_asked_about():
    assert "suction" in RUN.asks(FIXED, **INSIDE, suction="-20")
    assert "suction" not in RUN.asks(FIXED, **INSIDE, suction="5")


def test_a_superheat_a_little_below_zero_is_shown_with_the_word_that_it_cannot_be():
    # R-134a boils at 0.79 °C at 200 kPa gauge at sea level (CoolProp 8.0.0).
    typed = INSIDE | {"low": "200", "suction": "-1"}
    notes = RUN.meaning(FIXED, **typed).notes
    assert any("superheat below zero cannot be" in note for note in notes)
    assert RUN.asks(FIXED, **typed) == {}


def test_a_vacuum_deeper_than_this_altitude_allows_is_asked_about():
    around = Circumstances(FIXED, air=Absolute(84_000))
    found = RUN.kind.problems(RUN.readings(**INSIDE) | RUN.readings(low="-90"), around)
    assert any("this altitude" in one.sentence for one in found["low"])
    assert not RUN.kind.meaning(RUN.readings(low="-90", high="900"), around).outcome.carries


def test_deeper_than_perfect_vacuum_is_impossible():
    (sentence,) = RUN.asks(FIXED, low="-150")["low"]
    assert "perfect vacuum" in sentence


# Conditions, order, cautions.


def test_a_branch_that_is_fitted_and_not_told_is_named():
    rear: System = {**FIXED, "branches": ["front", "rear"]}
    assert "Rear unit: on or off not told." in RUN.meaning(rear, **INSIDE).outcome.not_tested
    told = RUN.meaning(rear, **INSIDE, rear="on").outcome.not_tested
    assert "Rear unit: on or off not told." not in told
    assert any("with rear" in words for words in RUN.kind.remarks_for(rear))


@pytest.mark.parametrize(
    ("branch", "unit"), [("rear", "Rear unit"), ("battery", "Battery chiller")]
)
def test_a_branch_that_was_off_is_said_not_to_be_told(branch, unit):
    fitted: System = {**FIXED, "branches": ["front", branch]}
    line = f"{unit}: off, so its branch is not told."
    assert line in RUN.meaning(fitted, **INSIDE, **{branch: "off"}).outcome.not_tested
    assert line not in RUN.meaning(fitted, **INSIDE, **{branch: "on"}).outcome.not_tested


def test_gas_hub_and_charge_come_first():
    open_orders = RUN.kind.not_kept([], FIXED)
    assert [one.code for one in open_orders] == ["gas_first", "hub_first", "charge_first"]
    made = [Made("hub_turn", "free"), Made("gas_identity", "as_label")]
    assert [one.code for one in RUN.kind.not_kept(made, FIXED)] == ["charge_first"]


def test_pressures_are_asked_for_as_gauge():
    for name in ("low", "high"):
        asked = RUN.kind.asked(name)
        assert isinstance(asked, Number)
        assert asked.reference == "gauge"


def test_it_warns_of_running_dry_and_of_high_voltage():
    assert any("empty, under vacuum or without oil" in one for one in RUN.kind.cautions)
    remarks = " ".join(RUN.kind.remarks_for({"drive": "electric_hv"}))
    assert "never a 12 V test" in remarks


def test_the_curve_shows_both_sides_and_the_air():
    plot = RUN.meaning(FIXED, **INSIDE).plot
    assert plot is not None
    assert [spot.words for spot in plot.spots] == [
        "low 200\u00a0kPa, 1\u00a0°C", "high 1\u00a0200\u00a0kPa, 49\u00a0°C",
    ]  # fmt: skip
    assert "air 30" in plot.words
    assert RUN.meaning(BARE, **INSIDE).plot is None


@pytest.mark.parametrize("name", [one.name for one in RUNNING_PRESSURES.fields])
def test_any_field_alone_says_something_sensible(name):
    asked = RUNNING_PRESSURES.asked(name)
    text = asked.answers[0].code if isinstance(asked, Choice) else "50"
    result = RUN.meaning(FIXED, **{name: text})
    assert result.outcome.sentence
    assert not result.outcome.carries


def test_an_engine_that_stands_turns_no_shaft_by_its_belt():
    assert list(RUN.asks(FIXED, **INSIDE, rpm="0")) == ["rpm"]
    electric: System = {"drive": "belt_electric", "refrigerant": "R-134a"}
    assert "The engine stood" not in str(RUN.asks(electric, **INSIDE, rpm="0"))


def test_what_was_read_is_not_asked_for_again():
    onward = " ".join(RUN.meaning(FIXED, **INSIDE | {"ambient": "12"}).onward)
    assert "gauges" not in onward
    assert "warm bay" in onward
    onward = " ".join(RUN.meaning(BARE, **INSIDE).onward)
    assert "Note the refrigerant" in onward
    assert "Read " not in onward


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_a_compressor_with_a_motor_has_no_control_valve_to_name(drive):
    car: System = {"drive": drive, "displacement": "speed", "refrigerant": "R-134a"}
    assert "control valve" not in RUN.words(car, **CLOSE, **RIGHT, stroke="95")


def test_liquid_colder_than_the_air_that_cools_it_is_asked_about():
    assert "liquid" in RUN.asks(FIXED, **INSIDE, liquid="20")
    assert "liquid" not in RUN.asks(FIXED, **INSIDE, liquid="28")  # within two thermometers


def test_a_chart_that_speaks_against_the_ratio_names_no_compressor():
    charted = {"low_chart": "above", "high_chart": "below"}
    typed = AT_30 | RIGHT | {"low": "200", "high": "1400"} | charted
    result = RUN.meaning(FIXED, **typed)
    assert subjects(result, "likely", "proved") == []
