"""Everything a release must pass, in one go: `python3 -m shopac test [PYTEST ARGUMENTS]`.

Runs in the program's environment with the test lock installed. Finds or installs a Chromium, a
PostgreSQL and certutil, runs the checks, then the tests on SQLite and again on PostgreSQL. What
cannot be had fails the run and is named; nothing is left out in silence.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests import chromium, postgres, trust

PROGRAM = Path(__file__).resolve().parent.parent
SCRIPTS = Path(sys.executable).parent
SHARED = ("--numprocesses=auto", "--dist=loadfile")
BROWSER, OFFLINE = "tests/browser", "tests/offline"
# What knows no database runs once.
PURE = ("--ignore=tests/evidence", "--ignore=tests/physics")
NO_TESTS = 5  # pytest's exit code when arguments select nothing
# What a shop may have set for its own server has no place in a test.
SETTINGS = ("SHOPAC_DATA", "SHOPAC_DATABASE", "SHOPAC_HOSTS", "SHOPAC_HTTPS", "SHOPAC_DEBUG")

Failures = list[str]


def main(arguments: list[str]) -> int:
    """Run all of it; returns 0 only when nothing failed."""
    environment = {name: value for name, value in os.environ.items() if name not in SETTINGS}
    failures: Failures = []
    get_programs(failures)
    with tempfile.TemporaryDirectory(prefix="shopac-checks-") as folder:
        check(failures, {**environment, "SHOPAC_DATA": folder})
    test(failures, environment, arguments)
    for failure in failures:
        print(f"FAILED: {failure}", flush=True)
    return 1 if failures else 0


def get_programs(failures: Failures) -> None:
    """Install browser, database server and what a browser is told to trust with, where missing."""
    missing = []
    if chromium.find() is None:
        missing.append("chromium")
    if postgres.find() is None:
        missing.append("postgresql")
    if trust.find() is None:
        missing.append("libnss3-tools")
    if missing and shutil.which("apt-get") and os.geteuid() == 0:
        print(f"Installing {' and '.join(missing)} with apt-get ...", flush=True)
        quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        install = ["apt-get", "install", "--yes", "--no-install-recommends", *missing]
        for command in (["apt-get", "update"], install):
            subprocess.run(command, env=quiet, stdout=subprocess.DEVNULL, check=False)
    if chromium.find() is None:
        print("Downloading the browser tool's own Chromium ...", flush=True)
        command = [sys.executable, "-m", "playwright", "install", "chromium"]
        if subprocess.run(command, check=False).returncode:
            failures.append("no Chromium: none is installed and none could be downloaded.")
    if postgres.find() is None:
        failures.append("no PostgreSQL: install it (initdb and postgres are looked for).")
    if trust.find() is None:
        failures.append("no certutil: install it (libnss3-tools), so that a browser can trust.")


def check(failures: Failures, environment: dict[str, str]) -> None:
    """Run what reads the program without running it."""
    python = sys.executable
    pages = [str(path) for path in sorted((PROGRAM / "templates").rglob("*.html"))]
    https = {**environment, "SHOPAC_HTTPS": "1"}
    checks: list[tuple[str, list[str], dict[str, str]]] = [
        ("ruff check", [python, "-m", "ruff", "check", "."], environment),
        ("ruff format", [python, "-m", "ruff", "format", "--check", "."], environment),
        ("import contracts", [str(SCRIPTS / "lint-imports"), "--no-cache"], environment),
        (
            "templates",
            [str(SCRIPTS / "djade"), "--check", "--target-version", "5.2", *pages],
            environment,
        ),
        ("types", [python, "-m", "mypy", "."], environment),
        (
            "migrations",
            [python, "manage.py", "makemigrations", "--check", "--dry-run"],
            environment,
        ),
        (
            "deployment",
            [python, "manage.py", "check", "--deploy", "--fail-level", "WARNING"],
            https,
        ),
    ]
    for name, command, place in checks:
        begun = time.monotonic()
        done = subprocess.run(
            command, cwd=PROGRAM, env=place, capture_output=True, text=True, check=False
        )
        spent = time.monotonic() - begun
        print(f"{name}: {'failed' if done.returncode else 'in order'} ({spent:.1f} s)", flush=True)
        if done.returncode:
            print(done.stdout + done.stderr, flush=True)
            failures.append(f"{name}, see above.")


def test(failures: Failures, environment: dict[str, str], arguments: list[str]) -> None:
    """Run the tests on both databases; browsers are driven on SQLite only.

    They are shared out among the cores; tests that were chosen run one after another.
    """
    pytest = [sys.executable, "-m", "pytest"]
    on_postgresql = [sys.executable, "-m", "tests.postgres", *pytest]
    if arguments:
        runs = {"SQLite": [*pytest, *arguments], "PostgreSQL": [*on_postgresql, *arguments]}
    else:
        runs = {
            "SQLite": [*pytest, *SHARED, f"--ignore={BROWSER}", f"--ignore={OFFLINE}"],
            "SQLite with a browser": [*pytest, *SHARED, BROWSER],
            "SQLite with tablets": [*pytest, *SHARED, OFFLINE],
            "PostgreSQL": [*on_postgresql, *SHARED, *PURE],
        }
    if not postgres.find():
        del runs["PostgreSQL"]
    codes = {}
    for name, run in runs.items():
        print(f"\nTests on {name}", flush=True)
        codes[name] = subprocess.run(run, cwd=PROGRAM, env=environment, check=False).returncode
    for name, code in codes.items():
        # Arguments can choose tests that are for one database only.
        elsewhere = code == NO_TESTS and 0 in codes.values()
        if code and not elsewhere:
            failures.append(f"tests on {name} (exit code {code}).")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
