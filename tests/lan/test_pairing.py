"""The pairing server: its page and its file, and nothing else."""

import http.client
import re
import threading
from datetime import UTC, datetime

import pytest

from shopac.lan import chosen, kept
from shopac.lan.authority import fingerprint
from shopac.lan.pairing import Server

NAME = "shop.home.arpa"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shop")
    kept.ensure(folder, NAME, [], datetime.now(UTC))
    return folder


@pytest.fixture(scope="module")
def ask(folder):
    server = Server(("127.0.0.1", 0), folder, chosen.Chosen(NAME, 8443, 8080))
    threading.Thread(target=server.serve_forever, daemon=True).start()

    def get(path, method="GET"):
        line = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=5)
        line.request(method, path, headers={"Host": f"{NAME}:8080"})
        answer = line.getresponse()
        body = answer.read()
        line.close()
        return answer, body

    yield get
    server.shutdown()
    server.server_close()


def test_the_page_has_code_file_fingerprint_and_the_shops_address(ask, folder):
    page = ask("/")[1].decode()
    assert fingerprint(chosen.authority(folder).read_bytes()) in page
    assert 'src="data:image/svg+xml' in page
    assert 'href="/shop-authority.crt"' in page
    assert f"https://{NAME}:8443/" in page


def test_every_placeholder_of_the_page_is_filled(ask):
    assert not re.search(r"\$\{?[a-z]", ask("/")[1].decode())


@pytest.mark.parametrize("tablet", ["Android", "iPad", "Windows", "Chromebook", "Mac", "Firefox"])
def test_the_page_has_steps_for_each_kind_of_tablet(ask, tablet):
    assert tablet in ask("/")[1].decode()


def test_the_file_is_the_authoritys_public_part(ask, folder):
    answer, body = ask("/shop-authority.crt")
    assert body == chosen.authority(folder).read_bytes()
    assert b"PRIVATE" not in body
    assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"


def test_each_file_that_the_page_names_is_there(ask):
    page = ask("/")[1].decode()
    for path in re.findall(r'(?:href|src)="(/[^"]+)"', page):
        assert ask(path)[0].status == 200, path


@pytest.mark.parametrize(
    "path",
    [
        "/board/",
        "/sign_in/",
        "/ping/",
        "/static/js/board.js",
        "/static/../manage.py",
        "/sw.js",
    ],
)
def test_nothing_else_is_there_and_nothing_leads_elsewhere(ask, path):
    answer, _ = ask(path)
    assert answer.status == 404
    assert "Location" not in answer.headers


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS"])
def test_nothing_can_be_sent_there(ask, method):
    assert ask("/", method)[0].status == 501


def test_the_check_may_ask_under_the_shops_name(ask):
    answer, _ = ask("/about.json")
    assert answer.headers["Access-Control-Allow-Origin"] == "*"
