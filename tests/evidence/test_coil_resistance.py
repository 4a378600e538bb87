"""The coil's resistance: brought to 20 °C, held to the vehicle's figure, and never the last word.

Copper +0.393 % a kelvin: IEC 60028. 12 V coils plausibly have 2 to 6 ohm; shorted turns can hold
and still end relay or driver: trade articles. The melt fuse that a locked compressor opens, and the
diode: common practice, no source. Ohmmeter ±1 % and ±0.1 ohm, thermometer ±2 °C: our judgement.
"""

import pytest

from diagnostics.evidence.fields import Choice
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

COIL = Trial("coil_resistance")
GENERAL: System = {"drive": "belt_clutch", "voltage": "12"}
OWN: System = GENERAL | {
    "coil_ohm": 3.6,
    "coil_ohm_source": "workshop data",
}
HEAVY: System = {"drive": "belt_clutch", "voltage": "24"}
SHORTED = "Coil shorted in part"
COLD = {"temperature": "20"}

PATTERNS: list[tuple[System, dict[str, str], str]] = [
    (OWN, COLD | {"one": "3.6", "other": "3.6"}, "inside"),
    (OWN, {"one": "4.7", "other": "4.7", "temperature": "100"}, "inside"),  # 3.58 ohm at 20 °C
    (GENERAL, {"one": "4.7"}, "inside"),  # between 3.4 and 5.6 ohm at 20 °C, from 120 to -20 °C
    (OWN, COLD | {"one": "3.0"}, "low"),
    (OWN, COLD | {"one": "1.2"}, "far_low"),  # less than half of 3.24 ohm
    (OWN, COLD | {"one": "5.5"}, "high"),
    (OWN, COLD | {"one": "3.3"}, "cannot_tell"),  # 3.14 to 3.46 about the edge of 3.24
    (OWN, {"one": "3.6"}, "cannot_tell"),  # its temperature not read
    (GENERAL, {"one": "0.2", "other": "0.3"}, "far_low"),
    (HEAVY, COLD | {"one": "14.0"}, "not_held"),
    (HEAVY, {"one": "0.2"}, "far_low"),
    (GENERAL, {"beyond": "both"}, "open"),
    (GENERAL, {"beyond": "one", "one": "900"}, "open"),  # the diode's way, not the coil's
    (GENERAL, {"one": "5 MΩ"}, "open"),
    (OWN, COLD | {"one": "3.6", "wiggled": "jumps"}, "intermittent"),
    (GENERAL, {"beyond": "both", "one": "3.6", "wiggled": "jumps"}, "intermittent"),
    (OWN, COLD | {"one": "3.6", "case": "reads", "case_ohm": "12"}, "to_case"),
    (OWN, COLD | {"one": "3.6", "case": "reads"}, "to_case"),
    (OWN, COLD | {"one": "3.6", "case": "reads", "case_ohm": "200 kΩ"}, "inside"),
    (OWN, COLD | {"one": "3.6", "case": "one_wire"}, "inside"),
    (OWN, COLD | {"one": "3.6", "diode": "both"}, "diode_shorted"),
    (OWN, COLD | {"one": "3.6", "diode": "neither"}, "diode_open"),
    (OWN, COLD | {"one": "3.6", "plug": "on"}, "nothing_told"),
    (OWN, {"wiggled": "steady", "case": "open", "diode": "one_way"}, "nothing_told"),
    (OWN, {"one": "-3.6"}, "nothing_told"),
]


