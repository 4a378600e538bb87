"""The locks hold what pyproject.toml asks for, with hashes."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

PROGRAM = Path(__file__).resolve().parent.parent
ASKED = tomllib.loads((PROGRAM / "pyproject.toml").read_text())
RUN = [Requirement(one) for one in ASKED["project"]["dependencies"]]
TEST = [Requirement(one) for one in ASKED["dependency-groups"]["test"]]


def locked(name: str) -> dict[str, str]:
    """The versions in a lock file, by package."""
    text = (PROGRAM / name).read_text()
    return {
        canonicalize_name(package): version
        for package, version in re.findall(r"^([\w.-]+)==(\S+)", text, flags=re.MULTILINE)
    }


@pytest.mark.parametrize(
    ("asked", "lock"),
    [(one, "requirements.txt") for one in RUN] + [(one, "tests/requirements.txt") for one in TEST],
    ids=str,
)
def test_what_is_asked_for_is_locked_within_its_range(asked, lock):
    assert asked.specifier.contains(locked(lock)[canonicalize_name(asked.name)])


@pytest.mark.parametrize("lock", ["requirements.txt", "tests/requirements.txt"])
def test_every_locked_package_has_a_hash(lock):
    text = (PROGRAM / lock).read_text()
    packages = re.split(r"^(?=[\w.-]+==)", text, flags=re.MULTILINE)[1:]
    assert packages
    assert [one.split()[0] for one in packages if "--hash=sha256:" not in one] == []


def test_the_tests_run_what_a_shop_runs():
    run, test = locked("requirements.txt"), locked("tests/requirements.txt")
    assert {name: run[name] for name in run.keys() & test.keys()} == {
        name: test[name] for name in run.keys() & test.keys()
    }
