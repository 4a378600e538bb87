"""Which backups are kept, by a rule that is told on the page.

Of those with photos and records: everything of the last two days, the last of each of the fourteen
latest days that have one, of the eight latest weeks and of the twelve latest months. Of those made
before an update, which hold the database only: the six latest. How many is our judgement.
"""

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from shopac.backups import tail
from shopac.backups.tail import UPDATE, Tail
from shopac.backups.trouble import BackupTrouble

RECENT = timedelta(days=2)
DAYS, WEEKS, MONTHS, UPDATES = 14, 8, 12, 6
# So many of the newest stay where the disk gets narrow.
FEWEST = 3
RULE = (
    f"Kept are all of the last two days, then one a day for {DAYS} days, one a week for {WEEKS}"
    f" weeks and one a month for {MONTHS} months. Before an update the database alone is copied,"
    f" and the last {UPDATES} of these are kept. Where the disk has no room for another, the oldest"
    f" go first, but never the last {FEWEST}."
)


@dataclass(frozen=True)
class Kept:
    """A backup that lies in the folder."""

    path: Path
    tail: Tail
    size: int


def listed(folder: Path) -> list[Kept]:
    """The whole backups of a folder by what they say of themselves, the newest first."""
    found = []
    for path in folder.glob("*.zip") if folder.is_dir() else ():
        try:
            found.append(Kept(path, tail.read(path), path.stat().st_size))
        except (BackupTrouble, OSError):
            continue
    return sorted(found, key=lambda one: one.tail.at, reverse=True)


def newest(kept: Iterable[Kept]) -> Kept | None:
    """The newest with photos and records."""
    return next((one for one in kept if one.tail.whole), None)


def superseded(kept: Iterable[Kept], now: datetime) -> list[Kept]:
    """Those that the rule keeps no longer; days, weeks and months are those of `now`'s zone."""
    told = sorted(kept, key=lambda one: one.tail.at, reverse=True)
    whole = [one for one in told if one.tail.whole]
    zone = now.tzinfo
    stay = [one for one in whole if now - one.tail.at < RECENT]
    stay += last_of_each(whole, DAYS, lambda one: one.tail.at.astimezone(zone).date())
    stay += last_of_each(whole, WEEKS, lambda one: one.tail.at.astimezone(zone).isocalendar()[:2])
    stay += last_of_each(whole, MONTHS, lambda one: month(one.tail.at.astimezone(zone)))
    stay += [one for one in told if one.tail.why == UPDATE and not one.tail.whole][:UPDATES]
    staying = {one.path for one in stay}
    return [one for one in told if one.path not in staying]


def month(at: datetime) -> tuple[int, int]:
    """The month of a moment."""
    return at.year, at.month


def last_of_each(told: list[Kept], many: int, of: Callable[[Kept], Hashable]) -> list[Kept]:
    """The newest of each of the latest so many days, weeks or months that have one."""
    found: dict[Hashable, Kept] = {}
    for one in told:
        found.setdefault(of(one), one)
    return list(found.values())[:many]


def to_make_room(kept: Iterable[Kept], needed: int) -> list[Kept]:
    """The oldest whole ones that would have to go for so many bytes; none where it is no help."""
    whole = sorted((one for one in kept if one.tail.whole), key=lambda one: one.tail.at)
    going: list[Kept] = []
    for one in whole[: max(0, len(whole) - FEWEST)]:
        if sum(gone.size for gone in going) >= needed:
            break
        going.append(one)
    return going if sum(gone.size for gone in going) >= needed else []
