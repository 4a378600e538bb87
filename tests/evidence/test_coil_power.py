"""Power straight at the coil: which outcome, in which words, and what it must never say."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnostics.evidence.kinds.coil_power import UPSTREAM
from diagnostics.evidence.system import System
from tests.evidence.cases import (
    GENERAL,
    GOOD,
    HOLDS,
    KIND,
    SPECIFIED,
    all_words,
    band,
    code,
    meaning,
    standing,
)
from tests.evidence.test_kind import BANNED
from tests.evidence.trial import Trial

PATTERNS: list[tuple[dict[str, str], str]] = [
    ({"holds": "yes", "lets_go": "yes"}, "takes_hold"),
    ({"holds": "yes"}, "takes_hold"),
    ({"holds": "yes", "lets_go": "no"}, "takes_hold_slow_release"),
    ({"holds": "drops_out"}, "drops_out"),
    ({"holds": "slips", "engine": "running", "hub": "free"}, "slips"),
    ({"holds": "no", "pushed": "yes"}, "holds_when_pushed"),
    ({"holds": "no", "pushed": "no"}, "magnet_no_hold"),
    ({"holds": "no"}, "magnet_no_hold"),
    ({"holds": "no", "magnet": "no"}, "current_no_pull"),
    ({"holds": "no", "amps": "", "magnet": "cannot_tell"}, "does_not_hold"),
    ({"holds": "no", "amps": "0.00", "magnet": "no"}, "no_current"),
    ({"holds": "no", "amps": "0", "magnet": "no", "ground": "bad"}, "no_current_unsure"),
    ({"holds": "no", "amps": "0.00", "magnet": "no", "volts": "1.2"}, "no_current_unsure"),
    ({"holds": "no", "amps": "0.00", "magnet": "no", "volts": "8"}, "no_current_unsure"),
    ({"holds": "no", "amps": "0", "magnet": "no", "ground": ""}, "no_current_unsure"),
    ({"holds": "no", "amps": "0", "magnet": "no", "volts": ""}, "no_current_unsure"),
    ({"holds": "no", "amps": "1.10"}, "low_current"),
    ({"holds": "no", "amps": "4.60"}, "high_current"),
    ({"holds": "yes", "amps": "4.60"}, "high_current"),
    ({"holds": "no", "amps": "", "magnet": "no", "fuse": "yes"}, "high_current"),
    ({"holds": "cannot_tell", "magnet": ""}, "current_only"),
    ({"holds": "", "magnet": ""}, "current_only"),
    ({"holds": "no", "volts": "0.02", "amps": "0", "magnet": "no"}, "nothing_told"),
    ({"holds": "no", "volts": "9.2", "amps": "2.27"}, "nothing_told"),
    ({"holds": "no", "amps": "8", "magnet": "no", "fuse": "yes"}, "high_current"),
    ({"holds": "no", "volts": "", "amps": "", "magnet": ""}, "nothing_told"),
]


@pytest.mark.parametrize(("changed", "outcome"), PATTERNS)
def test_each_pattern_of_readings_has_its_outcome(changed, outcome):
    assert code(**(GOOD | changed)) == outcome


def test_every_outcome_listed_has_its_pattern_and_no_other_comes_out():
    assert {outcome for _changed, outcome in PATTERNS} == {one.code for one in KIND.outcomes}


def test_holds_when_pushed_points_at_the_gap_and_does_not_name_it():
    result = meaning(**GOOD, holds="no", pushed="yes")
    assert standing(result, "Gap, friction face or hub") == "open"
    assert any("points at the gap" in mark.sentence for mark in result.outcome.marks)
    assert result.onward[0] == "Measure the air gap next."


# Mistake: stopping at an open coil without turning the shaft.


@pytest.mark.parametrize("ground", ["good", "bad", "not_checked", ""])
def test_an_open_coil_does_not_clear_the_compressor(ground):
    result = meaning(**(GOOD | {"amps": "0.00", "magnet": "no", "holds": "no", "ground": ground}))
    assert standing(result, "Compressor") == "open"
    assert "melt fuse" in next(
        m.sentence for m in result.outcome.marks if m.subject == "Compressor"
    )
    assert result.onward[-1] == "Turn the hub by hand."


def test_the_compressor_is_never_ruled_out_by_this_step():
    for holds in ("yes", "no", "drops_out"):
        assert standing(meaning(**GOOD, holds=holds), "Compressor") == "open"


def test_ground_not_checked_carries_less_than_ground_checked():
    dead = GOOD | {"amps": "0.00", "magnet": "no", "holds": "no"}
    assert standing(meaning(**dead), "Coil, its melt fuse or its lead open") == "likely"
    unsure = meaning(**(dead | {"ground": "not_checked"}))
    assert standing(unsure, "Coil open, or ground missing") == "open"


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"ground": ""}, "The ground was not checked: put a known ground to the coil"),
        ({"ground": "not_checked"}, "The ground was not checked: put a known ground to the coil"),
        ({"ground": "bad"}, "The ground was found bad: put a known ground to the coil"),
        ({"volts": ""}, "Read the voltage at the coil’s pins, then repeat."),
        (
            {"volts": "", "ground": ""},
            "then repeat. The ground was not checked: put a known ground",
        ),
    ],
)
def test_without_current_what_was_not_told_is_asked_for_and_nothing_else(changed, said):
    dead = GOOD | {"volts": "11.9", "amps": "0", "magnet": "no", "holds": "no"}
    words = all_words(meaning(**(dead | changed)))
    assert any(said in text for text in words)
    assert any("Read the voltage" in text for text in words) == ("volts" in changed)


def test_a_voltage_beside_no_current_is_not_called_a_voltage_under_load():
    dead = GOOD | {"volts": "11.9", "amps": "0", "magnet": "no", "holds": "no"}
    result = meaning(**dead)
    assert result.lead == "11.9\u00a0V at the coil’s pins, no current flowing (0\u00a0A)."
    for typed in (dead, dead | {"volts": ""}):
        assert not any("under load" in text for text in all_words(meaning(**typed)))


def test_a_voltage_of_next_to_nothing_beside_a_current_is_said_not_to_fit():
    result = meaning(**(GOOD | {"volts": "0.02", "holds": "no"}))
    assert result.outcome.code == "magnet_no_hold"
    assert "do not fit together" in result.lead
    assert any("Read the voltage again" in note for note in result.notes)
    assert not any("No power reached" in text for text in all_words(result))
    felt = meaning(**(GOOD | {"volts": "0.02", "amps": "", "holds": "no"}))
    assert any("yet the magnet pulled" in note for note in felt.notes)


def test_a_hub_that_was_turned_by_hand_is_not_said_to_be_unturned():
    for holds in ("no", "slips", "drops_out"):
        result = meaning(**GOOD, engine="running", hub="free", holds=holds)
        assert not any("not turned by this step" in text for text in all_words(result))
    stuck = meaning(**GOOD, engine="running", hub="not_free", holds="no")
    assert any("its hub was not free before" in text for text in all_words(stuck))


def test_after_a_test_with_the_engine_running_it_is_switched_off_first():
    result = meaning(**GOOD, engine="running", hub="free", holds="no")
    assert any(note.startswith("Engine off and key away") for note in result.notes)


@pytest.mark.parametrize(("changed", "outcome"), PATTERNS)
def test_every_outcome_says_once_what_to_do_next(changed, outcome):
    result = meaning(**(GOOD | changed))
    assert result.onward, outcome
    said = " ".join(all_words(result))
    assert [said.count(step) for step in result.onward] == [1] * len(result.onward)


# Mistake: a coil test offered on clutchless or high-voltage units.


@pytest.mark.parametrize(
    ("system", "words"),
    [
        ({"drive": "belt_clutchless"}, "No clutch here"),
        ({"drive": "electric_hv"}, "never a 12 V test"),
        ({"drive": "electric_48"}, "no clutch coil"),
        ({"drive": "belt_electric", "clutch": "none"}, "no clutch coil"),
    ],
)
def test_a_drive_without_a_clutch_forbids_the_step_and_says_why(system, words):
    assert words in (KIND.forbids(system) or "")
    result = meaning(system, **HOLDS)
    assert result.outcome.code == "nothing_told"
    assert not result.outcome.carries
    assert any(words in note for note in result.notes)


@pytest.mark.parametrize("drive", ["belt_clutch", "belt_electric", ""])
def test_a_drive_that_may_have_a_clutch_does_not_forbid_it(drive):
    assert KIND.forbids({"drive": drive}) is None


def test_belt_and_electric_asks_for_the_magnetic_clutch_first():
    asks = KIND.asks({"drive": "belt_electric"}) or ""
    assert asks.startswith("Is there a magnetic clutch?")
    assert KIND.asks({"drive": "belt_clutch"}) is None


def test_belt_and_electric_with_a_magnetic_clutch_is_tested_at_its_own_plug_only():
    asks = KIND.asks({"drive": "belt_electric", "clutch": "magnetic"}) or ""
    assert "own plug" in asks
    assert "?" not in asks


def test_a_drive_not_noted_asks_first():
    assert "not noted" in (KIND.asks({}) or "")


def test_a_clutch_switched_on_the_ground_side_gets_its_remark():
    assert any("ground side" in words for words in KIND.remarks_for({"switched_side": "ground"}))
    assert KIND.remarks_for({"switched_side": "feed", "voltage": "12"}) == ()


# Mistake: a missing measurement treated as good.


def test_nothing_read_carries_nothing_and_rules_out_nothing():
    result = meaning()
    assert result.outcome.code == "nothing_told"
    assert not result.outcome.carries
    assert result.outcome.marks == ()
    assert "Current: no reading to go by." in result.outcome.not_tested


@pytest.mark.parametrize("missing", ["volts", "amps", "holds"])
def test_what_was_not_read_is_listed_as_not_tested(missing):
    gone = (missing, "lets_go") if missing == "holds" else (missing,)
    typed = {name: told for name, told in HOLDS.items() if name not in gone}
    whole = meaning(**HOLDS).outcome.not_tested
    assert len(meaning(**typed).outcome.not_tested) == len(whole) + 1


@pytest.mark.parametrize(
    ("told", "listed"),
    [
        ({"holds": "yes"}, True),
        ({"holds": "yes", "lets_go": "cannot_tell"}, True),
        ({"holds": "yes", "lets_go": "yes"}, False),
        ({"holds": "yes", "lets_go": "no"}, False),
        ({"holds": "no"}, False),
    ],
)
def test_a_clutch_that_took_hold_and_was_not_watched_letting_go_is_listed(told, listed):
    words = "Whether it lets go at once: not told."
    assert (words in meaning(**(GOOD | told)).outcome.not_tested) == listed


def test_a_current_not_read_leaves_shorted_turns_open():
    result = meaning(**(HOLDS | {"amps": ""}))
    assert standing(result, "Coil shorted in part") == "open"


def test_slipping_is_not_tested_with_the_engine_off():
    assert "Slipping: not tested with the engine off." in meaning(**HOLDS).outcome.not_tested
    running = meaning(**HOLDS, engine="running", hub="free")
    assert not any("Slipping" in words for words in running.outcome.not_tested)


# Mistake: the jumper test read as "upstream cleared".


@given(
    st.fixed_dictionaries(
        {},
        optional={
            **{c.name: st.sampled_from([a.code for a in c.answers]) for c in KIND.choices},
            "volts": st.sampled_from(["0", "9.2", "12.38", "14,4", "-12", "17", "123.8"]),
            "amps": st.sampled_from(["0", "0.3", "1.1", "3.05", "4.6", "9", "-3", "3050 mA"]),
            "temperature": st.sampled_from(["-20", "20", "48", "212 °F", "300"]),
        },
    ),
    st.sampled_from([SPECIFIED, GENERAL, {}, {"voltage": "24"}, {"drive": "electric_hv"}]),
)
def test_whatever_was_read_upstream_stays_untested_and_the_words_stay_ours(typed, system):
    result = meaning(system, **typed)
    at_odds = result.outcome.sentence == "Nothing is made of it."
    assert UPSTREAM in result.outcome.not_tested or KIND.forbids(system) or at_odds
    words = all_words(result)
    assert not any(BANNED.search(text) for text in words)
    bypassed = [text for text in words if "relay" in text.lower() or "wiring" in text.lower()]
    for text in bypassed:
        assert text == UPSTREAM or "replaced" in text or "Shorted turns" in text
    assert result.outcome.code in {outcome.code for outcome in KIND.outcomes}


def test_taking_hold_sends_the_technician_upstream():
    assert meaning(**HOLDS).onward[0] == "It takes hold: look upstream next."


# Mistake: "12 V present" without current.


def test_voltage_without_current_does_not_show_that_the_coil_works():
    result = meaning(ground="good", volts="12.38")
    assert not result.outcome.carries
    assert "a voltage alone does not show" in result.lead


# Mistake: good-cold and bad-hot called a contradiction.


def test_taking_hold_is_said_with_its_temperature_and_leaves_the_hot_car_open():
    cold = meaning(**(HOLDS | {"temperature": "20", "amps": "3.45"}))
    assert any("at 20\u00a0°C" in mark.sentence for mark in cold.outcome.marks)
    assert standing(cold, "Wide gap, worn face") == "open"
    hot = meaning(**(GOOD | {"temperature": "100", "amps": "2.62", "holds": "no"}))
    assert not any("fit together" in words for words in (*all_words(cold), *all_words(hot)))


@pytest.mark.parametrize("changed", [{}, {"amps": "0.00"}, {"amps": ""}])
def test_a_magnet_nobody_felt_for_is_not_named(changed):
    result = meaning(**(HOLDS | {"magnet": ""} | changed))
    assert not any("magnet" in text.lower() for text in all_words(result))


def test_the_first_button_sets_what_its_words_say_and_nothing_else():
    assert KIND.fine
    assert KIND.fine.taps == {"holds": "yes", "lets_go": "yes"}


# Slips, odd readings and orders.


def test_no_current_beside_a_pulling_magnet_is_said_not_to_fit():
    result = meaning(**(HOLDS | {"amps": "0.00"}))
    assert result.outcome.code == "takes_hold"
    assert any("do not fit together" in note for note in result.notes)


def test_a_clamp_the_other_way_round_counts_by_its_amount():
    assert code(**(GOOD | {"amps": "-3.05", "holds": "no", "pushed": "yes"})) == "holds_when_pushed"
    assert any("other way round" in note for note in meaning(**(HOLDS | {"amps": "-3.05"})).notes)


def test_a_current_typed_in_milliamps_means_the_same():
    one, other = meaning(**HOLDS), meaning(**(HOLDS | {"amps": "3050 mA"}))
    assert one.outcome.code == other.outcome.code
    assert band(one) == band(other)


@pytest.mark.parametrize("told", [{"holds": "yes"}, {"holds": "no", "pushed": "yes"}])
def test_a_clutch_that_takes_hold_without_a_magnet_is_asked_about(told):
    typed = {"engine": "off", "volts": "12.4", "amps": "3.4", "magnet": "no", **told}
    assert "magnet" in Trial("coil_power").asks({"drive": "belt_clutch", "voltage": "12"}, **typed)


def test_a_clutch_that_holds_with_far_too_little_current_sends_to_the_coil_too():
    car: System = {"drive": "belt_clutch", "voltage": "12"}
    typed = {"engine": "off", "volts": "12.4", "amps": "0.4", "magnet": "yes", "holds": "yes"}
    assert "measure the coil" in " ".join(Trial("coil_power").meaning(car, **typed).onward)
