"""What the server takes of the machine's memory while nobody asks anything, on Linux."""

import os
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

from django.conf import settings

from shopac.serve import Door, granian, stop, wait_until_it_answers

PAGES = ("/ping/", "/sign_in/")


def idle_megabytes() -> float | None:
    """Memory of the server's processes after its first pages; None: this system does not tell.

    It is the share that is theirs (PSS): what two of them use together counts once.
    """
    if not Path("/proc/self/smaps_rollup").exists():
        return None
    port = free_port()
    environment = os.environ | {"SHOPAC_DATA": str(settings.DATA)}
    server = subprocess.Popen(
        granian(sys.executable, Door(port)),
        env=environment,
        cwd=settings.BASE_DIR,
        start_new_session=True,
    )
    try:
        wait_until_it_answers(server, Door(port))
        for page in PAGES:
            with urllib.request.urlopen(f"http://127.0.0.1:{port}{page}") as answer:
                answer.read()
        return sum(proportional(pid) for pid in group(server.pid)) / 1024
    finally:
        stop(server)


def free_port() -> int:
    """A port on which nothing listens."""
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        port: int = trial.getsockname()[1]
        return port


def group(leader: int) -> list[int]:
    """The processes of a group."""
    found = []
    for folder in Path("/proc").iterdir():
        if folder.name.isdigit():
            try:
                if os.getpgid(int(folder.name)) == leader:
                    found.append(int(folder.name))
            except ProcessLookupError:
                continue
    return found


def proportional(pid: int) -> int:
    """The kilobytes of one process."""
    lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
