"""The oil that came out: what its look tells, and that it is counted once. Trade articles."""

import pytest

from diagnostics.evidence.system import System
from tests.evidence.trial import Trial, standing, subjects

OIL = Trial("oil_condition")

PATTERNS = [
    ({"acid": "yes", "look": "clear"}, "acid"),
    ({"look": "black"}, "burnt"),
    ({"look": "clear", "smell": "yes"}, "burnt"),
    ({"look": "milky"}, "moist"),
    ({"look": "dark"}, "dark"),
    ({"look": "clear"}, "clear"),
    ({"amount": "60"}, "amount"),
    ({"dye": "yes"}, "nothing_told"),
    ({"label": "pag46"}, "nothing_told"),
]


@pytest.mark.parametrize(("typed", "outcome"), PATTERNS)
def test_each_look_has_its_outcome(typed, outcome):
    assert OIL.code({}, **typed) == outcome


def test_every_outcome_listed_has_its_pattern():
    assert {outcome for _typed, outcome in PATTERNS} == {one.code for one in OIL.kind.outcomes}


def test_black_or_burnt_oil_points_at_heat_or_moisture():
    assert standing(OIL.meaning({}, look="black"), "Oil broken down") == "likely"
    assert standing(OIL.meaning({}, look="dark"), "Oil broken down") == "open"


def test_milky_oil_points_at_moisture_beside_whatever_else_was_seen():
    assert standing(OIL.meaning({}, look="milky", acid="yes"), "Moisture") == "likely"


# Mistakes: factory dye read as a leak; oil counted twice.


def test_dye_in_the_oil_is_no_leak():
    result = OIL.meaning({}, look="clear", dye="yes")
    assert standing(result, "A leak") == "open"
    assert subjects(result, "likely", "proved") == []


def test_an_amount_is_said_to_be_counted_once_and_to_be_no_refrigerant():
    words = OIL.words({}, look="clear", amount="60")
    assert "Count oil once" in words
    assert "Oil is no refrigerant." in words
    assert "What it came out of: not told." in words


def test_clear_oil_rules_nothing_out():
    assert subjects(OIL.meaning({}, **OIL.fine), "ruled_out") == []


def test_the_wrong_kind_of_oil_on_a_high_voltage_compressor_is_asked_about():
    electric: System = {"drive": "electric_hv"}
    for drive in ("electric_hv", "belt_electric"):
        assert "read the label again" in OIL.words({"drive": drive}, amount="60", label="pag46")
    assert "read the label again" not in OIL.words(electric, amount="60", label="poe")


def test_more_than_any_loop_gives_up_is_asked_about():
    assert list(OIL.asks({}, amount="900")) == ["amount"]
    assert OIL.code({}, amount="9000") == "nothing_told"


def test_fluid_ounces_are_read_too():
    (value,) = OIL.meaning({}, amount="2 fl oz").values
    assert value.shown == "2\u00a0fl oz"


def test_it_minds_burnt_oil_on_the_skin_and_the_lamp_that_shows_dye():
    words = " ".join(OIL.kind.cautions)
    assert "Burnt oil is acid" in words
    assert "UV glasses" in words


@pytest.mark.parametrize("look", ["black", "dark"])
@pytest.mark.parametrize("acid", ["", "not_tried", "no"])
def test_an_acid_test_that_was_made_is_not_asked_for_again(look, acid):
    result = OIL.meaning({}, look=look, acid=acid)
    onward = " ".join(result.onward)
    assert ("cid test" in onward) == (acid != "no")
    assert "debris" in onward


def test_black_oil_without_acid_says_that_the_test_shows_none():
    assert "the acid test shows none" in OIL.words({}, look="black", acid="no")
    assert "the acid test shows none" not in OIL.words({}, look="black")
