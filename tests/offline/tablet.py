"""A tablet: a Chromium with a profile of its own that can be killed and started again.

A witness in every page tells the test at once what the page says, so that what was said can be held
against the server's disk at that very moment.
"""

import hashlib
import io
import os
import random
import re
import signal
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from PIL import Image
from playwright.sync_api import BrowserContext, Error, Page, Playwright, expect

from tests import chromium, trust
from tests.offline.shop import NAME, Shop

WITNESS = """
new MutationObserver((changes) => {
  for (const change of changes) {
    const said = change.target.closest?.("[data-said]");
    const form = said?.closest("form");
    if (!form) continue;
    window.saw({ key: form.querySelector("[name=key]").value, words: said.textContent });
  }
}).observe(document, { childList: true, subtree: true });
"""
# Requests that fail and answers that are no success are what these tests are about.
# The last: htmx tells of a fragment that is not for who signed in or out meanwhile, and of one that
# was under way when its page was left.
NOT_TROUBLE = (
    "Failed to load resource",
    "net::ERR_",
    "Manifest:",
    "Response Status Error Code 401",
    "Response Status Error Code 403",
    "htmx:sendAbort",
    "htmx:afterRequest",
)


@dataclass
class Seen:
    """What pages said, as they said it."""

    kept: list[str] = field(default_factory=list)
    falsely_sent: list[str] = field(default_factory=list)
    trouble: list[str] = field(default_factory=list)


