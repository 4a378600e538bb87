"""Set before Django starts: a data folder for this run only, plain static files, a fixed zone.

The database is a file in that folder, or the PostgreSQL that SHOPAC_DATABASE names.
"""

import atexit
import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

import django
import pytest
from django.conf import settings as django_settings
from django.contrib.auth.hashers import PBKDF2PasswordHasher
from hypothesis import settings

from tests import chromium

TESTS = Path(__file__).resolve().parent
DATA = Path(tempfile.mkdtemp(prefix="shopac-tests-"))
atexit.register(shutil.rmtree, DATA, ignore_errors=True)
(DATA / "static").mkdir()
os.environ.update(
    DJANGO_SETTINGS_MODULE="shopac.settings",
    DJANGO_ALLOW_ASYNC_UNSAFE="1",  # the browser tool runs a loop in the test's own thread
    SHOPAC_DATA=str(DATA),
    SHOPAC_DEBUG="1",  # plain static names; the tests themselves run with DEBUG off
    SHOPAC_HTTPS="0",
    SHOPAC_HOSTS="testserver",
    SHOPAC_ZONE="Europe/Vienna",
)
django.setup()
# Tests write rows past the logbook, after which nothing may be kept; the real servers do keep.
NOTHING_KEPT = {"default": {"BACKEND": "django.core.cache.backends.dummy.DummyCache"}}
django_settings.CACHES = {**django_settings.CACHES, **NOTHING_KEPT}
settings.register_profile("untimed", deadline=None)  # a busy machine is no failure
settings.load_profile("untimed")
PBKDF2PasswordHasher.iterations = 1000  # hashing is slow on purpose; a thousand tries are not


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    """Use the machine's own Chromium; where there is none, the browser tool's."""
    return {**browser_type_launch_args, **chromium.launch_arguments()}


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out, and count as deselected, what is for the other database.

    On PostgreSQL also what drives a browser, which sees the same pages on either, and what knows
    no database.
    """
    on_postgresql = os.environ.get("SHOPAC_DATABASE", "").startswith("postgres")
    other = "sqlite" if on_postgresql else "postgresql"
    left_out = [
        item
        for item in items
        if item.get_closest_marker(other) or (on_postgresql and _is_the_same_there(item))
    ]
    config.hook.pytest_deselected(items=left_out)
    items[:] = [item for item in items if item not in left_out]


def _is_the_same_there(item: pytest.Item) -> bool:
    if any(item.path.is_relative_to(TESTS / folder) for folder in ("browser", "offline")):
        return True
    marked = item.get_closest_marker("django_db") or item.get_closest_marker("postgresql")
    return not marked and not {"db", "transactional_db"} & {*getattr(item, "fixturenames", ())}
