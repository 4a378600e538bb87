"""A program that runs beside the server for as long as the start does. Standard library only."""

from __future__ import annotations

import contextlib
import subprocess
from typing import Iterator


@contextlib.contextmanager
def beside(command: list[str], environment: dict[str, str], folder: str) -> Iterator[None]:
    """Run a command until the block ends. It also ends by itself when this process is killed.

    Its standard input is a pipe of which nothing ever comes: its end tells that nobody is there.
    """
    child = subprocess.Popen(  # a session of its own: Ctrl-C is for the start to answer
        command, env=environment, cwd=folder, stdin=subprocess.PIPE, start_new_session=True
    )
    try:
        yield
    finally:
        child.kill()  # a backup it was at is done anew; what is whole has its name already
        child.wait()
        if child.stdin:
            child.stdin.close()
