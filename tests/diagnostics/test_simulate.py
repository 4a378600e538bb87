"""The command that tries the program on cars whose faults are known."""

import json
from io import StringIO
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from diagnostics.management.commands import simulate

FEW = {"jobs": 3, "processes": 1, "seed": 4}


@pytest.fixture(autouse=True)
def kept(tmp_path, monkeypatch):
    """Where a result is kept, and a small network that is not worked out here."""
    small = {"cost": 3.0, "optimum": 2.9, "at_once": 9.0, "above": 0.02, "at_most": 0.05}
    monkeypatch.setattr(simulate, "compared", lambda _kinds, _tables: small)
    monkeypatch.setattr(simulate, "KEPT", tmp_path / "simulate.json")
    return tmp_path / "simulate.json"


def said(**options: Any) -> tuple[str, str]:
    out, progress = StringIO(), StringIO()
    call_command("simulate", stdout=out, stderr=progress, **{**FEW, **options})
    return out.getvalue(), progress.getvalue()


def test_each_campaign_is_a_table_and_progress_goes_beside_it():
    text, progress = said(world="home", policy="fixed")
    assert text.startswith("home, fixed: 3 jobs\n  proved, not in order")
    assert "bay minutes per job" in text
    assert "reduced network: 3.00 expected, best 2.90" in text
    assert progress == "home, fixed: 3 of 3 jobs\n"


def test_as_json_it_is_one_object(kept):
    text, _ = said(world="outside", policy="cheapest", json=True)
    found = json.loads(text)
    assert [(one["world"], one["policy"]) for one in found["campaigns"]] == [
        ("outside", "cheapest")
    ]
    assert not kept.exists()


def test_kept_it_stands_in_a_file(kept):
    said(world="home", policy="fixed", keep=True)
    assert json.loads(kept.read_text())["jobs"] == 3


def test_of_all_only_the_program_goes_abroad():
    assert list(simulate.campaigns_of("all", "all")) == [
        ("home", "program"),
        ("home", "fixed"),
        ("home", "cheapest"),
        ("off", "program"),
        ("outside", "program"),
    ]
    assert list(simulate.campaigns_of("off", "fixed")) == [("off", "fixed")]


@pytest.mark.parametrize("options", [{"jobs": 0}, {"processes": 0}, {"seed": -1}])
def test_no_job_no_process_and_no_seed_are_refused(options):
    with pytest.raises(CommandError, match="At least one job"):
        said(**options)
