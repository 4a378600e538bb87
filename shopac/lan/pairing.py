"""The pairing page: over plain HTTP, since no tablet trusts the shop's certificate before.

Run as `python -m shopac.lan.pairing` beside the server. It has the authority's public file, what
to compare it with, the steps, and a check; nothing of the shop's data, and it leads nowhere else.
"""

import html
import json
import os
import string
import sys
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import segno

from shopac.data_folder import data_folder
from shopac.lan import addresses, chosen
from shopac.lan.authority import fingerprint, span
from shopac.lan.chosen import Chosen

PROGRAM = Path(__file__).resolve().parent.parent.parent
# What the page may name, and nothing else of the program.
FILES = {
    "/static/css/shopac.css": "text/css",
    "/static/css/touch.css": "text/css",
    "/static/css/pair.css": "text/css",
    "/static/js/check_shown.js": "text/javascript",
    "/static/js/pair.js": "text/javascript",
}
AUTHORITY = "/shop-authority.crt"
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; "
    "connect-src 'self' https: http:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
SILENT_SECONDS = 10
LINES_MOST = 64
NOTHING = "There is nothing here but the pairing page, at /\n"


@dataclass(frozen=True)
class Answer:
    """What goes out: status, kind of content, bytes, more headers."""

    status: HTTPStatus
    kind: str
    body: bytes
    more: Mapping[str, str]


def answer(folder: Path, lan: Chosen, path: str) -> Answer:
    """What is behind an address of the pairing server; bytes of a file, never a redirect.

    Args:
        folder: the data folder, of which the two public certificates are read.
        lan: name and ports.
        path: as asked for, with what stands behind the question mark.

    """
    path = path.partition("?")[0]
    if path == "/":
        return _found("text/html; charset=utf-8", page(folder, lan).encode())
    if path == AUTHORITY:
        told = {"Content-Disposition": f'attachment; filename="{AUTHORITY[1:]}"'}
        certificate = chosen.authority(folder).read_bytes()
        return _found("application/x-x509-ca-cert", certificate, told)
    if path == "/about.json":
        # Asked by the check under the shop's name too, which is another origin.
        told = {"Access-Control-Allow-Origin": "*"}
        return _found("application/json", json.dumps(about(folder, lan)).encode(), told)
    if path in FILES:
        return _found(f"{FILES[path]}; charset=utf-8", (PROGRAM / path[1:]).read_bytes())
    return Answer(HTTPStatus.NOT_FOUND, "text/plain; charset=utf-8", NOTHING.encode(), {})


def _found(kind: str, body: bytes, more: Mapping[str, str] | None = None) -> Answer:
    return Answer(HTTPStatus.OK, kind, body, more or {})


def about(folder: Path, lan: Chosen) -> dict[str, object]:
    """What the check compares: whose page this is, the time here, and when the certificate holds.

    Times are milliseconds since 1970, as browsers count them.
    """
    begins, end = span(chosen.served(folder).read_bytes())
    return {
        "shopac": "pair",
        "authority": fingerprint(chosen.authority(folder).read_bytes()),
        "address": lan.address,
        "time": round(time.time() * 1000),
        "begins": round(begins.timestamp() * 1000),
        "ends": round(end.timestamp() * 1000),
    }


def page(folder: Path, lan: Chosen) -> str:
    """The page, with the code that leads a tablet to it."""
    here = addresses.own()
    link = f"http://{here[0] if here else lan.name}:{lan.pair_port}/"
    told = {
        "name": lan.name,
        "address": lan.address,
        "by_name": f"http://{lan.name}:{lan.pair_port}/about.json",
        "link": link,
        "file": AUTHORITY,
        "fingerprint": fingerprint(chosen.authority(folder).read_bytes()),
        "code": segno.make(link, micro=False, error="m").svg_data_uri(
            scale=6, border=4, dark="#000", light="#fff"
        ),
    }
    words = string.Template((PROGRAM / "templates" / "pair.html").read_text(encoding="utf-8"))
    return words.substitute({name: html.escape(value) for name, value in told.items()})


def handler(folder: Path, lan: Chosen) -> type[BaseHTTPRequestHandler]:
    """Answers GET and HEAD on one line after another, and nothing else."""

    class Pairing(BaseHTTPRequestHandler):
        server_version, sys_version = "shopac", ""
        timeout = SILENT_SECONDS

        def do_GET(self) -> None:  # the library's shape
            self._send(with_body=True)

        def do_HEAD(self) -> None:
            self._send(with_body=False)

        def _send(self, *, with_body: bool) -> None:
            told = answer(folder, lan, self.path)
            self.send_response(told.status)
            headers = {
                "Content-Type": told.kind,
                "Content-Length": str(len(told.body)),
                "Cache-Control": "no-store",
                "Content-Security-Policy": POLICY,
                "X-Content-Type-Options": "nosniff",
                "Referrer-Policy": "no-referrer",
            }
            for name, value in {**headers, **told.more}.items():
                self.send_header(name, value)
            self.end_headers()
            if with_body:
                self.wfile.write(told.body)

        def log_message(self, *_: object) -> None:
            """Who looks at a public page is nobody's business."""

    return Pairing


class Server(ThreadingHTTPServer):
    """Takes so many lines at once; further ones wait until one has ended."""

    daemon_threads = True

    def __init__(self, place: tuple[str, int], folder: Path, lan: Chosen) -> None:
        self._places = threading.BoundedSemaphore(LINES_MOST)
        super().__init__(place, handler(folder, lan))

    def process_request(self, request: object, client_address: object) -> None:
        """Give the line a thread of its own."""
        self._places.acquire()
        super().process_request(request, client_address)  # type: ignore[arg-type]

    def process_request_thread(self, request: object, client_address: object) -> None:
        """Answer, then let the next line in."""
        try:
            super().process_request_thread(request, client_address)  # type: ignore[arg-type]
        finally:
            self._places.release()

    def handle_error(self, request: object, client_address: object) -> None:
        """A line that broke is no trouble of ours."""


def main() -> int:
    """Serve until the standard input ends, which is when whoever started this does."""
    folder = data_folder()
    lan = chosen.read(folder)
    if lan is None:
        return 1
    server = Server(("0.0.0.0", lan.pair_port), folder, lan)  # noqa: S104  pairing is for the network
    threading.Thread(target=server.serve_forever, daemon=True).start()
    sys.stdin.buffer.read()
    os._exit(0)


if __name__ == "__main__":
    sys.exit(main())
