"""What `python3 -m shopac` does, in its order; it never asks anything.

Install, lock and prepare the data folder, serve until stopped. Standard library only: it runs in
the machine's Python and starts everything else in the program's environment.
"""

from __future__ import annotations

import argparse
import contextlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import IO, Any

from shopac import install, lock, serve, stamp
from shopac.data_folder import data_folder
from shopac.lan.addresses import own
from shopac.lan.chosen import Chosen, choose, keep
from shopac.lan.tend import Tended
from shopac.serve import Door
from shopac.trouble import CannotStart
from shopac.version import VERSION

# A server that ends by itself is started again so often within so many seconds, then no more.
AGAIN_MOST, AGAIN_WITHIN = 5, 600
# How often it is looked whether a certificate is due, where there is one.
LOOK_SECONDS = 60
PORT = 8000
ONLY_HERE = "Only this machine can open the pages; with --lan the shop's tablets can.\n"


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
    parser.add_argument(
        "--port",
        type=_port,
        action="append",
        default=[],
        help=f"where to serve (default {PORT}, with --lan {Chosen().port})",
    )
    _network_options(parser)
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


def _network_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--lan", action="store_true", help="serve the shop's network, over HTTPS, and pair tablets"
    )
    parser.add_argument(
        "--name",
        action="append",
        default=[],
        help=f"what tablets call the shop, told once for ever (default {Chosen().name})",
    )
    parser.add_argument(
        "--pair-port",
        type=_port,
        help=f"where tablets are paired (default {Chosen().pair_port})",
    )


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
    if not options.lan and (options.name or options.pair_port):
        raise CannotStart("--name and --pair-port are about the shop's network: add --lan.")
    folder = _folder(options.data)
    lan = choose(folder, options.name, options.port, options.pair_port) if options.lan else None
    door = Door(lan.port, lan.name, folder) if lan else Door([PORT, *options.port][-1])
    held = lock.take(folder / "lock", f"{door.address} (process {os.getpid()})")
    if held is None:
        raise CannotStart(
            f"shopac is already running on {folder}: {lock.held_by(folder / 'lock')}."
        )
    with held:
        stamp.refuse_newer(folder)
        serve.refuse_taken_port(door.port, door.host)
        if lan:
            serve.refuse_taken_port(lan.pair_port, door.host, "--pair-port")
        install.ensure(options.offline)
        os.umask(0o077)  # names, phones and signatures are nobody else's on this machine
        environment = {**os.environ, "DJANGO_SETTINGS_MODULE": "shopac.settings"}
        environment = {**environment, **serve.environment(door)}
        closing_words = _prepare(options, door, environment)
        if lan is None:
            return _serve(door, environment, held, closing_words + ONLY_HERE)
        keep(folder, lan)
        with Tended(str(install.PYTHON), str(install.PROGRAM), environment, lan) as tended:
            words = closing_words + _where_to_pair(lan)
            return _serve(door, environment, held, words, tended.look)


def _where_to_pair(lan: Chosen) -> str:
    places = [f"http://{one}:{lan.pair_port}/" for one in [*own(), serve.HOST]]
    return f"Pair a tablet, or see how: {' or '.join(places)}\n"


def _prepare(options: argparse.Namespace, door: Door, environment: dict[str, str]) -> str:
    """Prepare the data in the program's environment; returns what to tell once it serves."""
    command = [str(install.PYTHON), "-m", "shopac.prepare", door.here]
    command += ["--empty"] if options.empty else []
    command += ["--new-password"] if options.new_password else []
    command += ["--without-backup"] if options.without_backup else []
    command += ["--lan", door.name] if door.secured else []
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


def _serve(
    door: Door,
    environment: dict[str, str],
    held: IO[str],
    closing_words: str,
    look: Callable[[], bool] | None = None,
) -> int:
    """Serve until told to stop. `look` is asked now and then whether to start the server anew."""
    command = serve.granian(str(install.PYTHON), door)

    def begin() -> subprocess.Popen[bytes]:
        return serve.start(command, environment, str(install.PROGRAM), held)

    server = begin()
    ended: list[float] = []
    try:
        serve.wait_until_it_answers(server, door)
        print(closing_words, end="")
        print(f"The shop's data is in {environment['SHOPAC_DATA']}. Stop with Ctrl-C.")
        print(f"shopac {VERSION} is open at {door.address}", flush=True)
        while True:
            code = _until_it_ends(server, look)
            if code is None:
                print("The server has a new certificate; starting it again.", flush=True)
                server = _renewed(server, door, begin)
                continue
            ended = [*ended, time.monotonic()]
            _say_ended(code, ended)
            serve.stop(server)  # what is left of it would hold the port
            server = begin()
            serve.wait_until_it_answers(server, door)
            print(f"shopac {VERSION} is open again at {door.address}", flush=True)
    except KeyboardInterrupt:
        print("Stopping ...", flush=True)
        return 0
    finally:
        serve.stop(server)


def _renewed(
    before: subprocess.Popen[bytes], door: Door, begin: Callable[[], subprocess.Popen[bytes]]
) -> subprocess.Popen[bytes]:
    """The server with its new certificate; the one before, where that still runs and this cannot.

    Raises:
        CannotStart: neither of them serves.

    """
    try:
        server = serve.in_its_place(before, door, begin)
    except CannotStart as wrong:
        if before.poll() is not None:
            raise
        print(f"{wrong} The one before goes on.", file=sys.stderr, flush=True)
        return before
    print(f"shopac {VERSION} is open again at {door.address}", flush=True)
    return server


def _until_it_ends(server: subprocess.Popen[bytes], look: Callable[[], bool] | None) -> int | None:
    """The code with which the server ended by itself; None when it is to be started anew."""
    if look is None:
        return server.wait()
    while True:
        with contextlib.suppress(subprocess.TimeoutExpired):
            return server.wait(LOOK_SECONDS)
        if look():
            return None


def _say_ended(code: int, ended: list[float]) -> None:
    if not may_start_again(ended):
        raise CannotStart(
            f"The server ended by itself with code {code}, {AGAIN_MOST + 1} times within"
            f" {AGAIN_WITHIN // 60} minutes. Nothing is served; start it again."
        )
    print(f"The server ended by itself with code {code}; starting it again.", flush=True)


def _test(arguments: list[str]) -> int:
    install.ensure(tests=True)
    command = [str(install.PYTHON), "-m", "tests.run", *arguments]
    return subprocess.run(command, cwd=str(install.PROGRAM), check=False).returncode
