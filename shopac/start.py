"""What `python3 -m shopac` does, in its order; it never asks anything.

Install, lock and prepare the data folder, serve until stopped. Standard library only: it runs in
the machine's Python and starts everything else in the program's environment.
"""

from __future__ import annotations

import argparse
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import IO, Any

from shopac import install, lock, serve, stamp
from shopac.beside import beside
from shopac.data_folder import data_folder
from shopac.trouble import CannotStart
from shopac.version import VERSION

# A server that ends by itself is started again so often within so many seconds, then no more.
AGAIN_MOST, AGAIN_WITHIN = 5, 600


def may_start_again(ended: list[float]) -> bool:
    """Whether a server that ended at these moments, the last one now, may be started once more."""
    return sum(ended[-1] - moment <= AGAIN_WITHIN for moment in ended) <= AGAIN_MOST


def main(arguments: list[str]) -> int:
    """Run the command and return its exit code; what goes wrong is one sentence."""
    sys.stdout.reconfigure(errors="replace")  # type: ignore[union-attr]
    sys.stderr.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        signal.signal(signal.SIGTERM, _interrupt)
        if arguments[:1] == ["test"]:
            return _test(arguments[1:])
        return _start(read_options(arguments))
    except CannotStart as wrong:
        print(wrong, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped.", flush=True)
        return 130


def _interrupt(*_: Any) -> None:
    """Being told to end is the same as Ctrl-C."""
    raise KeyboardInterrupt


def _port(text: str) -> int:
    if not text.isascii() or not text.isdecimal() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"“{text}” is no port: it takes a number from 1 to 65535")
    return int(text)


def read_options(arguments: list[str]) -> argparse.Namespace:
    """What was asked for on the command line; ends the program where it cannot be read."""
    parser = argparse.ArgumentParser(
        prog="python3 -m shopac",
        description="Install what is needed, prepare the shop's data and serve its pages.",
        epilog="python3 -m shopac test [PYTEST ARGUMENTS] runs the checks and the tests.",
    )
    parser.add_argument("--port", type=_port, default=8000, help="where to serve (default 8000)")
    parser.add_argument("--data", type=Path, metavar="DIR", help="folder of the shop's data")
    parser.add_argument(
        "--empty", action="store_true", help="begin without the demo: prints a link to set up"
    )
    parser.add_argument(
        "--new-password",
        action="store_true",
        help="print a link to give an owner a new password",
    )
    parser.add_argument(
        "--offline", type=Path, metavar="DIR", help="install from this folder of wheels"
    )
    parser.add_argument(
        "--without-backup",
        action="store_true",
        help="change a PostgreSQL database even where pg_dump cannot back it up first",
    )
    parser.add_argument("--version", action="version", version=f"shopac {VERSION}")
    return parser.parse_args(arguments)


def _folder(told: Path | None) -> Path:
    """The data folder, made when it is not there; outside the program, which gets replaced."""
    if told:
        os.environ["SHOPAC_DATA"] = str(told.expanduser().absolute())
    try:
        folder = data_folder().resolve()
    except OSError as wrong:
        raise CannotStart(
            f"The data folder {wrong.filename} cannot be made ({wrong.strerror}): "
            "name another with --data."
        ) from None
    if folder == install.PROGRAM or install.PROGRAM in folder.parents:
        raise CannotStart(
            f"The data folder {folder} lies inside the program, which is replaced at an update: "
            "name one outside with --data."
        )
    if not os.access(str(folder), os.W_OK):
        raise CannotStart(f"The data folder {folder} cannot be written to.")
    os.environ["SHOPAC_DATA"] = str(folder)
    return folder


def _start(options: argparse.Namespace) -> int:
    if options.offline and not options.offline.is_dir():
        raise CannotStart(f"--offline: there is no folder {options.offline}.")
    folder = _folder(options.data)
    address = serve.address(options.port)
    held = lock.take(folder / "lock", f"{address} (process {os.getpid()})")
    if held is None:
        raise CannotStart(
            f"shopac is already running on {folder}: {lock.held_by(folder / 'lock')}."
        )
    with held:
        stamp.refuse_newer(folder)
        serve.refuse_taken_port(options.port)
        install.ensure(options.offline)
        os.umask(0o077)  # names, phones and signatures are nobody else's on this machine
        environment = {**os.environ, "DJANGO_SETTINGS_MODULE": "shopac.settings"}
        closing_words = _prepare(options, address, environment)
        with beside(_daily(), environment, str(install.PROGRAM)):
            return _serve(options.port, environment, held, closing_words)


def _prepare(options: argparse.Namespace, address: str, environment: dict[str, str]) -> str:
    """Prepare the data in the program's environment; returns what to tell once it serves."""
    command = [str(install.PYTHON), "-m", "shopac.prepare", address]
    command += ["--empty"] if options.empty else []
    command += ["--new-password"] if options.new_password else []
    command += ["--without-backup"] if options.without_backup else []
    done = subprocess.run(
        command,
        cwd=str(install.PROGRAM),
        env={**environment, "PYTHONIOENCODING": "utf-8"},
        stdout=subprocess.PIPE,
        encoding="utf-8",
        check=False,
    )
    if done.returncode:
        raise CannotStart("Nothing is served.")
    return done.stdout


def _daily() -> list[str]:
    """The command that makes the backups of a shop that is served."""
    return [str(install.PYTHON), "manage.py", "daily"]


def _serve(port: int, environment: dict[str, str], held: IO[str], closing_words: str) -> int:
    command = serve.granian(str(install.PYTHON), port)
    server = serve.start(command, environment, str(install.PROGRAM), held)
    ended: list[float] = []
    try:
        serve.wait_until_it_answers(server, port)
        print(closing_words, end="")
        print(f"The shop's data is in {environment['SHOPAC_DATA']}.")
        print("Only this machine can open the pages for now. Stop with Ctrl-C.")
        print(f"shopac {VERSION} is open at {serve.address(port)}", flush=True)
        while True:
            code = server.wait()
            ended = [*ended, time.monotonic()]
            if not may_start_again(ended):
                raise CannotStart(
                    f"The server ended by itself with code {code}, {AGAIN_MOST + 1} times within"
                    f" {AGAIN_WITHIN // 60} minutes. Nothing is served; start it again."
                )
            print(f"The server ended by itself with code {code}; starting it again.", flush=True)
            serve.stop(server)  # what is left of it would hold the port
            server = serve.start(command, environment, str(install.PROGRAM), held)
            serve.wait_until_it_answers(server, port)
            print(f"shopac {VERSION} is open again at {serve.address(port)}", flush=True)
    except KeyboardInterrupt:
        print("Stopping ...", flush=True)
        return 0
    finally:
        serve.stop(server)


def _test(arguments: list[str]) -> int:
    install.ensure(tests=True)
    command = [str(install.PYTHON), "-m", "tests.run", *arguments]
    return subprocess.run(command, cwd=str(install.PROGRAM), check=False).returncode
