"""A tablet that was paired and one that was not, over real TLS on a name that is no loopback."""

import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Error, Page, Playwright, expect

from shopac.lan import chosen, kept, pairing
from shopac.lan.authority import Pair, make_server
from tests.offline.shop import NAME, Shop
from tests.offline.tablet import Tablet, until
from tests.shopac.starting import free_port
from tests.trust import make_home

Open = Callable[..., Page]


@pytest.fixture
def tablet_of(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[..., Tablet]]:
    """A new tablet that trusts these authorities, or none."""
    started: list[Tablet] = []

    def make(shop: Shop, *authorities: Path, names: str = "") -> Tablet:
        home = make_home(tmp_path / f"home {len(started)}", *authorities)
        profile = tmp_path / f"profile {len(started)}"
        tablet = Tablet(playwright, shop, profile, shop.port, home)
        tablet.names = names or tablet.names
        tablet.start()
        started.append(tablet)
        return tablet

    yield make
    for tablet in started:
        tablet.close()


@contextmanager
def pairing_page(shop: Shop) -> Iterator[str]:
    """The pairing server of this shop; its address."""
    port = free_port()
    lan = chosen.Chosen(NAME, shop.port, port)
    server = pairing.Server(("127.0.0.1", port), shop.folder, lan)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{port}/"
    server.shutdown()
    server.server_close()


def listens(port: int) -> bool:
    with socket.socket() as trial:
        return trial.connect_ex(("127.0.0.1", port)) == 0


def go_past_warnings(tablet: Tablet) -> None:
    """From now on this page is answered as by somebody who taps each warning away."""
    tools = tablet.context.new_cdp_session(tablet.page)
    tools.send("Security.enable")
    tools.send("Security.setOverrideCertificateErrors", {"override": True})

    def tap(told: dict[str, int]) -> None:
        on = {"eventId": told["eventId"], "action": "continue"}
        tools.send("Security.handleCertificateError", on)

    tools.on("Security.certificateError", tap)


def found(page: Page, check: str, words: str, state: str) -> None:
    line = page.locator(f"[data-check={check}]")
    expect(line).to_contain_text(words, timeout=30_000)
    expect(line).to_have_attribute("data-state", state)


def test_a_paired_tablet_is_led_to_the_shop_and_has_all_that_it_needs(shop, tablet_of):
    tablet = tablet_of(shop, shop.authority)
    with pairing_page(shop) as address:
        page = tablet.page
        page.goto(address)
        for check in ("clock", "name", "certificate"):
            found(page, check, "", "well")
        page.get_by_role("link", name="Open the shop").click()
        page.wait_for_url(f"{tablet.url}/paired/")
    for check in ("certificate", "worker", "storage", "clock"):
        found(page, check, "", "well")
    assert page.evaluate("navigator.serviceWorker.ready.then((ready) => ready.scope)") == (
        f"{tablet.url}/"
    )


def test_an_unpaired_tablet_opens_nothing_and_is_told_that_it_does_not_trust(shop, tablet_of):
    tablet = tablet_of(shop)
    with pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"):
        tablet.page.goto(tablet.url)
    with pairing_page(shop) as address:
        tablet.new_tab(address)  # the first is still on its way to the browser's own warning
        found(tablet.page, "name", "leads to the shop server", "well")
        found(tablet.page, "certificate", "does not trust", "wrong")
        expect(tablet.page.locator("[data-ready]")).to_be_hidden()


def test_a_warning_that_was_gone_past_gives_pages_and_no_worker_and_says_so(shop, tablet_of):
    tablet = tablet_of(shop)
    page = tablet.page
    go_past_warnings(tablet)
    page.goto(f"{tablet.url}/paired/")
    found(page, "certificate", "opened past a warning", "wrong")
    assert (
        page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0
    )


def test_a_name_that_leads_nowhere_is_told_from_a_missing_certificate(shop, tablet_of):
    tablet = tablet_of(shop, shop.authority, names=f"MAP {NAME} ~NOTFOUND")
    with pairing_page(shop) as address:
        page = tablet.page
        page.goto(address)
        found(page, "name", "leads nowhere", "wrong")
        found(page, "certificate", "Cannot be told", "asked")


def test_a_name_beyond_the_authoritys_bounds_is_not_believed_by_the_browser(
    stopped_shop, tablet_of
):
    shop = stopped_shop
    key = shop.authority.with_name("authority_key.pem")
    authority = Pair(shop.authority.read_bytes(), key.read_bytes())
    forged = make_server(authority, "bank.example", [], datetime.now(UTC))
    kept.write(chosen.served(shop.folder), forged.key + forged.certificate)
    shop.start(wait=False)
    until(lambda: listens(shop.port))
    tablet = tablet_of(shop, shop.authority, names="MAP bank.example 127.0.0.1")
    with pytest.raises(Error, match="ERR_CERT"):
        tablet.page.goto(f"https://bank.example:{shop.port}/")
