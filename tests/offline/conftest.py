"""A shop server of its own for every test, and a tablet beside it."""

import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, expect

from tests.offline.shop import Prepared, Shop, prepare
from tests.offline.tablet import Tablet, picture
from tests.proxy import Proxy

expect.set_options(timeout=15_000)  # as long as everything else here waits for a busy machine
YOUNG_SECONDS = 400  # the worker keeps pages anew after ten minutes
# Every test has a shop with jobs of its own.
FORGET_JOBS = "shopac.store.write(['about'], (at) => { at('about').delete('jobs_at'); })"


@pytest.fixture(scope="session")
def prepared(tmp_path_factory: pytest.TempPathFactory) -> Prepared:
    """A data folder with a shop and somebody who is signed in; copied by every test."""
    return prepare(tmp_path_factory.mktemp("prepared"))


@pytest.fixture
def stopped_shop(prepared: Prepared, tmp_path: Path) -> Iterator[Shop]:
    """A shop whose server was not started yet, so that accidents can be ordered first."""
    shop = Shop(prepared, tmp_path / "data")
    yield shop
    shop.kill()


@pytest.fixture
def shop(stopped_shop: Shop) -> Shop:
    """A shop that serves."""
    stopped_shop.start()
    return stopped_shop


@pytest.fixture
def line(shop: Shop) -> Iterator[Proxy]:
    """The line between tablet and server."""
    proxy = Proxy(shop.port)
    yield proxy
    proxy.close()


@pytest.fixture
def new_tablet(playwright: Playwright, shop: Shop, tmp_path: Path) -> Iterator[Tablet]:
    """A tablet that has never seen the shop, straight at the server."""
    tablet = Tablet(playwright, shop, tmp_path / "profile", shop.port)
    tablet.start()
    yield tablet
    tablet.close()


@pytest.fixture(scope="session")
def kept_profile(
    prepared: Prepared, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory
) -> Callable[[], Path]:
    """Gives the profile of a tablet where pages are kept, made anew before they are old.

    Keeping them takes longer than most tests.
    """
    made: list[tuple[float, Path]] = []

    def profile() -> Path:
        if not made or time.monotonic() - made[-1][0] > YOUNG_SECONDS:
            made.append((time.monotonic(), keep_ahead(prepared, playwright, tmp_path_factory)))
        return made[-1][1]

    return profile


def keep_ahead(
    prepared: Prepared, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory
) -> Path:
    """Let a tablet keep the pages and close it in good order; returns its profile."""
    folder = tmp_path_factory.mktemp("kept")
    shop = Shop(prepared, folder / "data")
    shop.start()
    tablet = Tablet(playwright, shop, folder / "profile", shop.port)
    try:
        tablet.begin()
        tablet.ask(FORGET_JOBS)
    finally:
        tablet.close()
        shop.kill()
    return folder / "profile"


@pytest.fixture
def tablet(
    kept_profile: Callable[[], Path], playwright: Playwright, shop: Shop, tmp_path: Path
) -> Iterator[Tablet]:
    """A tablet where somebody is signed in and pages are kept."""
    profile = tmp_path / "profile"
    shutil.copytree(kept_profile(), profile, ignore=shutil.ignore_patterns("Singleton*"))
    tablet = Tablet(playwright, shop, profile, shop.port)
    tablet.begin()
    yield tablet
    tablet.close()


@pytest.fixture(scope="session")
def photo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A picture of 3 MB and its hash."""
    return picture(tmp_path_factory.mktemp("photos"))
