"""What may be a PIN or password, how they are kept, and how tries are counted."""

import threading
import uuid
from datetime import datetime, timedelta

import pytest
from django.contrib.auth import hashers
from django.db import connection
from django.utils import timezone

from jobs import pins
from jobs.models import Person
from jobs.models.people import DESK, TECHNICIAN
from jobs.pins import (
    MISSES_TO_LOCK,
    NO_MATCH,
    hash_password,
    hash_pin,
    is_hash,
    password_problem,
    pin_problem,
    pin_state,
    try_password,
    try_pin,
)
from tests.factories import PASSWORD, make_person

PIN = "4071"


@pytest.fixture
def technician(db) -> Person:
    return make_person(TECHNICIAN, name="E. Quist", pin=hash_pin(PIN, uuid.uuid4()))


@pytest.fixture
def at(monkeypatch):
    """Sets the clock that counts the waits."""

    def put(when: datetime) -> None:
        monkeypatch.setattr("jobs.pins.timezone.now", lambda: when)

    return put


@pytest.mark.parametrize("pin", ["4071", "00001", "12345679", "1235"])
def test_a_pin_of_4_to_8_digits_can_be_one(pin):
    assert pin_problem(pin) == ""


@pytest.mark.parametrize(
    ("pin", "why"),
    [
        ("123", "4 to 8 digits"),
        ("123456789", "4 to 8 digits"),
        ("12a4", "4 to 8 digits"),
        ("١٢٣٥", "4 to 8 digits"),
        ("4071\n", "4 to 8 digits"),
        ("0000", "All digits alike"),
        ("777777", "All digits alike"),
        ("1234", "Digits in a row"),
        ("8765", "Digits in a row"),
    ],
)
def test_a_pin_that_is_none_or_is_tried_first_is_turned_down(pin, why):
    assert why in pin_problem(pin)


@pytest.mark.parametrize(
    ("password", "why"),
    [
        ("short", "at least 10 characters"),
        ("40714071", "That is a PIN"),
        ("password123", "tried first"),
        ("x" * 201, "at most 200"),
    ],
)
def test_a_password_that_is_guessed_soon_is_turned_down(password, why):
    assert why in password_problem(password)


def test_a_password_of_some_words_can_be_one():
    assert password_problem("nine grey herons") == ""


def test_the_same_pin_with_the_same_entry_is_the_same_hash_and_with_another_is_not():
    key = uuid.uuid4()
    assert hash_pin(PIN, key) == hash_pin(PIN, key)
    assert hash_pin(PIN, key) != hash_pin(PIN, uuid.uuid4())
    assert hash_password(PASSWORD, key) != hash_pin(PASSWORD, key)


def test_a_hash_of_a_pin_cannot_be_guessed_without_the_shops_secret_key(settings):
    kept = hash_pin(PIN, uuid.uuid4())
    assert not hashers.check_password(PIN, kept)
    settings.SECRET_KEY = "another shop's"
    assert not hashers.check_password(pins._with_secret(PIN), kept)


def test_only_what_a_hasher_made_is_a_hash():
    assert is_hash(hash_pin(PIN, uuid.uuid4()))
    for typed in ("4071", "plain", "", "pbkdf2", "!unusable"):
        assert not is_hash(typed)


def test_the_right_pin_signs_in_and_puts_the_counter_back(technician):
    try_pin(technician.key, "9999")
    assert try_pin(technician.key, PIN).person == technician
    technician.refresh_from_db()
    assert technician.pin_misses == 0


def test_the_third_miss_and_each_after_it_makes_the_next_try_wait_longer(technician, at):
    now = timezone.now()
    waits = []
    for _ in range(MISSES_TO_LOCK - 1):
        at(now)
        try_pin(technician.key, "9999")
        technician.refresh_from_db()
        until = technician.pin_wait_until
        waits.append((until - now).total_seconds() if until else 0)
        now = (until or now) + timedelta(seconds=1)
    assert waits == [0, 0, 10, 30, 60, 120, 300]


def test_a_try_within_the_wait_counts_for_nothing_even_with_the_right_pin(technician, at):
    now = timezone.now()
    at(now)
    for _ in range(3):
        try_pin(technician.key, "9999")
    tried = try_pin(technician.key, PIN)
    assert tried.person is None
    clock = timezone.localtime(now + timedelta(seconds=11)).strftime("%H:%M:%S")
    assert f"Try again from {clock}." in tried.why
    technician.refresh_from_db()
    assert technician.pin_misses == 3
    at(now + timedelta(seconds=11))
    assert try_pin(technician.key, PIN).person == technician


def lock(person: Person, at) -> None:
    now = timezone.now()
    for step in range(MISSES_TO_LOCK):
        at(now + timedelta(hours=step))
        try_pin(person.key, "9999")


