"""The clutch's faces: what slipping looks like, that wear widens the gap, and whose oil it is.

Signs and causes of slipping: trade articles. Whose oil: common practice, no source.
"""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects, words_of

FACE = Trial("clutch_face")
BELT: System = {"drive": "belt_clutch"}
CLEAN = FACE.fine

PATTERNS: list[tuple[dict[str, str], str]] = [
    (CLEAN, "clean"),
    (CLEAN | {"melted": "yes"}, "melted"),
    (CLEAN | {"color": "yes"}, "overheated"),
    ({"smell": "yes"}, "overheated"),
    (CLEAN | {"dust": "yes"}, "dusty"),
    (CLEAN | {"rust": "yes"}, "rusty"),
    (CLEAN | {"oil": "yes"}, "oily"),
    (CLEAN | {"oil": "yes", "whose": "cannot_tell"}, "oily"),
    (CLEAN | {"oil": "yes", "whose": "engine"}, "other_oil"),
    (CLEAN | {"oil": "yes", "whose": "dye"}, "loop_oil"),
    (CLEAN | {"oil": "yes", "whose": "detector", "melted": "yes"}, "loop_oil"),
    (CLEAN | {"rust": "not_looked"}, "nothing_told"),
    ({"oil": "no"}, "nothing_told"),
    ({"plate": "off"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert FACE.code(BELT, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in FACE.kind.outcomes}


@pytest.mark.parametrize("sign", ["melted", "color", "smell"])
def test_heat_points_at_slipping_and_at_none_of_its_causes(sign):
    result = FACE.meaning(BELT, **CLEAN | {sign: "yes"})
    assert subjects(result, "likely", "proved") == ["Clutch that slipped"]
    why = next(mark.sentence for mark in result.outcome.marks if mark.subject == "Why it slipped")
    for cause in ("low voltage", "wide gap", "oil", "stiff compressor", "belt", "hub nut or key"):
        assert cause in why


@pytest.mark.parametrize("sign", ["dust", "melted"])
def test_wear_is_what_widens_the_gap_so_the_gap_is_measured(sign):
    result = FACE.meaning(BELT, **CLEAN | {sign: "yes"})
    assert standing(result, "Gap too wide") == "open"
    assert "Measure the air gap." in result.onward


def test_heat_sends_to_the_gap_whatever_named_the_outcome():
    result = FACE.meaning(BELT, oil="yes", whose="dye", color="yes")
    assert result.outcome.code == "loop_oil"
    assert result.onward[-1] == "Measure the air gap."


def test_heat_sends_to_the_hub_since_a_stiff_compressor_makes_a_clutch_slip():
    assert "Turn the hub by hand." in FACE.meaning(BELT, color="yes").onward


@pytest.mark.parametrize(("whose", "shown"), [("dye", "dye at the nose"), ("detector", "alarm")])
def test_the_loops_oil_points_at_the_shaft_seal_and_says_by_what(whose, shown):
    result = FACE.meaning(BELT, oil="yes", whose=whose)
    assert standing(result, "Shaft seal") == "likely"
    assert shown in FACE.words(BELT, oil="yes", whose=whose)


def test_oil_whose_owner_is_not_settled_points_at_nothing():
    for typed in ({"oil": "yes"}, {"oil": "yes", "whose": "cannot_tell"}):
        assert subjects(FACE.meaning(BELT, **typed), "likely", "proved") == []


def test_engine_oil_does_not_point_at_the_seal():
    result = FACE.meaning(BELT, oil="yes", whose="engine")
    assert not any("seal" in one for one in subjects(result, "likely"))


def test_everything_seen_is_marked_whatever_names_the_outcome():
    result = FACE.meaning(BELT, oil="yes", whose="dye", color="yes", rust="yes")
    assert {"Shaft seal", "Clutch that slipped", "Rusty faces"} <= {
        mark.subject for mark in result.outcome.marks
    }


def test_a_sign_not_looked_for_is_named_and_the_faces_are_not_called_clean():
    result = FACE.meaning(BELT, **CLEAN | {"oil": "not_looked"})
    assert not result.outcome.carries
    assert "Oil: not told." in result.outcome.not_tested


def test_with_the_plate_on_the_faces_behind_it_were_not_seen():
    line = "Faces behind the plate: not seen unless it was taken off."
    assert line in FACE.meaning(BELT, **CLEAN, plate="on").outcome.not_tested
    assert line not in FACE.meaning(BELT, **CLEAN, plate="off").outcome.not_tested


def test_rust_alone_names_no_fault():
    result = FACE.meaning(BELT, **CLEAN | {"rust": "yes"})
    assert subjects(result, "likely", "proved") == []


def test_fine_sets_the_rest_only():
    assert FACE.kind.fine
    assert FACE.kind.fine.rest
    assert set(FACE.fine.values()) == {"no"}


def test_clean_faces_are_clean_whether_the_car_fails_or_not():
    assert FACE.meaning(BELT, failing="no", **CLEAN).outcome.carries


def test_whose_oil_is_asked_only_where_oil_is_seen():
    assert "whose" in FACE.asks(BELT, oil="no", whose="dye")


@pytest.mark.parametrize("drive", ["belt_clutchless", "electric_hv", "electric_48"])
def test_it_is_barred_without_a_clutch_and_says_nothing_there(drive):
    assert FACE.kind.forbids({"drive": drive})
    assert not FACE.meaning({"drive": drive}, melted="yes").outcome.carries


def test_any_answer_alone_says_something_sensible():
    for asked in FACE.kind.choices:
        for answer in asked.answers:
            assert words_of(FACE.meaning(BELT, **{asked.name: answer.code}))


def test_it_warns_of_an_engine_that_starts_by_itself_and_of_the_lamp():
    words = " ".join(FACE.kind.cautions)
    assert "start by itself" in words
    assert "UV glasses" in words


@pytest.mark.parametrize("plate", ["", "on"])
def test_faces_behind_a_plate_that_stays_on_are_not_cleared(plate):
    typed = {name: code for name, code in (CLEAN | {"plate": plate}).items() if code}
    result = FACE.meaning(BELT, **typed)
    assert subjects(result, "ruled_out") == []
    assert "from outside" in result.outcome.sentence
    off = FACE.meaning(BELT, **CLEAN | {"plate": "off"})
    assert standing(off, "Burnt") == "ruled_out"
