"""The compressor's nose: whose oil, and what dye does not tell. Common practice, no source."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

SEAL = Trial("shaft_seal")
BELT: System = {"drive": "belt_clutch"}

PATTERNS = [
    ({"nose": "dry"}, "dry"),
    ({"nose": "dry", "dye": "only_inside"}, "dry"),
    ({"nose": "trace"}, "trace"),
    ({"nose": "trace", "dye": "only_inside"}, "trace"),
    ({"nose": "wet", "whose": "cannot_tell"}, "wet"),
    ({"nose": "wet", "dye": "at_nose"}, "loop_oil"),
    ({"nose": "wet", "detector": "alarms"}, "loop_oil"),
    ({"nose": "dry", "dye": "at_nose"}, "loop_oil"),
    ({"nose": "wet", "whose": "loop"}, "loop_oil"),
    ({"nose": "wet", "dye": "at_nose", "again": "came_back"}, "loop_oil_again"),
    ({"nose": "dry", "detector": "alarms"}, "alarm_only"),
    ({"detector": "alarms"}, "alarm_only"),
    ({"nose": "wet", "whose": "engine"}, "other_oil"),
    ({"nose": "trace", "again": "stayed_dry"}, "old_stain"),
    ({"nose": "wet", "dye": "at_nose", "again": "stayed_dry"}, "old_stain"),
    ({"dye": "only_inside"}, "nothing_told"),
    ({"detector": "silent", "pressure": "yes"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert SEAL.code(BELT, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in SEAL.kind.outcomes}


def test_dye_in_the_oil_alone_is_no_leak():
    result = SEAL.meaning(BELT, nose="dry", dye="only_inside")
    assert subjects(result, "likely", "proved") == []
    assert any("dyed at the factory" in note for note in result.notes)
    assert not SEAL.meaning(BELT, dye="only_inside").outcome.carries


def test_dye_at_the_nose_means_oil_came_out_there_and_is_proved_only_after_wiping():
    assert standing(SEAL.meaning(BELT, nose="wet", dye="at_nose"), "Shaft seal") == "likely"
    again = SEAL.meaning(BELT, nose="wet", dye="at_nose", again="came_back")
    assert standing(again, "Shaft seal") == "proved"


def test_oil_whose_owner_is_not_settled_points_at_nothing():
    for nose in ("trace", "wet"):
        assert subjects(SEAL.meaning(BELT, nose=nose), "likely", "proved") == []


def test_engine_oil_does_not_point_at_the_seal_and_does_not_clear_it():
    assert standing(SEAL.meaning(BELT, nose="wet", whose="engine"), "Shaft seal") == "open"
    both = SEAL.meaning(BELT, nose="wet", whose="engine", dye="at_nose")
    assert any("both may be there" in note for note in both.notes)


def test_an_alarm_at_a_dry_nose_is_swept_again():
    result = SEAL.meaning(BELT, nose="dry", detector="alarms")
    assert standing(result, "Shaft seal") == "open"
    assert "sweep again" in result.onward[0]


def test_a_silent_detector_tells_nothing_without_pressure_in_the_loop():
    silent = {"nose": "dry", "detector": "silent"}
    assert any("no pressure" in one for one in SEAL.meaning(BELT, **silent).outcome.not_tested)
    told = SEAL.meaning(BELT, **silent, pressure="yes").outcome.not_tested
    assert not any("no pressure" in one for one in told)


def test_a_dry_nose_is_never_said_to_have_no_leak():
    result = SEAL.meaning(BELT, nose="dry", dye="none", detector="silent", pressure="yes")
    assert "small leak" in " ".join(words_of(result))
    assert not any("no leak" in text.lower() for text in words_of(result))


def test_oil_is_asked_about_only_where_it_is_seen():
    assert "whose" in SEAL.asks(BELT, nose="dry", whose="loop")
    assert SEAL.asks(BELT, nose="wet", whose="loop") == {}


@pytest.mark.parametrize("drive", ["electric_hv", "electric_48"])
def test_it_is_barred_where_no_shaft_comes_out(drive):
    assert SEAL.kind.forbids({"drive": drive})
    assert SEAL.code({"drive": drive}, nose="wet", dye="at_nose") == "nothing_told"


def test_fine_is_a_dry_nose():
    assert SEAL.code(BELT, **SEAL.fine) == "dry"


def test_a_dry_nose_is_dry_whether_the_car_fails_or_not():
    assert SEAL.meaning(BELT, failing="cannot_tell", nose="dry").outcome.carries


def test_any_answer_alone_says_something_sensible():
    for asked in SEAL.kind.choices:
        for answer in asked.answers:
            assert SEAL.meaning(BELT, **{asked.name: answer.code}).outcome.sentence


def test_it_warns_of_the_lamp_and_of_flames():
    words = " ".join(SEAL.kind.cautions)
    assert "UV glasses" in words
    assert "flame" in words
