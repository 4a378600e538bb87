"""The control unit's own word: a refusal is a finding, and one of its reasons is more."""

import pytest

from tests.evidence.trial import Trial, standing, subjects

DATA = Trial("command_data")
ASKED = {"power": "on", "asked": "yes"}
REFUSED = ASKED | {"commanded": "no"}

PATTERNS = [
    (ASKED | {"commanded": "yes"}, "commanded"),
    ({"commanded": "yes"}, "commanded"),
    ({"asked": "no", "commanded": "yes"}, "commanded_unasked"),
    ({"asked": "no", "commanded": "no"}, "not_asked"),
    ({"asked": "no"}, "not_asked"),
    (REFUSED | {"reason": "cold"}, "refused_cold"),
    (REFUSED | {"reason": "low"}, "refused_low"),
    (REFUSED | {"reason": "high", "fits": "yes"}, "refused_high"),
    (REFUSED | {"reason": "engine"}, "refused_engine"),
    (REFUSED | {"reason": "battery"}, "refused_engine"),
    (REFUSED | {"reason": "lock"}, "refused_lock"),
    (REFUSED | {"reason": "lock", "fits": "no"}, "refused_lock"),
    (REFUSED | {"reason": "evaporator"}, "refused_evaporator"),
    (REFUSED | {"reason": "other", "words": "transmission"}, "refused_other"),
    (REFUSED | {"reason": "none"}, "refused_other"),
    (REFUSED, "refused_other"),
    (REFUSED | {"reason": "cold", "fits": "no"}, "value_false"),
    (REFUSED | {"power": "off"}, "nothing_told"),
    (ASKED | {"commanded": "not_listed"}, "nothing_told"),
    (ASKED, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_pattern_has_its_outcome(typed, outcome):
    assert DATA.code(**typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in DATA.kind.outcomes}


# Mistake: permission refusal called a fault. "Not permitted" is a finding: trade articles.


@pytest.mark.parametrize("reason", ["cold", "low", "high", "engine", "battery", "evaporator"])
def test_a_refusal_is_a_finding_and_not_a_fault(reason):
    result = DATA.meaning(**REFUSED, reason=reason)
    assert "A refusal is a finding, not a fault." in result.outcome.sentence
    assert not subjects(result, "proved")
    assert all(subject.startswith("Kept off") for subject in subjects(result, "likely"))


def test_a_refusal_by_a_lock_or_slip_sensor_points_at_compressor_clutch_or_belt():
    """It is evidence for a locked or slipping compressor or belt: common practice, no source."""
    result = DATA.meaning(**REFUSED, reason="lock")
    assert standing(result, "Locked or slipping compressor, clutch or belt") == "likely"
    assert "turn the hub by hand" in result.onward[0]
    assert "finding, not a fault" not in result.outcome.sentence


def test_a_value_that_does_not_fit_points_at_its_sensor():
    result = DATA.meaning(**REFUSED, reason="cold", fits="no")
    assert subjects(result, "likely") == ["Sensor or switch behind that value"]


def test_a_value_nobody_checked_is_named_as_not_checked():
    result = DATA.meaning(**REFUSED, reason="low")
    assert any("was not checked" in note for note in result.notes)
    checked = DATA.meaning(**REFUSED, reason="low", fits="yes")
    assert not any("was not checked" in note for note in checked.notes)


@pytest.mark.parametrize("typed", [ASKED | {"commanded": "yes"}, REFUSED | {"reason": "cold"}])
def test_a_command_is_never_taken_for_power_at_the_compressor(typed):
    not_tested = DATA.meaning(**typed).outcome.not_tested
    told = "Power at the compressor: not tested by this step; a command is no voltage."
    assert told in not_tested


def test_with_engine_and_ready_off_nothing_is_made_of_it():
    result = DATA.meaning(**(REFUSED | {"power": "off", "reason": "cold"}))
    assert not result.outcome.marks
    assert "nothing is made of it" in result.outcome.sentence


def test_control_by_the_data_line_is_said_only_where_somebody_looked_it_up():
    commanded = ASKED | {"commanded": "yes"}
    words = "The command goes by the data line: no wire of its own can be measured for it."
    assert words in DATA.meaning(**commanded, line="data").notes
    for line in ("", "wire", "not_read"):
        assert words not in DATA.meaning(**commanded, line=line).notes
    untold = DATA.meaning(**commanded).outcome.not_tested
    assert any("not looked up" in text for text in untold)


def test_another_reason_is_kept_in_its_own_words():
    result = DATA.meaning(**REFUSED, reason="other", words="transmission in limp mode")
    assert "In its own words: transmission in limp mode" in result.notes


def test_a_reason_is_asked_only_where_it_is_not_commanded():
    assert "reason" in DATA.asks(**ASKED, commanded="yes", reason="cold")


def test_a_lock_sensor_that_does_not_fit_what_was_measured_points_at_nothing():
    result = DATA.meaning(**REFUSED, reason="lock", fits="no")
    assert subjects(result, "likely", "proved") == []
    assert (
        standing(result, "Locked or slipping compressor, clutch or belt, or its sensor") == "open"
    )


def test_a_reason_given_although_cold_was_not_asked_for_is_not_lost():
    notes = DATA.meaning(power="on", asked="no", commanded="no", reason="low").notes
    assert "A reason was given too: Pressure too low." in notes
