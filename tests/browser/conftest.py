"""What the tests that drive a browser share."""

from collections.abc import Callable, Iterator

import pytest
from django.test import Client
from playwright.sync_api import Browser, Page

from tests.browser.touch import opener
from tests.factories import make_person


@pytest.fixture
def at(browser: Browser, live_server) -> Iterator[Callable[..., Page]]:
    """Open a page signed in, without a tablet's pass: the form posts as it would without script."""
    client = Client()
    client.force_login(make_person())
    with opener(browser, live_server.url, client) as go:
        yield go
