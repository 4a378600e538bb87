"""The eight invariants of a campaign, held against the ledger. Each is a list of sentences."""

import hashlib
from collections import Counter
from typing import Any

from playwright.sync_api import Error

from tests.campaign.crew import Crew, Hand
from tests.campaign.ledger import Ledger, Tap
from tests.offline.shop import Shop

ROWS = {
    "intake": "SELECT 1 FROM jobs_job WHERE key = ?",
    "step": "SELECT 1 FROM diagnostics_step JOIN jobs_entry e ON e.id = entry_id WHERE e.key = ?",
    "charge": "SELECT 1 FROM jobs_move m JOIN jobs_entry e ON e.id = m.entry_id WHERE e.key = ?",
}
CHARGED = "SELECT coalesce(sum(amount), 0) AS mg FROM jobs_move WHERE to_place = 'car'"
NAMES = (
    "lost",
    "doubled",
    "half",
    "order",
    "falsely announced",
    "grams",
    "database",
    "header",
    "script",
)
Wrong = dict[str, list[str]]


def what_is_wrong(crew: Crew, ledger: Ledger) -> Wrong:
    """Every promise that does not hold now, by name; empty: all hold."""
    entries = crew.shop.entries()
    alive = [hand for hand in crew.hands if hand.alive]
    here = {item["key"] for hand in alive for item in hand.items()}
    entries_after = crew.shop.entries()  # what went over while the tablets were asked
    found: Wrong = {
        "lost": lost(crew, entries_after, here),
        "doubled": doubled(entries),
        "half": [one for row in entries for one in half(crew.shop, row, ledger)],
        "order": out_of_order(entries, ledger),
        "falsely announced": [key for hand in crew.hands for key in hand.seen.falsely_sent],
        "grams": grams(crew.shop, ledger),
        "database": [
            str(row)
            for row in crew.shop.rows("PRAGMA integrity_check")
            if row["integrity_check"] != "ok"
        ],
        "header": [f"{hand.name}: {one}" for hand in alive for one in hand.miscounted()],
        "script": [one for hand in crew.hands for one in unusable(hand)],
    }
    return {name: told for name, told in found.items() if told}


def lost(crew: Crew, entries: list[Any], here: set[str]) -> list[str]:
    """I1: what a page called kept is on the server, or listed on its tablet."""
    there = {row["key"] for row in entries}
    return [
        f"{hand.name}: {key}"
        for hand in crew.hands
        if hand.alive
        for key in dict.fromkeys(hand.seen.kept)
        if key not in there and key not in here
    ]


def doubled(entries: list[Any]) -> list[str]:
    """I1: each key once, and nothing twice under two keys."""
    keys = Counter(row["key"] for row in entries)
    told = Counter(
        (row["kind"], row["job_key"], str(row["fields"].get("seen") or row["fields"].get("plate")))
        for row in entries
        if row["kind"] in ("intake", "step")
    )
    return [str(one) for counted in (keys, told) for one, times in counted.items() if times > 1]


def half(shop: Shop, row: Any, ledger: Ledger) -> list[str]:
    """I2: all of an entry is there: its fields as typed, its rows, its photos to the last byte."""
    tap = ledger.taps.get(row["key"])
    if tap is None:
        return [f"nobody tapped {row['key']}"]
    wrong = [
        f"{tap.key}: {name}"
        for name, text in tap.fields.items()
        if row["fields"].get(name) != [text]
    ]
    if not shop.rows(ROWS[tap.kind], tap.key.replace("-", "")):
        wrong.append(f"{tap.key}: no row")
    if [one["sha256"] for one in row["photos"]] != ([tap.photo] if tap.photo else []):
        wrong.append(f"{tap.key}: photos {row['photos']}")
    return wrong + damaged(shop, row, tap)


def damaged(shop: Shop, row: Any, tap: Tap) -> list[str]:
    """The stored pictures of an entry that are not what their names say."""
    wrong = []
    for photo in shop.rows("SELECT * FROM jobs_photo WHERE entry_id = ?", row["id"]):
        name = photo["stored_sha256"]
        path = shop.folder / "photos" / name[:2] / f"{name}.jpg"
        if not path.exists() or hashlib.sha256(path.read_bytes()).hexdigest() != name:
            wrong.append(f"{tap.key}: picture {name}")
    return wrong


def out_of_order(entries: list[Any], ledger: Ledger) -> list[str]:
    """I3: what one tablet told of a job came in the order in which it was tapped."""
    lanes: dict[tuple[str, str], list[int]] = {}
    for row in entries:
        tap = ledger.taps.get(row["key"])
        if tap:
            lanes.setdefault((tap.tablet, tap.job), []).append(tap.number)
    return [f"{lane}: {came}" for lane, came in lanes.items() if came != sorted(came)]


def grams(shop: Shop, ledger: Ledger) -> list[str]:
    """I5: what was put into cars is what the ledger says of the charges that arrived."""
    there = {row["key"] for row in shop.entries()}
    told = sum(tap.mg for key, tap in ledger.taps.items() if key in there)
    [row] = shop.rows(CHARGED)
    return [] if row["mg"] == told else [f"{row['mg']} mg are booked, {told} mg were tapped"]


def unusable(hand: Hand) -> list[str]:
    """I8: no script failed, and the page in front answers."""
    wrong = [f"{hand.name}: {one}" for one in hand.seen.trouble]
    if hand.alive:
        try:
            usable = hand.ask("Boolean(document.querySelector('main'))")
        except Error as error:
            usable = str(error)
        wrong += [] if usable is True else [f"{hand.name}: the page is not usable, {usable}"]
    return wrong
