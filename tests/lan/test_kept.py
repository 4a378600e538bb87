"""Certificates as files: made once, renewed in time, never half."""

import stat
from datetime import UTC, datetime, timedelta

import pytest

from shopac.lan.authority import fingerprint, span
from shopac.lan.due import is_due, state
from shopac.lan.kept import ensure
from shopac.trouble import CannotStart

NAME = "shop.home.arpa"
NOW = datetime(2026, 11, 30, 12, 0, tzinfo=UTC)
HERE = ["192.168.1.20"]


@pytest.fixture
def files(tmp_path):
    """What a first start leaves."""
    ensure(tmp_path, NAME, HERE, NOW)
    return {path.name: path.read_bytes() for path in (tmp_path / "certificates").iterdir()}


def ends(folder):
    return span((folder / "certificates" / "server.pem").read_bytes())[1]


def test_a_first_start_makes_all_and_tells_to_pair(tmp_path):
    assert any("paired" in one for one in ensure(tmp_path, NAME, HERE, NOW))


def test_the_next_start_makes_nothing(tmp_path, files):
    assert ensure(tmp_path, NAME, HERE, NOW) == []
    assert (tmp_path / "certificates" / "server.pem").read_bytes() == files["server.pem"]


def test_keys_are_readable_by_the_owner_of_the_files_only(tmp_path, files):
    for name in ("authority_key.pem", "server.pem"):
        assert stat.S_IMODE((tmp_path / "certificates" / name).stat().st_mode) == 0o600


@pytest.mark.parametrize(("days", "due"), [(334, False), (336, True), (500, True)])
def test_it_is_renewed_at_sixty_days_left(tmp_path, files, days, due):
    assert is_due(tmp_path, NAME, HERE, NOW + timedelta(days=days)) == due


def test_a_renewal_keeps_the_authority_that_tablets_know(tmp_path, files):
    later = NOW + timedelta(days=350)
    assert ensure(tmp_path, NAME, HERE, later)
    public = (tmp_path / "certificates" / "authority.pem").read_bytes()
    assert fingerprint(public) == fingerprint(files["authority.pem"])
    assert ends(tmp_path) > later + timedelta(days=390)


def test_a_new_address_means_a_new_certificate_and_one_that_is_gone_does_not(tmp_path, files):
    assert is_due(tmp_path, NAME, ["192.168.1.21"], NOW)
    ensure(tmp_path, NAME, ["192.168.1.21"], NOW)
    assert not is_due(tmp_path, NAME, ["192.168.1.21"], NOW)
    assert not is_due(tmp_path, NAME, HERE, NOW)  # one that comes and goes is no reason again
    assert not is_due(tmp_path, NAME, [], NOW)


def test_a_certificate_made_while_the_clock_was_ahead_is_made_anew(tmp_path, files):
    ensure(tmp_path, NAME, HERE, NOW + timedelta(days=800))
    assert ensure(tmp_path, NAME, HERE, NOW)
    assert span((tmp_path / "certificates" / "server.pem").read_bytes())[0] <= NOW
    assert not is_due(tmp_path, NAME, HERE, NOW)


def test_an_authority_from_a_day_to_come_is_no_reason_for_a_new_certificate_each_minute(tmp_path):
    ensure(tmp_path, NAME, HERE, NOW + timedelta(days=30))
    assert not is_due(tmp_path, NAME, HERE, NOW)


def test_a_machine_with_many_networks_does_not_need_a_new_certificate_each_minute(tmp_path, files):
    many = [f"172.{16 + number % 16}.{number}.1" for number in range(20)]
    ensure(tmp_path, NAME, many, NOW)
    assert not is_due(tmp_path, NAME, many, NOW)


def test_an_address_outside_private_networks_is_not_certified_and_no_reason(tmp_path, files):
    assert not is_due(tmp_path, NAME, [*HERE, "203.0.113.7"], NOW)


@pytest.mark.parametrize("name", ["server.pem", "server.json"])
def test_what_is_missing_is_made_again(tmp_path, files, name):
    (tmp_path / "certificates" / name).unlink()
    assert ensure(tmp_path, NAME, HERE, NOW)
    assert not is_due(tmp_path, NAME, HERE, NOW)


def test_a_start_that_died_between_its_two_files_renews_again(tmp_path, files):
    state(tmp_path).write_bytes(b"")
    assert is_due(tmp_path, NAME, HERE, NOW)


def test_without_its_key_the_authority_is_not_silently_replaced(tmp_path, files):
    (tmp_path / "certificates" / "authority_key.pem").unlink()
    assert ensure(tmp_path, NAME, HERE, NOW) == []  # what is good goes on
    with pytest.raises(CannotStart, match=r"authority_key\.pem back from a backup"):
        ensure(tmp_path, NAME, HERE, NOW + timedelta(days=350))
    assert (tmp_path / "certificates" / "authority.pem").read_bytes() == files["authority.pem"]


def test_another_name_needs_another_authority(tmp_path, files):
    said = ensure(tmp_path, "other.home.arpa", HERE, NOW)
    assert "every tablet has to be paired with it" in said[0]
