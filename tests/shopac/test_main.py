"""`python3 -m shopac` on any Python: shopac/__main__.py and what it imports."""

import ast
import runpy
import sys
from pathlib import Path

import pytest

import shopac

FOLDER = Path(shopac.__file__).parent


def imports(name: str) -> set[str]:
    """The modules a module of the package imports, with those of this package as file stems."""
    found: set[str] = set()
    for node in ast.walk(ast.parse((FOLDER / f"{name.replace('.', '/')}.py").read_text())):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            if node.module == "shopac":
                found |= {f"shopac.{alias.name}" for alias in node.names}
            else:
                found.add(str(node.module))
    return found


def reached() -> dict[str, set[str]]:
    """Every module of the package that runs before the install, with its imports."""
    found: dict[str, set[str]] = {}
    waiting = ["__main__"]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found[name] = imports(name)
            waiting += [n.removeprefix("shopac.") for n in found[name] if n.startswith("shopac.")]
    return found


def test_what_runs_before_the_install_is_found():
    assert {"start", "install", "serve", "lock", "stamp", "data_folder"} <= set(reached())


@pytest.mark.parametrize("name", sorted(reached()))
def test_what_runs_before_the_install_parses_on_python_3_8(name):
    ast.parse((FOLDER / f"{name.replace('.', '/')}.py").read_text(), feature_version=(3, 8))


@pytest.mark.parametrize("name", sorted(reached()))
def test_what_runs_before_the_install_needs_the_standard_library_only(name):
    others = {module.partition(".")[0] for module in reached()[name]} - {"shopac"}
    assert others <= set(sys.stdlib_module_names)


def test_an_older_python_is_told_in_one_sentence_what_to_install(monkeypatch):
    monkeypatch.setattr(sys, "version_info", (3, 8, 18))
    with pytest.raises(SystemExit) as ended:
        runpy.run_module("shopac", run_name="__main__")
    assert str(ended.value).startswith("shopac needs Python 3.11 or newer and this is Python 3.8:")
    assert "\n" not in str(ended.value)
