"""When something happened: the tablet's clock, brought to the shop server's."""

from datetime import UTC, datetime, timedelta

import pytest
from django.utils import timezone

from jobs.clocks import CLOCK_CHANGED, when
from jobs.entries import FAILING_NOW
from jobs.logbook import enter
from jobs.models import Entry
from jobs.told import Mark
from tests.factories import make_job, make_told, said_of

pytestmark = pytest.mark.django_db

ARRIVED = datetime(2031, 5, 7, 16, 0, tzinfo=UTC)
DAY_MS = 24 * 3_600_000


def typed(
    at: datetime, at_tap_ms: int | None = None, sent_ms: int | None = None
) -> tuple[datetime, list[Mark]]:
    """What comes of a time that the tablet's clock said, with its two measured offsets."""
    return when(at, at_tap_ms, sent_ms, ARRIVED)


def clock(how: str, said: str) -> Mark:
    """The mark of a clock that was so, and what it said."""
    return {"code": f"clock_{how}", "figures": {"said": said}}


def test_without_any_offset_the_tablet_is_believed():
    earlier = ARRIVED - timedelta(hours=5)
    assert typed(earlier) == (earlier, [])


def test_the_offset_at_the_tap_holds_though_the_clock_was_put_right_before_sending():
    true_time = ARRIVED - timedelta(hours=5)
    told = typed(true_time - timedelta(days=3), at_tap_ms=3 * DAY_MS, sent_ms=0)
    assert told == (true_time, [CLOCK_CHANGED])


def test_without_one_at_the_tap_the_offset_at_sending_holds():
    true_time = ARRIVED - timedelta(hours=5)
    told = typed(true_time + timedelta(days=3), sent_ms=-3 * DAY_MS)
    assert told == (true_time, [])


def test_an_offset_of_zero_at_the_tap_is_an_offset():
    told = typed(ARRIVED - timedelta(days=4), at_tap_ms=0, sent_ms=3 * DAY_MS)
    assert told == (ARRIVED - timedelta(days=4), [CLOCK_CHANGED])


@pytest.mark.parametrize(
    ("sent_ms", "marks"),
    [
        (120_000, []),
        (-120_000, []),
        (120_001, [CLOCK_CHANGED]),
        (-120_001, [CLOCK_CHANGED]),
    ],
)
def test_two_minutes_between_the_two_offsets_are_no_finding_and_more_are(
    sent_ms: int, marks: list[Mark]
):
    told = typed(ARRIVED - timedelta(hours=5), at_tap_ms=0, sent_ms=sent_ms)
    assert told[1] == marks


@pytest.mark.parametrize("ahead_s", [1, 60, 120])
def test_what_would_lie_in_the_future_happened_at_the_latest_when_it_arrived(ahead_s: int):
    told = typed(ARRIVED + timedelta(seconds=ahead_s), at_tap_ms=0, sent_ms=0)
    assert told == (ARRIVED, [])


def test_a_clock_further_ahead_than_two_minutes_is_marked():
    told = typed(ARRIVED + timedelta(seconds=121))
    assert told == (ARRIVED, [clock("ahead", "2031-05-07T16:02:01.000Z")])


def test_a_clock_that_was_changed_and_is_ahead_gets_both_marks():
    told = typed(ARRIVED, at_tap_ms=DAY_MS, sent_ms=0)
    ahead = clock("ahead", "2031-05-07T16:00:00.000Z")
    assert told == (ARRIVED, [CLOCK_CHANGED, ahead])


def test_a_time_that_was_told_is_on_the_tablet_s_clock_too():
    now = timezone.now()
    told = make_told(
        {"failing": "yes"},
        job_key=make_job().key,
        typed_at=now - timedelta(days=3),
        happened_at=now - timedelta(days=3, hours=2),
        clock_offset_ms=3 * DAY_MS,
    )
    assert enter(FAILING_NOW, told).stands
    entry = Entry.objects.get(key=told.key)
    assert (entry.happened_at, entry.marks) == (now - timedelta(hours=2), [])


@pytest.mark.parametrize("year", [1901, 1970, 2028])
def test_a_clock_more_than_three_years_behind_was_not_set_and_is_marked(year: int):
    told = typed(datetime(year, 1, 1, tzinfo=UTC))
    assert told == (ARRIVED, [clock("lost", f"{year}-01-01T00:00:00.000Z")])


def test_three_years_on_a_tablet_that_lay_in_a_drawer_is_believed():
    earlier = ARRIVED - timedelta(days=3 * 366)
    assert typed(earlier) == (earlier, [])


def test_a_lost_clock_whose_difference_is_known_is_brought_to_the_servers():
    lost_ms = int((ARRIVED - datetime(1970, 1, 1, tzinfo=UTC)) / timedelta(milliseconds=1))
    told = typed(datetime(1970, 1, 1, tzinfo=UTC), at_tap_ms=lost_ms, sent_ms=lost_ms)
    assert told == (ARRIVED, [])


@pytest.mark.parametrize("year", [1901, 1970, 2999])
def test_what_a_clock_said_that_is_not_believed_stays_told(year: int):
    job, said = make_job(), datetime(year, 3, 2, 12, tzinfo=UTC)
    told = make_told({"failing": "yes"}, job_key=job.key, happened_at=said)
    assert enter(FAILING_NOW, told).stands
    entry = Entry.objects.get(key=told.key)
    assert entry.happened_at == entry.arrived_at
    (words,) = said_of(entry)
    shown = f"{timezone.localtime(said):%H:%M}"
    assert words.endswith(f"that of arrival. That clock said 2 Mar {year}, {shown}.")


@pytest.mark.parametrize("code", ["clock_ahead", "clock_lost"])
def test_a_mark_without_what_the_clock_said_is_told_too(code: str):
    entry = make_job().entry
    entry.marks = [{"code": code}]
    (words,) = said_of(entry)
    assert words.endswith("the time shown is that of arrival.")
