"""When something happened: a tablet's clock, brought to the shop server's."""

from datetime import UTC, datetime, timedelta

from jobs.told import Mark

# A difference of clocks that nobody needs to hear of.
CLOCK_SLACK = timedelta(minutes=2)
# No tablet keeps an entry that long; its clock was lost, as with an empty battery. Our judgement.
CLOCK_LOST_AFTER = timedelta(days=3 * 366)
CLOCK_CHANGED: Mark = {"code": "clock_changed"}


def when(
    said_at: datetime, at_tap_ms: int | None, at_sending_ms: int | None, arrived_at: datetime
) -> tuple[datetime, list[Mark]]:
    """When it happened by the shop server's clock, and marks where the two clocks cannot agree.

    `said_at` is the tablet's time and is kept as told. It is brought to the server's by the offset
    that held at the tap, else by the one measured at sending: a tablet may set its clock between
    the two. What would then lie in the future happened at the latest when it arrived, and what
    would lie more than three years back is taken as of then; what the clock said stays in the mark.
    """
    said = {"said": in_utc(said_at)}
    offset_ms = offset_of(at_tap_ms, at_sending_ms)
    happened_at = said_at + timedelta(milliseconds=offset_ms or 0)
    marks = [CLOCK_CHANGED] if clock_changed(at_tap_ms, at_sending_ms) else []
    if happened_at > arrived_at + CLOCK_SLACK:
        marks.append({"code": "clock_ahead", "figures": said})
    if happened_at < arrived_at - CLOCK_LOST_AFTER:
        return arrived_at, [*marks, {"code": "clock_lost", "figures": said}]
    return min(happened_at, arrived_at), marks


def offset_of(at_tap_ms: int | None, at_sending_ms: int | None) -> int | None:
    """Server minus tablet in milliseconds, as far as known for the moment of typing."""
    return at_sending_ms if at_tap_ms is None else at_tap_ms


def clock_changed(at_tap_ms: int | None, at_sending_ms: int | None) -> bool:
    """Whether the tablet's clock was changed between typing and sending, by more than the slack."""
    if at_tap_ms is None or at_sending_ms is None:
        return False
    return abs(timedelta(milliseconds=at_tap_ms - at_sending_ms)) > CLOCK_SLACK


def in_utc(time: datetime) -> str:
    """A time as a script's toISOString writes it: 2031-05-01T09:30:00.000Z."""
    return time.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="milliseconds") + "Z"