def test_eight_misses_lock_the_pin_for_good_and_a_ninth_try_is_not_looked_at(technician, at):
    lock(technician, at)
    at(timezone.now() + timedelta(days=400))
    tried = try_pin(technician.key, PIN)
    assert tried.person is None
    assert "locked after eight misses" in tried.why
    technician.refresh_from_db()
    assert technician.locked_at is not None
    assert technician.pin_misses == MISSES_TO_LOCK


def test_the_eighth_try_is_still_looked_at(technician, at):
    now = timezone.now()
    for step in range(MISSES_TO_LOCK - 1):
        at(now + timedelta(hours=step))
        try_pin(technician.key, "9999")
    at(now + timedelta(days=1))
    assert try_pin(technician.key, PIN).person == technician
    technician.refresh_from_db()
    assert technician.locked_at is None


def test_a_server_clock_put_back_by_an_hour_makes_nobody_wait_an_hour(technician, at):
    now = timezone.now()
    at(now)
    for _ in range(3):
        try_pin(technician.key, "9999")
    at(now - timedelta(hours=1))
    technician.refresh_from_db()
    assert pin_state(technician) == ""
    assert try_pin(technician.key, PIN).person == technician


def test_an_unknown_key_an_ended_person_and_a_wrong_pin_hear_the_same_words(technician):
    gone = make_person(pin=hash_pin(PIN, uuid.uuid4()), is_active=False)
    without = make_person()
    heard = {
        try_pin(technician.key, "9999").why,
        try_pin(uuid.uuid4(), PIN).why,
        try_pin(gone.key, PIN).why,
        try_pin(without.key, "").why,
    }
    assert len(heard) == 1


def test_an_unknown_name_and_a_wrong_password_hear_the_same_words(db):
    make_person(DESK, name="Noor Abanti")
    assert try_password("Noor Abanti", "not the word").why == NO_MATCH
    assert try_password("Nobody Known", "not the word").why == NO_MATCH


def test_the_right_password_signs_in_whatever_the_case_of_the_name(db):
    desk = make_person(DESK, name="Noor Abanti")
    assert try_password(" noor ABANTI ", PASSWORD).person == desk


def test_a_technician_has_no_password_even_if_one_is_in_the_row(db):
    make_person(TECHNICIAN, name="E. Quist")
    assert try_password("E. Quist", PASSWORD).why == NO_MATCH


def test_misses_at_a_password_wait_up_to_15_minutes_and_never_lock(db, at):
    desk = make_person(DESK, name="Noor Abanti")
    now = timezone.now()
    for step in range(20):
        at(now + timedelta(hours=step))
        try_password("Noor Abanti", "not the word")
    desk.refresh_from_db()
    assert desk.password_wait_until == now + timedelta(hours=19, minutes=15)
    assert try_password("Noor Abanti", PASSWORD).why == NO_MATCH
    at(now + timedelta(hours=20))
    assert try_password("Noor Abanti", PASSWORD).person == desk


@pytest.mark.parametrize("known", [True, False])
@pytest.mark.parametrize("waiting", [True, False])
def test_a_try_at_a_password_takes_the_same_work_whether_the_name_is_known(
    db, monkeypatch, known, waiting
):
    """One hash and one write to the disk: what takes the time is alike."""
    make_person(DESK, name="Noor Abanti", password_wait_until=_soon(waiting))
    hashed = []
    made = hashers.PBKDF2PasswordHasher.encode

    def encode(self, *args, **kwargs):
        hashed.append(1)
        return made(self, *args, **kwargs)

    monkeypatch.setattr(hashers.PBKDF2PasswordHasher, "encode", encode)
    writes: list[str] = []
    with connection.execute_wrapper(_note_updates(writes)):
        try_password("Noor Abanti" if known else "Nobody Known", "not the word")
    assert len(hashed) == 1
    assert len(writes) == 1


def _soon(waiting: bool):
    return timezone.now() + timedelta(minutes=1) if waiting else None


def _note_updates(writes: list[str]):
    def run(execute, sql, params, many, context):
        if sql.startswith("UPDATE"):
            writes.append(sql)
        return execute(sql, params, many, context)

    return run


@pytest.mark.django_db(transaction=True)
def test_eight_wrong_tries_at_once_are_counted_as_eight_or_turned_away():
    """None slips by unlooked at: three are looked at, the others have to wait."""
    person = make_person(pin=hash_pin(PIN, uuid.uuid4()))
    start = threading.Barrier(8)
    heard: list[str] = []

    def guess() -> None:
        start.wait()
        try:
            heard.append(try_pin(person.key, "9999").why)
        finally:
            connection.close()

    threads = [threading.Thread(target=guess) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    person.refresh_from_db()
    assert len(heard) == 8
    assert person.pin_misses == 3
