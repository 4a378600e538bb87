"""A known part tried: at the car's own plug it tells of the feed, on the bench nothing of the car.

Common practice, no source.
"""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

KNOWN = Trial("known_good")
BELT: System = {"drive": "belt_clutch", "voltage": "12"}
AT_PLUG = {"part": "coil", "where": "plug"}
DEAD = AT_PLUG | {"does": "does_not", "asked": "yes"}

PATTERNS: list[tuple[dict[str, str], str]] = [
    (AT_PLUG | {"does": "works"}, "plug_works"),
    ({"part": "relay", "where": "plug", "does": "works", "asked": "yes"}, "plug_works"),
    (AT_PLUG | {"does": "works", "asked": "no"}, "plug_unasked"),
    (DEAD | {"known": "bench"}, "plug_dead"),
    (DEAD | {"known": "other_car"}, "plug_dead"),
    (DEAD | {"known": "new"}, "plug_dead_not_known"),
    (DEAD, "plug_dead_not_known"),
    (DEAD | {"asked": "no", "known": "bench"}, "nothing_told"),
    (DEAD | {"asked": "cannot_tell", "known": "bench"}, "nothing_told"),
    (AT_PLUG | {"does": "not_tried"}, "nothing_told"),
    ({"where": "plug", "does": "works"}, "nothing_told"),
    ({"part": "coil", "where": "bench", "does": "works"}, "bench_works"),
    ({"part": "valve", "where": "bench", "does": "does_not"}, "bench_dead"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_try_has_its_outcome(typed, outcome):
    assert KNOWN.code(BELT, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in KNOWN.kind.outcomes}


@pytest.mark.parametrize("does", ["works", "does_not"])
def test_on_the_bench_it_says_nothing_of_the_car(does):
    result = KNOWN.meaning(BELT, part="coil", where="bench", does=does)
    assert (result.outcome.carries, result.outcome.marks) == (False, ())
    assert "On the bench a part says nothing of the car." in result.notes
    assert "The car: not tested by a part on the bench." in result.outcome.not_tested


def test_at_the_cars_own_plug_a_part_that_works_clears_what_leads_there_at_this_moment():
    result = KNOWN.meaning(BELT, **AT_PLUG, does="works", asked="yes")
    assert standing(result, "Feed, ground and command") == "ruled_out"
    assert standing(result, "The car’s own coil") == "likely"
    assert "Voltage lost on the way: not measured." in result.outcome.not_tested
    assert "at this moment" in KNOWN.words(BELT, **AT_PLUG, does="works")


@pytest.mark.parametrize("failing", ["no", "cannot_tell"])
def test_a_part_that_works_does_not_condemn_the_cars_own_on_a_car_that_was_not_failing(failing):
    result = KNOWN.meaning(BELT, failing=failing, **AT_PLUG, does="works")
    assert subjects(result, "likely", "proved") == []


def test_a_new_coil_that_works_does_not_clear_the_compressor():
    result = KNOWN.meaning(BELT, **AT_PLUG, does="works")
    assert standing(result, "Compressor") == "open"
    assert "Turn the hub by hand." in result.onward
    assert "Measure the gap of a new part before it is fitted." in result.onward


def test_a_relay_that_works_does_not_stay_in_before_the_coil_is_measured():
    result = KNOWN.meaning(BELT, part="relay", where="plug", does="works")
    assert result.onward == ("Measure the clutch coil’s resistance before a relay stays in.",)


def test_new_is_not_yet_known_to_work():
    new = KNOWN.meaning(BELT, **DEAD, known="new")
    assert subjects(new, "likely", "proved") == []
    assert standing(KNOWN.meaning(BELT, **DEAD, known="bench"), "Feed, ground") == "likely"


def test_without_a_command_a_dead_plug_tells_nothing():
    result = KNOWN.meaning(BELT, **DEAD | {"asked": "no"}, known="bench")
    assert not result.outcome.carries
    assert "no command was shown" in result.outcome.sentence


def test_what_is_asked_at_the_plug_is_not_asked_on_the_bench():
    asks = KNOWN.asks(BELT, part="coil", where="bench", asked="yes", known="new")
    assert set(asks) == {"asked", "known"}


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_nothing_is_tried_on_an_electric_compressor(drive):
    assert KNOWN.kind.forbids({"drive": drive})
    assert not KNOWN.meaning({"drive": drive}, **AT_PLUG, does="works").outcome.carries


def test_without_a_clutch_a_valve_may_be_tried_and_no_coil():
    system: System = {"drive": "belt_clutchless", "voltage": "12"}
    assert KNOWN.kind.forbids(system) is None
    assert not KNOWN.meaning(system, **AT_PLUG, does="works").outcome.carries
    assert KNOWN.code(system, part="valve", where="plug", does="works") == "plug_works"


def test_a_valve_is_never_straight_on_a_battery_for_long():
    assert any("valve never straight on a battery" in one for one in KNOWN.kind.cautions)


def test_any_answer_alone_says_something_sensible():
    for asked in KNOWN.kind.choices:
        for answer in asked.answers:
            assert words_of(KNOWN.meaning(BELT, **{asked.name: answer.code}))


@pytest.mark.parametrize("asked", ["", "no", "cannot_tell"])
@pytest.mark.parametrize("part", ["coil", "relay", "valve"])
def test_where_cold_was_not_said_to_be_asked_for_no_command_is_cleared(part, asked):
    result = KNOWN.meaning(BELT, part=part, where="plug", does="works", asked=asked)
    (cleared,) = subjects(result, "ruled_out")
    assert "command" not in cleared


@pytest.mark.parametrize(
    ("part", "named"),
    [("coil", "Relay or driver stuck on"), ("relay", "Command held on"), ("valve", "Driver held")],
)
def test_power_that_stood_there_unasked_is_told_and_points_at_what_switches_it(part, named):
    result = KNOWN.meaning(BELT, part=part, where="plug", does="works", asked="no")
    assert "unasked" in result.outcome.sentence
    assert standing(result, named) == "likely"
    assert "windshield" in result.outcome.marks[1].sentence
    assert result.onward[0].startswith("See what else asks for cold")


@pytest.mark.parametrize("displacement", ["fixed", "variable_inner", "speed"])
def test_a_control_valve_tried_where_none_has_a_plug_is_asked_about(displacement):
    system: System = BELT | {"displacement": displacement}
    typed = {"part": "valve", "where": "plug", "does": "works", "asked": "yes"}
    assert list(KNOWN.asks(system, **typed)) == ["part"]
    result = KNOWN.meaning(system, **typed)
    assert not result.outcome.carries
    assert result.outcome.marks == ()
    assert KNOWN.kind.remarks_for(system)
    outer: System = BELT | {"displacement": "variable_outer"}
    assert KNOWN.asks(outer, **typed) == {}


def test_a_coil_tried_where_there_is_no_clutch_is_asked_about():
    systems: tuple[System, ...] = (
        {"drive": "belt_clutchless"},
        {"drive": "belt_electric", "clutch": "none"},
    )
    for system in systems:
        assert list(KNOWN.asks(system, **AT_PLUG, does="works")) == ["part"]


def test_no_clutch_coil_is_measured_where_there_is_none():
    system: System = {"drive": "belt_clutchless", "voltage": "12"}
    onward = KNOWN.meaning(system, part="relay", where="plug", does="works", asked="yes").onward
    assert not any("coil" in one for one in onward)


def test_where_the_drive_is_not_noted_it_is_looked_at_before_anything_is_measured():
    assert "look first" in KNOWN.meaning({}, **DEAD, known="bench").onward[0]
    assert "look first" in KNOWN.meaning({}, **AT_PLUG, does="works").onward[0]
    assert KNOWN.meaning(BELT, **DEAD, known="bench").onward[0].startswith("Read the voltage")


def test_a_dead_valves_plug_is_not_measured_as_a_coils():
    typed = {"part": "valve", "where": "plug", "does": "does_not", "asked": "yes"}
    assert "valve’s command" in KNOWN.meaning(BELT, **typed, known="bench").onward[0]


def test_beside_a_motor_only_the_belt_side_is_tried():
    asked = KNOWN.kind.asks({"drive": "belt_electric", "clutch": "magnetic"})
    assert asked is not None
    assert "electric side stays untouched" in asked
