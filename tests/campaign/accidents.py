"""The accidents of the random campaign, each around one tap on a form that is filled in.

Numbers are those of the table in DEVELOPERS.md ("Faults").
"""

import random
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Error

from tests.campaign.crew import Crew, Hand
from tests.campaign.ledger import Tap
from tests.offline.test_faults import ANSWERS
from tests.proxy import Line

TAP = "window.tappedAt = performance.now(); document.querySelector('button.bar').click()"
DAYS_3_MS = 3 * 24 * 3_600_000


@dataclass
class Moment:
    """One tap about to be made."""

    crew: Crew
    hand: Hand
    tap: Tap

    @property
    def chance(self) -> random.Random:
        return self.crew.chance

    def press(self) -> None:
        """Tap the bar, and wait for nothing."""
        self.hand.page.evaluate(TAP)

    def fault(self, do: str, **rule: Any) -> None:
        self.crew.shop.fault(do, times=1, **rule)

    def wait(self, milliseconds: float) -> None:
        """Time passes, and what pages say is heard."""
        self.hand.page.wait_for_timeout(milliseconds)

    def until(self, holds: Callable[[], bool], seconds: float = 15) -> bool:
        """Whether it came to hold in time."""
        end = time.monotonic() + seconds
        while not holds():
            if time.monotonic() > end:
                return False
            self.wait(40)
        return True

    def nothing_ordered(self) -> bool:
        """Whether every accident that was ordered has happened."""
        return self.crew.shop.faults_left == len(self.crew.standing)

    def kept(self) -> bool:
        """Whether the page came to call it kept."""
        return self.until(lambda: self.tap.key in self.hand.seen.kept)

    def ordered_death(self) -> None:
        """The server dies as was ordered, or was never asked for it."""
        server = self.crew.shop.server
        if server and self.until(lambda: server.poll() is not None, 12):
            self.crew.server_kills += 1
        self.crew.shop.kill()


def killed_before(now: Moment) -> None:
    now.fault("die_before")
    now.press()
    now.kept()
    now.ordered_death()


def killed_within(now: Moment) -> None:
    now.fault("die_within", statement=now.chance.randint(1, 6))
    now.press()
    now.kept()
    now.ordered_death()


def killed_after(now: Moment) -> None:
    now.fault("die_after")
    now.press()
    now.kept()
    now.ordered_death()


def killed_any_time(now: Moment) -> None:
    now.press()
    time.sleep(now.chance.uniform(0, 0.25))
    now.crew.kill_server()
    now.kept()


def no_answer(now: Moment) -> None:
    name = now.chance.choice(sorted(ANSWERS))
    now.fault(**ANSWERS[name])
    now.press()
    now.kept()
    now.until(now.nothing_ordered, 5)


def token_renewed(now: Moment) -> None:
    now.hand.context.clear_cookies(name="shopac_csrf")
    now.press()
    now.kept()


def refused_unread(now: Moment) -> None:
    now.fault("refuse_unread")
    now.press()
    now.kept()
    now.until(now.nothing_ordered, 5)


def network_toggled(now: Moment) -> None:
    now.press()
    for off in (True, False, True):
        now.wait(now.chance.uniform(0, 60))
        now.hand.context.set_offline(off)
    now.kept()


def flapping(now: Moment) -> None:
    now.press()
    for _ in range(6):
        refused = now.chance.random() < 0.5
        now.hand.line.become(Line(refused=refused, cut_down=None if refused else 40))
        now.wait(300)
    now.kept()


def silent(now: Moment) -> None:
    now.hand.line.become(Line(silent=True))
    now.press()
    now.kept()
    now.wait(1500)


