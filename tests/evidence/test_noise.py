"""A noise: what A/C on and off part, and what an ear does not tell.

That the shaft stands still with the clutch let go, and that a bearing is heard then: trade
articles. That belt, mounts, charge and head pressure come before a compressor is named: workshop
manuals.
"""

import pytest

from diagnostics.evidence.cautions import STOP_DRIVING
from diagnostics.evidence.fields import Choice
from diagnostics.evidence.kinds.noise import NOISE
from diagnostics.evidence.problems import NOT_HERE
from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

EAR = Trial("noise")
CLUTCH: System = {"drive": "belt_clutch"}
CLUTCHLESS: System = {"drive": "belt_clutchless"}
ELECTRIC: System = {"drive": "electric_hv"}
ON = {"on": "yes", "off": "no"}
OFF = {"on": "yes", "off": "yes"}

PATTERNS: list[tuple[System, dict[str, str], str]] = [
    (CLUTCH, {"on": "no", "off": "no"}, "none_heard"),
    (CLUTCH, OFF | {"where": "pulley", "what": "rumble"}, "pulley"),
    (CLUTCH, OFF | {"what": "rumble"}, "drive_side"),
    (CLUTCH, ON | {"what": "squeal"}, "squeal_on"),
    (CLUTCH, ON | {"what": "knock"}, "knock_on"),
    (CLUTCH, ON, "on_only"),
    (CLUTCH, {"what": "hiss", "where": "device"}, "hiss"),
    (CLUTCH, {"on": "yes"}, "not_parted"),
    (CLUTCHLESS, OFF | {"where": "pulley"}, "not_parted"),
    (CLUTCHLESS, ON, "on_only"),
    (ELECTRIC, OFF, "not_parted"),
    (ELECTRIC, ON | {"what": "knock"}, "knock_on"),
    (CLUTCH, {"what": "knock"}, "nothing_told"),
    (CLUTCH, {"on": "no", "off": "not_tried"}, "nothing_told"),
]


@pytest.mark.parametrize(("system", "typed", "outcome"), PATTERNS)
def test_each_noise_has_its_outcome(system, typed, outcome):
    assert EAR.code(system, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for *_rest, outcome in PATTERNS} == {one.code for one in EAR.kind.outcomes}


def test_a_compressor_is_never_named_by_its_noise():
    for system, typed, _outcome in PATTERNS:
        named = subjects(EAR.meaning(system, **typed), "likely", "proved", "ruled_out")
        assert [subject for subject in named if subject != "Pulley bearing"] == []


def test_a_pulley_that_is_loud_with_the_hub_standing_still_is_pointed_at():
    result = EAR.meaning(CLUTCH, **OFF, where="pulley")
    assert standing(result, "Pulley bearing") == "likely"
    assert standing(result, "Compressor’s inside") == "open"


def test_without_a_clutch_a_c_off_parts_nothing():
    result = EAR.meaning(CLUTCHLESS, **OFF, where="pulley")
    assert subjects(result, "likely") == []
    assert any("does not part the two" in note for note in result.notes)


def test_a_bearing_that_rumbles_tells_the_customer_to_stop_driving():
    assert STOP_DRIVING in EAR.meaning(CLUTCH, **OFF, what="rumble").notes
    assert STOP_DRIVING not in EAR.meaning(CLUTCH, **ON, what="squeal").notes


def test_a_knock_is_not_yet_a_broken_compressor():
    result = EAR.meaning(CLUTCH, **ON, what="knock")
    assert standing(result, "Compressor’s inside") == "open"
    assert "loose mounts" in result.outcome.marks[0].sentence


def test_a_noise_described_and_heard_nowhere_is_asked_about():
    assert "what" in EAR.asks(CLUTCH, on="no", off="no", what="knock")
    assert EAR.asks(CLUTCH, **EAR.fine) == {}


def test_no_noise_of_a_car_that_is_not_failing_carries_nothing():
    assert not EAR.meaning(CLUTCH, failing="no", **EAR.fine).outcome.carries


def test_hub_and_charge_are_known_before_it_is_run_to_listen():
    assert [one.code for one in EAR.kind.not_kept([], CLUTCH)] == ["hub_first", "charge_first"]
    assert [one.code for one in EAR.kind.not_kept([], ELECTRIC)] == ["charge_first"]


def test_high_voltage_is_told_where_it_is():
    assert any("never a 12 V test" in words for words in EAR.kind.remarks_for(ELECTRIC))


@pytest.mark.parametrize("asked", [one for one in NOISE.fields if isinstance(one, Choice)])
def test_any_answer_alone_says_something_sensible(asked):
    for answer in asked.answers:
        for system in (CLUTCH, CLUTCHLESS, ELECTRIC, System()):
            assert EAR.meaning(system, **{asked.name: answer.code}).outcome.sentence


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
@pytest.mark.parametrize("what", ["rumble", "squeal", "knock", "other"])
@pytest.mark.parametrize("heard", [ON, OFF, {"on": "yes"}])
def test_no_belt_and_no_pulley_is_spoken_of_where_a_motor_turns_it(drive, what, heard):
    words = EAR.words({"drive": drive}, **heard, what=what).lower()
    for part in ("belt", "pulley", "clutch", "idler"):
        assert part not in words, words


@pytest.mark.parametrize("where", ["pulley", "belt"])
def test_a_pulley_or_belt_that_an_electric_compressor_does_not_have_is_asked_about(where):
    assert EAR.asks(ELECTRIC, **ON, where=where) == {"where": [NOT_HERE]}
    assert EAR.asks(CLUTCH, **ON, where=where) == {}
    assert EAR.asks({}, **ON, where=where) == {}  # the drive is not noted


def test_another_unit_can_be_the_loudest_where_a_motor_turns_the_compressor():
    assert EAR.asks(ELECTRIC, **ON, where="unit") == {}
    result = EAR.meaning(ELECTRIC, **ON, where="unit")
    assert result.outcome.carries
    assert "Loudest at another unit, then: no belt turns this compressor." in result.notes
