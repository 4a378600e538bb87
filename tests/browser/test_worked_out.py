"""The page works numbers out as the shop server does: thousands of readings, the same digits."""

import itertools
import json
import random
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import Reading, parse
from diagnostics.evidence.worked_out import FUNCTIONS, WorkedOut, factors, worked_out
from diagnostics.physics import saturation
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.refrigerants import REFRIGERANTS
from diagnostics.physics.units import table
from jobs.actions.fill import fill
from tests.browser.touch import PORTRAIT
from tests.conftest import TESTS
from tests.factories import make_job

SCRIPTS = Path(TESTS).parent / "static" / "js"
# Of each function: the unit it is shown in, and for each reading unit, low, high and decimals.
VOLTS, AMPS = ("V", 0, 30, 2), ("A", 0, 12, 2)
COIL_AMPS = ("A", -1, 6, 2)
WARMTH, PRESSURE, GAP = ("°C", -60, 160, 1), ("kPa", -110, 4500, 0), ("mm", 0, 2, 2)
OHM = ("Ω", 0, 40, 1)
CASES: dict[str, tuple[str, tuple[tuple[str, int, int, int], ...]]] = {
    "same": ("psi", (PRESSURE,)),
    "boils_at": ("°C", (PRESSURE,)),
    "rests_at": ("kPa", (WARMTH,)),
    "superheat": ("ΔK", (PRESSURE, WARMTH)),
    "subcooling": ("ΔK", (PRESSURE, WARMTH)),
    "ratio": ("1", (PRESSURE, PRESSURE)),
    "at_20": ("Ω", (OHM, WARMTH)),
    "ohm": ("Ω", (VOLTS, AMPS)),
    "ohm_at_20": ("Ω", (VOLTS, AMPS, WARMTH)),
    "drop_ohm": ("Ω", (VOLTS, COIL_AMPS)),
    "lost": ("V", (VOLTS, VOLTS)),
    "draws": ("A", (VOLTS, WARMTH)),
    "smallest": ("mm", (GAP, GAP, GAP)),
    "largest": ("in", (GAP, GAP, GAP)),
    "wobble": ("mm", (GAP, GAP, GAP)),
}
SYSTEMS: list[dict[str, Any]] = [
    *({"refrigerant": name, "voltage": "12"} for name in REFRIGERANTS),
    {"refrigerant": "other", "voltage": "24"},
    {"voltage": "24", "coil_ohm": 13.2},
    {"coil_ohm": 3.65},
]
AIRS = (101_325.0, 84_560.0)
RUN = """({ rows, units, factors, tables }) => rows.map(({ one, readings, system, air }) => {
  const around = { system, air, factors, table: tables[system.refrigerant] || null };
  return shopac.workedOut([one], readings, around, units).map(({ shown }) => shown);
})"""


def rows(seed: int) -> list[dict[str, Any]]:
    """Readings of every function on every system, with what the shop server shows."""
    told = random.Random(seed)
    made = []
    for how, system, air in itertools.product(CASES, SYSTEMS, AIRS):
        unit, kinds = CASES[how]
        for _ in range(10):
            names = tuple(f"r{place}" for place in range(len(kinds)))
            least = told.choice((0, len(names), 1 if how == "draws" else len(names)))
            one = WorkedOut("r0", "x", how, names, unit, least)
            readings: dict[str, Reading | str] = {
                name: parse(f"{told.uniform(low, high):.{told.randint(0, decimals)}f}", (u,), u)
                for name, (u, low, high, decimals) in zip(names, kinds, strict=True)
            }
            if how == "draws" and told.random() < 0.5:
                del readings["r1"]
                one = WorkedOut("r0", "x", how, names, unit, 1)
            around = Circumstances(system, air=Absolute(air))
            shown = [value.shown for value in worked_out((one,), readings, around)]
            made.append({"one": one, "readings": readings, "around": around, "shown": shown})
    return made


def as_page(row: dict[str, Any]) -> dict[str, Any]:
    """A row as the script takes it."""
    return {
        "one": vars(row["one"]),
        "readings": {
            name: {"si": read.si, "lastDigit": read.last_digit}
            for name, read in row["readings"].items()
        },
        "system": row["around"].system,
        "air": row["around"].air.pa,
    }


