"""A shop server of its own for every test, and a tablet beside it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, expect

from tests.offline.shop import Prepared, Shop, prepare
from tests.offline.tablet import Tablet, picture
from tests.proxy import Proxy

expect.set_options(timeout=15_000)  # as long as everything else here waits for a busy machine


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


@pytest.fixture
def tablet(new_tablet: Tablet) -> Tablet:
    """A tablet where somebody is signed in and pages are kept."""
    new_tablet.sign_in()
    new_tablet.kept_ahead()
    return new_tablet


@pytest.fixture(scope="session")
def photo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A picture of 3 MB and its hash."""
    return picture(tmp_path_factory.mktemp("photos"))
