"""The control unit's own word: a refusal is a finding, and one of its reasons is more."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

DATA = Trial("command_data")
CLUTCH: System = {"drive": "belt_clutch", "voltage": "12"}
ELECTRIC: tuple[System, ...] = (
    {"drive": "electric_hv"},
    {"drive": "electric_48"},
    {"drive": "belt_electric", "clutch": "none"},
)
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
    result = DATA.meaning(CLUTCH, **REFUSED, reason="lock")
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
    result = DATA.meaning(CLUTCH, **REFUSED, reason="lock", fits="no")
    assert subjects(result, "likely", "proved") == []
    assert (
        standing(result, "Locked or slipping compressor, clutch or belt, or its sensor") == "open"
    )


def test_a_reason_given_although_cold_was_not_asked_for_is_not_lost():
    notes = DATA.meaning(power="on", asked="no", commanded="no", reason="low").notes
    assert "A reason was given too: Pressure too low." in notes


# Above 60 V never a 12 V test; at 48 V no plug is touched: trade articles. What is measured next
# depends on the drive, so an unknown one is looked at first.

COMMANDED = ASKED | {"commanded": "yes"}


@pytest.mark.parametrize("line", ["", "wire", "data"])
@pytest.mark.parametrize("system", [*ELECTRIC, {}, {"drive": "belt_electric"}])
def test_nobody_is_sent_to_measure_voltage_where_a_motor_may_turn_it(system, line):
    onward = " ".join(DATA.meaning(system, **COMMANDED, line=line).onward)
    assert "voltage reaches" not in onward


@pytest.mark.parametrize("system", ELECTRIC)
def test_what_an_electric_compressor_does_is_read_by_scan_data(system):
    (onward,) = DATA.meaning(system, **COMMANDED).onward
    assert "speed and power by scan data" in onward
    assert "qualified" in onward


def test_where_the_drive_is_not_noted_it_is_looked_at_first():
    for typed in (COMMANDED, REFUSED | {"reason": "lock"}):
        assert "is not noted: look first" in DATA.meaning({}, **typed).onward[0]
        double = DATA.meaning({"drive": "belt_electric"}, **typed).onward[0]
        assert "whether there is a magnetic clutch" in double


def test_without_a_clutch_the_command_is_followed_to_the_control_valve():
    (onward,) = DATA.meaning({"drive": "belt_clutchless"}, **COMMANDED).onward
    assert "control valve’s command" in onward


def test_beside_a_motor_only_the_clutchs_own_plug_is_measured():
    system: System = {"drive": "belt_electric", "clutch": "magnetic"}
    (onward,) = DATA.meaning(system, **COMMANDED).onward
    assert "magnetic clutch’s own plug" in onward
    assert "electric side by scan data only" in onward


@pytest.mark.parametrize("system", [*ELECTRIC[:2], {}])
def test_a_lock_names_no_clutch_belt_or_hub_where_none_is_known_to_be(system):
    for fits in ("", "no"):
        result = DATA.meaning(system, **REFUSED, reason="lock", fits=fits)
        said = " ".join([*result.onward, *(mark.subject for mark in result.outcome.marks)])
        assert not any(part in said for part in ("clutch", "belt", "hub"))


def test_a_lock_without_a_clutch_names_none():
    result = DATA.meaning({"drive": "belt_clutchless"}, **REFUSED, reason="lock")
    assert subjects(result, "likely") == ["Locked compressor, its hub, limiter or belt"]
    assert "turn the hub by hand" in result.onward[0]
    assert "clutch" not in result.onward[0]


def test_a_lock_of_a_double_drive_is_looked_at_on_the_belt_side_once_proven_dead():
    for clutch in ("magnetic", "none"):
        system: System = {"drive": "belt_electric", "clutch": clutch}
        (onward,) = DATA.meaning(system, **REFUSED, reason="lock").onward
        assert onward.startswith("Belt side only, once the high voltage is proven dead")
        assert ("clutch" in onward) == (clutch == "magnetic")


def test_a_clutchs_own_wire_can_be_measured_whatever_line_the_command_takes():
    """The data line ends at the unit that switches the clutch: common practice, no source."""
    result = DATA.meaning(CLUTCH, **COMMANDED, line="data")
    assert not any("no wire of its own" in note for note in result.notes)
    assert "voltage reaches the clutch’s coil" in result.onward[0]


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48", "belt_electric", ""])
def test_a_false_value_sends_nobody_to_the_electric_side(drive):
    result = DATA.meaning({"drive": drive}, **REFUSED, reason="battery", fits="no")
    assert "only by a person qualified for it" in result.onward[0]


def test_an_unknown_drive_is_said_before_the_list_is_read():
    assert any("not noted" in one for one in DATA.kind.remarks_for({}))
