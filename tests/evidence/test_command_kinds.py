"""What all tests of the command keep to: the cars they are for, and that no reading breaks them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.cautions import LOCAL
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Choice, Number
from diagnostics.evidence.system import System
from tests.evidence.test_kind import BANNED
from tests.evidence.trial import Trial, asked_on, words_of

NAMES = (
    "fuse",
    "relay",
    "pressure_switch",
    "command_data",
    "feed_voltage",
    "feed_drop",
    "ground_drop",
)
EACH = pytest.mark.parametrize("name", NAMES)
COIL_TESTS = pytest.mark.parametrize("name", ["relay", "feed_voltage", "feed_drop", "ground_drop"])
TYPED = ("0", "0.05", "0.25", "0.9", "-3.1", "5", "11.4", "13.9", "27.5", "340", "9999")
FIELDS = [(name, one.name) for name in NAMES for one in KINDS[name].fields]
SYSTEMS: tuple[System, ...] = (
    {},
    {"drive": "belt_clutch", "voltage": "12", "switched_side": "feed", "refrigerant": "R-134a"},
    {"drive": "belt_clutch", "voltage": "24", "switched_side": "ground", "refrigerant": "R-744"},
    {"drive": "belt_clutchless", "displacement": "variable_outer"},
    {"drive": "electric_hv", "refrigerant": "R-1234yf"},
)


def told(name: str):
    """Readings of a kind, each field left out, tapped or typed."""
    kind = KINDS[name]
    answers = {
        one.name: st.sampled_from(
            ["", *(a.code for a in one.answers)] if isinstance(one, Choice) else ["", *TYPED]
        )
        for one in kind.fields
    }
    return st.fixed_dictionaries(answers)


@EACH
def test_a_test_of_the_command_stands_in_its_group_and_ends_on_local_codes(name):
    kind = KINDS[name]
    assert kind.about == "command"
    assert kind.cautions[-1] == LOCAL


@EACH
def test_one_outcome_carries_nothing_and_one_says_that_nothing_wrong_was_seen(name):
    kind = KINDS[name]
    assert [one.code for one in kind.outcomes if not one.carries] == ["nothing_told"]
    assert any(one.normal for one in kind.outcomes)


@EACH
def test_with_nothing_told_it_carries_nothing_and_says_what_to_do(name):
    result = Trial(name).meaning()
    assert result.outcome.code == "nothing_told"
    assert not result.outcome.marks
    assert result.outcome.not_tested
    assert result.onward


@pytest.mark.parametrize(("name", "field"), FIELDS)
@pytest.mark.parametrize("system", SYSTEMS)
def test_every_field_alone_is_safe(name, field, system):
    trial, asked = Trial(name), KINDS[name].asked(field)
    values = [one.code for one in asked.answers] if isinstance(asked, Choice) else TYPED
    for value in values:
        result = trial.meaning(system, **{field: value})
        assert result.outcome.sentence
        assert result.outcome.not_tested


@EACH
@settings(max_examples=60)
@given(st.data())
def test_any_readings_come_to_an_outcome_of_the_kind_in_words_we_use(name, data):
    trial = Trial(name)
    system = data.draw(st.sampled_from(SYSTEMS))
    result = trial.meaning(system, **data.draw(told(name)))
    assert result.outcome.code in {one.code for one in trial.kind.outcomes}
    for words in words_of(result):
        assert not BANNED.search(words), words
        assert "  " not in words
    if result.outcome.code == "nothing_told":
        assert result.outcome.marks == ()


@COIL_TESTS
@pytest.mark.parametrize(
    "system",
    [
        {"drive": "belt_clutchless"},
        {"drive": "electric_hv"},
        {"drive": "electric_48"},
        {"drive": "belt_electric", "clutch": "none"},
    ],
)
def test_where_there_is_no_clutch_coil_it_is_not_offered_and_says_nothing(name, system):
    kind = KINDS[name]
    assert kind.forbids(system)
    result = Trial(name).meaning(
        system, **{one.name: "0.5" for one in kind.fields if isinstance(one, Number)}
    )
    assert result.outcome.code == "nothing_told"
    assert result.notes[-1] == kind.forbids(system)


@COIL_TESTS
def test_where_the_drive_is_not_noted_it_asks_first(name):
    assert KINDS[name].asks({})
    assert KINDS[name].asks({"drive": "belt_clutch"}) is None


@pytest.mark.parametrize("name", ["fuse", "pressure_switch", "command_data"])
@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48", "belt_clutch"])
def test_fuse_pressure_and_data_are_offered_on_every_drive(name, drive):
    assert KINDS[name].forbids({"drive": drive}) is None


@pytest.mark.parametrize("name", ["fuse", "relay", "pressure_switch", "command_data"])
def test_a_normal_result_of_a_car_that_is_not_failing_says_little(name):
    trial = Trial(name)
    assert trial.kind.fine
    taps = dict(trial.kind.fine.taps)
    assert trial.meaning(failing="yes", **taps).outcome.carries
    assert not trial.meaning(failing="no", **taps).outcome.carries


@EACH
def test_no_more_than_ten_questions_stand_on_the_page_at_once(name):
    kind = KINDS[name]
    for system in SYSTEMS:
        around = Circumstances(system)
        asked = [one for one in asked_on(kind, around.system).values() if not one.when]
        rows = [one for one in asked if getattr(one, "compact", False)]
        assert len(asked) - len(rows) <= 10
