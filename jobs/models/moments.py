"""Times and days in a few signs, as a list of cars has room for: 15:20, Wed 16:00, 3 Dec."""

from datetime import date, datetime, timedelta

from django.utils import timezone
from django.utils.dateformat import format as date_words

WEEKDAY_DAYS = 6  # farther away a weekday could be another week's


def clock(moment: datetime) -> str:
    """The time of day in the shop's zone."""
    return date_words(timezone.localtime(moment), "H:i")


def short_day(day: date, today: date) -> str:
    """A day as people say it today: today, Wed, 3 Dec, 3 Dec 2025."""
    if day == today:
        return "today"
    if today < day <= today + timedelta(days=WEEKDAY_DAYS):
        return date_words(day, "D")
    return date_words(day, "j M" if day.year == today.year else "j M Y")


def short_time(moment: datetime, now: datetime) -> str:
    """A moment: the time alone where it is today's, else with its day."""
    day, today = (timezone.localtime(one).date() for one in (moment, now))
    return clock(moment) if day == today else f"{short_day(day, today)} {clock(moment)}"
