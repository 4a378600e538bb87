"""Drop on the ground side: at most 0.1 V with current (common practice, no source)."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

GROUND = Trial("ground_drop")
CLUTCH: System = {"drive": "belt_clutch", "voltage": "12"}
BY_GROUND: System = CLUTCH | {"switched_side": "ground"}

PATTERNS = [
    ({"volts": "0.03"}, "within"),
    ({"volts": "95 mV"}, "within"),
    ({"volts": "0.1"}, "cannot_tell"),
    ({"volts": "0.4"}, "above"),
    ({"volts": "3"}, "far"),
    ({"volts": "0.4", "carries": "no"}, "nothing_told"),
    ({"volts": "0.01", "carries": ""}, "nothing_told"),
    ({"volts": ""}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_drop_has_its_outcome(typed, outcome):
    assert GROUND.code(CLUTCH, **({"carries": "yes"} | typed)) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in GROUND.kind.outcomes}


def test_without_current_a_ground_that_loses_nothing_is_not_called_good():
    result = GROUND.meaning(CLUTCH, volts="0.00", carries="no")
    assert not result.outcome.carries
    assert not result.outcome.marks
    assert "Ground side: not tested." in result.outcome.not_tested


@pytest.mark.parametrize(
    ("path", "named"),
    [("wire", "Ground wire"), ("case", "Ground through the case"), ("cannot_tell", "Ground side")],
)
def test_more_than_0_1_v_points_at_the_way_by_which_the_coil_is_grounded(path, named):
    result = GROUND.meaning(CLUTCH, volts="0.4", carries="yes", path=path)
    assert standing(result, named) == "likely"


def test_a_coil_switched_on_the_ground_side_is_not_condemned_by_the_limit_of_a_plain_ground():
    result = GROUND.meaning(BY_GROUND, volts="0.4", carries="yes", path="wire")
    assert not subjects(result, "likely")
    assert "this vehicle’s own figure" in result.outcome.marks[0].sentence


def test_what_cannot_be_told_is_read_again_on_the_mv_range():
    result = GROUND.meaning(CLUTCH, volts="0.1", carries="yes")
    assert result.onward == ("Read it again on the meter’s mV range.",)
    assert "cannot be told with this instrument" in result.outcome.sentence


def test_the_limit_says_that_it_has_no_source():
    assert "common practice, no source" in GROUND.meaning(CLUTCH, volts="0.4", carries="yes").band


def test_24_v_is_recorded_and_not_judged():
    heavy: System = {"drive": "belt_clutch", "voltage": "24"}
    assert GROUND.code(heavy, volts="0.4", carries="yes") == "nothing_told"


def test_the_feed_is_never_cleared_by_the_ground_side():
    result = GROUND.meaning(CLUTCH, volts="0.03", carries="yes")
    assert "Feed of the coil: not tested by this step." in result.outcome.not_tested


@pytest.mark.parametrize("amps", ["0.06", "0.5", "0.9"])
def test_a_small_drop_at_little_current_clears_nothing(amps):
    result = GROUND.meaning(CLUTCH, volts="0.01", amps=amps)
    assert result.outcome.code == "nothing_told"
    assert "at so little" in result.outcome.sentence
    assert result.outcome.marks == ()


def test_a_large_drop_at_little_current_is_a_loss_all_the_same():
    assert GROUND.code(CLUTCH, volts="2.0", amps="0.3") == "far"


def test_little_current_is_current_all_the_same():
    assert GROUND.asks(CLUTCH, volts="2.0", amps="0.3", carries="yes") == {}
    assert list(GROUND.asks(CLUTCH, volts="2.0", amps="0.3", carries="no")) == ["amps"]


# With the ground closed and no current the coil's ground reads nothing: by Ohm's law.


@pytest.mark.parametrize("side", ["", "feed", "ground"])
def test_the_feeds_voltage_on_the_coils_ground_without_current_is_told_as_not_closed(side):
    result = GROUND.meaning(CLUTCH | {"switched_side": side}, volts="12.4", carries="no")
    assert not result.outcome.carries
    (note,) = result.notes
    assert "12.4\u00a0V between the two points and no current: the ground side is" in note
    assert ("switches it" in note) == (side == "ground")
    assert ("not noted" in note) == (side == "")
    assert "battery minus" in result.onward[0] or "Find out" in result.onward[0]


def test_little_volts_without_current_still_say_nothing():
    assert GROUND.meaning(CLUTCH, volts="0.4", carries="no").notes == ()


def test_24_v_is_judged_by_no_figure_for_12_v():
    heavy: System = {"drive": "belt_clutch", "voltage": "24"}
    little = GROUND.meaning(heavy, volts="0.05", amps="0.8")
    assert "24\u00a0V" in little.outcome.sentence
    assert GROUND.meaning(heavy, volts="12.4", carries="no").notes == ()


def test_nothing_lost_on_a_ground_that_carries_current_is_asked_about():
    """0.4 m of 35 mm² copper has 0.2 mΩ (resistivity of IEC 60028)."""
    assert "volts" in GROUND.asks(CLUTCH, volts="0.000", amps="3.5")
    assert GROUND.asks(CLUTCH, volts="0.001", amps="3.5") == {}
    assert GROUND.asks(CLUTCH, volts="0.00", amps="3.5") == {}