def cut_up(now: Moment) -> None:
    whole = now.tap.photo_bytes + 2200
    now.hand.line.become(Line(cut_up=now.chance.choice((1, 900, whole // 2, whole - 1, whole))))
    now.press()
    now.kept()
    now.wait(700)


def slow(now: Moment) -> None:
    now.hand.line.become(Line(rate=35_000))
    now.press()
    now.kept()
    now.wait(1500)


def tab_closed(now: Moment) -> None:
    page = now.hand.page
    spare = now.hand.context.new_page()
    page.evaluate(TAP)
    spare.wait_for_timeout(now.chance.uniform(0, 60))
    page.close()
    now.hand.open("/unsent/")


def tab_closed_sending(now: Moment) -> None:
    now.fault("wait", seconds=2)
    page = now.hand.page
    now.press()
    now.until(now.nothing_ordered, 10)
    now.hand.context.new_page()
    page.close()
    now.hand.open("/unsent/")


def worker_stopped(now: Moment) -> None:
    now.fault("wait", seconds=1)
    tool = now.hand.context.new_cdp_session(now.hand.page)
    now.press()
    now.until(now.nothing_ordered, 10)
    with suppress(Error):
        tool.send("ServiceWorker.enable")
        tool.send("ServiceWorker.stopAllWorkers")
    now.kept()


def browser_killed_kept(now: Moment) -> None:
    now.crew.kill_server()
    now.press()
    now.kept()
    now.crew.browser_kills += 1
    now.hand.kill()


def browser_killed_tapping(now: Moment) -> None:
    if now.chance.random() < 0.5:
        now.crew.kill_server()
    now.press()
    now.wait(now.chance.uniform(0, 50))
    now.crew.browser_kills += 1
    now.hand.kill()


def tablet_power(now: Moment) -> None:
    if now.chance.random() < 0.7:
        now.crew.kill_server()
    now.press()
    now.kept()
    now.crew.browser_kills += 1
    now.hand.kill()
    assert now.hand.disk is not None
    now.hand.disk.lose_power()


def server_power(now: Moment) -> None:
    """What the server has acknowledged is on its disk before any tablet can bring it again."""
    crew = now.crew
    now.press()
    if now.kept() and now.chance.random() < 0.7:
        now.until(lambda: on_server(crew, now.tap.key), 10)
    acknowledged = [key for hand in crew.hands if hand.alive for key in delivered(hand)]
    crew.kill_server()
    crew.disk.lose_power()
    there = {row["key"] for row in crew.shop.entries()}
    gone = [key for key in acknowledged if key not in there]
    now.hand.seen.trouble += [f"acknowledged, and not on the server's disk: {key}" for key in gone]


def on_server(crew: Crew, key: str) -> bool:
    return any(row["key"] == key for row in crew.shop.entries())


def delivered(hand: Hand) -> list[str]:
    """What this tablet holds as acknowledged."""
    keys: list[str] = hand.ask("shopac.store.all('delivered').then((all) => all.map((e) => e.key))")
    return keys


def locked(now: Moment) -> None:
    with closing(sqlite3.connect(now.crew.shop.folder / "shop.sqlite3", timeout=10)) as other:
        other.execute("BEGIN IMMEDIATE")
        now.press()
        now.kept()
        now.wait(now.chance.choice((500, 6500)))
        other.rollback()


def delivered_often(now: Moment) -> None:
    now.fault("deliver", number=now.chance.choice((2, 8)))
    now.press()
    now.kept()


def tapped_often(now: Moment) -> None:
    now.hand.page.evaluate(f"{TAP}; {TAP}; {TAP}")
    now.kept()


def back_and_again(now: Moment) -> None:
    now.press()
    now.kept()
    now.until(lambda: now.tap.key in delivered(now.hand), 8)
    now.wait(300)
    with suppress(Error):
        now.hand.page.go_back()
        now.wait(400)
        now.hand.page.evaluate(f"if (document.querySelector('button.bar')) {{ {TAP} }}")
    now.wait(300)


def tablet_clock(now: Moment) -> None:
    shift = now.chance.choice((-DAYS_3_MS, DAYS_3_MS))
    now.hand.ask(f"localStorage.setItem('shift', '{shift}')")
    now.press()
    now.kept()
    now.wait(300)
    now.hand.ask("localStorage.removeItem('shift')")


def server_clock(now: Moment) -> None:
    now.crew.shop.clock(-3600)
    now.press()
    now.kept()
    now.wait(300)


def paused(now: Moment) -> None:
    now.crew.shop.pause()
    now.press()
    now.kept()
    now.wait(now.chance.choice((300, 2500)))
    now.crew.shop.go_on()


def away(now: Moment) -> None:
    now.crew.kill_server()
    now.press()
    now.kept()


ACCIDENTS: dict[str, Callable[[Moment], None]] = {
    "1 server killed before handling": killed_before,
    "2 server killed in the transaction": killed_within,
    "3 server killed after the commit": killed_after,
    "1-3 server killed at any time": killed_any_time,
    "4-8 an answer that is none": no_answer,
    "8 form token renewed": token_renewed,
    "9 refused, body unread": refused_unread,
    "10 network toggled at the tap": network_toggled,
    "11 line flaps": flapping,
    "12 line takes all, says nothing": silent,
    "13 upload cut": cut_up,
    "14 35 kB/s": slow,
    "15 tab closed at the tap": tab_closed,
    "16 tab closed while sending": tab_closed_sending,
    "17 worker stopped while sending": worker_stopped,
    "18 browser killed after kept": browser_killed_kept,
    "19 browser killed 0-50 ms after the tap": browser_killed_tapping,
    "20 tablet loses power": tablet_power,
    "21 server loses power": server_power,
    "28 database locked": locked,
    "32 post arrives 2 or 8 times": delivered_often,
    "35 tapped three times": tapped_often,
    "36 back and again": back_and_again,
    "39 tablet's clock off by 3 days": tablet_clock,
    "40 server's clock back 1 h": server_clock,
    "48 server stands still": paused,
    "50 server away, entries queue up": away,
}
