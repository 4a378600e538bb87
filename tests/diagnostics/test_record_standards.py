"""What texts on records ask stands where the developers' tables say: in data and on paper."""

import functools
import json
import re
import string
from pathlib import Path
from typing import Any, get_args, get_type_hints, is_typeddict

import pytest
from django.utils import timezone

from diagnostics.evidence.catalogue import KINDS
from diagnostics.record.build import Heading, record_data
from jobs.paper.frozen import RecordData, exact_text
from jobs.paper.typeset import typeset
from tests.diagnostics.full_job import full_job, owner
from tests.factories import make_shop
from tests.jobs.records import printed, squeezed

DEVELOPERS = (Path(__file__).resolve().parents[2] / "DEVELOPERS.md").read_text()
# Where nothing can stand on this paper, and the table says so.
NOT_HERE = {("ISO/IEC 17025:2017", "k"), ("ISO/IEC 17025:2017", "p")}
Row = tuple[str, ...]


def table(title: str) -> list[Row]:
    """The rows of the table that follows a line beginning so."""
    after = DEVELOPERS.partition(f"\n{title}")[2]
    lines = re.search(r"(?:^\|.*\n)+", after, flags=re.MULTILINE)
    assert lines, title
    rows = [tuple(cell.strip() for cell in line.split("|")[1:-1]) for line in lines[0].splitlines()]
    return rows[2:]


ISO, CFR, CCR = table("ISO/IEC 17025:2017"), table("14 CFR 43.9"), table("16 CCR 3366")
FROZEN = [("ISO/IEC 17025:2017", row) for row in ISO] + [("14 CFR 43.9", row) for row in CFR]


def paths(cell: str) -> list[str]:
    return re.findall(r"`([a-z_.]+)`", cell)


@functools.cache
def once() -> tuple[Any, str]:
    """A record as it is built, read back from its text, and what its paper prints."""
    make_shop(address="14 Hollow Lane, Eastmere")
    heading = Heading(1, owner(), timezone.now())
    frozen = exact_text(record_data(full_job().again, heading, None))
    return json.loads(frozen), printed(typeset(frozen).pdf)


@pytest.fixture
def built(db: None) -> tuple[Any, str]:
    return once()


def test_each_table_has_all_its_items():
    assert [row[0] for row in ISO] == list(string.ascii_lowercase[:16])
    assert [row[0] for row in CFR] == ["1", "2", "3", "4"]
    assert [row[0] for row in CCR] == [str(number) for number in range(1, 15)]


@pytest.mark.parametrize("told", [path for _, row in FROZEN for path in paths(row[3])])
def test_a_frozen_field_that_a_table_names_is_one(told: str):
    shape: Any = RecordData
    for name in told.split("."):
        shape = next((one for one in (shape, *get_args(shape)) if is_typeddict(one)), shape)
        hints = get_type_hints(shape)
        assert name in hints, f"{told}: {name}"
        shape = hints[name]


@pytest.mark.parametrize(("text", "row"), FROZEN, ids=lambda one: one[0] if one else "")
def test_a_row_names_a_field_or_says_that_it_does_not_apply(text: str, row: Row):
    assert bool(paths(row[3])) or (text, row[0]) in NOT_HERE
    assert ("does not apply" in row[2]) == ((text, row[0]) in NOT_HERE)


@pytest.mark.parametrize(("text", "row"), FROZEN, ids=lambda one: one[0] if one else "")
def test_what_a_row_quotes_is_printed(built: Any, text: str, row: Row):
    quoted = re.findall("“([^”]+)”", row[2])
    assert quoted or "title block" in row[2] or (text, row[0]) in NOT_HERE
    assert [one for one in quoted if squeezed(one) not in built[1]] == []


EMPTY_HERE = {"not_done", "let", "corrections", "closing"}  # nothing of it happened in this job


@pytest.mark.parametrize("told", sorted({path for _, row in FROZEN for path in paths(row[3])}))
def test_a_frozen_field_has_something_in_a_built_record(built: Any, told: str):
    held: Any = built[0]
    for name in told.split("."):
        held = [one[name] for one in held] if isinstance(held, list) else held[name]
    full = any(held) if isinstance(held, list) else held
    assert full or told in EMPTY_HERE


@pytest.mark.parametrize("row", CCR, ids=lambda row: row[0])
def test_what_an_inspection_looks_at_is_a_field_of_its_test(row: Row):
    told = paths(row[2])
    assert told
    for path in told:
        kind, _, name = path.partition(".")
        assert name in {asked.name for asked in KINDS[kind].fields}


def test_what_an_inspection_looked_at_is_in_a_built_record(built: Any):
    read = {(step["kind"], one["field"]) for step in built[0]["steps"] for one in step["readings"]}
    asked = {tuple(path.split(".")) for row in CCR for path in paths(row[2])}
    assert asked - read == {("walk_round", "fan_clutch")}  # of this car nothing was told
