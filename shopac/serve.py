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
from typing import IO, Any

from shopac.trouble import CannotStart

HOST = "127.0.0.1"
START_SECONDS = 60
STOP_SECONDS = 15


def address(port: int) -> str:
    """Where the pages are, as a link."""
    return f"http://{HOST}:{port}/"


def refuse_taken_port(port: int) -> None:
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
            trial.bind((HOST, port))
        except PermissionError:
            raise CannotStart(
                f"Port {port} is reserved on this machine: choose one above 1023, "
                "for example --port 8000."
            ) from None
        except OSError:
            raise CannotStart(
                f"Port {port} is in use by another program: choose another, "
                f"for example --port {port + 1 if port < 65535 else 8000}."
            ) from None


def granian(python: str, port: int) -> list[str]:
    """The server's command line.

    One worker, because the database has one writer; 32 threads, because a few slow photo uploads
    must not stop everyone else's pages.
    """
    command = [python, "-m", "granian", "--interface", "wsgi", "--host", HOST, "--port", str(port)]
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


def wait_until_it_answers(server: subprocess.Popen[bytes], port: int) -> None:
    """Return when the server has answered a request, whatever it said.

    Raises:
        CannotStart: it ended by itself, or stays silent.

    """
    end = time.monotonic() + START_SECONDS
    while time.monotonic() < end:
        if server.poll() is not None:
            raise CannotStart("The server could not be started, for the reason given above.")
        connection = http.client.HTTPConnection(HOST, port, timeout=5)
        try:
            connection.request("GET", "/ping/")
            connection.getresponse().read()
            return
        except (OSError, http.client.HTTPException):
            time.sleep(0.1)
        finally:
            connection.close()
    raise CannotStart(f"The server has not answered on port {port} for {START_SECONDS} seconds.")


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
