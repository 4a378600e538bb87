"""The shop of a campaign and its tablets: each with a profile, a line and a name of its own."""

import json
import random
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Playwright

from tests.campaign.disks import Disk
from tests.offline.shop import Prepared, Shop, settings
from tests.offline.tablet import Tablet
from tests.offline.test_clock import WRONG_CLOCK
from tests.proxy import Line, Proxy
from tests.shopac.starting import PROGRAM

# Signs the same person in at so many browsers; each of them is known as a tablet of its own.
SIGN_IN = """
import json, sys
import django
django.setup()
from django.test import Client
from jobs.models import Person
person = Person.objects.get(name="R. Sand")
told = []
for _ in range(int(sys.argv[1])):
    browser = Client(HTTP_HOST="127.0.0.1")
    assert browser.post("/sign_in/", {"person": str(person.key), "pin": "2604"}).status_code == 302
    told.append({name: cookie.value for name, cookie in browser.cookies.items()})
print(json.dumps(told))
"""


def signed_in(folder: Path, number: int) -> list[dict[str, str]]:
    """Cookies of so many tablets."""
    done = subprocess.run(
        [sys.executable, "-c", SIGN_IN, str(number)],
        cwd=PROGRAM,
        env=settings(folder),
        check=True,
        capture_output=True,
        text=True,
    )
    told: list[dict[str, str]] = json.loads(done.stdout.splitlines()[-1])
    return told


# Tells how long after a tap a page first calls the entry kept; and a clock that can be set wrong.
TIMED = """
new MutationObserver(() => {
  const said = document.querySelector("[data-said]");
  if (!window.tappedAt || !said?.textContent.includes("Kept on this tablet")) return;
  window.timed(performance.now() - window.tappedAt);
  window.tappedAt = 0;
}).observe(document, { childList: true, subtree: true });
"""


class Hand(Tablet):
    """A tablet in somebody's hand: what it holds is asked for only while its browser runs."""

    def __init__(
        self, playwright: Playwright, shop: Shop, name: str, profile: Path, cookies: dict[str, str]
    ) -> None:
        self.line = Proxy(shop.port)
        super().__init__(playwright, shop, profile, self.line.port)
        self.name = name
        self.disk: Disk | None = None
        self.alive = False
        self.kept_in_ms: list[float] = []  # not yet taken into the ledger
        self._cookies = cookies

    def start(self) -> None:
        super().start()
        self.context.expose_binding("timed", lambda _source, ms: self.kept_in_ms.append(ms))
        self.context.add_init_script(TIMED)
        self.context.add_init_script(WRONG_CLOCK)
        self.alive = True
        self.sign_in()

    def sign_in(self) -> None:
        cookies: list[Any] = [
            {"name": name, "value": value, "url": self.url, "expires": time.time() + 86400}
            for name, value in self._cookies.items()
        ]
        self.context.add_cookies(cookies)

    def kill(self) -> None:
        self.alive = False
        super().kill()

    def begin(self) -> None:
        """Open a page while all is well, until everything is kept."""
        self.start()
        self.kept_ahead()

    def wait_for(self, expression: str, seconds: float = 90) -> None:
        super().wait_for(expression, seconds)


class Crew:
    """Everything a campaign works with."""

    def __init__(
        self, playwright: Playwright, prepared: Prepared, folder: Path, tablets: int, seed: int
    ) -> None:
        self.chance = random.Random(seed)
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True)
        self.standing: list[dict[str, Any]] = []  # rules of faults.py that hold throughout
        self.disk = Disk(folder / "server")
        names = signed_in(prepared.folder, tablets)
        self.shop = Shop(prepared, folder / "server" / "data")
        self.hands = [
            Hand(playwright, self.shop, f"T{at + 1}", folder / f"tablet{at}" / "profile", cookies)
            for at, cookies in enumerate(names)
        ]
        self.server_kills = self.browser_kills = 0

    def begin(self) -> None:
        """The server serves, and every tablet has kept its pages."""
        self.disk.sync()
        self.no_faults()
        self.shop.start()
        for at, hand in enumerate(self.hands):
            hand.disk = Disk(self.folder / f"tablet{at}")
            hand.begin()

    def no_faults(self) -> None:
        """No accident is ordered any more."""
        self.shop.no_faults()
        for rule in self.standing:
            self.shop.fault(**rule)

    def lines(self, line: Line) -> None:
        """All lines become so."""
        for hand in self.hands:
            hand.line.become(line)

    def serve(self) -> None:
        """The server runs; one that died by an order is counted and started again."""
        if self.shop.server and self.shop.server.poll() is None:
            return
        self.shop.kill()
        self.shop.start()

    def kill_server(self) -> None:
        """By signal, parent and worker."""
        if self.shop.server:
            self.server_kills += 1
            self.shop.kill()

    def close(self) -> None:
        """Everything ends."""
        for hand in self.hands:
            if hand.alive:
                hand.close()
            hand.line.close()
            if hand.disk:
                hand.disk.close()
        self.shop.kill()
        self.disk.close()
