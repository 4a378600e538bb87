"""The program's own environment: shopac/install.py, with a real pip and a wheel made here."""

import base64
import hashlib
import importlib.util
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from shopac import install, lock
from shopac.trouble import CannotStart

pytestmark = pytest.mark.sqlite
WHEEL = "tinything-1.0-py3-none-any.whl"


def make_wheel(folder: Path) -> Path:
    """A wheel with one module, as small as pip accepts."""
    info = "tinything-1.0.dist-info"
    files = {
        "tinything.py": b"HERE = True\n",
        f"{info}/METADATA": b"Metadata-Version: 2.1\nName: tinything\nVersion: 1.0\n",
        f"{info}/WHEEL": (
            b"Wheel-Version: 1.0\nGenerator: tests\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
        ),
    }
    record = ""
    for name, content in files.items():
        digest = base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()
        record += f"{name},sha256={digest},{len(content)}\n"
    record += f"{info}/RECORD,,\n"
    folder.mkdir(exist_ok=True)
    with zipfile.ZipFile(folder / WHEEL, "w") as wheel:
        for name, content in files.items():
            wheel.writestr(name, content)
        wheel.writestr(f"{info}/RECORD", record)
    return folder / WHEEL


@pytest.fixture
def program(tmp_path, monkeypatch):
    """A program folder whose lock asks for one wheel, lying in its folder `wheels`."""
    folder = tmp_path / "program"
    (folder / "tests").mkdir(parents=True)
    digest = hashlib.sha256(make_wheel(folder / "wheels").read_bytes()).hexdigest()
    asked = f"tinything==1.0 --hash=sha256:{digest}\n"
    (folder / "requirements.txt").write_text(asked)
    (folder / "tests" / "requirements.txt").write_text(f"# more\n{asked}")
    inside = install.PYTHON.relative_to(install.VENV)
    monkeypatch.setattr(install, "PROGRAM", folder)
    monkeypatch.setattr(install, "VENV", folder / ".venv")
    monkeypatch.setattr(install, "PYTHON", folder / ".venv" / inside)
    monkeypatch.setattr(install, "RUN_LOCK", folder / "requirements.txt")
    monkeypatch.setattr(install, "TEST_LOCK", folder / "tests" / "requirements.txt")
    return folder


@pytest.fixture
def no_programs(monkeypatch):
    """From here on starting any program is a failure."""

    def refuse(*arguments, **_):
        raise AssertionError(f"started {arguments}")

    return lambda: monkeypatch.setattr(subprocess, "run", refuse)


def has_the_wheel() -> bool:
    return not subprocess.run([install.PYTHON, "-c", "import tinything"], check=False).returncode


def test_a_finished_install_is_not_repeated(program, no_programs):
    install.ensure(program / "wheels")
    assert has_the_wheel()
    no_programs()
    install.ensure(program / "wheels")


def test_an_install_that_stopped_half_way_is_done_again(program):
    wheel = (program / "wheels" / WHEEL).read_bytes()
    (program / "wheels" / WHEEL).unlink()
    with pytest.raises(CannotStart, match="did not finish"):
        install.ensure(program / "wheels")
    (program / "wheels" / WHEEL).write_bytes(wheel)
    shutil.rmtree(next(install.VENV.rglob("pip")))  # as if ended while pip itself was laid down
    install.ensure(program / "wheels")
    assert has_the_wheel()


def test_a_changed_lock_is_installed_into_a_fresh_environment(program):
    install.ensure(program / "wheels")
    left = next(install.VENV.rglob("tinything.py")).with_name("left_behind.py")
    left.write_text("")
    with install.RUN_LOCK.open("a") as file:
        file.write("# changed\n")
    install.ensure(program / "wheels")
    assert not left.exists()


def test_a_wheel_with_other_bytes_than_the_lock_names_is_refused(program):
    with (program / "wheels" / WHEEL).open("ab") as file:
        file.write(b"more")
    with pytest.raises(CannotStart, match="did not finish"):
        install.ensure(program / "wheels")


def test_the_test_lock_is_added_without_a_new_environment(program):
    install.ensure(program / "wheels")
    made = install.PYTHON.lstat().st_ino
    install.ensure(program / "wheels", tests=True)
    assert install.PYTHON.lstat().st_ino == made
    assert len(list(install.VENV.glob("installed-*"))) == 2


@pytest.mark.parametrize("missing", ["ensurepip", "venv", "_sqlite3", "_ssl"])
def test_a_python_without_a_part_is_told_what_to_install(program, monkeypatch, missing):
    whole = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == missing else whole(name)
    )
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}")
    with pytest.raises(CannotStart, match="apt install python3-venv"):
        install.ensure(program / "wheels")


def test_a_second_install_at_the_same_time_is_refused(program):
    held = lock.take(program / ".venv.lock", "install")
    assert held
    with held, pytest.raises(CannotStart, match="installing just now"):
        install.ensure(program / "wheels")


@pytest.mark.skipif(sys.platform == "win32", reason="folders have no such permissions there")
def test_a_program_folder_that_cannot_be_written_is_named(program, monkeypatch):
    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(lock, "take", refuse)
    with pytest.raises(CannotStart, match="cannot be written to"):
        install.ensure(program / "wheels")
