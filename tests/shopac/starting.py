"""Start the program as a person does, in a process of its own, on a data folder of the test."""

import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

PROGRAM = Path(__file__).resolve().parent.parent.parent
# The start itself, except that this test's own environment stands for the installed one.
COMMAND = """
import signal
import sys
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background job ignores it
from pathlib import Path
from shopac import install, start
install.ensure = lambda *_, **__: None
install.PYTHON = Path(sys.executable)
start.LOOK_SECONDS = 1
sys.exit(start.main(sys.argv[1:]))
"""
OPEN = "is open at"


def environment() -> dict[str, str]:
    """The environment of a shop that has set nothing."""
    return {name: told for name, told in os.environ.items() if not name.startswith("SHOPAC_")}


def free_port() -> int:
    """A loopback port nobody listens on."""
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        port: int = trial.getsockname()[1]
        return port


class Started:
    """A started program: what it has said so far, and how to end it."""

    def __init__(self, data: Path, *options: str) -> None:
        self.port = free_port()
        self.log = data.with_name(f"{data.name}-{self.port}.log")
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-c", COMMAND, "--data", str(data), *self._port(options)],
                cwd=PROGRAM,
                env=environment(),
                stdout=log,
                stderr=subprocess.STDOUT,
                start_new_session=True,
            )

    def _port(self, options: tuple[str, ...]) -> list[str]:
        return [*options] if "--port" in options else ["--port", str(self.port), *options]

    @property
    def said(self) -> str:
        return self.log.read_text()

    def wait_until_open(self) -> "Started":
        end = time.monotonic() + 60
        while OPEN not in self.said:
            assert self.process.poll() is None, self.said
            assert time.monotonic() < end, self.said
            time.sleep(0.05)
        return self

    def wait(self) -> int:
        """Wait until it has ended by itself; returns its exit code."""
        return self.process.wait(60)

    def end(self, by: signal.Signals = signal.SIGTERM) -> int:
        if self.process.poll() is None:
            self.process.send_signal(by)
        return self.wait()

    def children(self) -> list[int]:
        """The processes below it, the server first and its worker after it."""
        found = [self.process.pid]
        for process in found:
            tasks = Path(f"/proc/{process}/task/{process}/children")
            found += [int(child) for child in tasks.read_text().split()]
        return found[1:]


def is_alive(process: int) -> bool:
    """Whether a process is there and not just waiting to be collected."""
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False
