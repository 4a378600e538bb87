"""The pressure switch: an open one is a finding first, and most are never bridged.

A full R-134a loop rests at 202 kPa (gauge, sea level) at 1 °C and at 327 kPa only at 11 °C:
worked out with an open property library.
"""

import pytest

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.kinds.pressure_switch import ORDER
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, asked_on, standing, subjects

SWITCH = Trial("pressure_switch")
SWITCH_AROUND = Circumstances()
CAR: System = {"drive": "belt_clutch", "refrigerant": "R-134a"}
LOW = {"type": "low_switch"}
OPEN = LOW | {"contacts": "open"}
READY = LOW | {"engine": "running", "ready": "yes"}

PATTERNS = [
    (LOW | {"contacts": "closed"}, "closed"),
    ({"contacts": "closed"}, "closed"),
    ({"type": "high_cutout", "contacts": "closed", "rest": "10"}, "closed"),
    (LOW | {"contacts": "closed", "rest": "5"}, "closed_empty"),
    ({"contacts": "closed", "rest": "0"}, "closed_untold"),
    ({"type": "cannot_tell", "contacts": "closed", "rest": "-80"}, "closed_untold"),
    ({"contacts": "closed", "rest": "470"}, "closed"),
    (OPEN | {"rest": "202", "temperature": "1"}, "open_cold"),
    (OPEN | {"rest": "40", "temperature": "20"}, "open_low"),
    (OPEN | {"rest": "202"}, "open_low"),
    (OPEN | {"rest": "470", "temperature": "20"}, "open_no_reason"),
    ({"type": "high_cutout", "contacts": "open", "rest": "470"}, "open_no_reason"),
    (OPEN, "open_untold"),
    (OPEN | {"rest": "327"}, "open_untold"),
    ({"contacts": "open", "rest": "470"}, "open_untold"),
    ({"type": "high_cutout", "contacts": "open"}, "open_untold"),
    ({"type": "sensor", "told": "460", "rest": "470"}, "sensor_agrees"),
    ({"type": "sensor", "told": "120", "rest": "470"}, "sensor_off"),
    ({"type": "sensor", "told": "510", "rest": "470"}, "sensor_unsure"),
    ({"type": "sensor", "told": "571", "rest": "470"}, "sensor_unsure"),
    ({"type": "sensor", "told": "460"}, "nothing_told"),
    (READY | {"bridged": "comes_on"}, "bridged_on"),
    (READY | {"bridged": "comes_on", "rest": "470", "closes_at": "200"}, "bridged_on_full"),
    (READY | {"bridged": "nothing"}, "bridged_nothing"),
    (LOW | {"rest": "470"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_pattern_has_its_outcome(typed, outcome):
    assert SWITCH.code(CAR, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in SWITCH.kind.outcomes}


# Mistake: cold-day lockout called a fault.


@pytest.mark.parametrize(("rest", "temperature"), [("202", "1"), ("150", "-4"), ("260", "6")])
def test_an_open_switch_in_a_cold_bay_is_a_finding_not_a_fault(rest, temperature):
    result = SWITCH.meaning(CAR, **OPEN, rest=rest, temperature=temperature)
    assert result.outcome.code == "open_cold"
    assert "a finding, not a fault" in result.outcome.sentence
    assert subjects(result, "likely", "proved") == ["Kept off by the cold"]


def test_the_same_pressure_on_a_warm_day_is_too_little_in_the_loop():
    result = SWITCH.meaning(CAR, **OPEN, rest="202", temperature="25")
    assert result.outcome.code == "open_low"
    assert "a finding, not a fault" in result.outcome.sentence


def test_without_a_temperature_cold_and_low_charge_are_not_told_apart():
    result = SWITCH.meaning(CAR, **OPEN, rest="202")
    assert any("not told apart" in note for note in result.notes)


def test_its_own_switch_on_pressure_goes_before_ours():
    typed = OPEN | {"rest": "280", "temperature": "7"}
    assert SWITCH.code(CAR, **typed) == "open_cold"
    own = SWITCH.meaning(CAR, **typed, closes_at="200")
    assert own.outcome.code == "open_no_reason"
    assert own.outcome.basis == "vehicle"
    assert "its own switch-on pressure" in own.band


def test_where_its_own_figure_is_not_noted_ours_is_said_to_be_no_limit():
    band = SWITCH.meaning(CAR, **OPEN, rest="202", temperature="1").band
    assert "327\u00a0kPa" in band
    assert "not a limit of any switch" in band


def test_r_744_is_recorded_and_not_judged():
    car = CAR | {"refrigerant": "R-744"}
    assert SWITCH.code(car, **OPEN, rest="202", temperature="1") == "open_untold"
    assert SWITCH.kind.remarks_for(car)


# Mistake: a sensor bridged.


@pytest.mark.parametrize("kind", ["sensor", "high_cutout", "cannot_tell", ""])
@pytest.mark.parametrize("answer", ["comes_on", "nothing"])
def test_no_sensor_and_no_cut_out_is_offered_a_bridge(kind, answer):
    typed = {"type": kind, "engine": "running", "ready": "yes", "bridged": answer}
    assert ORDER in SWITCH.asks(CAR, **typed)["bridged"]
    assert SWITCH.code(CAR, **typed) == "nothing_told"


@pytest.mark.parametrize("changed", [{"engine": "off"}, {"ready": "no"}, {"ready": ""}])
def test_a_low_pressure_switch_is_bridged_only_with_the_engine_running_and_charge_proven(changed):
    typed = READY | {"bridged": "comes_on"} | changed
    assert ORDER in SWITCH.asks(CAR, **typed)["bridged"]


@pytest.mark.parametrize("kind", ["sensor", "high_cutout", "low_switch", ""])
def test_a_bridge_that_was_made_against_the_order_is_recorded_and_marked(kind):
    typed = {"type": kind, "all_the_same": "yes"}
    (problem,) = SWITCH.kind.problems(SWITCH.readings(**typed), SWITCH_AROUND)["all_the_same"]
    assert problem.weight == "mark"
    assert "was bridged against the order" in problem.sentence
    assert any("bridged against the order" in note for note in SWITCH.meaning(CAR, **typed).notes)


def test_a_bridge_against_nothing_is_not_marked():
    assert SWITCH.asks(CAR, **LOW, all_the_same="no") == {}
    assert SWITCH.asks(CAR, **READY, bridged="comes_on") == {}


def test_the_order_of_bridging_is_the_first_caution():
    assert SWITCH.kind.cautions[0] == ORDER
    for part in ("three-wire sensor", "high-pressure cut-out", "only for seconds"):
        assert part in ORDER


def test_a_bridge_does_not_show_that_the_switch_keeps_off_wrongly():
    result = SWITCH.meaning(CAR, **READY, bridged="comes_on", rest="470")
    assert standing(result, "Pressure switch") == "likely"
    assert any("does not show that it does so wrongly" in note for note in result.notes)
    assert result.onward[0].startswith("Take the bridge off")


def test_a_sensor_one_atmosphere_above_the_gauge_may_tell_absolute_pressure():
    result = SWITCH.meaning(CAR, type="sensor", told="571", rest="470")
    assert any("absolute pressure" in note for note in result.notes)
    assert not subjects(result, "likely")


def test_a_closed_switch_is_not_cleared_of_worn_contacts():
    result = SWITCH.meaning(CAR, **LOW, contacts="closed")
    assert standing(result, "Pressure switch") == "open"


@pytest.mark.parametrize("typed", [OPEN, LOW | {"contacts": "closed"}, OPEN | {"rest": "470"}])
def test_a_pressure_never_tells_how_much_is_in_the_loop(typed):
    not_tested = SWITCH.meaning(CAR, **typed).outcome.not_tested
    assert "How much is in the loop: a pressure does not tell it." in not_tested


BRIDGED = READY | {"bridged": "comes_on"}


@pytest.mark.parametrize(
    ("typed", "standing_of_it"),
    [
        ({"rest": "470", "temperature": "20"}, "likely"),
        ({}, "open"),
        ({"rest": "327"}, "open"),
    ],
)
def test_a_bridge_blames_the_switch_only_where_the_pressure_gives_no_reason(typed, standing_of_it):
    assert standing(SWITCH.meaning(CAR, **BRIDGED | typed), "Pressure switch") == standing_of_it


@pytest.mark.parametrize("rest", ["202", "100"])
def test_a_switch_open_rightly_is_not_blamed_because_a_bridge_works(rest):
    result = SWITCH.meaning(CAR, **BRIDGED, rest=rest, temperature="1")
    assert subjects(result, "likely", "proved") == ["Kept off by low pressure"]


@pytest.mark.parametrize("rest", ["0", "20"])
def test_a_charge_told_as_proven_with_next_to_no_pressure_is_asked_about(rest):
    assert list(SWITCH.asks(CAR, **BRIDGED, rest=rest)) == ["ready"]
    assert SWITCH.code(CAR, **BRIDGED, rest=rest) == "nothing_told"


@pytest.mark.parametrize("rest", ["0", "120", "300"])
def test_a_cut_out_open_at_low_pressure_is_not_blamed_it_may_be_two_in_one(rest):
    """Some open at too little pressure as well: common practice, no source."""
    result = SWITCH.meaning(CAR, type="high_cutout", contacts="open", rest=rest)
    assert result.outcome.code == "open_untold"
    assert subjects(result, "likely", "proved") == []
    assert "too little" in result.outcome.marks[0].sentence


@pytest.mark.parametrize(
    ("rest", "temperature", "first"), [("190", "1", "warmer"), ("60", "20", "search for a leak")]
)
def test_after_a_bridge_on_a_switch_open_rightly_cold_or_charge_come_first(
    rest, temperature, first
):
    result = SWITCH.meaning(CAR, **BRIDGED, rest=rest, temperature=temperature)
    assert result.onward[0] == "Take the bridge off."
    assert first in result.onward[1]
    assert not any("read the pressure it sees" in one for one in result.onward)


def test_a_switch_closed_with_nothing_in_the_loop_is_looked_into_before_it_is_named():
    result = SWITCH.meaning(CAR, **LOW, contacts="closed", rest="0")
    assert result.outcome.code == "closed_empty"
    assert subjects(result, "likely", "proved") == []
    assert "the gauge sees the loop" in result.onward[1]
    assert result.onward[0].startswith("Never run it")


@pytest.mark.parametrize("kind", ["", "cannot_tell"])
def test_a_switch_nobody_named_closed_with_nothing_in_the_loop_is_no_finding_of_nothing(kind):
    """A low-pressure switch cannot be right so, a high-pressure cut-out is: common practice."""
    result = SWITCH.meaning(CAR, type=kind, contacts="closed", rest="0")
    assert not next(one for one in SWITCH.kind.outcomes if one.code == "closed_untold").normal
    assert subjects(result, "likely", "proved", "ruled_out") == []
    words = result.outcome.marks[0].sentence
    assert "wrong for a low-pressure switch" in words
    assert "as it should be for a high-pressure cut-out" in words
    assert result.onward[0] == "Never run it."
    assert "Count its wires" in result.onward[1]


def test_a_cut_out_closed_with_nothing_in_the_loop_is_not_run_to_read_a_drop():
    result = SWITCH.meaning(CAR, type="high_cutout", contacts="closed", rest="0")
    assert result.outcome.code == "closed"
    assert result.onward[0] == "Never run it."
    assert "current flowing" not in " ".join(result.onward)


@pytest.mark.parametrize("kind", ["", "low_switch", "high_cutout"])
def test_what_counts_as_next_to_no_pressure_is_said_to_be_our_judgement(kind):
    band = SWITCH.meaning(CAR, type=kind, contacts="closed", rest="0").band
    assert "50\u00a0kPa" in band
    assert "our judgement" in band
    assert SWITCH.meaning(CAR, type=kind, contacts="closed", rest="470").band == ""


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48", "belt_electric"])
@pytest.mark.parametrize("answer", ["comes_on", "nothing"])
def test_nothing_is_bridged_where_a_motor_may_turn_the_compressor(drive, answer):
    car = CAR | {"drive": drive}
    assert not {"engine", "ready", "bridged"} & asked_on(SWITCH.kind, car).keys()
    assert "bridged" in SWITCH.asks(car, **READY, bridged=answer)
    result = SWITCH.meaning(car, **READY, bridged=answer, rest="470", contacts="open")
    assert not result.outcome.code.startswith("bridged")
    assert any("nothing is bridged" in words for words in SWITCH.kind.remarks_for(car))


def test_a_bridge_on_an_electric_compressor_is_still_recorded_and_marked():
    car = CAR | {"drive": "electric_hv"}
    assert "all_the_same" in asked_on(SWITCH.kind, car)
    notes = SWITCH.meaning(car, type="low_switch", all_the_same="yes").notes
    assert any("bridged against the order" in one for one in notes)


def test_where_the_drive_is_not_noted_it_is_looked_at_before_anything_is_bridged():
    assert any("look first" in words for words in SWITCH.kind.remarks_for({}))
    assert not any("look first" in words for words in SWITCH.kind.remarks_for(CAR))
