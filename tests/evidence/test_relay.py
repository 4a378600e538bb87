"""The relay: which signs tell of it; none is replaced before the clutch coil is measured."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

RELAY = Trial("relay")
CLUTCH: System = {"drive": "belt_clutch", "voltage": "12"}
PLUG_IN = {"built": "plug_in"}

PATTERNS = [
    ({"click": "yes", "output": "yes"}, "carries"),
    ({"output": "yes", "drop": "0.03"}, "carries"),
    ({"click": "yes"}, "clicks_only"),
    ({"click": "yes", "output": "yes", "drop": "0.8"}, "loses"),
    ({"click": "yes", "output": "no"}, "no_output"),
    ({"click": "no"}, "does_not_move"),
    ({"click": "no", "output": "no"}, "does_not_move"),
    ({"click": "yes", "output": "yes", "lets_go": "no"}, "stuck_on"),
    ({"output": "no"}, "dead_output"),
    ({"click": "cannot_tell", "output": "no"}, "dead_output"),
    ({"output": "yes", "bridged": "takes_hold"}, "carries"),
    ({"output": "no", "bridged": "takes_hold"}, "bridge_works"),
    ({"click": "no", "coil": "open"}, "coil_open"),
    ({"click": "yes", "swapped": "works"}, "swap_cures"),
    ({"click": "yes", "swapped": "same"}, "swap_same"),
    ({"click": "no", "bridged": "takes_hold"}, "bridge_works"),
    ({"click": "no", "bridged": "nothing"}, "bridge_nothing"),
    ({"renewed": "yes"}, "nothing_told"),
    ({"click": "cannot_tell"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_pattern_has_its_outcome(typed, outcome):
    assert RELAY.code(CLUTCH, **(PLUG_IN | typed)) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in RELAY.kind.outcomes}


# Mistake: relay replaced without measuring the coil. Shorted turns can hold normally and still end
# the relay: trade articles.

POINTS_AT_RELAY = [
    {"swapped": "works"}, {"coil": "open"}, {"output": "yes", "drop": "0.8"}, {"lets_go": "no"},
    {"renewed": "yes"}, {"renewed": "yes", "output": "yes"},
]  # fmt: skip


@pytest.mark.parametrize("typed", POINTS_AT_RELAY)
@pytest.mark.parametrize("measured", ["", "not_measured"])
def test_no_relay_goes_in_before_the_clutch_coil_is_measured(typed, measured):
    result = RELAY.meaning(CLUTCH, **(PLUG_IN | typed | {"clutch_coil": measured}))
    assert result.onward[0].startswith("Measure the clutch coil’s resistance before")


@pytest.mark.parametrize("typed", POINTS_AT_RELAY)
def test_a_clutch_coil_that_reads_too_low_is_settled_first(typed):
    result = RELAY.meaning(CLUTCH, **(PLUG_IN | typed | {"clutch_coil": "too_low"}))
    assert result.onward == ("The clutch coil reads too low: settle that before a relay goes in.",)


def test_a_clutch_coil_that_was_measured_inside_is_not_asked_for_again():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, swapped="works", clutch_coil="inside")
    assert not any("Measure the clutch coil" in text for text in result.onward)


def test_a_new_relay_does_not_clear_what_ended_the_old_one():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, output="yes", renewed="yes")
    assert standing(result, "What ended the relay before") == "open"


# Some are solid-state or inside a control unit, and cannot be swapped: common practice, no source.


@pytest.mark.parametrize(
    ("name", "answer"), [("swapped", "works"), ("bridged", "takes_hold"), ("coil", "open")]
)
@pytest.mark.parametrize("built", ["inside", "cannot_tell", ""])
def test_only_a_plug_in_relay_is_swapped_bridged_or_measured(name, answer, built):
    typed = {"built": built, name: answer}
    assert RELAY.asks(CLUTCH, **typed)[name] == [
        "Only a plug-in relay: one that is solid-state or inside a control unit cannot be."
    ]
    assert RELAY.code(CLUTCH, **typed) == "nothing_told"


def test_a_solid_state_relay_is_not_asked_for_a_click():
    assert RELAY.asks(CLUTCH, built="inside", click="no")["click"]


def test_a_click_tells_of_the_relays_coil_not_of_its_contacts():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, click="yes")
    assert standing(result, "Relay’s contacts") == "open"
    assert not subjects(result, "ruled_out")
    assert "Contacts under load: not measured." in result.outcome.not_tested


def test_a_relay_that_does_not_move_may_only_not_be_commanded():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, click="no")
    assert not subjects(result, "likely", "proved")
    assert any("not commanded" in subject for subject in subjects(result, "open"))


def test_a_bridge_with_the_engine_running_is_recorded_and_marked():
    typed = PLUG_IN | {"bridged": "takes_hold", "engine": "running"}
    assert "engine running" in RELAY.asks(CLUTCH, **typed)["engine"][0]
    assert RELAY.code(CLUTCH, **typed) == "bridge_works"
    assert "engine" not in RELAY.asks(CLUTCH, **(typed | {"engine": "off"}))


def test_a_drop_is_asked_only_where_the_output_carries():
    asked = RELAY.asks(CLUTCH, **PLUG_IN, output="no", drop="0.02")["drop"]
    assert asked == [
        "Asked only where power comes out under load: without current it shows nothing."
    ]


def test_a_relay_that_clicks_with_its_coil_open_is_asked_about():
    assert "coil" in RELAY.asks(CLUTCH, **PLUG_IN, click="yes", coil="open")


def test_the_resistance_of_its_own_coil_is_recorded_and_held_against_nothing():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, click="yes", coil="reads", coil_ohm="85")
    assert any("85\u00a0Ω: recorded, and held against no figure" in note for note in result.notes)


def test_an_output_that_stays_on_and_is_dead_is_asked_about():
    assert "lets_go" in RELAY.asks(CLUTCH, output="no", lets_go="no")


def test_the_whole_battery_across_contacts_that_carry_is_asked_about():
    assert "drop" in RELAY.asks(CLUTCH, output="yes", drop="12")


def test_power_without_a_click_asks_whether_the_contacts_let_go():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, click="no", output="yes")
    assert any("No click was felt" in note for note in result.notes)
    assert result.onward[0] == "See whether its output is dead with A/C off."
    settled = RELAY.meaning(CLUTCH, **PLUG_IN, click="no", output="yes", lets_go="yes")
    assert not any("No click was felt" in note for note in settled.notes)


@pytest.mark.parametrize("answer", ["takes_hold", "nothing"])
def test_a_bridge_is_taken_off_before_anything_else(answer):
    onward = RELAY.meaning(CLUTCH, **PLUG_IN, bridged=answer).onward
    assert onward[0] == "Take the bridge off."


def test_a_bridge_warns_of_belt_and_of_feeding_back():
    words = " ".join(RELAY.kind.cautions)
    assert "feeds back" in words
    assert "clear of belt" in words


def test_a_relay_stuck_on_is_pulled_before_one_is_fitted():
    onward = RELAY.meaning(CLUTCH, **PLUG_IN, output="yes", lets_go="no").onward
    assert onward[1].startswith("Pull it")


@pytest.mark.parametrize("typed", POINTS_AT_RELAY)
def test_nothing_is_said_twice(typed):
    result = RELAY.meaning(CLUTCH, **(PLUG_IN | typed))
    assert not set(result.notes) & set(result.onward)


def test_nobody_is_sent_to_feel_the_click_of_a_relay_that_makes_none():
    onward = RELAY.meaning(CLUTCH, built="inside").onward
    assert not any("click" in one for one in onward)
    assert "plugged-in coil" in onward[0]


def test_an_output_that_stays_dead_is_told_although_nobody_felt_a_click():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, output="no")
    assert "Relay: not tested." not in result.outcome.not_tested
    assert standing(result, "Relay, its command, or what leads into its contacts") == "open"
    assert "feel whether it clicks" in result.onward[0]


def test_the_command_of_a_relay_that_cannot_be_felt_is_read_in_the_data_list():
    for typed in ({"built": "inside"}, PLUG_IN | {"click": "cannot_tell"}):
        onward = RELAY.meaning(CLUTCH, **typed, output="no").onward
        assert "data list" in onward[0]
        assert not any("click" in one for one in onward)


def test_a_like_relay_that_cures_and_a_bridge_that_does_nothing_is_asked_about():
    typed = PLUG_IN | {"swapped": "works", "bridged": "nothing"}
    assert "pins" in RELAY.asks(CLUTCH, **typed)["bridged"][0]
    assert RELAY.code(CLUTCH, **typed) == "nothing_told"
    assert "bridged" not in RELAY.asks(CLUTCH, **(typed | {"bridged": "takes_hold"}))


def test_a_relay_whose_output_carries_is_told_apart_from_its_command_when_bridged_too():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, output="yes", bridged="takes_hold")
    assert subjects(result, "ruled_out") == ["Relay open", "Wire, coil and gap behind the relay"]
    assert result.onward[0] == "Take the bridge off."
    assert not any("not tested by this step" in one for one in result.outcome.not_tested)


def test_a_bridge_that_does_nothing_is_not_lost_beside_an_output_that_carries():
    result = RELAY.meaning(CLUTCH, **PLUG_IN, output="yes", bridged="nothing")
    assert len(subjects(result, "open")) == 1
    assert "bridged nothing happened" in result.outcome.marks[-1].sentence


@pytest.mark.parametrize(
    "typed",
    [
        {"click": "yes", "output": "no"},
        {"output": "no"},
        {"swapped": "same"},
        {"bridged": "nothing"},
    ],
)
@pytest.mark.parametrize(
    ("side", "said"),
    [
        ("feed", "whether power reaches"),
        ("ground", "whether ground reaches"),
        ("", "power, or ground if that is what it switches,"),
    ],
)
def test_what_is_looked_for_at_the_relay_is_what_it_switches(side, said, typed):
    onward = " ".join(RELAY.meaning(CLUTCH | {"switched_side": side}, **PLUG_IN, **typed).onward)
    assert said in onward
    if side == "ground":
        assert "lamp to ground" not in onward


@pytest.mark.parametrize("drop", ["0.02", "0.25", "0.6", "12"])
def test_on_24_v_a_drop_is_told_and_held_to_no_limit(drop):
    heavy: System = {"drive": "belt_clutch", "voltage": "24"}
    result = RELAY.meaning(heavy, **PLUG_IN, output="yes", drop=drop)
    told = f"{drop}\u00a0V across its contacts at 24\u00a0V: recorded and not judged."
    assert told in result.notes
    assert "Contacts under load: measured, not judged." in result.outcome.not_tested
    assert (result.band, result.outcome.basis) == ("", "")
