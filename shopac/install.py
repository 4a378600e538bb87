"""The program's own Python environment, `.venv` beside manage.py: made once, stamped last.

The stamp says what was installed, by which Python, and where. It is removed before anything is
changed and written when all is done, so an interrupted install is simply done again.
Standard library only: this runs before anything is installed.
"""

from __future__ import annotations

import hashlib
import importlib.util
import shutil
import subprocess
import sys
from pathlib import Path

from shopac import lock
from shopac.trouble import CannotStart

PROGRAM = Path(__file__).resolve().parent.parent
VENV = PROGRAM / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
RUN_LOCK = PROGRAM / "requirements.txt"
TEST_LOCK = PROGRAM / "tests" / "requirements.txt"


def ensure(offline: Path | None = None, tests: bool = False) -> None:
    """Install what the locks ask for, unless the stamps say that it is there.

    Args:
        offline: a folder of wheels to install from, instead of the network.
        tests: also what the tests need.

    Raises:
        CannotStart: this Python cannot make an environment, or the install did not finish.

    """
    locks = [RUN_LOCK, TEST_LOCK] if tests else [RUN_LOCK]
    if all(_is_stamped(file) for file in locks):
        return
    _refuse_crippled_python()
    try:
        held = lock.take(PROGRAM / ".venv.lock", "install")
    except OSError as wrong:
        raise CannotStart(
            f"The program's folder {PROGRAM} cannot be written to ({wrong.strerror}), "
            "and its first start must install into it."
        ) from None
    if held is None:
        raise CannotStart("Another start is installing just now: wait until it is done.")
    with held:
        if not _is_stamped(RUN_LOCK):
            _make_venv()
        for file in locks:
            if not _is_stamped(file):
                _pip(file, offline)
                _stamp(file).write_text(_asked_for(file), encoding="utf-8")


def _stamp(file: Path) -> Path:
    return VENV / f"installed-{file.parent.name if file == TEST_LOCK else 'run'}"


def _asked_for(file: Path) -> str:
    """What an environment must be to serve a lock file: its text, the Python, and the place."""
    python = f"{sys.version_info[0]}.{sys.version_info[1]}"
    text = file.read_bytes() + f"{python} {VENV}".encode()
    return hashlib.sha256(text).hexdigest()


def _is_stamped(file: Path) -> bool:
    stamp = _stamp(file)
    return PYTHON.exists() and stamp.exists() and stamp.read_text() == _asked_for(file)


def _refuse_crippled_python() -> None:
    for module in ("ensurepip", "venv", "sqlite3", "ssl"):
        # Some systems ship the package and leave out the part that does the work.
        inner = {"sqlite3": "_sqlite3", "ssl": "_ssl"}.get(module, module)
        if importlib.util.find_spec(module) is None or importlib.util.find_spec(inner) is None:
            cure = (
                "apt install python3-venv"
                if shutil.which("apt")
                else "install the whole Python from python.org or your system's packages"
            )
            raise CannotStart(
                f"This Python ({sys.executable}) comes without its part “{module}”, "
                f"which the install needs: {cure}, then start again."
            )


def _make_venv() -> None:
    print(f"Making the program's Python environment in {VENV} ...", flush=True)
    for stamp in VENV.glob("installed-*"):
        stamp.unlink()
    command = [sys.executable, "-m", "venv"]
    # Started by the environment's own Python, it cannot be emptied under its feet.
    if Path(sys.prefix).resolve() != VENV.resolve():
        command.append("--clear")
    if subprocess.run([*command, str(VENV)], cwd=str(PROGRAM), check=False).returncode:
        raise CannotStart(
            f"The Python environment in {VENV} could not be made, for the reason given above."
        )


def _pip(file: Path, offline: Path | None) -> None:
    print(f"Installing from {file.relative_to(PROGRAM)} ...", flush=True)
    command = [str(PYTHON), "-m", "pip", "install", "--disable-pip-version-check", "--no-input"]
    command += ["--require-hashes", "--only-binary", ":all:", "--requirement", str(file)]
    if offline:
        command += ["--no-index", "--find-links", str(offline)]
    if subprocess.run(command, cwd=str(PROGRAM), check=False).returncode:
        where = f"the folder {offline}" if offline else "the network (without one: --offline DIR)"
        raise CannotStart(
            f"The install from {where} did not finish, for the reason given above; "
            "the next start does it again."
        )
