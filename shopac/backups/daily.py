"""What is due while the program serves: one backup a day, one drill a week."""

import sqlite3
import sys
from datetime import datetime, timedelta

from django.db import DatabaseError, connection
from django.utils import timezone

from shopac.backups import known
from shopac.backups.drilling import drill
from shopac.backups.known import Known, Told
from shopac.backups.making import back_up, data
from shopac.backups.tail import DAILY
from shopac.backups.trouble import BackupTrouble

# After a start people want their pages first; what failed is tried again an hour later.
FIRST, AGAIN = timedelta(minutes=10), timedelta(hours=1)
DRILL_EACH = timedelta(days=7)


def backup_due(told: Known, now: datetime, began: datetime) -> bool:
    """Whether today has no backup yet; times with a zone, the day is that of `now`'s zone."""
    if now - began < FIRST or within(told.failed_at, AGAIN, now):
        return False
    return not told.made_at or moment(told.made_at).astimezone(now.tzinfo).date() != now.date()


def drill_due(told: Known, now: datetime, began: datetime) -> bool:
    """Whether there is a backup, and none was restored for a week; after a failed one, for a day.

    A drill never follows a start at once.
    """
    if now - began < FIRST or not told.made_at:
        return False
    wait = DRILL_EACH if told.drill_ok else timedelta(days=1)
    return not within(told.drilled_at, wait, now)


def within(told: str, wait: timedelta, now: datetime) -> bool:
    """Whether that was less than so long ago; what lies ahead was told by a wrong clock."""
    return bool(told) and timedelta(0) <= now - moment(told) < wait


def moment(told: str) -> datetime:
    """A time as it is kept."""
    return datetime.fromisoformat(told)


def look(began: datetime) -> None:
    """Do what is due; what goes wrong is kept for the page and said to who started the program."""
    now = timezone.localtime()
    try:
        if backup_due(known.read(data()), now, began):
            back_up(DAILY, Told(data()))
        if drill_due(known.read(data()), now, began):
            drill(Told(data()))
    except (BackupTrouble, OSError, DatabaseError, sqlite3.Error) as wrong:
        print(f"Backup: {wrong}", file=sys.stderr, flush=True)
    finally:
        connection.close()
