"""Uploads that come slowly, or stop: other pages are answered beside them.

Times are measured by `python -m tests.slow_uploads`; here only that pages answer is asserted.
"""

import http.client
import socket
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from tests.offline.shop import Prepared, Shop
from tests.proxy import Line, Proxy
from tests.slow_uploads import PATHS, Upload, job_on, open_page

HEAD = "POST /entries/ HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"


@pytest.fixture
def shop(prepared: Prepared, tmp_path: Path) -> Iterator[Shop]:
    """Without TLS: bytes are written to its line one by one."""
    shop = Shop(prepared, tmp_path / "data", secure=False)
    shop.start()
    yield shop
    shop.kill()


def test_pages_answer_while_eight_slow_uploads_are_under_way_and_all_arrive(shop):
    job = job_on(shop)
    lines = [Proxy(shop.port) for _ in range(8)]
    for line in lines:
        line.line = Line(rate=35_000)
    uploads = [Upload(shop, line.port, job, seconds=6, seed=at) for at, line in enumerate(lines)]
    try:
        time.sleep(2)
        for path in PATHS:
            assert open_page(shop, path.format(job=job)) == 200
        assert all(one.under_way for one in uploads)  # it was beside them, not after
        assert [one.status() for one in uploads] == [302] * 8
    finally:
        for line in lines:
            line.close()


def test_pages_answer_while_forty_posts_stand_still_in_their_body(shop):
    held = []
    try:
        for _ in range(40):
            line = socket.create_connection(("127.0.0.1", shop.port))
            line.sendall(f"{HEAD}Content-Length: 100000\r\n\r\n{{".encode())
            held.append(line)
        time.sleep(1)
        for path in ("/ping/", "/sign_in/", "/ping/"):
            with closing(http.client.HTTPConnection("127.0.0.1", shop.port, timeout=10)) as asked:
                asked.request("GET", path)
                assert asked.getresponse().status == 200
    finally:
        for line in held:
            line.close()


def test_once_those_are_gone_an_entry_is_taken_again(shop):
    job = job_on(shop)
    held = []
    for _ in range(40):
        line = socket.create_connection(("127.0.0.1", shop.port))
        line.sendall(f"{HEAD}Content-Length: 100000\r\n\r\n{{".encode())
        held.append(line)
    time.sleep(1)
    for line in held:
        line.close()
    end = time.monotonic() + 20
    status = 503
    while status == 503 and time.monotonic() < end:
        status = Upload(shop, shop.port, job, seconds=0.1, seed=1).status()
        time.sleep(0.2)
    assert status == 302
