"""The numbered checks: silent about our own settings, and each loud about its one mistake."""

from pathlib import Path

import pytest
from django.core import checks

from shopac.checks import CHECKS, run_checks


def found() -> set[str]:
    return {str(message.id) for message in run_checks()}


@pytest.fixture
def spoil(settings, monkeypatch):
    """Puts something wrong into the settings of the database."""

    def put(name, value):
        monkeypatch.setitem(settings.DATABASES["default"], name, value)

    return put


@pytest.fixture
def folder(settings, tmp_path) -> Path:
    settings.DATA = tmp_path
    settings.STATIC_ROOT = tmp_path / "static"
    return tmp_path


def test_our_own_settings_pass(folder):
    assert found() == set()


def test_django_runs_them():
    asked: list[object] = list(checks.registry.registry.get_checks())
    assert run_checks in asked


def test_every_message_says_why_it_matters(settings, spoil, folder):
    spoil("ATOMIC_REQUESTS", True)
    settings.CSRF_FAILURE_VIEW = "django.views.csrf.csrf_failure"
    for message in run_checks():
        assert isinstance(message, checks.Error)
        assert message.hint


def test_transactions_around_pages_are_found(spoil, folder):
    spoil("ATOMIC_REQUESTS", True)
    assert found() == {"shopac.E001"}


@pytest.mark.sqlite
def test_deferred_transactions_are_found(spoil, folder, settings):
    options = settings.DATABASES["default"]["OPTIONS"]
    spoil("OPTIONS", {**options, "transaction_mode": "DEFERRED"})
    assert found() == {"shopac.E002"}


@pytest.mark.sqlite
@pytest.mark.parametrize(
    "start", ["", "PRAGMA journal_mode=WAL;", "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL;"]
)
def test_a_database_that_may_forget_at_a_power_cut_is_found(spoil, folder, settings, start):
    options = settings.DATABASES["default"]["OPTIONS"]
    spoil("OPTIONS", {**options, "init_command": start})
    assert found() == {"shopac.E003"}


@pytest.mark.parametrize(
    ("mode", "loud"), [(0o600, False), (0o400, False), (0o640, True), (0o604, True)]
)
def test_a_secret_key_that_others_can_read_is_found(folder, mode, loud):
    key = folder / "secret_key"
    key.write_text("x")
    key.chmod(mode)
    assert (found() == {"shopac.W004"}) is loud


@pytest.mark.parametrize("inside", [".", "data", "jobs/data"])
def test_data_inside_the_program_are_found(settings, inside):
    settings.DATA = Path(settings.BASE_DIR) / inside
    settings.STATIC_ROOT = Path("/somewhere/static")
    assert "shopac.E005" in found()


def test_a_link_into_the_program_is_inside_it_too(settings, folder):
    link = folder / "link"
    link.symlink_to(settings.BASE_DIR)
    settings.DATA = link
    assert "shopac.E005" in found()


def test_another_answer_to_an_ended_token_is_found(settings, folder):
    settings.CSRF_FAILURE_VIEW = "django.views.csrf.csrf_failure"
    assert found() == {"shopac.E006"}


@pytest.mark.parametrize("left_out", ["CsrfViewMiddleware", "nothing_lost", "security_headers"])
def test_a_missing_middleware_is_found(settings, folder, left_out):
    settings.MIDDLEWARE = [name for name in settings.MIDDLEWARE if not name.endswith(left_out)]
    assert found() == {"shopac.E007"}


@pytest.mark.parametrize("root", ["photos", "photos/static", "."])
def test_photos_among_static_files_are_found(settings, folder, root):
    settings.STATIC_ROOT = folder / root
    assert found() == {"shopac.E008"}


def test_photos_in_a_folder_served_under_a_name_of_its_own_are_found(settings, folder):
    settings.STATICFILES_DIRS = [("tables", folder)]
    assert found() == {"shopac.E008"}


def test_no_check_is_left_without_a_number():
    assert len(CHECKS) == 6
