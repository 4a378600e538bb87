"""Factors of units held to published ones (units.json names each source)."""

import json
from pathlib import Path
from typing import Any

import pytest

from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.units import convert, to_si

ROWS: list[dict[str, Any]] = json.loads((Path(__file__).parent / "units.json").read_text("utf-8"))
CHECKS = [row for row in ROWS if row["role"] == "check"]
TRAPS = [row for row in ROWS if row["role"] == "trap"]
NAMES = {
    "torr": "Torr",
    "inHg 60F": "inHg (60 °F)",
    "US fl oz": "fl oz",
    "Btu_IT": "Btu",
    "ton of refrigeration": "ton",
    "micron of mercury": "micron",
}


@pytest.mark.parametrize("row", CHECKS, ids=[row["id"] for row in CHECKS])
def test_a_unit_is_worth_what_the_standard_says(row):
    start, end = (NAMES.get(name, name) for name in row["quantity"].split(" -> "))
    found = convert(row["input"].get("value", 1), start, end)
    assert found == pytest.approx(row["expected"], **{row["tolerance_kind"]: row["tolerance"]})


@pytest.mark.parametrize("row", TRAPS, ids=[row["id"] for row in TRAPS])
def test_zero_on_a_gauge_is_not_nothing(row):
    found = Gauge(to_si(row["input"]["value"], "psi")).absolute(Absolute(101_325))
    assert found.pa != pytest.approx(row["expected"], abs=row["tolerance"])


def test_the_vacuum_micron_is_a_pressure_and_the_micrometer_a_length():
    assert convert(1, "micron", "mmHg") == pytest.approx(0.001, rel=1e-15)
    assert convert(25.4, "µm", "mil") == pytest.approx(1, rel=1e-15)
