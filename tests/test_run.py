"""The command that runs everything must fail when a part of it could not be had."""

import os
import shutil
import subprocess
from types import SimpleNamespace

import pytest

from tests import chromium, postgres, run, trust

pytestmark = pytest.mark.sqlite  # about commands, not about a database


@pytest.fixture
def started(monkeypatch):
    """The commands it would start; each ends with the code in `codes` for its last word, or 0."""
    told = SimpleNamespace(commands=[], codes={})

    def note(command, **_):
        told.commands.append([str(word) for word in command])
        code = next((told.codes[word] for word in map(str, command) if word in told.codes), 0)
        return SimpleNamespace(returncode=code, stdout="said", stderr="")

    monkeypatch.setattr(subprocess, "run", note)
    return told


@pytest.fixture
def machine(monkeypatch):
    """A Debian machine with both programs; a test takes away what it is about."""

    def has(*, browser=True, database=True, certificates=True, apt=True, root=True):
        monkeypatch.setattr(chromium, "find", lambda: "/usr/bin/chromium" if browser else None)
        monkeypatch.setattr(postgres, "find", lambda: run.PROGRAM if database else None)
        monkeypatch.setattr(trust, "find", lambda: "/usr/bin/certutil" if certificates else None)
        monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}" if apt else None)
        monkeypatch.setattr(os, "geteuid", lambda: 0 if root else 1000)

    return has


def test_with_everything_there_nothing_is_installed_and_all_passes(machine, started, capsys):
    machine()
    assert run.main([]) == 0
    assert not any("apt-get" in command for command in started.commands)
    assert "FAILED" not in capsys.readouterr().out


def test_what_is_missing_is_installed_on_debian_as_root(machine, started):
    machine(browser=False, database=False)
    run.get_programs([])
    assert started.commands[0] == ["apt-get", "update"]
    assert started.commands[1][-2:] == ["chromium", "postgresql"]


def test_without_certutil_the_run_fails(machine, started, capsys):
    machine(certificates=False, apt=False)
    assert run.main([]) == 1
    assert "FAILED: no certutil" in capsys.readouterr().out


def test_elsewhere_the_browser_tool_downloads_its_own(machine, started):
    machine(browser=False, root=False)
    failures: list[str] = []
    run.get_programs(failures)
    assert [command[1:] for command in started.commands] == [
        ["-m", "playwright", "install", "chromium"]
    ]
    assert failures == []


def test_a_browser_that_cannot_be_had_fails_the_run(machine, started, capsys):
    machine(browser=False, apt=False)
    started.codes["chromium"] = 1
    assert run.main([]) == 1
    assert "FAILED: no Chromium" in capsys.readouterr().out


def test_a_postgresql_that_cannot_be_had_fails_the_run_and_sqlite_is_still_tested(
    machine, started, capsys
):
    machine(database=False)
    assert run.main([]) == 1
    assert "FAILED: no PostgreSQL" in capsys.readouterr().out
    runs = [command for command in started.commands if "pytest" in command]
    assert len(runs) == 3
    assert not any("tests.postgres" in command for command in runs)


def test_a_failed_check_fails_the_run_and_the_tests_still_run(machine, started, capsys):
    machine()
    started.codes["--dry-run"] = 1  # makemigrations --check --dry-run
    assert run.main([]) == 1
    told = capsys.readouterr().out
    assert "migrations: failed" in told
    assert "FAILED: migrations" in told
    assert sum("pytest" in command for command in started.commands) == 4


def test_failed_tests_on_either_database_fail_the_run(machine, started, capsys):
    machine()
    started.codes["pytest"] = 1
    assert run.main([]) == 1
    told = capsys.readouterr().out
    assert "FAILED: tests on SQLite" in told
    assert "FAILED: tests on PostgreSQL" in told


def test_chosen_tests_run_on_both_databases_and_one_after_another(machine, started):
    machine()
    assert run.main(["tests/jobs"]) == 0
    runs = [command for command in started.commands if "pytest" in command]
    assert [command[-3:] for command in runs] == [["-m", "pytest", "tests/jobs"]] * 2


def test_a_run_in_which_no_test_was_chosen_fails(machine, started):
    machine()
    started.codes["soup"] = run.NO_TESTS
    assert run.main(["-k", "soup"]) == 1


def test_tests_for_one_database_only_can_be_chosen(machine, monkeypatch):
    machine()

    def only_sqlite(command, **_):
        on_postgresql = "tests.postgres" in command
        return SimpleNamespace(
            returncode=run.NO_TESTS if on_postgresql else 0, stdout="", stderr=""
        )

    monkeypatch.setattr(subprocess, "run", only_sqlite)
    assert run.main(["tests/browser"]) == 0


def test_a_shops_own_settings_do_not_reach_the_tests(machine, monkeypatch):
    machine()
    monkeypatch.setenv("SHOPAC_DATA", "/home/shop/data")
    seen = []

    def note(_command, env=None, **_):
        seen.append(dict(env or {}).get("SHOPAC_DATA", ""))
        return SimpleNamespace(returncode=0, stdout="", stderr="")

    monkeypatch.setattr(subprocess, "run", note)
    run.main([])
    assert seen
    assert "/home/shop/data" not in seen
