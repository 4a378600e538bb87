"""Drop over the feed: 0.20 to 0.30 V, coil energized (trade articles), and where it lies."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

FEED = Trial("feed_drop")
CLUTCH: System = {"drive": "belt_clutch", "voltage": "12"}
FLOWS = {"carries": "yes"}

PATTERNS = [
    ({"volts": "0.12"}, "within"),
    ({"volts": "120 mV"}, "within"),
    ({"volts": "0.25"}, "edge"),
    ({"volts": "0.21"}, "cannot_tell"),
    ({"volts": "0.7"}, "above"),
    ({"volts": "2.4"}, "far"),
    ({"volts": "0.7", "carries": "no"}, "nothing_told"),
    ({"volts": "0.7", "carries": "cannot_tell"}, "nothing_told"),
    ({"volts": "0.05", "carries": ""}, "nothing_told"),
    ({"volts": ""}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_drop_has_its_outcome(typed, outcome):
    assert FEED.code(CLUTCH, **(FLOWS | typed)) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in FEED.kind.outcomes}


def test_without_current_a_small_drop_clears_nothing():
    """A 10 ohm rotten joint loses nothing while nothing flows."""
    result = FEED.meaning(CLUTCH, volts="0.00", carries="no")
    assert result.outcome.code == "nothing_told"
    assert not subjects(result, "ruled_out", "likely")
    assert "even across a rotten joint" in result.outcome.sentence


def test_battery_voltage_across_an_open_feed_is_told_as_not_closed_and_names_no_part():
    result = FEED.meaning(CLUTCH, volts="12.5", carries="no")
    assert not result.outcome.carries
    assert any("the feed is not closed" in note for note in result.notes)


def test_a_drop_inside_rules_out_the_feed_and_not_the_ground_or_the_coil():
    result = FEED.meaning(CLUTCH, volts="0.12", carries="yes", amps="3.1")
    assert standing(result, "Feed") == "ruled_out"
    assert "Ground side of the coil: not tested by this step." in result.outcome.not_tested
    assert "Coil and clutch: not tested by this step." in result.outcome.not_tested


def test_a_drop_outside_names_the_stretch_on_which_most_of_it_lies():
    result = FEED.meaning(CLUTCH, volts="0.7", carries="yes", to_relay="0.06", across_switch="0.52")
    assert subjects(result, "likely") == ["Across the pressure switch"]
    assert result.onward == ("Open and look at the switch’s contacts, then read the drop again.",)


def test_a_drop_spread_over_the_stretches_names_none_of_them():
    typed = {"to_relay": "0.2", "across_relay": "0.2", "across_switch": "0.2"}
    result = FEED.meaning(CLUTCH, volts="0.7", carries="yes", **typed)
    assert subjects(result, "likely") == ["Feed: wire, joints, fuse, relay or switch contacts"]


def test_more_on_one_stretch_than_on_the_whole_is_asked_about_and_nothing_is_made_of_it():
    typed = {"volts": "0.3", "carries": "yes", "to_coil": "0.9"}
    assert "more than the 0.3\u00a0V of the whole feed" in FEED.asks(CLUTCH, **typed)["to_coil"][0]
    assert FEED.code(CLUTCH, **typed) == "nothing_told"


def test_amps_and_the_answer_about_current_that_cannot_both_be_true_are_asked_about():
    asked = FEED.asks(CLUTCH, volts="0.1", carries="no", amps="3.1")["amps"]
    assert asked == ["3.1\u00a0A was read, yet the answer was that no current flows."]


def test_a_minus_sign_only_says_that_the_leads_stood_the_other_way_round():
    result = FEED.meaning(CLUTCH, volts="-0.7", carries="yes")
    assert result.outcome.code == "above"
    assert any("leads stood the other way round" in note for note in result.notes)


def test_24_v_is_recorded_and_not_judged_by_figures_for_12_v():
    result = FEED.meaning({"drive": "belt_clutch", "voltage": "24"}, volts="0.7", carries="yes")
    assert result.outcome.code == "nothing_told"
    assert "24\u00a0V" in result.outcome.sentence


def test_a_drop_typed_as_mv_into_v_is_asked_about_as_what_cannot_be():
    assert "mV read as V" in FEED.asks(CLUTCH, volts="120", carries="yes")["volts"][0]


def test_the_limit_says_that_it_comes_from_trade_articles_and_is_for_12_v():
    band = FEED.meaning(CLUTCH, volts="0.12", carries="yes").band
    assert "trade articles, for 12\u00a0V" in band


def test_the_resistance_that_the_drop_means_is_worked_out_where_amps_were_read():
    """0.70 V / 3.5 A = 0.20 ohm, by Ohm's law."""
    (value,) = FEED.meaning(CLUTCH, volts="0.70", amps="3.50").values
    assert value.shown == "0.20\u00a0Ω"
    assert value.si == pytest.approx(0.2)
    assert FEED.meaning(CLUTCH, volts="0.70", carries="yes").values == ()


def test_no_resistance_is_worked_out_where_no_current_flows():
    assert FEED.meaning(CLUTCH, volts="0.70", amps="0.01").values == ()


