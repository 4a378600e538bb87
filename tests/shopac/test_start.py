"""Starting, serving and stopping: shopac/start.py, serve.py and lock.py, in real processes."""

import json
import os
import signal
import socket
import stat
import time
import urllib.request

import pytest

from shopac.start import may_start_again
from shopac.version import VERSION
from tests.shopac.starting import PROGRAM, Started, free_port, is_alive

pytestmark = pytest.mark.sqlite


@pytest.fixture
def data(tmp_path):
    return tmp_path / "data"


@pytest.fixture
def start(data):
    started = []

    def begin(*options, folder=data):
        started.append(Started(folder, *options))
        return started[-1]

    yield begin
    for one in started:
        one.end()


def listens(port: int) -> bool:
    with socket.socket() as trial:
        return trial.connect_ex(("127.0.0.1", port)) == 0


def ping(port: int) -> dict[str, object]:
    with urllib.request.urlopen(f"http://127.0.0.1:{port}/ping/") as answer:
        return json.load(answer)


def answers(port: int) -> bool:
    try:
        return ping(port)["shopac"] == "here"
    except OSError:  # refused, or cut off by a worker that is ending
        return False


def test_the_pages_are_there_when_the_address_is_printed(start):
    shop = start("--empty").wait_until_open()
    assert f"is open at http://127.0.0.1:{shop.port}/" in shop.said
    assert ping(shop.port)["shopac"] == "here"


def test_an_empty_start_prints_a_link_with_the_word_kept_in_the_folder(start, data):
    shop = start("--empty").wait_until_open()
    word = (data / "begin_token").read_text()
    assert f"http://127.0.0.1:{shop.port}/begin/?token={word}" in shop.said
    assert len(word) >= 32


def test_a_folder_begun_empty_stays_without_the_demo(start, data):
    start("--empty").wait_until_open().end()
    word = (data / "begin_token").read_text()
    shop = start().wait_until_open()
    assert f"begin/?token={word}" in shop.said
    assert "demo" not in shop.said


def test_a_start_asked_for_a_new_password_prints_a_link_that_ends_with_the_next_start(start, data):
    shop = start("--new-password").wait_until_open()
    word = (data / "new_password_token").read_text()
    assert f"http://127.0.0.1:{shop.port}/new_password/?token={word}" in shop.said
    assert len(word) >= 32
    assert stat.S_IMODE((data / "new_password_token").stat().st_mode) == 0o600
    shop.end()
    assert "new_password" not in start().wait_until_open().said
    assert not (data / "new_password_token").exists()


def test_without_an_owner_there_is_no_link_for_a_new_password(start, data):
    shop = start("--empty", "--new-password").wait_until_open()
    assert "There is no owner yet" in shop.said
    assert not (data / "new_password_token").exists()


def test_only_the_owner_of_the_files_can_read_them(start, data):
    start("--empty").wait_until_open()
    for name in ("shop.sqlite3", "secret_key", "begin_token"):
        assert stat.S_IMODE((data / name).stat().st_mode) == 0o600, name


def test_the_second_start_installs_and_collects_nothing(start):
    start("--empty").wait_until_open().end()
    said = start().wait_until_open().said
    assert not any(word in said for word in ("Installing", "Collecting", "Preparing", "Making"))


def test_the_folder_is_stamped_with_the_release(start, data):
    start("--empty").wait_until_open()
    assert (data / "version").read_text().strip() == VERSION


@pytest.mark.parametrize("how", [signal.SIGTERM, signal.SIGINT], ids=["told to end", "Ctrl-C"])
def test_stopping_ends_the_server_and_its_worker(start, how):
    shop = start("--empty").wait_until_open()
    family = shop.children()
    assert len(family) >= 2
    assert shop.end(how) == 0
    assert not any(is_alive(process) for process in family)
    assert not listens(shop.port)


def test_a_killed_server_is_started_again_and_its_worker_answers_no_more(start):
    shop = start("--empty").wait_until_open()
    server, *workers = shop.children()
    os.kill(server, signal.SIGKILL)
    end = time.monotonic() + 60
    while "is open again at" not in shop.said:
        assert time.monotonic() < end, shop.said
        time.sleep(0.1)
    assert "The server ended by itself with code -9; starting it again." in shop.said
    assert answers(shop.port)
    assert not any(is_alive(process) for process in workers)


@pytest.mark.parametrize(
    ("ended", "again"),
    [
        ([0.0], True),
        ([0.0, 1.0, 2.0, 3.0, 4.0], True),
        ([0.0, 1.0, 2.0, 3.0, 4.0, 5.0], False),
        ([0.0, 700.0, 1400.0, 2100.0, 2800.0, 3500.0], True),  # each long after the one before
    ],
)
def test_a_server_that_keeps_ending_is_not_started_for_ever(ended, again):
    assert may_start_again(ended) == again


def test_a_killed_worker_is_replaced(start):
    shop = start("--empty").wait_until_open()
    worker = shop.children()[-1]
    os.kill(worker, signal.SIGKILL)
    end = time.monotonic() + 30
    while not answers(shop.port):
        assert time.monotonic() < end
        time.sleep(0.1)
    assert worker not in shop.children()


def test_a_second_start_on_the_same_folder_is_refused_and_told_where_the_first_is(start, data):
    first = start("--empty").wait_until_open()
    second = start("--port", str(free_port()))
    assert second.wait() == 1
    assert second.said.startswith(
        f"shopac is already running on {data}: http://127.0.0.1:{first.port}/ (process "
    )
    assert second.said.count("\n") == 1
    assert ping(first.port)["shopac"] == "here"


def test_a_folder_is_in_use_for_as_long_as_its_server_lives(start):
    first = start("--empty").wait_until_open()
    family = first.children()
    first.process.kill()
    first.wait()
    orphaned = start()
    assert orphaned.wait() == 1
    assert "already running" in orphaned.said
    for process in family:
        os.kill(process, signal.SIGKILL)
    assert "already running" not in start().wait_until_open().said


def test_a_port_in_use_is_one_sentence(start):
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        shop = start("--empty", "--port", str(port))
        assert shop.wait() == 1
    assert shop.said == (
        f"Port {port} is in use by another program: choose another, "
        f"for example --port {port + 1 if port < 65535 else 8000}.\n"
    )


@pytest.mark.parametrize("port", ["0", "65536", "soup", "-1", "８０"])
def test_a_port_that_is_none_is_said(start, port):
    shop = start("--port", port)
    assert shop.wait() == 2
    assert "from 1 to 65535" in shop.said
    assert "Traceback" not in shop.said


def test_a_newer_stamp_is_refused_and_nothing_is_touched(start, data):
    data.mkdir()
    (data / "version").write_text("99.0.0")
    shop = start()
    assert shop.wait() == 1
    assert "last used by shopac 99.0.0" in shop.said
    assert sorted(path.name for path in data.iterdir()) == ["lock", "version"]


def test_a_data_folder_inside_the_program_is_refused(start):
    shop = start("--data", str(PROGRAM / "tests"))
    assert shop.wait() == 1
    assert "lies inside the program" in shop.said


def test_a_data_folder_that_is_a_file_is_one_sentence(start, data):
    data.write_text("")
    shop = start()
    assert shop.wait() == 1
    assert "cannot be made" in shop.said
    assert "Traceback" not in shop.said


def test_an_offline_folder_that_is_not_there_is_said(start, tmp_path):
    shop = start("--offline", str(tmp_path / "wheels"))
    assert shop.wait() == 1
    assert shop.said == f"--offline: there is no folder {tmp_path / 'wheels'}.\n"
