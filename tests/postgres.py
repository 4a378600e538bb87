"""A throw-away PostgreSQL for the tests: made, started, used by one command, removed.

    python -m tests.postgres python -m pytest tests/jobs

runs the command with SHOPAC_DATABASE naming a fresh cluster. The cluster lies in a temporary
folder, listens on a free loopback port only and asks nobody for a password.
"""

import contextlib
import os
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from types import FrameType

NEEDED = ("initdb", "postgres")
START_SECONDS = 30
PLACES = (
    ("/usr/lib/postgresql", "*/bin"),  # Debian, Ubuntu
    ("/usr", "pgsql-*/bin"),  # Fedora, SUSE
    ("/opt/homebrew/opt", "postgresql@*/bin"),
    ("/usr/local/opt", "postgresql@*/bin"),
    ("/Applications/Postgres.app/Contents/Versions", "*/bin"),
    ("C:/Program Files/PostgreSQL", "*/bin"),
)


def find() -> Path | None:
    """The folder with the newest PostgreSQL's programs, or None."""
    found = [folder for start, pattern in PLACES for folder in Path(start).glob(pattern)]
    on_path = shutil.which("initdb")
    if on_path:
        found.append(Path(on_path).resolve().parent)
    whole = [folder for folder in found if all(shutil.which(name, path=folder) for name in NEEDED)]
    return max(whole, key=_version, default=None)


def _version(folder: Path) -> tuple[int, ...]:
    said = subprocess.run(
        [folder / "postgres", "--version"], capture_output=True, text=True, check=True
    ).stdout.split()
    number = next(word for word in said if word[0].isdigit())
    return tuple(int(part) for part in number.split(".") if part.isdigit())


@contextlib.contextmanager
def cluster(programs: Path) -> Iterator[str]:
    """A running cluster; yields its URL for SHOPAC_DATABASE."""
    folder = Path(tempfile.mkdtemp(prefix="shopac-postgres-"))
    person = _person()
    try:
        if person:
            shutil.chown(folder, person)
        make: list[str | Path] = [programs / "initdb", "--pgdata", folder / "data"]
        make += ["--username=shopac", "--auth=trust", "--encoding=UTF8", "--no-locale", "--no-sync"]
        subprocess.run(make, check=True, stdout=subprocess.DEVNULL, user=person, cwd=folder)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        run: list[str | Path] = [programs / "postgres", "-D", folder / "data"]
        run += ["-h", "127.0.0.1", "-p", str(port)]
        run += ["-k", "" if sys.platform == "win32" else folder, "-c", "fsync=off"]
        with (folder / "log").open("w") as log:
            server = subprocess.Popen(
                run, user=person, cwd=folder, stdout=log, stderr=subprocess.STDOUT
            )
        try:
            _wait(server, port, folder / "log")
            yield f"postgresql://shopac@127.0.0.1:{port}/postgres"
        finally:
            server.send_signal(signal.SIGTERM if sys.platform == "win32" else signal.SIGINT)
            server.wait(30)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _person() -> str | None:
    """Whom to run it as: PostgreSQL refuses to run as root."""
    if sys.platform == "win32" or os.geteuid() != 0:
        return None
    import pwd

    names = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in names else "nobody"


def _wait(server: subprocess.Popen[bytes], port: int, log: Path) -> None:
    end = time.monotonic() + START_SECONDS
    while time.monotonic() < end and server.poll() is None:
        with socket.socket() as trial:
            if trial.connect_ex(("127.0.0.1", port)) == 0 and "ready to accept" in log.read_text():
                return
        time.sleep(0.05)
    raise RuntimeError(f"PostgreSQL did not start:\n{log.read_text()}")


def _end(signal_number: int, frame: FrameType | None) -> None:
    sys.exit(128 + signal_number)


def main(command: list[str]) -> int:
    """Run a command with a cluster of its own."""
    programs = find()
    if programs is None:
        print("PostgreSQL is not on this machine (initdb and postgres).", file=sys.stderr)
        return 1
    signal.signal(signal.SIGTERM, _end)
    with cluster(programs) as url:
        environment = {**os.environ, "SHOPAC_DATABASE": url}
        return subprocess.run(command, env=environment, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
