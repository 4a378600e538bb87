"""Names, safety classes and warming potentials; refrigerants.json names the sources."""

import pytest

from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.refrigerants import (
    NAMES,
    REFRIGERANTS,
    REPORTS,
    SAFETY_WORDS,
    co2_equivalent,
    label_forms,
    refrigerant_named,
    warming,
)
from tests.physics.cases import rows

WARMING = rows("check", "info", group="gwp")
SAFETY = rows("check", group="safety")


@pytest.mark.parametrize("row", WARMING, ids=[row["id"] for row in WARMING])
def test_a_warming_potential_is_that_of_its_report(row):
    found = warming(row["quantity"].split()[-1], row["input"]["report"][:3])
    if str(row["expected"]).startswith("<"):
        assert found.less_than
        assert found.value == float(row["expected"][1:])
    else:
        assert found.value == row["expected"]
        assert not found.less_than


@pytest.mark.parametrize("row", SAFETY, ids=[row["id"] for row in SAFETY])
def test_a_safety_class_is_that_of_the_standard(row):
    assert REFRIGERANTS[row["quantity"].split()[-1]].safety == row["expected"]


@pytest.mark.parametrize("name", NAMES)
def test_every_refrigerant_has_words_for_its_class_and_every_report(name):
    assert REFRIGERANTS[name].safety in SAFETY_WORDS
    assert set(REFRIGERANTS[name].warming) == set(REPORTS)
    assert all(one.report for one in REFRIGERANTS[name].warming.values())


def test_r1234yf_does_not_claim_to_stand_in_the_fourth_report():
    assert "not listed in AR4" in warming("R-1234yf", "AR4").report


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("R-134a", "R-134a"), ("r134A", "R-134a"), ("HFC-134a", "R-134a"), ("R 134 a", "R-134a"),
        ("HFO-1234yf", "R-1234yf"), ("CFC-12", "R-12"), ("R12", "R-12"), ("HFC152a", "R-152a"),
        ("CO2", "R-744"), ("CO₂", "R-744"), ("R744", "R-744"),
    ],
)  # fmt: skip
def test_a_name_is_read_as_labels_write_it(typed, name):
    assert refrigerant_named(typed).name == name


@pytest.mark.parametrize("typed", ["", "134", "R-410A", "R-1234", "gas"])
def test_a_name_that_is_not_known_is_not_guessed(typed):
    with pytest.raises(Malformed, match="none of the refrigerants"):
        refrigerant_named(typed)


def test_no_label_form_names_two_refrigerants():
    forms = [form for one in REFRIGERANTS.values() for form in label_forms(one)]
    assert len(forms) == len(set(forms))


def test_grams_become_carbon_dioxide_by_the_report_that_is_named():
    assert co2_equivalent("R-134a", 0.65) == pytest.approx(929.5)  # AR4: 1430
    assert co2_equivalent("R-134a", 0.65, "AR6") == pytest.approx(994.5)


def test_an_unknown_report_and_a_mass_below_zero_are_refused():
    with pytest.raises(Malformed, match="AR4, AR5, AR6"):
        co2_equivalent("R-134a", 1, "AR3")
    with pytest.raises(OutOfRange):
        co2_equivalent("R-134a", -1)
