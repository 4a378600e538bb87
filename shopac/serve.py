"""Run the web server as a child process and stop it, worker and all.

Standard library only; the server itself runs in the program's environment.
"""

from __future__ import annotations

import contextlib
import http.client
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import IO, Any, NamedTuple

from shopac.lan.chosen import authority, served
from shopac.trouble import CannotStart

try:
    import ssl
except ImportError:  # a crippled Python, of which the install will say what to do
    ssl = None  # type: ignore[assignment]

HOST, ANY = "127.0.0.1", "0.0.0.0"  # noqa: S104  on the shop's network with a certificate only
START_SECONDS = 60
STOP_SECONDS = 15


class Door(NamedTuple):
    """Where the server listens, and what browsers call it.

    Without `secured`, the data folder where its certificate lies, it is open to this machine only.
    """

    port: int
    name: str = HOST
    secured: Path | None = None

    @property
    def address(self) -> str:
        """Where the pages are, as a link."""
        return f"{'https' if self.secured else 'http'}://{self.name}:{self.port}/"

    @property
    def here(self) -> str:
        """The same for a browser on this machine, whatever the name leads to."""
        return self._replace(name=HOST).address

    @property
    def host(self) -> str:
        """The address to listen at."""
        return ANY if self.secured else HOST


def refuse_taken_port(port: int, host: str = HOST, option: str = "--port") -> None:
    """Find out early that the port is in use.

    Raises:
        CannotStart: something else listens there, or this person may not listen there.

    """
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as trial:
        if sys.platform == "win32":
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:  # connections just closed do not count as in use
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
        except PermissionError:
            raise CannotStart(
                f"Port {port} is reserved on this machine: choose one above 1023, "
                f"for example {option} 8000."
            ) from None
        except OSError:
            raise CannotStart(
                f"Port {port} is in use by another program: choose another, "
                f"for example {option} {port + 1 if port < 65535 else 8000}."
            ) from None


def environment(door: Door) -> dict[str, str]:
    """What the site's settings have to know of the door."""
    return {"SHOPAC_HTTPS": "1", "SHOPAC_HOSTS": door.name} if door.secured else {}


def granian(python: str, door: Door) -> list[str]:
    """The server's command line.

    One worker, because the database has one writer; 32 threads, because a few slow photo uploads
    must not stop everyone else's pages. HTTP/1 also where HTTP/2 could be had: there a photo and
    the text behind it would share one line, and the text would wait for the photo.
    """
    command = [python, "-m", "granian", "--interface", "wsgi", "--http", "1"]
    command += ["--host", door.host, "--port", str(door.port)]
    if door.secured:
        both = str(served(door.secured))
        command += ["--ssl-certificate", both, "--ssl-keyfile", both]
    command += ["--workers", "1", "--blocking-threads", "32", "--respawn-failed-workers"]
    command += ["--workers-kill-timeout", "10", "--log-level", "error", "--no-ws"]
    return [*command, "shopac.wsgi:application"]


def start(
    command: list[str], environment: dict[str, str], folder: str, held: IO[str]
) -> subprocess.Popen[bytes]:
    """Start the server in a process group of its own: the group is how its worker is found.

    It inherits the lock on the data folder, so that the folder counts as in use for as long as the
    server lives, even when the start command has been killed.
    """
    more: dict[str, Any] = {} if sys.platform == "win32" else {"pass_fds": (held.fileno(),)}
    return subprocess.Popen(command, env=environment, cwd=folder, start_new_session=True, **more)


def line_to(door: Door) -> http.client.HTTPConnection:
    """A line to the server from this machine, its certificate held to the one that lies there.

    It goes to this machine's own address: whether the name leads here is the network's business.

    Raises:
        OSError: nobody listens, or the certificate is another, such as the one before.

    """
    line = http.client.HTTPConnection(door.name, door.port, timeout=5)
    line.sock = socket.create_connection((HOST, door.port), timeout=5)
    if door.secured:
        trust = ssl.create_default_context(cafile=str(authority(door.secured)))
        line.sock = trust.wrap_socket(line.sock, server_hostname=door.name)
        shown = ssl.DER_cert_to_PEM_cert(line.sock.getpeercert(binary_form=True) or b"")
        if shown.strip() not in served(door.secured).read_text(encoding="ascii"):
            line.close()
            raise OSError("the certificate before this one is shown still")
    return line


def wait_until_it_answers(server: subprocess.Popen[bytes], door: Door) -> None:
    """Return when the server has answered a request, whatever it said.

    Raises:
        CannotStart: it ended by itself, or stays silent.

    """
    end = time.monotonic() + START_SECONDS
    while time.monotonic() < end:
        if server.poll() is not None:
            raise CannotStart("The server could not be started, for the reason given above.")
        try:
            with contextlib.closing(line_to(door)) as line:
                line.request("GET", "/ping/")
                line.getresponse().read()
            return
        except (OSError, http.client.HTTPException):
            time.sleep(0.05)
    raise CannotStart(
        f"The server has not answered on port {door.port} for {START_SECONDS} seconds."
    )


def in_its_place(
    before: subprocess.Popen[bytes],
    door: Door,
    begin: Callable[[], subprocess.Popen[bytes]],
) -> subprocess.Popen[bytes]:
    """Start a server with a new certificate in the place of the one before, and return it.

    On Linux both listen until the new one answers, so that nobody finds the door shut; elsewhere
    the port has to be free first.

    Raises:
        CannotStart: the new one does not answer; where that is Linux, the one before goes on.

    """
    if sys.platform != "linux":
        stop(before)
    server = begin()
    try:
        wait_until_it_answers(server, door)
    except BaseException:
        stop(server)
        raise
    if sys.platform == "linux":
        stop(before)
    return server


def stop(server: subprocess.Popen[bytes]) -> None:
    """Let requests under way finish, then end the server and its worker."""
    with contextlib.suppress(OSError):
        server.terminate()
    try:
        server.wait(STOP_SECONDS)
    except (subprocess.TimeoutExpired, KeyboardInterrupt):
        server.kill()
        server.wait()
    if sys.platform != "win32":
        # A server that died at once leaves its worker behind, which would go on answering.
        with contextlib.suppress(OSError):
            os.killpg(server.pid, signal.SIGKILL)
