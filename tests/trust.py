"""A home folder of a browser's own, in which it trusts a shop's authority or does not.

Chromium on Linux reads what a person trusts from an NSS database below HOME; nothing of the machine
itself is changed.
"""

import os
import shutil
import subprocess
from pathlib import Path

PROGRAM = "certutil"  # Debian: libnss3-tools


def find() -> str | None:
    """The path of the program that writes such databases, or None."""
    return shutil.which(PROGRAM)


def make_home(folder: Path, *authorities: Path) -> Path:
    """A home where these certificates are trusted, and nothing that the person told before."""
    database = folder / ".pki" / "nssdb"
    database.mkdir(parents=True)
    _certutil(database, "-N", "--empty-password")
    for number, path in enumerate(authorities):
        _certutil(database, "-A", "-n", f"shop {number}", "-t", "C,,", "-i", str(path))
    return folder


def environment(home: Path) -> dict[str, str | float | bool]:
    """What a browser is started with, so that it reads this home."""
    return {**os.environ, "HOME": str(home)}


def _certutil(database: Path, *words: str) -> None:
    subprocess.run(
        [find() or PROGRAM, "-d", f"sql:{database}", *words], check=True, capture_output=True
    )
