"""Trouble codes: pointers, written down before anything is cleared. Common practice, no source."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

CODES = Trial("codes")
BELT: System = {"drive": "belt_clutch", "voltage": "12"}
ELECTRIC = ("electric_hv", "electric_48", "belt_electric", "")

PATTERNS = [
    ({"stored": "stored", "relevant": "yes", "code_1": "P0645"}, "stored_ac"),
    ({"stored": "stored", "relevant": "no"}, "stored_other"),
    ({"stored": "stored"}, "stored"),
    ({"stored": "stored", "relevant": "not_sure"}, "stored"),
    ({"stored": "no_answer"}, "no_answer"),
    ({"stored": "none"}, "none"),
    ({"stored": "none", "cleared": "after"}, "nothing_told"),
    ({"stored": "none", "cleared": "before"}, "lost"),
    ({"stored": "not_read"}, "nothing_told"),
    ({"cleared": "no"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_reading_has_its_outcome(typed, outcome):
    assert CODES.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in CODES.kind.outcomes}


def test_a_code_is_told_as_it_was_read_and_names_no_part():
    result = CODES.meaning(
        BELT, stored="stored", relevant="yes", code_1="P0645", state_1="unshown", code_2="B1234"
    )
    assert "P0645, B1234" in result.outcome.sentence
    assert standing(result, "What the code names") == "open"
    assert subjects(result, "likely") == []
    assert "replace nothing by code alone" in result.onward[0]


def test_no_code_clears_no_circuit():
    result = CODES.meaning({}, **CODES.fine)
    assert result.outcome.code == "none"
    assert standing(result, "A/C circuits") == "open"
    assert subjects(result, "ruled_out") == []


def test_none_stored_after_somebody_cleared_them_says_nothing():
    result = CODES.meaning({}, stored="none", cleared="before")
    assert not result.outcome.carries
    assert "cleared before they were written down" in result.outcome.sentence


def test_codes_without_their_letters_are_named_as_missing():
    assert "Which codes: not told." in CODES.meaning({}, stored="stored").outcome.not_tested


def test_letters_of_codes_are_asked_only_where_there_are_codes():
    assert list(CODES.asks({}, stored="none", code_1="P0645")) == ["code_1"]


def test_each_code_stands_with_its_state():
    told = {"stored": "stored", "code_1": "P0645", "state_1": "stored"}
    result = CODES.meaning({}, **told, code_2="B1234", state_2="pending")
    assert "P0645 stored, B1234 pending." in result.outcome.sentence
    assert any("not confirmed yet" in one for one in result.notes)
    assert not CODES.meaning({}, **told).notes


@pytest.mark.parametrize("state", ["", "unshown"])
def test_a_code_whose_state_was_not_told_says_so(state):
    missing = CODES.meaning({}, stored="stored", code_1="P0645", state_1=state).outcome.not_tested
    assert "Whether P0645 is stored or pending: not told." in missing


def test_a_state_without_its_code_is_named_as_missing():
    told = {"stored": "stored", "code_1": "P0645", "state_1": "stored", "state_2": "pending"}
    assert "Code 2: not told." in CODES.meaning({}, **told).outcome.not_tested


def test_the_next_row_is_asked_once_the_one_before_is_told():
    assert list(CODES.asks({}, stored="stored", code_2="B1234")) == ["code_2"]
    told = {"stored": "stored", "code_1": "P0645", "state_1": "stored", "code_2": "B1234"}
    assert CODES.asks({}, **told) == {}


def test_what_is_no_code_is_asked_about():
    assert list(CODES.asks({}, stored="stored", code_1="none")) == ["code_1"]
    assert not CODES.meaning({}, stored="stored", code_1="none").outcome.carries


def test_the_same_code_twice_is_asked_about_and_one_both_stored_and_pending_is_not():
    told = {"stored": "stored", "code_1": "P0645", "state_1": "stored", "code_2": "p0645"}
    assert list(CODES.asks({}, **told, state_2="stored")) == ["code_2"]
    assert CODES.asks({}, **told, state_2="pending") == {}


def test_further_codes_are_told_beside_the_rows():
    told = {f"code_{row}": f"P060{row}" for row in range(1, 6)}
    told |= {f"state_{row}": "stored" for row in range(1, 6)}
    words = CODES.meaning({}, stored="stored", **told, further="U0100 pending").outcome.sentence
    assert words.endswith("P0605 stored, U0100 pending.")


def test_it_says_to_write_down_before_clearing():
    assert CODES.kind.cautions[0] == "Write codes down before clearing any."


@pytest.mark.parametrize("stored", ["none", "not_read"])
def test_clearing_after_writing_down_where_no_code_was_read_is_asked_about(stored):
    assert list(CODES.asks({}, stored=stored, cleared="after")) == ["cleared"]
    assert not CODES.meaning({}, stored=stored, cleared="after").outcome.carries
    assert CODES.asks({}, stored="stored", cleared="after") == {}


def test_a_module_without_answer_says_that_codes_cleared_before_may_be_lost():
    words = CODES.words({}, stored="no_answer", cleared="before")
    assert "others may be lost" in words


# Above 60 V by a person qualified for it only: trade articles. An isolation fault harms whoever
# touches the car, whether or not it bears on A/C.


@pytest.mark.parametrize("drive", ELECTRIC)
@pytest.mark.parametrize("relevant", ["yes", "no", "not_sure", ""])
def test_a_code_on_an_electric_car_goes_to_a_qualified_person_before_anything(drive, relevant):
    typed = {"stored": "stored", "relevant": relevant, "code_1": "P0AA6", "state_1": "stored"}
    onward = CODES.meaning({"drive": drive}, **typed).onward
    first = next(one for one in onward if "qualified" in one)
    assert "bearing on A/C or not" in first
    assert onward.index(first) < len(onward) - 1
    assert not any("with measurements" in one for one in onward)
    assert CODES.kind.remarks_for({"drive": drive})


def test_a_belt_driven_loop_that_cools_a_traction_battery_has_an_electric_side_too():
    system: System = BELT | {"branches": ["front", "battery"]}
    assert "qualified" in CODES.meaning(system, stored="stored", relevant="no").onward[0]
    assert CODES.kind.remarks_for(system)


def test_a_belt_driven_car_follows_its_code_with_measurements():
    (onward,) = CODES.meaning(BELT, stored="stored", relevant="yes").onward
    assert "with measurements" in onward
    assert not CODES.kind.remarks_for(BELT)


def test_where_the_drive_is_not_noted_a_code_asks_for_it_first():
    assert "not noted" in CODES.meaning({}, stored="stored", relevant="no").onward[0]


def test_a_module_without_answer_is_looked_at_on_its_12_v_side_only_where_there_is_another():
    (*_, last) = CODES.meaning({"drive": "electric_hv"}, stored="no_answer").onward
    assert last.endswith("on its 12\u00a0V side only.")


def test_a_code_of_high_voltage_is_warned_of_on_every_car():
    """A hybrid can turn its compressor by a belt."""
    assert any("high-voltage system, on any car" in one for one in CODES.kind.cautions)
