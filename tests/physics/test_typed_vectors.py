"""One file of typed and shown numbers and units, for the server's functions and the page's."""

import json
from decimal import Decimal
from fractions import Fraction
from typing import Any

from diagnostics.physics.units import UNITS, from_si, reference_typed, scaled, shown, unit_named
from tests.physics.typed_vectors import PLACE, read, vectors

ROWS: dict[str, list[list[Any]]] = json.loads(PLACE.read_text("utf-8"))


def test_the_file_is_what_its_script_writes():
    assert PLACE.read_text("utf-8") == vectors(), "run python -m tests.physics.typed_vectors"


def test_there_are_thousands_of_them_and_of_every_sort():
    assert len(ROWS["shown"]) > 3_000
    assert len(ROWS["typed"]) > 1_500
    assert len(ROWS["units"]) > 1_000
    assert len(ROWS["si"]) >= 600
    assert {row[3] for row in ROWS["typed"]} == {"", "no_number", "too_long", "two_ways"}
    assert sum(not row[3] for row in ROWS["typed"]) > 500


def test_the_server_shows_every_number_so():
    wrong = [row for row in ROWS["shown"] if shown(row[0], row[1]) != row[2]]
    assert wrong == []


def test_no_number_is_shown_further_off_than_half_a_step_and_half_goes_away_from_zero():
    """By fractions alone, apart from the way `shown` goes."""
    for value, decimals, text in ROWS["shown"]:
        exact = Fraction(Decimal(repr(value) if isinstance(value, float) else value))
        steps = exact * Fraction(10) ** decimals
        expected = (abs(steps) + Fraction(1, 2)) // 1
        told = Fraction(text.replace("\u00a0", "").replace("−", "-")) * Fraction(10) ** decimals
        assert abs(told) == expected, (value, decimals, text)
        assert told * steps >= 0
        assert ("−" in text) == (told < 0)


def test_the_server_reads_every_typed_number_so():
    wrong = [row for row in ROWS["typed"] if [row[0], *read(row[0])] != row]
    assert wrong == []


def test_the_server_knows_every_unit_so():
    wrong = [
        row
        for row in ROWS["units"]
        if unit_named(row[0], tuple(UNITS) if row[1] == "*" else tuple(row[1]), row[2]) != row[3]
        or reference_typed(row[0]) != row[4]
    ]
    assert wrong == []


def test_the_server_converts_every_number_so():
    wrong = [row for row in ROWS["si"] if [scaled(*row[:2]), from_si(*row[:2])] != row[2:]]
    assert wrong == []
