"""The benchmark measures what it says, on data of its own, and tells a broken budget."""

import json
import os
import subprocess
import sys
from typing import Any

import pytest
from django.conf import settings

from jobs import search
from jobs.models import Job
from shopac.bench import budgets, crowd, open_jobs, pages
from shopac.bench.budgets import Row
from tests.factories import make_person, make_shop


@pytest.fixture(scope="module")
def result(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """A whole run among few jobs."""
    folder = tmp_path_factory.mktemp("bench")
    command = [sys.executable, "manage.py", "bench", "--jobs", "30", "90", "--json"]
    ran = subprocess.run(
        [*command, "--folder", str(folder)],
        cwd=settings.BASE_DIR,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    assert not any(folder.iterdir())
    found: dict[str, Any] = json.loads(ran.stdout)
    return found


@pytest.mark.sqlite
def test_each_budget_whose_page_exists_has_its_row(result: dict[str, Any]) -> None:
    """Job page, find, queries, record and idle memory are measured against what they may be."""
    held = [row["what"] for row in result["rows"] if row["at_most"] is not None]
    for begins in ("job page, 40 steps", "slowest find", "queries", "record", "idle server"):
        assert any(what.startswith(begins) for what in held), begins


@pytest.mark.sqlite
def test_each_figure_was_measured(result: dict[str, Any]) -> None:
    """No row stands at nothing, and the bare page is the measure of itself."""
    assert all(row["measured"] > 0 for row in result["rows"])
    bare = [row["measured"] for row in result["rows"] if row["what"].startswith("bare page")]
    assert bare == [1.0, 1.0]


def test_a_budget_that_is_broken_is_told() -> None:
    """A figure above what it may be is not kept, one at it is."""
    assert Row("x", 3.01, "×", 3.0).kept is False
    assert Row("x", 3.0, "×", 3.0).kept is True
    assert Row("x", 3.0, "×").kept is None


def test_find_that_slows_with_the_shop_breaks_its_budget() -> None:
    """The growth of find is the ratio of its two ratios to the bare page."""
    few, many = ({"find, x": pages.Timed(1, ratio, 5)} for ratio in (2.0, 5.0))
    (row,) = budgets.of_growth(few, many)
    assert (row.measured, row.kept) == (2.5, False)


@pytest.mark.django_db
def test_the_crowd_can_be_found() -> None:
    """The jobs that are written past the logbook are those that find finds."""
    author = make_person("owner")
    make_shop()
    crowd.add_jobs(12, 40, author, lambda _words: None)
    crowd.add_jobs(40, 40, author, lambda _words: None)
    assert Job.objects.filter(stage="closed").count() == 40
    for plate in crowd.plates():
        assert plate in {job.vehicle.plate for job in search.find([search.fold(plate)]).jobs}


@pytest.mark.django_db
def test_the_tested_job_has_its_steps() -> None:
    """Every step of the job that is measured was taken by the logbook."""
    author = open_jobs.begin()
    job = open_jobs.take_in(author, 1)
    open_jobs.test_it(author, job, 9)
    assert job.steps.count() == 9


@pytest.mark.sqlite
def test_a_database_in_use_is_not_touched(tmp_path_factory: pytest.TempPathFactory) -> None:
    """A shop's database named by the environment is refused."""
    folder = tmp_path_factory.mktemp("shop")
    run = [sys.executable, "manage.py"]

    environment = os.environ | {"SHOPAC_DATABASE": f"sqlite:///{folder}/shop.sqlite3"}
    subprocess.run(
        [*run, "migrate", "--verbosity", "0"], cwd=settings.BASE_DIR, env=environment, check=True
    )
    ran = subprocess.run(
        [*run, "bench", "--jobs", "5"],
        cwd=settings.BASE_DIR,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode != 0
    assert "needs an empty one" in ran.stderr
