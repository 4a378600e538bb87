"""Serving a shop's network, in real processes: TLS under its name, pairing beside it, renewal."""

import contextlib
import http.client
import json
import socket
import ssl
import subprocess
import sys
import time
from pathlib import Path

import pytest

from shopac import serve
from shopac.lan.chosen import authority, read
from tests.shopac.starting import PROGRAM, Started, environment, free_port

pytestmark = pytest.mark.sqlite
NAME = "shop.home.arpa"


class OnNetwork(Started):
    """A program that serves a network; on this machine its name leads nowhere, and need not."""

    def __init__(self, data: Path, *options: str) -> None:
        self.pair_port = free_port()
        super().__init__(data, "--lan", "--pair-port", str(self.pair_port), *options)
        self.folder = data
        self.door = serve.Door(self.port, NAME, data)


@pytest.fixture(scope="module")
def data(tmp_path_factory):
    return tmp_path_factory.mktemp("network") / "data"


@pytest.fixture(scope="module")
def shop(data):
    shop = OnNetwork(data)
    yield shop.wait_until_open()
    shop.end()


def get(shop: OnNetwork, path: str, **headers: str) -> http.client.HTTPResponse:
    with contextlib.closing(serve.line_to(shop.door)) as line:
        line.request("GET", path, headers=headers)
        answer = line.getresponse()
        answer.read()
        return answer


def plain(port: int, path: str) -> tuple[int, bytes]:
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as line:
        line.request("GET", path)
        answer = line.getresponse()
        return answer.status, answer.read()


def test_the_pages_come_over_tls_under_the_shops_name(shop):
    assert f"is open at https://{NAME}:{shop.port}/" in shop.said
    assert get(shop, "/ping/").status == 200


def test_cookies_and_browsers_are_held_to_tls(shop):
    answer = get(shop, "/ping/")
    assert "Secure" in answer.headers["Set-Cookie"]
    assert answer.headers["Strict-Transport-Security"].startswith("max-age=")


def test_another_name_is_not_answered(shop):
    assert get(shop, "/ping/", Host="bank.example").status == 400


def test_no_demo_is_made_and_the_link_to_set_up_is_for_this_machine(shop, data):
    assert f"https://127.0.0.1:{shop.port}/begin/?token=" in shop.said
    assert "Demo sign-ins" not in shop.said


def test_pages_do_not_come_over_plain_http(shop):
    with pytest.raises((http.client.HTTPException, OSError)):
        plain(shop.port, "/ping/")


def test_pairing_is_beside_it_and_shows_the_fingerprint_that_the_start_printed(shop):
    status, page = plain(shop.pair_port, "/")
    printed = shop.said.split("when a tablet is paired:")[1].split()[0]
    assert status == 200
    assert printed in page.decode()
    assert plain(shop.pair_port, "/board/")[0] == 404


def test_name_and_port_are_kept_for_the_next_start(shop, data):
    assert read(data) == (NAME, shop.port, shop.pair_port)


def serial(shop: OnNetwork) -> str:
    trust = ssl.create_default_context(cafile=str(authority(shop.folder)))
    with (
        socket.create_connection(("127.0.0.1", shop.port), timeout=5) as line,
        trust.wrap_socket(line, server_hostname=NAME) as secure,
    ):
        return str(dict(secure.getpeercert() or {})["serialNumber"])


@pytest.mark.skipif(not hasattr(socket, "SO_REUSEPORT"), reason="the port has to be free first")
def test_a_certificate_that_is_due_is_made_while_serving_and_hardly_anybody_finds_the_door_shut(
    shop, data
):
    before = serial(shop)
    state = data / "certificates" / "server.json"
    state.write_text(json.dumps({**json.loads(state.read_text()), "renew_from": 0}))
    refused, asked, end = 0, 0, time.monotonic() + 90
    while "open again" not in shop.said:
        assert time.monotonic() < end, shop.said
        asked += 1
        try:
            serial(shop)
        except OSError:
            refused += 1
        time.sleep(0.05)
    assert serial(shop) != before
    assert refused <= 2, f"{refused} of {asked}"  # a line that one of them had taken as it ended


def test_manage_serve_is_the_same_command(tmp_path):
    done = subprocess.run(
        [sys.executable, "manage.py", "serve", "--name", "no name"],
        cwd=PROGRAM,
        env=environment() | {"SHOPAC_DATA": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert "is no name for the shop" in done.stderr
