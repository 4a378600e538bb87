"""What a technician records in a campaign: a car, a test with or without a photo, a charge."""

import random
from collections.abc import Callable
from pathlib import Path

from tests.campaign.crew import Hand
from tests.campaign.ledger import Ledger, Tap
from tests.offline.tablet import answer, fill_coil_test, fill_intake, picture, until

SHARED = 0.3
Fill = Callable[[Hand, Ledger, random.Random, Path], Tap]


def key_of(hand: Hand) -> str:
    """The key of the form in front; its script gives it a moment after the page."""
    field = hand.page.locator("[name=key]").first
    until(lambda: len(field.input_value()) == 36)
    return field.input_value()


def intake(hand: Hand, ledger: Ledger, _chance: random.Random, _folder: Path) -> Tap:
    """A car nobody saw before."""
    plate = f"KX.{4000 + len(ledger.taps)}{hand.name[-1]}"
    fill_intake(hand.open("/intake/"), plate)
    key = key_of(hand)
    return Tap(key, key, "intake", hand.name, {"plate": plate})


def job_for(hand: Hand, ledger: Ledger, chance: random.Random) -> str:
    """A car of this tablet, mostly one of the last; now and then one that another brought."""
    own = ledger.jobs(hand.name)[-4:]
    arrived = {row["key"] for row in hand.shop.entries()}
    others = [key for key, tap in ledger.taps.items() if tap.kind == "intake" and key in arrived]
    return chance.choice(others if others and chance.random() < SHARED else own)


def test(hand: Hand, ledger: Ledger, chance: random.Random, _folder: Path) -> Tap:
    """Power straight at the coil, in words of its own."""
    job = job_for(hand, ledger, chance)
    page = hand.open(f"/step/coil_power/?job={job}")
    seen = f"seen {len(ledger.taps)}"
    fill_coil_test(page, volts=f"12.{chance.randrange(20, 70)}", seen=seen)
    return Tap(key_of(hand), job, "step", hand.name, {"seen": seen})


def test_with_photo(hand: Hand, ledger: Ledger, chance: random.Random, folder: Path) -> Tap:
    """The same with a picture that nobody sent before, named a JPEG or it would be made one."""
    tap = test(hand, ledger, chance, folder)
    name = f"{hand.name}-{len(ledger.taps)}.jpg"
    path, digest = picture(folder, name, chance.choice((40_000, 200_000, 800_000, 3_000_000)))
    hand.page.locator("[name=photo]").set_input_files(path)
    hand.page.wait_for_timeout(250)
    tap.photo, tap.photo_bytes = digest, path.stat().st_size
    path.unlink()
    return tap


def charge(hand: Hand, ledger: Ledger, chance: random.Random, _folder: Path) -> Tap:
    """Refrigerant into a car."""
    job = job_for(hand, ledger, chance)
    page = hand.open(f"/charge/?job={job}")
    grams = chance.randrange(20, 90)
    answer(page, "cylinder", "unnamed")
    answer(page, "fill", "top_up")
    page.locator("[name=grams_in]").fill(str(grams))
    answer(page, "hose", "machine")
    answer(page, "leak", "none")
    return Tap(key_of(hand), job, "charge", hand.name, {"grams_in": str(grams)}, mg=grams * 1000)


def bring_a_car(hand: Hand, ledger: Ledger, chance: random.Random, folder: Path) -> Tap:
    """Take one in while all is well, and wait until the server has it."""
    tap = intake(hand, ledger, chance, folder)
    ledger.tapped(tap)
    hand.page.locator("button.bar").click()
    until(lambda: any(row["key"] == tap.key for row in hand.shop.entries()), 60)
    hand.page.wait_for_timeout(300)
    return tap


def choose(hand: Hand, ledger: Ledger, chance: random.Random) -> Fill:
    """Any of them; the first of a tablet is a car."""
    if not ledger.jobs(hand.name):
        return intake
    return chance.choice((intake, test, test, test_with_photo, test_with_photo, charge))
