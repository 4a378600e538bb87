"""What a tablet tells of itself with its ping, and that writing it down never holds the ping up."""

import sqlite3
import time
import uuid
from contextlib import closing
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.utils import timezone

from jobs.browsers import browser_words
from jobs.contacts import HEADER, read_figures
from jobs.models import Tablet
from jobs.passes import TABLET_COOKIE, tablet_token

TOLD = "unsent=4&photos=2&waiting=1&oldest=7200&bytes=123456&persisted=1&version=0.1.0"


def last_contact() -> datetime:
    """Of the only tablet."""
    found = Tablet.objects.get().last_contact
    assert found is not None
    return found


def ping(key: uuid.UUID, told: str = "", **more: Any) -> dict[str, Any]:
    browser = Client(**more)
    browser.cookies[TABLET_COOKIE] = tablet_token(key)
    headers = {HEADER: told} if told else {}
    response = browser.get("/ping/", headers=headers)
    assert response.status_code == 200
    return response.json()


@pytest.mark.django_db
def test_the_first_ping_makes_it_known_with_what_it_told():
    key = uuid.uuid4()
    ping(key, TOLD, HTTP_USER_AGENT="Mozilla/5.0 (Linux; Android 14) Chrome/140 Safari/537.36")
    tablet = Tablet.objects.get(key=key)
    assert (tablet.unsent, tablet.photos, tablet.waiting, tablet.kept_bytes) == (4, 2, 1, 123456)
    assert (tablet.persisted, tablet.version, tablet.browser) == (
        True,
        "0.1.0",
        "Chrome on Android",
    )
    assert tablet.oldest_at is not None
    age = last_contact() - tablet.oldest_at
    assert abs(age - timedelta(hours=2)) < timedelta(seconds=5)
    assert (tablet.px_per_mm, tablet.pins) == (None, False)


@pytest.mark.django_db
def test_an_older_page_that_tells_nothing_is_still_a_contact():
    key = uuid.uuid4()
    ping(key)
    tablet = Tablet.objects.get()
    assert tablet.last_contact is not None
    assert (tablet.unsent, tablet.told_at) == (None, None)


@pytest.mark.django_db
def test_a_browser_that_is_no_tablet_is_no_contact(client):
    assert client.get("/ping/", headers={HEADER: TOLD}).status_code == 200
    client.cookies[TABLET_COOKIE] = "made-up"
    assert client.get("/ping/", headers={HEADER: TOLD}).status_code == 200
    assert not Tablet.objects.exists()


@pytest.mark.django_db
def test_px_per_mm_is_what_was_chosen_there():
    key = uuid.uuid4()
    browser = Client()
    browser.cookies[TABLET_COOKIE] = tablet_token(key)
    browser.cookies["shopac_screen"] = "light_5.9_right"
    browser.get("/ping/")
    assert Tablet.objects.get().px_per_mm == Decimal("5.9")


@pytest.mark.django_db
def test_it_is_written_once_a_minute_and_at_once_when_the_count_changes():
    key = uuid.uuid4()
    ping(key, TOLD)
    first = last_contact()
    ping(key, TOLD)
    assert last_contact() == first
    ping(key, TOLD.replace("unsent=4", "unsent=1"))
    second = Tablet.objects.get()
    assert (second.unsent, last_contact() > first) == (1, True)
    Tablet.objects.update(last_contact=timezone.now() - timedelta(minutes=2))
    ping(key)
    third = Tablet.objects.get()
    assert (third.unsent, third.told_at) == (1, second.told_at)
    assert timezone.now() - last_contact() < timedelta(minutes=1)


@pytest.mark.django_db
def test_a_shop_clock_that_was_put_back_stops_no_contact():
    key = uuid.uuid4()
    ping(key)
    Tablet.objects.update(last_contact=timezone.now() + timedelta(days=9))
    ping(key)
    assert last_contact() < timezone.now()


@pytest.mark.django_db
def test_a_ping_asks_little_of_the_database(django_assert_max_num_queries):
    key = uuid.uuid4()
    ping(key, TOLD)
    with django_assert_max_num_queries(1):
        ping(key, TOLD)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "x",
        "unsent=4",
        TOLD.replace("unsent=4", "unsent=-4"),
        TOLD.replace("unsent=4", "unsent=4.5"),
        TOLD.replace("unsent=4", "unsent=99999999999"),
        TOLD.replace("waiting=1", "waiting=5"),
        TOLD.replace("bytes=123456", "bytes=" + "9" * 30),
        TOLD.replace("oldest=7200", "oldest=99999999999"),
        TOLD.replace("0.1.0", "<b>"),
        TOLD.replace("0.1.0", "0" * 41),
        TOLD.replace("unsent=4", "unsent=٤"),
        "&" * 5000,
    ],
)
def test_what_cannot_be_is_not_believed(text):
    assert read_figures(text, timezone.now()) is None


def test_whether_it_lasts_is_not_known_where_it_was_not_told():
    told = read_figures(TOLD.replace("persisted=1", "persisted=x"), timezone.now())
    assert told is not None
    assert told.persisted is None


@pytest.mark.parametrize(
    ("agent", "words"),
    [
        (
            "Mozilla/5.0 (iPad; CPU OS 17_5) Version/17.5 Safari/604.1",
            "Safari on iPad",
        ),
        ("Mozilla/5.0 (Windows NT 10.0) Chrome/140 Safari/537 Edg/140", "Edge on Windows"),
        (
            "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Firefox/140",
            "Firefox on Linux",
        ),
        ("Mozilla/5.0 (Macintosh; Intel Mac OS X) Version/18 Safari/605", "Safari on Mac or iPad"),
        ("<script>", ""),
        ("", ""),
    ],
)
def test_a_browser_is_named_in_plain_words(agent, words):
    assert browser_words(agent) == words


@pytest.mark.sqlite
@pytest.mark.django_db(transaction=True)
def test_a_locked_database_does_not_hold_the_ping_up_and_writes_wait_again_afterwards():
    key = uuid.uuid4()
    ping(key)
    Tablet.objects.update(last_contact=timezone.now() - timedelta(minutes=5))
    before = Tablet.objects.get().last_contact
    with closing(sqlite3.connect(connection.settings_dict["NAME"], isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        began = time.monotonic()
        assert ping(key, TOLD)["shopac"] == "here"
        assert ping(uuid.uuid4(), TOLD)["shopac"] == "here"
        assert time.monotonic() - began < 1
        other.execute("ROLLBACK")
    assert Tablet.objects.get().last_contact == before
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA busy_timeout")
        assert cursor.fetchone() == (5000,)
    ping(key, TOLD)
    assert Tablet.objects.get().unsent == 4
