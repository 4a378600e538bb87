"""Requests with a body may not hold every thread of the server, however slowly they arrive.

The server reads a body in the thread that answers, and waits there for as long as the sender likes.
So the number of such requests is bounded: threads are left for pages and pings, and text gets
through beside stuck photos. Who comes beyond is told to come again, which a tablet does by itself.

What this does not do: end a body that stands still on a line that is alive. The server offers no
limit for that, and stops answering altogether when a request is answered from one thread while
another still reads its body (tried with granian 2.8). Lines whose other end is gone are ended by
the system (`notice_dead_lines`), and a tablet gives up an upload that stands still.
"""

import os
import socket
import threading
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import Any

Environ = dict[str, Any]
StartResponse = Callable[..., Any]
Application = Callable[[Environ, StartResponse], Iterable[bytes]]

# Of the 32 threads of shopac/serve.py: so many for anything with a body, fewer for large ones.
BODIES, LARGE_BODIES = 28, 20
LARGE = 256 * 1024  # more than any text that people type
BUSY = "The shop server takes as many uploads as it can. Nothing of this was stored; send it again."
# Seconds of silence until a line is asked whether anybody is there; between questions; how many.
IDLE, BETWEEN, TIMES = 30, 10, 3


def bounded_bodies(application: Application) -> Application:
    """The same application; requests with a body beyond what it can take are answered at once."""
    bodies, large = threading.Semaphore(BODIES), threading.Semaphore(LARGE_BODIES)

    def answer(environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        size = size_of(environ)
        if not size:
            return application(environ, start_response)
        places = [large, bodies] if size > LARGE else [bodies]
        taken = [place for place in places if place.acquire(blocking=False)]
        try:
            if len(taken) == len(places):
                return application(environ, start_response)
        finally:
            for place in taken:
                place.release()
        head = [("Content-Type", "text/plain; charset=utf-8"), ("Cache-Control", "no-store")]
        head += [("Retry-After", "5"), ("Connection", "close")]
        start_response("503 Service Unavailable", head)
        return [BUSY.encode()]

    return answer


def size_of(environ: Environ) -> int:
    """How much follows the head of a request; what comes without a length counts as large."""
    told = environ.get("CONTENT_LENGTH") or ""
    if told.isdecimal():
        return int(told)
    return LARGE + 1 if environ.get("HTTP_TRANSFER_ENCODING") or told else 0


def notice_dead_lines() -> int:
    """Let the system end lines whose other end is gone: a tablet out of reach, or switched off.

    Lines inherit this from the socket that listens. Returns how many listen; none where the system
    has no list of open files.
    """
    found = 0
    with suppress(OSError):
        for path in Path("/proc/self/fd").iterdir():
            with suppress(OSError), socket.socket(fileno=os.dup(int(path.name))) as one:
                if not one.getsockopt(socket.SOL_SOCKET, socket.SO_ACCEPTCONN):
                    continue
                one.setsockopt(socket.SOL_SOCKET, socket.SO_KEEPALIVE, 1)
                one.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPIDLE, IDLE)
                one.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPINTVL, BETWEEN)
                one.setsockopt(socket.IPPROTO_TCP, socket.TCP_KEEPCNT, TIMES)
                found += 1
    return found
