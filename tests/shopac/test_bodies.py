"""Requests with a body are bounded in number, so that pages are answered beside them."""

import socket
import sys
import threading
import time

import pytest

from shopac.bodies import BODIES, LARGE, LARGE_BODIES, bounded_bodies, notice_dead_lines, size_of


class Waiting:
    """An application that answers when it is let go, and bounded as the site is."""

    def __init__(self):
        self.go, self.inside = threading.Event(), threading.Semaphore(0)
        self.bounded = bounded_bodies(self.answer)

    def answer(self, _environ, start_response):
        self.inside.release()
        self.go.wait(10)
        start_response("200 OK", [])
        return [b"done"]

    def ask(self, size):
        """The status it is answered with; in a thread of its own while it waits."""
        told = []
        environ = {"CONTENT_LENGTH": str(size)} if size else {}
        self.bounded(environ, lambda status, _head: told.append(status))
        return told[0]

    def begin(self, size, times):
        for _ in range(times):
            threading.Thread(target=self.ask, args=(size,), daemon=True).start()
        for _ in range(times):
            assert self.inside.acquire(timeout=5)


@pytest.fixture
def waiting():
    one = Waiting()
    yield one
    one.go.set()


def test_beyond_so_many_large_bodies_the_next_is_told_to_come_again(waiting):
    waiting.begin(LARGE + 1, LARGE_BODIES)
    assert waiting.ask(LARGE + 1).startswith("503")


def test_text_gets_through_beside_as_many_large_bodies_as_there_may_be(waiting):
    waiting.begin(LARGE + 1, LARGE_BODIES)
    waiting.begin(100, 1)


def test_what_has_no_body_is_never_held_up(waiting):
    waiting.begin(100, BODIES)
    assert waiting.ask(100).startswith("503")
    waiting.begin(0, 5)


def test_a_place_is_free_again_when_its_request_was_answered(waiting):
    waiting.begin(100, BODIES)
    waiting.go.set()
    end = time.monotonic() + 5
    while waiting.ask(100).startswith("503"):
        assert time.monotonic() < end
        time.sleep(0.01)


@pytest.mark.parametrize(
    ("environ", "size"),
    [
        ({}, 0),
        ({"CONTENT_LENGTH": ""}, 0),
        ({"CONTENT_LENGTH": "12"}, 12),
        ({"CONTENT_LENGTH": "x"}, LARGE + 1),
        ({"HTTP_TRANSFER_ENCODING": "chunked"}, LARGE + 1),
    ],
)
def test_a_body_without_a_length_counts_as_large(environ, size):
    assert size_of(environ) == size


@pytest.mark.skipif(sys.platform != "linux", reason="the list of open files is Linux's")
def test_a_socket_that_listens_hands_on_that_dead_lines_are_noticed():
    with socket.create_server(("127.0.0.1", 0)) as listening:
        assert notice_dead_lines() >= 1
        with socket.create_connection(listening.getsockname()), listening.accept()[0] as line:
            assert line.getsockopt(socket.SOL_SOCKET, socket.SO_KEEPALIVE)
