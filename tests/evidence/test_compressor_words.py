"""What the compressor's tests say, over every pattern of readings they are tried with."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence import (
    test_control_valve_duty,
    test_equalising,
    test_hub_turn,
    test_hv_command,
    test_hv_isolation,
    test_noise,
    test_running_pressures,
    test_shaft_seal,
)
from tests.evidence.test_kind import BANNED
from tests.evidence.trial import Trial, words_of

# Kind, car, readings.
SAID: list[tuple[str, System, dict[str, str]]] = [
    ("equalising", test_equalising.FIXED, typed) for typed, _outcome in test_equalising.PATTERNS
]
SAID += [("shaft_seal", test_shaft_seal.BELT, typed) for typed, _ in test_shaft_seal.PATTERNS]
SAID += [
    ("control_valve_duty", test_control_valve_duty.OUTER, typed)
    for typed, _outcome in test_control_valve_duty.PATTERNS
]
SAID += [("hv_command", test_hv_command.HV, typed) for typed, _ in test_hv_command.PATTERNS]
SAID += [("hv_isolation", test_hv_isolation.HV, typed) for typed, _ in test_hv_isolation.PATTERNS]
SAID += [("hub_turn", system, typed) for system, typed, _ in test_hub_turn.PATTERNS]
SAID += [("noise", system, typed) for system, typed, _ in test_noise.PATTERNS]
SAID += [
    ("running_pressures", system, typed) for system, typed, _ in test_running_pressures.PATTERNS
]
ALL = pytest.mark.parametrize(("name", "system", "typed"), SAID)


@ALL
def test_nothing_is_said_that_we_do_not_say(name, system, typed):
    for text in words_of(Trial(name).meaning(system, **typed)):
        assert not BANNED.search(text), text
        assert "no leak" not in text.lower()


@ALL
def test_an_outcome_that_carries_nothing_has_no_marks(name, system, typed):
    outcome = Trial(name).meaning(system, **typed).outcome
    assert outcome.carries or outcome.marks == ()


@ALL
def test_it_is_told_what_the_step_says_nothing_about(name, system, typed):
    assert Trial(name).meaning(system, **typed).outcome.not_tested
