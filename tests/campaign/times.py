"""The times of OFFLINE "Goals", on a quiet line and one tablet; milliseconds and seconds."""

import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import Playwright

from tests.campaign import forms
from tests.campaign.accidents import TAP
from tests.campaign.crew import Crew, Hand
from tests.campaign.ledger import Ledger
from tests.campaign.table import p95
from tests.offline.shop import Prepared
from tests.offline.tablet import answer, fill_coil_test, picture, until

TEXTS, PHOTOS, RECONNECTS, QUEUE = 30, 15, 5, 50


def measured(
    playwright: Playwright, prepared: Prepared, folder: Path, say: Callable[[str], None]
) -> dict[str, Any]:
    """All of them."""
    crew = Crew(playwright, prepared, folder, 1, 1)
    try:
        began = time.monotonic()
        crew.begin()
        fresh = time.monotonic() - began
        hand = crew.hands[0]
        job = forms.bring_a_car(hand, Ledger(), crew.chance, folder).key
        say("times: text, photos ...")
        text = [kept_ms(hand, job, None) for _ in range(TEXTS)]
        photos = [kept_ms(hand, job, picture(folder, f"{at}.jpg")[0]) for at in range(PHOTOS)]
        say("times: coming back ...")
        first = [reconnect_s(crew, hand, job, 1, turn) for turn in range(RECONNECTS)]
        queue = reconnect_s(crew, hand, job, QUEUE, RECONNECTS)
    finally:
        crew.close()
    return {
        "fresh tablet keeps all pages, s": round(fresh, 1),
        "tap to kept, text, p95 ms": p95(text),
        "tap to kept, 3 MB photo, p95 ms": p95(photos),
        "server back to first acknowledgement, worst of 5, s": round(max(first), 1),
        f"server back to {QUEUE} entries acknowledged, s": round(queue, 1),
    }


def kept_ms(hand: Hand, job: str, photo: Path | None) -> float:
    """From the tap to the words."""
    page = hand.open(f"/step/coil_power/?job={job}")
    fill_coil_test(page, seen=f"seen {time.monotonic()}")
    if photo:
        page.locator("[name=photo]").set_input_files(photo)
        page.wait_for_timeout(500)
    hand.kept_in_ms.clear()
    page.evaluate(TAP)
    while not hand.kept_in_ms:
        page.wait_for_timeout(20)
    until(lambda: not hand.items(), 60)
    return hand.kept_in_ms.pop()


def reconnect_s(crew: Crew, hand: Hand, job: str, number: int, turn: int) -> float:
    """The server is away, so many entries are kept, it answers again: until none is left."""
    page = hand.open(f"/job/?job={job}")
    crew.shop.kill()
    for at in range(number):
        answer(page, "failing", ("yes", "no")[(at + turn) % 2])
        until(lambda at=at: len(hand.items()) == at + 1)  # type: ignore[misc]
    page.wait_for_timeout(3000)  # it has looked in vain more than once
    crew.shop.start()
    began = time.monotonic()
    while hand.items():
        page.wait_for_timeout(50)
    return time.monotonic() - began
