"""A line between browser and server that can be slow, cut, or silent."""

import contextlib
import socket
import threading
import time
from dataclasses import dataclass


@dataclass
class Line:
    """How the line is. Counts are of bytes of one connection; None: no such trouble.

    silent: takes everything and passes nothing on; cut_up / cut_down: breaks after so many bytes
    towards the server / the browser; rate: bytes a second towards the server; delay in seconds.
    """

    silent: bool = False
    refused: bool = False
    cut_up: int | None = None
    cut_down: int | None = None
    rate: int | None = None
    delay: float = 0.0


class Proxy:
    """Listens on a port of its own and passes on to the server's."""

    def __init__(self, server_port: int) -> None:
        self.line = Line()
        self._server_port = server_port
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listener.getsockname()[1]
        self._open: list[socket.socket] = []
        threading.Thread(target=self._listen, daemon=True).start()

    def become(self, line: Line) -> None:
        """Change the line; connections that are open break, as they do when a line changes."""
        self.line = line
        for one in self._open:
            _end(one)
        self._open.clear()

    def close(self) -> None:
        """Stop listening."""
        self._listener.close()
        self.become(self.line)

    def _listen(self) -> None:
        while True:
            try:
                browser, _ = self._listener.accept()
            except OSError:
                return
            if self.line.refused:
                _end(browser)
                continue
            self._open.append(browser)
            threading.Thread(target=self._connect, args=(browser, self.line), daemon=True).start()

    def _connect(self, browser: socket.socket, line: Line) -> None:
        if line.silent:
            while self._read(browser):
                pass
            return
        try:
            server = socket.create_connection(("127.0.0.1", self._server_port), timeout=5)
        except OSError:
            _end(browser)
            return
        server.settimeout(None)
        self._open.append(server)
        up = (browser, server, line.cut_up, line)
        down = (server, browser, line.cut_down, Line(delay=line.delay))
        for way in (up, down):
            threading.Thread(target=self._carry, args=way, daemon=True).start()

    @staticmethod
    def _read(source: socket.socket) -> bytes:
        try:
            return source.recv(16384)
        except OSError:
            return b""

    def _carry(
        self, source: socket.socket, to: socket.socket, left: int | None, line: Line
    ) -> None:
        while chunk := self._read(source):
            time.sleep(line.delay + (len(chunk) / line.rate if line.rate else 0))
            cut = left is not None and len(chunk) >= left
            try:
                to.sendall(chunk[:left] if cut else chunk)
            except OSError:
                break
            if cut:
                break
            left = None if left is None else left - len(chunk)
        _end(source)
        _end(to)


def _end(one: socket.socket) -> None:
    with contextlib.suppress(OSError):
        one.shutdown(socket.SHUT_RDWR)
    one.close()