@pytest.mark.parametrize(("system", "typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(system, typed, outcome):
    assert COIL.code(system, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for *_rest, outcome in PATTERNS} == {one.code for one in COIL.kind.outcomes}


# Mistake: a coil condemned by a universal ohm rule, or by a hot reading.


@pytest.mark.parametrize("ohm", ["1.2", "1.8", "7.5", "9"])
@pytest.mark.parametrize("system", [GENERAL, {}])
def test_what_coils_usually_have_points_at_nothing_and_the_vehicles_figure_is_looked_up(
    system, ohm
):
    result = COIL.meaning(system, **COLD, one=ohm, other=ohm)
    assert result.outcome.code in ("low", "high")
    assert subjects(result, "likely", "proved") == []
    assert "Look up this vehicle’s own figure" in " ".join(words_of(result))
    assert "trade articles; not a limit" in result.band


def test_a_hot_reading_is_brought_to_20_degrees_before_it_is_judged():
    hot = COIL.meaning(OWN, one="4.7", other="4.7", temperature="100")
    assert "which is 3.6\u00a0Ω at 20\u00a0°C" in hot.lead  # 4.7 / (1 + 0.00393 x 80) = 3.576
    assert standing(hot, SHORTED) == "ruled_out"
    assert COIL.code(OWN, **COLD, one="4.7", other="4.7") == "high"


def test_a_temperature_not_read_makes_the_band_wide_and_is_said_to_be_missing():
    result = COIL.meaning(OWN, one="3.6", other="3.6")
    assert standing(result, SHORTED) == "open"
    assert "so the band is wide" in result.band
    assert "Coil temperature: no reading to go by." in result.outcome.not_tested
    assert result.strip is None


def test_the_vehicles_own_figure_goes_before_the_general_band():
    assert "workshop data" in COIL.meaning(OWN, **COLD, one="3.6").band
    # 5 ohm is plausible for a coil, and more than this one should have
    assert COIL.code(GENERAL, **COLD, one="5.0") == "inside"
    assert COIL.code(OWN, **COLD, one="5.0") == "high"
    assert standing(COIL.meaning(OWN, **COLD, one="5.0"), "Joint, lead") == "likely"


# Mistake: stopping at an open coil without turning the shaft.


@pytest.mark.parametrize("extra", [{}, {"case": "reads"}, {"wiggled": "jumps"}])
def test_an_open_coil_does_not_clear_the_compressor(extra):
    result = COIL.meaning(OWN, beyond="both", **extra)
    assert standing(result, "Coil, its melt fuse or its lead open") == "likely"
    assert standing(result, "Compressor") == "open"
    assert "Turn the hub by hand." in result.onward
    assert "melt fuse" in " ".join(words_of(result))


def test_an_open_coil_is_read_again_with_leads_that_were_touched_together():
    assert "Touch the meter’s leads together" in COIL.meaning(OWN, beyond="both").onward[0]


# Mistake: the relay replaced without measuring the coil.


@pytest.mark.parametrize("ohm", ["3.0", "1.2", "0.3"])
def test_too_little_resistance_comes_before_relay_and_driver(ohm):
    result = COIL.meaning(OWN, **COLD, one=ohm, other=ohm)
    assert standing(result, SHORTED) == "likely"
    assert any("Relay or driver is replaced only after this" in one for one in result.onward)
    assert any("can hold normally" in note for note in result.notes)
    assert "only after this" in " ".join(COIL.kind.remarks_for(OWN))


def test_upstream_is_never_tested_by_it():
    for typed in (COLD | {"one": "3.6"}, {"beyond": "both"}, {}):
        assert any("Relay, fuse" in one for one in COIL.meaning(OWN, **typed).outcome.not_tested)


# The diode.


def test_an_ohmmeter_that_reads_twice_the_same_tells_nothing_of_the_diode():
    result = COIL.meaning(OWN, **COLD, one="3.6", other="3.6")
    assert any(one.startswith("Diode: an ohmmeter") for one in result.outcome.not_tested)
    assert "Diode" not in " ".join(subjects(result, "ruled_out"))


@pytest.mark.parametrize(("one", "other"), [("0.4", "3.6"), ("2.1", "3.6")])
def test_two_ways_that_differ_are_contacts_or_leads_and_asked_about(one, other):
    # 1 mA through 3.6 Ω is 4 mV; silicon carries from about half a volt (any handbook)
    assert "other" in COIL.asks(OWN, **COLD, one=one, other=other)
    assert COIL.code(OWN, **COLD, one=one, other=other) == "nothing_told"
    assert COIL.asks(OWN, **COLD, one="3.5", other="3.6") == {}


def test_a_diode_parted_from_the_coil_is_judged_by_itself():
    good = COIL.meaning(OWN, **COLD, one="3.0", diode="one_way")
    assert standing(good, "Diode open or shorted") == "ruled_out"
    assert standing(good, SHORTED) == "likely"
    assert not any("or its diode" in one for one in subjects(good, "likely"))
    assert not any("Part its diode" in one for one in good.onward)
    assert standing(COIL.meaning(OWN, diode="both"), "Diode shorted") == "likely"


# Case, wiggling, plug.


def test_a_coil_with_one_wire_is_not_shorted_because_it_reads_to_its_case():
    result = COIL.meaning(OWN, **COLD, one="3.6", case="one_wire")
    assert subjects(result, "likely") == []


def test_a_high_value_to_the_case_is_dirt_and_cleaned():
    typed = COLD | {"one": "3.6", "case": "reads", "case_ohm": "200 kΩ"}
    assert any("dirt or moisture" in note for note in COIL.meaning(OWN, **typed).notes)


def test_with_the_plug_still_on_nothing_is_made_of_the_reading():
    result = COIL.meaning(OWN, **COLD, one="1.0", plug="on")
    assert (result.outcome.carries, result.outcome.marks) == (False, ())
    assert any("through the car’s wiring" in note for note in result.notes)


def test_beyond_the_range_and_a_reading_are_at_odds_unless_it_jumps():
    assert COIL.asks(OWN, beyond="both", one="3.6") == {
        "beyond": ["Beyond the meter’s range both ways, yet 3.6\u00a0Ω was read."]
    }
    assert COIL.asks(OWN, beyond="both", one="3.6", wiggled="jumps") == {}
    assert "beyond" in COIL.asks(OWN, beyond="one", one="3.6", other="3.6")


# What a good reading does not say.


def test_a_reading_inside_says_nothing_of_a_coil_that_fails_hot():
    cold = COIL.meaning(OWN, **COLD, one="3.6")
    assert any("read it again while it fails" in note for note in cold.notes)
    hot = COIL.meaning(OWN, one="4.7", temperature="100")
    assert not any("well cold" in note for note in hot.notes)


def test_a_reading_inside_of_a_car_that_is_not_failing_carries_nothing():
    assert not COIL.meaning(OWN, failing="no", **COLD, one="3.6").outcome.carries
    assert COIL.meaning(OWN, failing="no", **COLD, one="1.2").outcome.carries


@pytest.mark.parametrize(
    "system",
    [
        {"drive": "belt_clutchless"},
        {"drive": "electric_hv"},
        {"drive": "electric_48"},
        {"drive": "belt_electric", "clutch": "none"},
    ],
)
def test_it_is_barred_without_a_magnetic_clutch_and_says_nothing_there(system):
    assert COIL.kind.forbids(system)
    result = COIL.meaning(system, **COLD, one="1.0")
    assert (result.outcome.carries, result.outcome.marks) == (False, ())


def test_a_drive_not_noted_is_made_sure_of_first():
    assert COIL.kind.asks({})
    assert COIL.kind.asks(GENERAL) is None


def test_it_shows_the_same_at_20_degrees_and_in_fahrenheit():
    values = {
        one.words: one.shown for one in COIL.meaning(OWN, one="4.70", temperature="100").values
    }
    assert values == {"At 20\u00a0°C": "3.6\u00a0Ω", "Coil": "212\u00a0°F"}


def test_capitals_tell_a_thousandth_of_an_ohm_from_a_million():
    assert COIL.code(OWN, one="5 MΩ") == "open"
    assert COIL.code(OWN, one="5 mΩ") == "far_low"


def test_fine_sets_no_resistance_and_alone_shows_nothing():
    result = COIL.meaning(OWN, **COIL.fine)
    assert not result.outcome.carries
    assert "Resistance between the pins: no reading to go by." in result.outcome.not_tested
    assert COIL.code(OWN, **COIL.fine, **COLD, one="3.6") == "inside"


def test_any_answer_alone_says_something_sensible():
    for asked in COIL.kind.fields:
        if isinstance(asked, Choice):
            for answer in asked.answers:
                assert COIL.meaning(OWN, **{asked.name: answer.code}).outcome.sentence


def test_it_warns_that_the_plug_comes_off_first():
    assert any("plug off" in caution for caution in COIL.kind.cautions)


@pytest.mark.parametrize("typed", ["0.0", "0.05", "3.6 mΩ", "0"])
def test_next_to_no_resistance_is_asked_about_before_it_is_taken(typed):
    assert list(COIL.asks(GENERAL, one=typed)) == ["one"]


def test_a_coil_that_carries_one_way_only_is_asked_about():
    typed = {"one": "3.6", "beyond": "one"}
    assert any("a diode in the line" in one for one in COIL.asks(GENERAL, **typed)["beyond"])
    assert COIL.code(GENERAL, **typed) == "nothing_told"