class Tablet:
    """One browser profile, and what can be done with it.

    What it trusts stands in its home folder, where names lead in `names`, as Chromium reads both.
    """

    def __init__(
        self,
        playwright: Playwright,
        shop: Shop,
        profile: Path,
        port: int,
        home: Path | None = None,
    ) -> None:
        self._playwright = playwright
        self._profile = profile
        self.shop = shop
        self.url = shop.door._replace(port=port).address.rstrip("/")
        self.home = home or shop.home
        self.names = f"MAP {NAME} 127.0.0.1"
        self.seen = Seen()
        self.context: BrowserContext

    def launch_arguments(self) -> dict[str, Any]:
        """What a browser of this shop's is started with.

        The shop's name leads to this machine. It is no name of this machine to the browser, which
        therefore gives the pages what a secure connection gives, and nothing without.
        """
        told = chromium.launch_arguments()
        told["args"].append(f"--host-resolver-rules={self.names}")
        return {**told, "env": trust.environment(self.home)}

    def start(self) -> None:
        """Open the browser; what its profile holds is there again."""
        self.context = self._playwright.chromium.launch_persistent_context(
            self._profile,
            base_url=self.url,
            viewport={"width": 1024, "height": 768},
            reduced_motion="reduce",
            **self.launch_arguments(),
        )
        self.context.set_default_timeout(15_000)
        self.context.expose_binding("saw", lambda _source, told: self._saw(told))
        self.context.add_init_script(WITNESS)
        self.context.on("page", self._watch)
        for page in self.context.pages:
            self._watch(page)

    def begin(self) -> None:
        """Open the browser, sign somebody in, and wait until pages are kept."""
        self.start()
        self.sign_in()
        self.kept_ahead()

    def sign_in(self) -> None:
        """The cookies that the shop gave this browser when somebody signed in."""
        self.context.add_cookies(
            [
                {"name": name, "value": value, "url": self.url, "expires": time.time() + 86400}
                for name, value in self.shop.cookies.items()
            ]
        )

    def forget_sign_in(self) -> None:
        """The sign-in has ended; the tablet is still known."""
        self.context.clear_cookies(name="shopac_sign_in")

    def _watch(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.seen.trouble.append(str(error)))
        page.on("console", lambda said: self._hear(said.type, said.text))

    def _hear(self, kind: str, text: str) -> None:
        if kind == "error" and not any(one in text for one in NOT_TROUBLE):
            self.seen.trouble.append(text)

    def _saw(self, told: dict[str, str]) -> None:
        if "Kept on this tablet" in told["words"]:
            self.seen.kept.append(told["key"])
        if "On the shop server" in told["words"] and not self._on_server(told["key"]):
            self.seen.falsely_sent.append(told["key"])

    def _on_server(self, key: str) -> bool:
        return any(row["key"] == key for row in self.shop.entries())

    @property
    def page(self) -> Page:
        """The tab in front."""
        return self.context.pages[-1]

    def open(self, path: str) -> Page:
        """Go there in the tab in front, which may just be going on by itself."""
        try:
            self.page.goto(path)
        except Error as error:
            if "ERR_ABORTED" not in str(error):
                raise
            self.page.wait_for_load_state()
            self.page.goto(path)
        return self.page

    def new_tab(self, path: str) -> Page:
        """Go there in a tab of its own."""
        page = self.context.new_page()
        page.goto(path)
        return page

    def kept_ahead(self) -> None:
        """Open a page while all is well, and wait until worker, pages and jobs are kept."""
        self.open("/unsent/")
        self.wait_for("navigator.serviceWorker.controller !== null")
        self.wait_for("caches.open('pages').then((all) => all.match('/job/')).then(Boolean)", 60)
        self.wait_for("shopac.store.get('about', 'jobs_at').then(Boolean)")

    def wait_for(self, expression: str, seconds: float = 15) -> None:
        """Until an expression is true in the page. The pages' policy forbids the tool's own way."""
        end = time.monotonic() + seconds
        while not self.ask(expression):
            if time.monotonic() > end:
                raise AssertionError(f"never true: {expression}")
            self.page.wait_for_timeout(50)

    def close(self) -> None:
        """Close the browser in good order."""
        with suppress(Error):  # it was killed
            self.context.close()

    def kill(self) -> None:
        """Pull the plug on the browser: every process of this profile, by its id."""
        mark = f"--user-data-dir={self._profile}".encode()
        for found in Path("/proc").glob("[0-9]*/cmdline"):
            try:
                if mark in found.read_bytes():
                    os.kill(int(found.parent.name), signal.SIGKILL)
            except (OSError, ValueError):
                continue
        self.close()
        for lock in self._profile.glob("Singleton*"):
            lock.unlink()

    def ask(self, expression: str) -> Any:
        """The value of an expression in the page in front; again while that just goes on."""
        end = time.monotonic() + 10
        while True:
            try:
                return self.page.evaluate(expression)
            except Error as error:
                going = "context was destroyed" in str(error) or "shopac is not" in str(error)
                if not going or time.monotonic() > end:
                    raise
                self.page.wait_for_timeout(50)
                self.page.wait_for_load_state()

    # What is kept, and what the header says of it.

    def items(self) -> list[dict[str, Any]]:
        """The outbox, as a page of the site sees it."""
        found: list[dict[str, Any]] = self.ask("shopac.store.all('items')")
        return found

    def unsent(self) -> list[dict[str, Any]]:
        """What counts as not sent."""
        found: list[dict[str, Any]] = self.ask("shopac.outbox.unsent()")
        return found

    def header(self) -> int:
        """How many entries the header says are here."""
        said = self.page.locator("#kept").text_content() or ""
        counts = re.findall(r"(\d+) (?:needs? you|to send|kept here)", said)
        return sum(map(int, counts))

    def wait_until_sent(self, seconds: float = 30) -> None:
        """Until the outbox is empty."""
        end = time.monotonic() + seconds
        while self.items():
            if time.monotonic() > end:
                raise AssertionError(f"still here: {self.items()}")
            self.page.wait_for_timeout(100)

    def say_what_is_wrong(self, shop: Shop) -> list[str]:
        """Every promise that does not hold now: the invariants of what was kept."""
        entries = shop.entries()
        items = self.items()
        return [
            *lost_or_doubled(self.seen.kept, entries, items),
            *[f"«on the shop server» too early: {key}" for key in self.seen.falsely_sent],
            *out_of_order(entries),
            *torn_photos(shop, entries),
            *self.miscounted(),
            *[f"script: {one}" for one in self.seen.trouble],
            *[
                f"database: {row}"
                for row in shop.rows("PRAGMA integrity_check")
                if row["integrity_check"] != "ok"
            ],
        ]

    def miscounted(self, seconds: float = 5) -> list[str]:
        """The header's count where it is not the outbox's, and does not become it either."""
        end = time.monotonic() + seconds
        while self.header() != len(self.unsent()):
            if time.monotonic() > end:
                return [f"header says {self.header()}, unsent are {len(self.unsent())}"]
            self.page.wait_for_timeout(50)
        return []