@pytest.fixture
def page_with_scripts(page: Page) -> Page:
    for name in ("typed", "physics", "worked_out"):
        page.add_script_tag(path=SCRIPTS / f"{name}.js")
    return page


def test_every_function_has_its_twin_and_is_tried(page_with_scripts: Page):
    assert set(CASES) == set(FUNCTIONS)
    assert set(page_with_scripts.evaluate("Object.keys(shopac.physics)")) == set(FUNCTIONS)


@pytest.mark.parametrize("seed", [1, 2])
def test_the_page_works_out_the_same_digits(page_with_scripts: Page, seed: int):
    made = rows(seed)
    tables = {
        name: json.loads((saturation.FOLDER / f"{name}.json").read_text("utf-8"))
        for name in REFRIGERANTS
    }
    told = {
        "rows": [as_page(row) for row in made],
        "units": table({row["one"].unit for row in made}),
        "factors": factors(),
        "tables": tables,
    }
    theirs = page_with_scripts.evaluate(RUN, told)
    wrong = [
        (row["one"].how, row["readings"], row["shown"], found)
        for row, found in zip(made, theirs, strict=True)
        if row["shown"] != found
    ]
    assert wrong == []
    worked = sum(bool(row["shown"]) for row in made)
    assert worked > len(made) / 3  # most systems know a refrigerant or a coil


@pytest.mark.django_db(transaction=True)
def test_a_coils_current_is_told_under_its_field_while_it_is_typed(at):
    job = make_job()
    fill(job.vehicle.system, {"coil_milliohm": 3600})
    page = at(f"/step/coil_power/?job={job.key}", **PORTRAIT)
    page.get_by_label("Voltage at the coil’s pins").fill("12.00")
    expect(page.locator("[data-asked=volts] .worked-out")).to_contain_text("Should draw:")
    page.get_by_label("Coil temperature, if read").fill("20.0")
    # 12 V over 3.6 ohm, give or take a tenth: 3.03 to 3.70 A
    expect(page.locator("[data-asked=volts] .worked-out")).to_have_text(
        "Should draw: 3.03–3.70\u00a0A"
    )


@pytest.mark.django_db(transaction=True)
def test_what_the_shop_server_alone_works_out_is_shown_once_it_answered(at):
    page = at(f"/step/static_pressure/?job={make_job().key}", **PORTRAIT)
    page.get_by_label("Low side").fill("470")
    page.get_by_label("Temperature of the loop").fill("20")
    page.locator("label:has([name=soaked][value=yes])").tap()
    # 520 g on the label, 83 g of vapor in 3 L at 20 °C
    expect(page.get_by_text("437\u00a0g", exact=True)).to_be_visible()
    expect(page.locator("[data-asked=low] .worked-out").first).to_have_text(
        "Low side: 68.2\u00a0psi"
    )
    expect(page.locator("#meaning dd", has_text="68.2\u00a0psi")).to_be_hidden()


@pytest.mark.django_db(transaction=True)
def test_a_drop_read_while_no_current_is_told_shows_no_resistance(at):
    page = at(f"/step/feed_drop/?job={make_job().key}", **PORTRAIT)
    line = page.locator("[data-asked=volts] .worked-out")
    page.get_by_label("Drop, battery plus to coil plus").fill("0.50")
    page.get_by_label("Current", exact=True).fill("3.0")
    expect(line).to_have_text("Resistance this means: 0.17\u00a0Ω")
    page.locator("label:has([name=carries][value=no])").tap()
    expect(line).to_have_count(0)


@pytest.mark.django_db(transaction=True)
def test_a_number_of_which_the_shop_server_makes_nothing_goes_once_it_answered(at):
    page = at(f"/step/feed_drop/?job={make_job().key}", **PORTRAIT)
    line = page.locator("[data-asked=volts] .worked-out")
    page.get_by_label("Drop, battery plus to coil plus").fill("0.50")
    page.get_by_label("Current", exact=True).fill("3.0")
    expect(page.locator("#meaning")).to_contain_text("0.50")
    expect(line).to_have_count(1)
    page.get_by_label("Battery plus to relay").fill("0.90")  # more than the whole: at odds
    expect(page.locator("#meaning")).to_contain_text("Nothing is made of it.")
    expect(line).to_have_count(0)
    page.get_by_label("Battery plus to relay").fill("0.30")
    expect(line).to_have_count(1)
