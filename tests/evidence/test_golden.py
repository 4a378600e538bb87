"""Golden cases: what was read on a car, and the standings that a master technician would sign."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from diagnostics.evidence.case import Case, case_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.evaluate import asked_of
from diagnostics.evidence.plan import plan
from diagnostics.evidence.tables import TABLES
from diagnostics.evidence.weigh import Verdict, weigh

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = json.loads((HERE / "golden.json").read_text(encoding="utf-8"))
SCHEMA = json.loads(
    (HERE.parents[1] / "diagnostics/evidence/case.schema.json").read_text(encoding="utf-8")
)


def verdict_of(plain: Mapping[str, Any]) -> tuple[Case, Verdict]:
    case = case_of(plain, KINDS)
    tests = [step.test for step in case.steps if step.weighs]
    return case, weigh(case.system, tests, case.changes, TABLES)


@pytest.mark.parametrize("plain", CASES, ids=lambda plain: plain["name"])
def test_each_answer_stands_as_the_case_allows(plain):
    _, verdict = verdict_of(plain)
    for wanted in plain["expect"]["standings"]:
        found = verdict.of(wanted["variable"], wanted["code"])
        said = f"{found.variable} {found.code}: {found.standing} ({found.share:.4f})"
        assert found.standing in wanted["standing"], said


@pytest.mark.parametrize(
    "plain",
    [one for one in CASES if "next_among" in one["expect"]],
    ids=lambda plain: plain["name"],
)
def test_the_next_test_is_one_of_those_the_case_allows(plain):
    case, verdict = verdict_of(plain)
    best = plan(verdict.weighed, asked_of(case), KINDS, TABLES).best
    assert (best.kind if best else "decide") in plain["expect"]["next_among"]


@pytest.mark.parametrize("plain", CASES, ids=lambda plain: plain["name"])
def test_each_case_is_as_the_schema_describes_and_names_its_source(plain):
    jsonschema.validate(plain, SCHEMA)
    assert plain["source"]


def test_there_are_at_least_eighty_cases_each_with_a_name_of_its_own():
    names = [plain["name"] for plain in CASES]
    assert len(names) == len(set(names)) >= 80