def lost_or_doubled(kept: list[str], entries: list[Any], items: list[Any]) -> list[str]:
    """Each kept key is on the server exactly once, or listed on the tablet."""
    wrong = []
    for key in dict.fromkeys(kept):
        times = sum(row["key"] == key for row in entries)
        here = any(item["key"] == key for item in items)
        thrown = any(row["fields"].get("discarded") == [key] for row in entries)
        if times > 1 or (times == 0 and not here and not thrown):
            wrong.append(f"kept, then on the server {times} times, here {here}: {key}")
    told = [(row["kind"], str(row["fields"])) for row in entries if row["kind"] != "discard"]
    wrong += [f"twice on the server: {one}" for one in set(told) if told.count(one) > 1]
    return wrong


def out_of_order(entries: list[Any]) -> list[str]:
    """Entries of one job were taken in the order in which the tablet made them."""
    wrong = []
    for job in {row["job_key"] for row in entries}:
        came = [row["sequence"] for row in entries if row["job_key"] == job and row["sequence"]]
        if came != sorted(came):
            wrong.append(f"order of {job}: {came}")
    return wrong


def torn_photos(shop: Shop, entries: list[Any]) -> list[str]:
    """Every photo an entry names came whole, and its picture is on disk under its own hash."""
    wrong = []
    for entry in entries:
        rows = shop.rows("SELECT * FROM jobs_photo WHERE entry_id = ?", entry["id"])
        if sorted(row["sent_sha256"] for row in rows) != sorted(
            photo["sha256"] for photo in entry["photos"]
        ):
            wrong.append(f"photos of {entry['key']}: {rows}")
        for row in rows:
            name = row["stored_sha256"]
            if row["why"] and not name:
                continue  # no picture, and said so
            path = shop.folder / "photos" / name[:2] / f"{name}.jpg"
            if not name or hashlib.sha256(path.read_bytes()).hexdigest() != name:
                wrong.append(f"picture {name} of {entry['key']}")
    return wrong


def picture(folder: Path, name: str = "belt.jpg", size: int = 3_000_000) -> tuple[Path, str]:
    """A picture file of about that many bytes, and its hash."""
    side = int((size / 3 / 0.95) ** 0.5)
    noise = random.Random(name).randbytes(side * side * 3)
    out = io.BytesIO()
    Image.frombytes("RGB", (side, side), noise).save(out, "PNG")
    path = folder / name
    path.write_bytes(out.getvalue())
    return path, hashlib.sha256(out.getvalue()).hexdigest()


# What a person does.


def take_in(page: Page, plate: str, **fields: str) -> None:
    """Fill the intake form and tap its bar."""
    fill_intake(page, plate, **fields)
    page.locator("button.bar").click()


def fill_intake(page: Page, plate: str, **fields: str) -> None:
    """Fill the intake form."""
    told = {"customer_name": "Ida Marwell", "plate": plate, "complaint": "Blows warm.", **fields}
    for name, value in told.items():
        page.locator(f"[name={name}]").fill(value)


def answer(page: Page, name: str, code: str) -> None:
    """Tap an answer."""
    page.locator(f"label:has([name={name}][value={code}])").click()


def fill_coil_test(page: Page, volts: str = "12.38", seen: str = "") -> None:
    """Fill the coil test: power, current, magnet, no hold."""
    answer(page, "ground", "good")
    page.locator("[name=volts]").fill(volts)
    page.locator("[name=amps]").fill("3.05")
    answer(page, "magnet", "yes")
    if seen:
        page.locator("[name=seen]").fill(seen)


def record(page: Page) -> None:
    """Tap the bar."""
    page.locator("button.bar").click()


def says(page: Page, words: str) -> None:
    """Wait until the line over the bar says so."""
    expect(page.locator("[data-said]")).to_contain_text(words)


def until(what: Callable[[], bool], seconds: float = 20) -> None:
    """Wait until something holds."""
    end = time.monotonic() + seconds
    while not what():
        if time.monotonic() > end:
            raise AssertionError("waited in vain")
        time.sleep(0.05)


def open_coil_test(page: Page) -> None:
    """From the job's page, by the list of all tests."""
    page.get_by_text("Another test").click()
    page.locator("[data-tests]", has=page.locator("[data-test=coil_power]")).locator(
        "summary"
    ).click()
    page.get_by_role("link", name="Power straight at the coil").click()
