"""Debris in the open loop: what each kind comes from, and what is not flushed. Trade articles."""

import pytest

from diagnostics.evidence.cautions import HIGH_VOLTAGE
from diagnostics.evidence.kinds.debris import PLACES
from tests.evidence.trial import Trial, standing, subjects

DEBRIS = Trial("debris")
AT = {"expansion": "found"}
CLEAN = dict.fromkeys(PLACES, "clean")

PATTERNS = [
    (AT | {"flakes": "yes"}, "metal"),
    (AT | {"flakes": "yes", "brass": "yes"}, "metal"),
    (AT | {"jelly": "yes"}, "leak_stop"),
    (AT | {"paste": "yes"}, "paste"),
    (AT | {"beads": "yes"}, "desiccant"),
    (AT | {"crumbs": "yes"}, "hose"),
    (AT | {"flakes": "yes", "paste": "yes"}, "several"),
    (AT, "found"),
    (CLEAN, "clean"),
    (DEBRIS.fine, "part_clean"),
    ({"condenser": "parallel"}, "nothing_told"),
    (dict.fromkeys(PLACES, "not_opened"), "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_find_has_its_outcome(typed, outcome):
    assert DEBRIS.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in DEBRIS.kind.outcomes}


@pytest.mark.parametrize(
    ("kind", "source"),
    [
        ("flakes", "Compressor wear"),
        ("brass", "Compressor’s bushing"),
        ("paste", "Oil broken down"),
        ("beads", "Desiccant bag"),
        ("crumbs", "Hose’s liner"),
        ("jelly", "Leak-stop"),
    ],
)
def test_each_kind_is_seen_and_points_where_it_comes_from(kind, source):
    result = DEBRIS.meaning({}, **AT | {kind: "yes"})
    assert standing(result, source) == "likely"
    assert len(subjects(result, "proved")) == 1


# Mistake: flushing what cannot be flushed.


def test_a_parallel_flow_condenser_is_replaced_and_not_flushed():
    words = DEBRIS.words({}, **AT | {"flakes": "yes", "condenser": "parallel"})
    assert "cannot be flushed reliably" in words
    assert "Compressor, drier and expansion device are not flushed." in words


def test_a_condenser_nobody_looked_at_is_asked_about_after_debris():
    assert "See which condenser it is" in DEBRIS.words({}, **AT | {"flakes": "yes"})


def test_clean_where_it_was_opened_says_nothing_of_the_rest():
    result = DEBRIS.meaning({}, **DEBRIS.fine)
    assert standing(result, "Debris elsewhere") == "open"
    assert subjects(result, "ruled_out") == []
    assert any(one.startswith("Not opened: ") for one in result.outcome.not_tested)


def test_leak_stop_keeps_the_shops_own_machine_off():
    assert "own machine off" in " ".join(DEBRIS.meaning({}, **AT | {"jelly": "yes"}).onward)


def test_leak_stop_beside_other_debris_keeps_the_shops_own_machine_off_too():
    result = DEBRIS.meaning({}, **AT | {"jelly": "yes", "flakes": "yes"})
    assert result.outcome.code == "several"
    assert "own machine off" in " ".join(result.onward)


def test_debris_found_at_no_place_is_asked_about_once_every_place_is_told():
    assert list(DEBRIS.asks({}, **DEBRIS.fine, beads="yes")) == ["beads"]
    assert DEBRIS.asks({}, beads="yes") == {}


def test_debris_at_places_all_told_as_clean_is_asked_about():
    assert list(DEBRIS.asks({}, **CLEAN | {"flakes": "yes"})) == ["flakes"]
    assert DEBRIS.code({}, **CLEAN | {"flakes": "yes"}) == "nothing_told"


def test_it_says_to_take_a_photo_of_what_was_found():
    assert "photo" in DEBRIS.meaning({}, **AT | {"paste": "yes"}).onward[0]


def test_burnt_oil_is_kept_off_the_skin():
    assert any("acid" in one for one in DEBRIS.kind.cautions)


def test_high_voltage_is_minded_on_an_electric_compressor():
    assert HIGH_VOLTAGE in DEBRIS.kind.remarks_for({"drive": "electric_hv"})
    assert DEBRIS.kind.remarks_for({"drive": "belt_clutch"}) == ()


@pytest.mark.parametrize("expansion", ["clean", "not_opened", ""])
def test_what_was_opened_is_not_asked_to_be_opened_again(expansion):
    told = {"drier": "clean", "expansion": expansion}
    onward = " ".join(DEBRIS.meaning({}, **told).onward)
    assert ("expansion device’s inlet" in onward) == (expansion != "clean")


def test_debris_found_elsewhere_sends_to_an_expansion_device_not_yet_opened():
    told = {"hose": "found", "flakes": "yes"}
    assert any("Open the expansion" in one for one in DEBRIS.meaning({}, flakes="yes").onward)
    look = "Open the expansion device’s inlet"
    assert any(look in one for one in DEBRIS.meaning({}, **told).onward)
    for shown in ("found", "clean"):
        onward = DEBRIS.meaning({}, **told, expansion=shown).onward
        assert not any(look in one for one in onward)
