"""The page reads, shows and converts numbers as the shop server does: the same vectors."""

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from diagnostics.physics.units import UNITS, table
from tests.conftest import TESTS

ROWS: dict[str, list[list[Any]]] = json.loads(
    (TESTS / "physics" / "typed_vectors.json").read_text("utf-8")
)
SCRIPT = Path(TESTS).parent / "static" / "js" / "typed.js"
READ = """(rows) => rows.map(([typed]) => {
  try {
    const { number, unit } = shopac.splitNumber(typed);
    return [number, unit, "", ""];
  } catch (problem) {
    if (!(problem instanceof shopac.Unreadable)) throw problem;
    return ["", "", problem.code, problem.message];
  }
})"""
SHOW = "(rows) => rows.map(([value, decimals]) => [shopac.shown(value, decimals)])"
NAME = """({ rows, units }) => rows.map(([typed, allowed, reference]) => [
  shopac.unitNamed(typed, allowed === "*" ? Object.keys(units) : allowed, units, reference),
  shopac.referenceTyped(typed, units),
])"""
CONVERT = """({ rows, units }) => rows.map(([value, symbol]) => [
  shopac.toSi(value, symbol, units), shopac.fromSi(value, symbol, units),
])"""


@pytest.fixture
def page_with_script(page: Page) -> Page:
    """An empty page with nothing but the script."""
    page.add_script_tag(path=SCRIPT)
    return page


def different(made: list[list[Any]], part: str) -> list[Any]:
    """The first rows whose answers, at their ends, came out otherwise; whole floats come as int."""
    wrong = []
    for answers, row in zip(made, ROWS[part], strict=True):
        told = [float(one) if isinstance(one, int) else one for one in answers]
        if told != row[-len(told) :]:
            wrong.append((row, told))
    return wrong[:10]


def test_the_page_shows_every_number_so(page_with_script: Page):
    assert different(page_with_script.evaluate(SHOW, ROWS["shown"]), "shown") == []


def test_the_page_reads_every_typed_number_so(page_with_script: Page):
    assert different(page_with_script.evaluate(READ, ROWS["typed"]), "typed") == []


def test_the_page_knows_every_unit_so(page_with_script: Page):
    told = {"rows": ROWS["units"], "units": table(UNITS)}
    assert different(page_with_script.evaluate(NAME, told), "units") == []


def test_the_page_converts_every_number_to_the_last_bit_so(page_with_script: Page):
    told = {"rows": ROWS["si"], "units": table(UNITS)}
    assert different(page_with_script.evaluate(CONVERT, told), "si") == []


@pytest.mark.parametrize("value", ["", "abc", "NaN", "1 234", "12,5", "9" * 401, None])
def test_the_page_shows_nothing_for_what_is_no_number(page_with_script: Page, value: Any):
    thrown = page_with_script.evaluate(
        "(value) => { try { return shopac.shown(value, 2); } catch (odd) { return odd.name; } }",
        value,
    )
    assert thrown == "RangeError"
