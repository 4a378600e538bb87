"""A lock on a file: a second program that wants the same thing is told, not left to interfere.

The system frees the lock when its holder ends, however it ends, so nothing is ever left locked.
Standard library only: used before anything is installed.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import IO

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

# Windows locks bytes, and nobody else may read those: so one far behind the words in the file.
FAR_BYTE = 1 << 20


def take(path: Path, words: str) -> IO[str] | None:
    """Lock the file and write in it who holds it.

    Returns:
        The open file, which holds the lock until it is closed; None when another holds it.

    """
    file = os.fdopen(os.open(str(path), os.O_RDWR | os.O_CREAT, 0o644), "r+", encoding="utf-8")
    try:
        if sys.platform == "win32":
            file.seek(FAR_BYTE)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
            file.seek(0)
        else:
            fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        file.close()
        return None
    file.truncate(0)
    file.write(words)
    file.flush()
    return file


def held_by(path: Path) -> str:
    """What the holder wrote about itself."""
    return path.read_text(encoding="utf-8").strip()
