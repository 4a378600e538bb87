"""The version stamp of a data folder: which release of the program last prepared it.

An older program must not open data that a newer one has changed. Standard library only.
"""

from __future__ import annotations

import os
from pathlib import Path

from shopac.trouble import CannotStart
from shopac.version import VERSION


def _numbers(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split("."))


def is_newer(version: str) -> bool:
    """Whether a release is newer than this program; one that cannot be read is not."""
    try:
        return _numbers(version) > _numbers(VERSION)
    except ValueError:
        return False


def read(folder: Path) -> str:
    """The version in the folder's stamp; empty where no start has been finished yet."""
    path = folder / "version"
    return path.read_text(encoding="utf-8").strip() if path.exists() else ""


def refuse_newer(folder: Path) -> None:
    """Turn away a folder that a newer release has prepared.

    Raises:
        CannotStart: the stamp is newer than this program, or no version can be read in it.

    """
    stamped = read(folder)
    try:
        newer = bool(stamped) and _numbers(stamped) > _numbers(VERSION)
    except ValueError:
        raise CannotStart(
            f"{folder / 'version'} should hold the version that last used this data and holds "
            f"“{stamped[:40]}”: put the right version there, or name another folder with --data."
        ) from None
    if newer:
        raise CannotStart(
            f"The data in {folder} was last used by shopac {stamped} and this is the older "
            f"{VERSION}: start the newer program, or name another folder with --data."
        )


def write(folder: Path) -> None:
    """Stamp the folder with this release, whole or not at all."""
    draft = folder / "version.new"
    with draft.open("w", encoding="utf-8") as file:
        file.write(VERSION + "\n")
        file.flush()
        os.fsync(file.fileno())
    draft.replace(folder / "version")
