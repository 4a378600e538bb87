"""The fuse: what a look tells, what a lamp on both sides tells, and what a blown one points at."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

FUSE = Trial("fuse")
CLUTCH: System = {"drive": "belt_clutch", "voltage": "12"}
LOW_COIL = "Coil resistance too low"

PATTERNS = [
    ({"looked": "whole", "sides": "both"}, "carries"),
    ({"drop": "0.02", "carries": "yes"}, "carries"),
    ({"looked": "whole"}, "whole"),
    ({"across": "closed"}, "whole"),
    ({"looked": "whole", "sides": "both", "drop": "0.6", "carries": "yes"}, "loses"),
    ({"looked": "whole", "sides": "one"}, "open"),
    ({"looked": "whole", "across": "open"}, "open"),
    ({"looked": "blown"}, "blown"),
    ({"looked": "blown", "renewed": "holds"}, "blown"),
    ({"looked": "blown", "renewed": "blows_at_once"}, "blows_again"),
    ({"looked": "blown", "renewed": "blows_later"}, "blows_again"),
    ({"looked": "not_fitted"}, "not_fitted"),
    ({"looked": "whole", "sides": "neither"}, "no_feed"),
    ({"looked": "whole", "rating": "larger"}, "wrong_rating"),
    ({"looked": "whole", "sides": "both", "rating": "smaller"}, "wrong_rating"),
    ({"drop": "0.6", "carries": "no"}, "nothing_told"),
    ({"looked": "cannot_see"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_pattern_has_its_outcome(typed, outcome):
    assert FUSE.code(CLUTCH, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in FUSE.kind.outcomes}


# A blown clutch fuse most often means coil resistance too low: trade articles.


@pytest.mark.parametrize("renewed", ["", "holds", "blows_at_once", "not_fitted"])
def test_a_blown_fuse_asks_for_the_coils_resistance_before_anything_else(renewed):
    result = FUSE.meaning(CLUTCH, looked="blown", renewed=renewed)
    assert standing(result, LOW_COIL) == "likely"
    assert result.onward[0].startswith("Measure the coil’s resistance, both polarities")
    assert "trade articles" in result.outcome.marks[-1].sentence


def test_a_new_fuse_that_holds_says_little():
    result = FUSE.meaning(CLUTCH, looked="blown", renewed="holds")
    assert result.onward[0].endswith("although the new fuse holds.")
    assert "A new fuse that holds says little: what blew the old one is not found." in result.notes
    assert not subjects(result, "ruled_out")


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48"])
def test_where_there_is_no_clutch_coil_a_blown_fuse_does_not_point_at_one(drive):
    result = FUSE.meaning({"drive": drive}, looked="blown")
    assert not any("coil" in text.lower() for text in words_of(result))
    assert FUSE.kind.remarks_for({"drive": drive})


def test_a_look_alone_does_not_clear_the_fuse():
    result = FUSE.meaning(CLUTCH, looked="whole")
    assert standing(result, "Fuse") == "open"
    assert not subjects(result, "ruled_out")


def test_a_lamp_on_both_sides_clears_the_fuse_and_nothing_behind_it():
    result = FUSE.meaning(CLUTCH, looked="whole", sides="both")
    assert subjects(result, "ruled_out") == ["Fuse"]
    assert any("What lies behind the fuse" in text for text in result.outcome.not_tested)


def test_no_power_on_either_side_says_nothing_of_the_fuse():
    result = FUSE.meaning(CLUTCH, sides="neither")
    assert "Fuse: not tested." in result.outcome.not_tested
    assert not subjects(result, "ruled_out", "likely", "proved")


def test_a_drop_read_without_current_shows_nothing():
    result = FUSE.meaning(CLUTCH, looked="whole", drop="0.6", carries="no")
    assert result.outcome.code == "whole"
    assert any("it shows nothing" in note for note in result.notes)


def test_the_rating_is_named_as_not_compared_where_nobody_compared_it():
    not_tested = FUSE.meaning(CLUTCH, looked="whole", sides="both").outcome.not_tested
    assert "Rating fitted against the label: not compared." in not_tested
    same = FUSE.meaning(CLUTCH, looked="whole", sides="both", rating="same").outcome.not_tested
    assert not any("Rating" in text for text in same)


def test_a_larger_fuse_is_told_as_one_that_may_not_protect_the_wire():
    typed = {"looked": "blown", "rating": "larger", "ratings": "30 A fitted, 10 A on the label"}
    result = FUSE.meaning(CLUTCH, **typed)
    assert any("it may not protect the wire" in note for note in result.notes)


def test_a_fuse_that_is_not_fitted_has_no_power_on_both_sides():
    assert "sides" in FUSE.asks(CLUTCH, looked="not_fitted", sides="both")


def test_blown_to_the_eye_and_closed_to_the_meter_is_asked_about():
    assert "across" in FUSE.asks(CLUTCH, looked="blown", across="closed")


def test_a_drop_is_not_judged_on_24_v():
    heavy: System = {"drive": "belt_clutch", "voltage": "24"}
    assert FUSE.code(heavy, looked="whole", drop="0.6", carries="yes") == "whole"


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"looked": "blown", "sides": "both"}, "sides"),
        ({"looked": "blown", "drop": "0.01", "carries": "yes"}, "drop"),
        ({"looked": "not_fitted", "drop": "0.01", "carries": "yes"}, "drop"),
        ({"looked": "not_fitted", "across": "closed"}, "across"),
        ({"sides": "both", "across": "open"}, "across"),
        ({"sides": "neither", "drop": "0.1", "carries": "yes"}, "drop"),
        ({"drop": "12", "carries": "yes"}, "drop"),
    ],
)
def test_what_cannot_both_be_true_of_a_fuse_is_asked_about(typed, field):
    assert field in FUSE.asks(CLUTCH, **typed)
    assert FUSE.code(CLUTCH, **typed) == "nothing_told"


def test_a_blown_fuse_with_current_in_another_place_is_not_at_odds():
    assert FUSE.asks(CLUTCH, looked="blown", drop="12", carries="no") == {}
    assert FUSE.asks(CLUTCH, looked="not_fitted", sides="one", across="open") == {}


def test_a_lamp_on_both_sides_clears_for_a_lamps_current_only():
    result = FUSE.meaning(CLUTCH, sides="both")
    assert "lamp’s current" in result.outcome.marks[0].sentence
    lost = FUSE.meaning(CLUTCH, drop="0.02", carries="yes")
    assert "lamp" not in lost.outcome.marks[0].sentence


def test_a_fuse_of_another_rating_accuses_nobody():
    words = FUSE.words(CLUTCH, looked="whole", rating="larger")
    assert "somebody" not in words
    assert "as on the label" in words


def test_a_fuse_smaller_than_the_label_that_blew_does_not_point_at_the_coil():
    result = FUSE.meaning(CLUTCH, looked="blown", rating="smaller")
    assert standing(result, LOW_COIL) == "open"
    assert result.onward[0].startswith("Measure the coil’s resistance")


def test_where_no_clutch_is_noted_on_a_belt_and_electric_drive_no_coil_is_named():
    system: System = {"drive": "belt_electric", "clutch": "none"}
    assert not any(
        "coil" in text.lower() for text in words_of(FUSE.meaning(system, looked="blown"))
    )


@pytest.mark.parametrize(
    ("renewed", "ends"),
    [
        ("", "before a new fuse goes in."),
        ("not_fitted", "before a new fuse goes in."),
        ("holds", "although the new fuse holds."),
        ("blows_at_once", "before another fuse goes in."),
        ("blows_later", "before another fuse goes in."),
    ],
)
@pytest.mark.parametrize("drive", ["belt_clutch", "belt_clutchless", "electric_hv", ""])
def test_what_is_measured_first_fits_the_fuse_that_is_in_or_not(drive, renewed, ends):
    onward = FUSE.meaning({"drive": drive}, looked="blown", renewed=renewed).onward
    assert onward[-1].endswith(ends)


@pytest.mark.parametrize("drop", ["0.05", "0.25", "0.6", "12"])
def test_on_24_v_a_drop_is_told_and_held_to_no_limit(drop):
    heavy: System = {"drive": "belt_clutch", "voltage": "24"}
    for typed in ({"looked": "whole"}, {"sides": "both"}, {}):
        words = FUSE.words(heavy, **typed, drop=drop, carries="yes")
        assert f"{drop}\u00a0V across the fuse at 24\u00a0V: recorded and not judged." in words
        assert not any(limit in words for limit in ("inside", "outside", "limit", "0.20", "0.30"))


@pytest.mark.parametrize(
    "system",
    [
        {"drive": "belt_clutchless"},
        {"drive": "electric_hv"},
        {"drive": "electric_48"},
        {"drive": "belt_electric", "clutch": "none"},
        {"drive": "belt_electric"},
        {},
    ],
)
def test_nobody_is_sent_to_the_clutchs_relay_or_coil_where_no_clutch_is_known_to_be(system):
    """The relay's test is barred there, or asks for the drive first."""
    for typed in ({"sides": "both"}, {"looked": "blown"}, {"sides": "one"}):
        onward = " ".join(FUSE.meaning(system, **typed).onward)
        assert "relay" not in onward
        assert "coil" not in onward
    assert "data list" in FUSE.meaning(system, sides="both").onward[-1]


def test_where_the_drive_is_not_noted_a_blown_fuse_asks_for_it_first():
    result = FUSE.meaning({}, looked="blown")
    assert "not noted: look first" in result.onward[0]
    assert subjects(result, "likely") == []


def test_on_an_electric_drive_what_a_fuse_feeds_is_measured_on_the_12_v_side_only():
    assert "12\u00a0V side only" in FUSE.meaning({"drive": "electric_hv"}, looked="blown").onward[0]


def test_a_fuse_that_loses_nothing_under_current_is_asked_about():
    """A 30 A blade fuse has about 2 mΩ, smaller ones more: from memory."""
    assert "drop" in FUSE.asks(CLUTCH, drop="0.000", carries="yes")
    assert FUSE.asks(CLUTCH, drop="0.00", carries="yes") == {}
    assert FUSE.asks(CLUTCH, drop="0.000", carries="no") == {}
