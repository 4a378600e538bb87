"""Days and times that lie ahead: a tap where it fits, else typed. What is typed counts."""

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from typing import Any

from django import forms
from django.utils import timezone

from jobs.clocks import when
from jobs.forms.fields import Tap
from jobs.logbook import Told

TODAY, TOMORROW = "today", "tomorrow"
DAYS = {TODAY: "Today", TOMORROW: "Tomorrow"}
HOURS = {one: one for one in ("08:00", "10:00", "12:00", "14:00", "16:00", "18:00")}


class Clock(forms.TimeField):
    """A time of day."""

    def __init__(self, label: str, hint: str = "") -> None:
        super().__init__(
            label=label,
            help_text=hint,
            required=False,
            input_formats=["%H:%M", "%H:%M:%S"],
            widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M"),
            error_messages={"invalid": "Type the time as 14:30."},
        )


def hours(label: str, hint: str = "") -> Tap:
    """Times of day as taps."""
    return Tap(label, HOURS, hint)


def happened(told: Told | None) -> datetime:
    """When the entry happened, as the logbook will have it; "today" is the day of then."""
    now = timezone.now()
    if told is None:
        return now
    said_at = told.happened_at or told.typed_at
    return when(said_at, told.clock_offset_ms, told.clock_offset_sent_ms, now)[0]


def day_told(said: Mapping[str, Any], name: str, base: datetime) -> date | None:
    """The day that was typed, else tapped; None: neither."""
    typed: date | None = said.get(f"{name}_date")
    if typed:
        return typed
    days = {TODAY: 0, TOMORROW: 1}
    tapped = said.get(f"{name}_day")
    return timezone.localdate(base) + timedelta(days=days[tapped]) if tapped in days else None


def time_told(said: Mapping[str, Any], name: str) -> time | None:
    """The time that was typed, else tapped."""
    typed: time | None = said.get(f"{name}_time")
    tapped = said.get(f"{name}_hour")
    return typed or (time.fromisoformat(tapped) if tapped else None)


def moment_told(day: date | None, at: time, base: datetime) -> datetime:
    """The moment. Without a day it is the next time that the clock shows this."""
    local = timezone.localtime(base)
    on = day or local.date()
    moment = timezone.make_aware(datetime.combine(on, at))
    return moment + timedelta(days=1) if day is None and moment <= local else moment
