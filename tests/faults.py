"""The site with accidents on order, for a server that tests start as a process of its own.

The file named by SHOPAC_TEST_FAULTS holds a list of rules; the first that fits a request happens
to it. A rule: {"method", "path": its beginning, "do": name of an accident, "times": how often, left
out: always} and what the accident needs. Used by no one but tests.
"""

import io
import json
import os
import signal
import threading
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext, suppress
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from django.db import connection
from django.db.backends.signals import connection_created
from django.utils import timezone

from shopac.wsgi import application as site  # isort: skip

from jobs import logbook  # isort: skip  (there are no models before the site is up)

Environ = dict[str, Any]
Start = Callable[..., Any]
RULES = Path(os.environ["SHOPAC_TEST_FAULTS"])
LOCK = threading.Lock()
HTML = [("Content-Type", "text/html; charset=utf-8")]
CLOCK = RULES.with_name("clock")
SYNCHRONOUS = os.environ.get("SHOPAC_TEST_SYNCHRONOUS", "")
seconds_now = time.time


def shifted() -> float:
    """Seconds since the epoch by a clock that may be off."""
    off = 0.0
    with suppress(OSError, ValueError):
        off = float(CLOCK.read_text())
    return seconds_now() + off


time.time = shifted
timezone.now = lambda: datetime.fromtimestamp(shifted(), UTC)


def careless(connection: Any, **_told: Any) -> None:
    """A commit that does not wait for the disk."""
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA synchronous={SYNCHRONOUS}")


if SYNCHRONOUS:
    connection_created.connect(careless)
if os.environ.get("SHOPAC_TEST_NO_TRANSACTION"):
    logbook.transaction = SimpleNamespace(atomic=nullcontext)  # type: ignore[assignment,attr-defined]


def application(environ: Environ, start_response: Start) -> Iterable[bytes]:
    """Answer as the site does, unless a rule fits."""
    rule = fitting(environ)
    if rule is None:
        return site(environ, start_response)
    return ACCIDENTS[rule["do"]](rule, environ, start_response)


def fitting(environ: Environ) -> dict[str, Any] | None:
    """The rule for this request; one that has happened often enough is taken out first."""
    with LOCK:
        rules = json.loads(RULES.read_text()) if RULES.exists() else []
        for rule in rules:
            same = environ["REQUEST_METHOD"] == rule.get("method", "POST")
            if not same or not environ["PATH_INFO"].startswith(rule.get("path", "/entries/")):
                continue
            if "times" in rule:
                rule["times"] -= 1
                left = [one for one in rules if one.get("times") != 0]
                draft = RULES.with_suffix(".new")
                draft.write_text(json.dumps(left))
                draft.replace(RULES)
            return dict(rule)
    return None


def die() -> None:
    """End the server, parent and worker, as if the plug was pulled on its process."""
    os.killpg(os.getpgid(0), signal.SIGKILL)
    time.sleep(60)


def answered(environ: Environ, start: Start, body: bytes, status: str, headers: Any) -> list[bytes]:
    """An answer of our own, after the request was read to its end."""
    while environ["wsgi.input"].read(65536):
        pass
    start(status, [*headers, ("Content-Length", str(len(body)))])
    return [body]


def handled(environ: Environ) -> tuple[str, list[tuple[str, str]], bytes]:
    """What the site answers: status, headers, whole body."""
    told: list[Any] = []

    def start(status: str, headers: list[tuple[str, str]], *_: Any) -> Callable[[bytes], object]:
        told.extend((status, headers))
        return lambda _part: None

    body = b"".join(site(environ, start))
    headers = [(name, value) for name, value in told[1] if name.lower() != "content-length"]
    return told[0], headers, body


def die_before(_rule: Any, _environ: Environ, _start: Start) -> Iterable[bytes]:
    """The server is killed before it looks at the request."""
    die()
    return []


def die_within(rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """The server is killed before the n-th statement that writes."""
    left = rule["statement"]

    def count(execute: Any, sql: str, params: Any, many: bool, context: Any) -> Any:
        nonlocal left
        if sql.lstrip().upper().startswith(("INSERT", "UPDATE", "DELETE")):
            left -= 1
            if left == 0:
                die()
        return execute(sql, params, many, context)

    with connection.execute_wrapper(count):
        return site(environ, start)


def die_after(_rule: Any, environ: Environ, _start: Start) -> Iterable[bytes]:
    """The server has committed and is killed before it answers."""
    handled(environ)
    die()
    return []


def deliver(rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """The same request arrives several times at once; the first to be done gives the answer."""
    body = environ["wsgi.input"].read()
    copies = [{**environ, "wsgi.input": io.BytesIO(body)} for _ in range(rule["number"])]
    with ThreadPoolExecutor(len(copies)) as at_once:
        answers = list(at_once.map(handled, copies))
    status, headers, said = answers[0]
    start(status, [*headers, ("Content-Length", str(len(said)))])
    return [said]


def refuse_unread(_rule: Any, _environ: Environ, start: Start) -> Iterable[bytes]:
    """Turned away before the body was read, which reaches a browser as a line that broke."""
    start("403 Forbidden", [*HTML, ("Connection", "close"), ("Content-Length", "0")])
    return [b""]


def cut_answer(_rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """All is done; of the answer only the first half is there, as a whole answer."""
    status, headers, body = handled(environ)
    half = body[: len(body) // 2]
    start(status, [*headers, ("Content-Length", str(len(half)))])
    return [half]


def lose_answer(rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """All is done; the answer is another one, with this status."""
    handled(environ)
    return answered(environ, start, b"<h1>Sorry</h1>", rule["status"], HTML)


def fail(rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """Nothing is done; the answer has this status and nothing to do with the entry."""
    headers = [*HTML, *rule.get("headers", {}).items()]
    return answered(
        environ, start, rule.get("body", "<h1>Sorry</h1>").encode(), rule["status"], headers
    )


def wait(rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """The site answers, but later."""
    time.sleep(rule["seconds"])
    return site(environ, start)


def replace(rule: Any, environ: Environ, start: Start) -> Iterable[bytes]:
    """A file is served with some of its text replaced: a careless variant of a script."""
    environ.pop("HTTP_ACCEPT_ENCODING", None)
    environ.pop("HTTP_IF_MODIFIED_SINCE", None)
    status, headers, body = handled(environ)
    text = body.decode()
    for found, put in rule["texts"]:
        if text.count(found) != 1:
            raise RuntimeError(f"{environ['PATH_INFO']} has not once: {found}")
        text = text.replace(found, put)
    body = text.encode()
    start(status, [*headers, ("Content-Length", str(len(body)))])
    return [body]


ACCIDENTS: dict[str, Callable[..., Iterable[bytes]]] = {
    one.__name__: one
    for one in (
        *(die_before, die_within, die_after, cut_answer, lose_answer, fail, wait, replace),
        *(deliver, refuse_unread),
    )
}
