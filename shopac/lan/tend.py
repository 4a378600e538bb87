"""What a shop on its network needs beside its server: pairing, and a certificate in time.

Standard library only: the start command holds it. What has to do with certificates is done by
shopac/lan/renew.py in the program's environment, and only when one is due.
"""

from __future__ import annotations

import subprocess
import time
from datetime import datetime, timezone
from pathlib import Path

from shopac.lan.addresses import own
from shopac.lan.chosen import Chosen
from shopac.lan.due import is_due

# A renewal that failed (a full disk, a key that is gone) is said, and tried again so much later.
AGAIN_SECONDS = 3600


class Tended:
    """Runs the pairing page while the block lasts; asked every minute, it sees to the rest."""

    def __init__(self, python: str, program: str, environment: dict[str, str], lan: Chosen) -> None:
        self._python = python
        self._program = program
        self._environment = environment
        self._lan = lan
        self._folder = Path(environment["SHOPAC_DATA"])
        self._pairing: subprocess.Popen[bytes] | None = None
        self._not_before = 0.0

    def __enter__(self) -> Tended:
        self._pair()
        return self

    def __exit__(self, *_: object) -> None:
        if self._pairing:
            self._pairing.kill()  # it writes nothing
            self._pairing.wait()
            if self._pairing.stdin:
                self._pairing.stdin.close()

    def look(self) -> bool:
        """See to pairing and certificate; whether the server is to be started with a new one."""
        if self._pairing and self._pairing.poll() is not None:
            self._pair()
        now = datetime.now(timezone.utc)
        due = is_due(self._folder, self._lan.name, own(), now)
        if not due or time.monotonic() < self._not_before:
            return False
        command = [self._python, "-m", "shopac.lan.renew"]
        done = subprocess.run(command, cwd=self._program, env=self._environment, check=False)
        if done.returncode:
            self._not_before = time.monotonic() + AGAIN_SECONDS
        return not done.returncode

    def _pair(self) -> None:
        """Start the pairing page; its standard input ends with this process, and it with that."""
        self._pairing = subprocess.Popen(
            [self._python, "-m", "shopac.lan.pairing"],
            cwd=self._program,
            env=self._environment,
            stdin=subprocess.PIPE,
        )