@pytest.mark.parametrize("amps", ["0.06", "0.5", "0.9"])
def test_a_small_drop_at_little_current_clears_nothing(amps):
    result = FEED.meaning(CLUTCH, volts="0.01", amps=amps)
    assert result.outcome.code == "nothing_told"
    assert "at so little" in result.outcome.sentence
    assert result.outcome.marks == ()


def test_a_large_drop_at_little_current_is_a_loss_all_the_same():
    assert FEED.code(CLUTCH, volts="2.0", amps="0.3") == "far"


def test_little_current_is_current_all_the_same():
    assert FEED.asks(CLUTCH, volts="2.0", amps="0.3", carries="yes") == {}
    assert list(FEED.asks(CLUTCH, volts="2.0", amps="0.3", carries="no")) == ["amps"]


def test_stretches_that_make_more_than_the_whole_are_asked_about():
    typed = FLOWS | {"volts": "0.50", "to_relay": "0.30", "across_relay": "0.30", "to_coil": "0.4"}
    (sentence,) = FEED.asks(CLUTCH, **typed)["to_coil"]
    assert sentence.startswith("The stretches make 1.00")
    assert FEED.asks(CLUTCH, **typed | {"to_relay": "0.05", "across_relay": "0.05"}) == {}


def test_stretches_whose_zeros_were_typed_short_are_held_against_the_whole_too():
    """An amount read as 0 can be more, never less: it takes nothing from the others' sum."""
    typed = FLOWS | {"volts": "0.5", "to_relay": "0.4", "across_relay": "0.4"}
    typed |= {"across_switch": "0", "to_coil": "0"}
    assert FEED.asks(CLUTCH, **typed)["to_coil"][0].startswith("The stretches make 0.80")


@pytest.mark.parametrize(
    ("system", "amps", "outcome"),
    [
        ({}, "1.2", "within"),
        ({}, "0.8", "nothing_told"),
        ({"coil_ohm": 3.6}, "1.2", "nothing_told"),
        ({"coil_ohm": 3.6}, "1.8", "within"),
    ],
)
def test_a_drop_is_cleared_only_by_half_of_what_the_coil_is_expected_to_draw(system, amps, outcome):
    """12 V / 3.96 ohm (a tenth over) = 3 A, half of it 1.5 A; 12 V / 6 ohm = 2 A, half 1 A."""
    result = FEED.meaning(CLUTCH | system, volts="0.05", amps=amps)
    assert result.outcome.code == outcome
    if outcome == "nothing_told":
        assert "half of what" in result.outcome.sentence
        assert "our judgement" in result.outcome.sentence


def test_a_drop_inside_says_so_where_the_current_was_told_and_not_measured():
    told = FEED.meaning(CLUTCH, volts="0.05", carries="yes")
    assert any("told, not measured" in note for note in told.notes)
    measured = FEED.meaning(CLUTCH, volts="0.05", amps="3.1")
    assert not any("told, not measured" in note for note in measured.notes)


def test_the_whole_battery_lost_while_current_is_told_to_flow_is_asked_about():
    assert "open" in FEED.asks(CLUTCH, volts="12.6", carries="yes")["volts"][0]
    assert FEED.code(CLUTCH, volts="12.6", carries="yes", amps="3.5") == "nothing_told"
    assert FEED.asks(CLUTCH, volts="12.6", carries="no") == {}


def test_stretches_that_make_less_than_the_whole_are_told_where_all_were_read():
    all_four = dict.fromkeys(("to_relay", "across_relay", "across_switch", "to_coil"), "0.05")
    result = FEED.meaning(CLUTCH, volts="0.70", carries="yes", **all_four)
    assert any(note.startswith("The four stretches make 0.20") for note in result.notes)
    del all_four["to_coil"]
    result = FEED.meaning(CLUTCH, volts="0.70", carries="yes", **all_four)
    assert not any("stretches make" in note for note in result.notes)


# A third of a meter of 2.5 mm² copper has 2.3 mΩ (resistivity of IEC 60028): no feed has less.


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ({"volts": "0.000", "amps": "3.5"}, True),
        ({"volts": "0 mV", "amps": "3.5"}, True),
        ({"volts": "0.00", "amps": "3.5"}, True),
        ({"volts": "0.000", "carries": "yes"}, True),
        ({"volts": "0.0", "amps": "3.5"}, False),
        ({"volts": "0.02", "amps": "3.5"}, False),
        ({"volts": "0.000", "carries": "no"}, False),
    ],
)
def test_nothing_lost_on_a_feed_that_carries_current_is_asked_about(typed, asked):
    found = FEED.asks(CLUTCH, **typed)
    assert ("volts" in found) == asked
    if asked:
        assert "never without any resistance" in found["volts"][0]
        assert FEED.code(CLUTCH, **typed) == "nothing_told"


def test_24_v_is_judged_by_no_figure_for_12_v():
    heavy: System = {"drive": "belt_clutch", "voltage": "24"}
    assert "24\u00a0V" in FEED.meaning(heavy, volts="0.05", amps="0.8").outcome.sentence
    assert FEED.meaning(heavy, volts="12.4", carries="no").notes == ()
