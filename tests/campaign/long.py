"""Accidents that take a minute or more, once each: by the numbers of the table in DEVELOPERS.md."""

import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from playwright.sync_api import Playwright

from tests.campaign import forms
from tests.campaign.crew import Crew, Hand
from tests.campaign.ledger import Ledger
from tests.offline.shop import Prepared
from tests.offline.tablet import answer, until
from tests.proxy import Line

MANY, PHOTOS, UPDATES = 1000, 200, 20
# Entries as the job's switch makes them, and photos of noise; all by the page's own outbox.
QUEUE = """async ([number, photos]) => {
  const [one] = await shopac.store.all("items");
  const canvas = new OffscreenCanvas(120, 90);
  const pen = canvas.getContext("2d");
  for (let at = 0; at < number; at += 1) {
    const said = { ...one, key: crypto.randomUUID(), photos: [] };
    delete said.sequence;
    const bytes = new Map();
    if (at < photos) {
      pen.fillStyle = `hsl(${at} 90% ${20 + (at % 50)}%)`;
      pen.fillRect(at % 100, at % 80, 40, 40);
      const data = await (await canvas.convertToBlob({ type: "image/jpeg" })).arrayBuffer();
      const sha256 = await shopac.sha256(data);
      const about = { name: `${at}.jpg`, type: "image/jpeg", size: data.byteLength };
      said.photos = [{ field: "photo", ...about, sha256 }];
      bytes.set(sha256, data);
    }
    await shopac.outbox.keep(said, bytes);
  }
}"""
Say = Callable[[str], None]


def run(playwright: Playwright, prepared: Prepared, folder: Path, say: Say) -> dict[str, list[str]]:
    """Each accident on the same shop and tablet; what was wrong of it."""
    crew = Crew(playwright, prepared, folder, 1, 1)
    ledger = Ledger()
    found = {}
    try:
        crew.begin()
        for name, accident in LONG.items():
            began = time.monotonic()
            hand = crew.hands[0]
            job = forms.bring_a_car(hand, ledger, crew.chance, folder).key
            number = accident(crew, hand, job)
            found[name] = arrived(crew, hand, job, number)
            seconds = round(time.monotonic() - began)
            say(f"{name}: {number} entries, {seconds} s, {found[name] or 'all holds'}")
    finally:
        crew.close()
    return found


def arrived(crew: Crew, hand: Hand, job: str, number: int) -> list[str]:
    """Everything is over: so many entries of that job are on the server, in order, and no more."""
    crew.no_faults()
    crew.lines(Line())
    crew.serve()
    hand.open("/unsent/")
    hand.wait_until_sent(900)
    rows = [row for row in crew.shop.entries() if row["job_key"] == job and row["kind"] != "intake"]
    came = [row["sequence"] for row in rows]
    wrong = [] if len(rows) == number else [f"{len(rows)} of {number} on the server"]
    wrong += [] if came == sorted(came) else ["out of order"]
    return [*wrong, *hand.miscounted(), *hand.seen.trouble, *hand.seen.falsely_sent]


def tapped(hand: Hand, job: str, number: int) -> None:
    """So many answers of the job's switch, each kept."""
    page = hand.open(f"/job/?job={job}")
    before = hand.ask("shopac.store.all('delivered').then((all) => all.length)") + len(hand.items())
    for at in range(number):
        answer(page, "failing", ("yes", "no")[at % 2])
        every = (
            "Promise.all(['items', 'delivered'].map(shopac.store.all)).then((a) => a.flat().length)"
        )
        until(lambda at=at, every=every: hand.ask(every) >= before + at + 1, 60)  # type: ignore[misc]


def flapping(_crew: Crew, hand: Hand, job: str) -> int:
    """11: the line changes every 300 ms for a minute, and 30 entries are made meanwhile."""
    page = hand.open(f"/job/?job={job}")
    end = time.monotonic() + 60
    made = at = 0
    while time.monotonic() < end:
        at += 1
        hand.line.become(Line(refused=at % 2 == 0))
        if at % 6 == 0 and made < 30:
            answer(page, "failing", ("yes", "no")[made % 2])
            made += 1
        page.wait_for_timeout(300)
    return made


def locked(crew: Crew, hand: Hand, job: str) -> int:
    """28: half a minute."""
    with closing(sqlite3.connect(crew.shop.folder / "shop.sqlite3", timeout=10)) as other:
        other.execute("BEGIN IMMEDIATE")
        tapped(hand, job, 3)
        hand.page.wait_for_timeout(30_000)
        other.rollback()
    return 3


def paused(crew: Crew, hand: Hand, job: str) -> int:
    """48: a minute."""
    hand.open(f"/job/?job={job}")
    crew.shop.pause()
    tapped(hand, job, 3)
    hand.page.wait_for_timeout(60_000)
    crew.shop.go_on()
    return 3


def updated(crew: Crew, hand: Hand, job: str) -> int:
    """22: one new worker after another while entries wait."""
    refuse = {"do": "fail", "status": "503 Service Unavailable"}
    crew.shop.fault(**refuse)
    tapped(hand, job, 10)
    for number in range(UPDATES):
        crew.shop.no_faults()
        crew.shop.fault(**refuse)
        texts = [("LIMIT_MS = 2000", f"LIMIT_MS = {2001 + number}")]
        crew.shop.fault("replace", method="GET", path="/sw.js", texts=texts)
        hand.ask(
            "navigator.serviceWorker.getRegistration().then((one) => one.update()).then(Boolean)"
        )
        hand.open("/unsent/")
    return 10


def many(crew: Crew, hand: Hand, job: str) -> int:
    """49: a week without the server."""
    hand.open(f"/job/?job={job}")
    crew.shop.kill()
    tapped(hand, job, 1)
    hand.page.evaluate(QUEUE, [MANY - 1, PHOTOS])
    return MANY


LONG: dict[str, Callable[[Crew, Hand, str], int]] = {
    "11 line flaps for a minute": flapping,
    "28 database locked for 30 s": locked,
    "48 server stands still for 60 s": paused,
    f"22 {UPDATES} updates with a queue": updated,
    f"49 {MANY} entries, {PHOTOS} photos": many,
}
