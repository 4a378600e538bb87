"""Which backups stay: the rule that the page tells."""

from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from shopac.backups.keeping import Kept, superseded, to_make_room
from shopac.backups.tail import DAILY, UPDATE, Tail

NOW = datetime(2027, 3, 17, 18, 0, tzinfo=ZoneInfo("Europe/Vienna"))


def one(at, why=DAILY, size=100):
    whole = why != UPDATE
    tail = Tail(at.isoformat(), "0.1.0", why, "sqlite", whole, {})
    return Kept(Path(f"{at:%Y-%m-%d-%H%M}-{why}.zip"), tail, size)


def staying(kept):
    gone = {each.path for each in superseded(kept, NOW)}
    return [each for each in kept if each.path not in gone]


def test_after_years_of_days_fourteen_days_eight_weeks_and_twelve_months_stay():
    kept = [one(NOW - timedelta(days=days)) for days in range(800)]
    stay = {each.tail.at.date() for each in staying(kept)}
    days = {(NOW - timedelta(days=days)).date() for days in range(14)}
    assert days <= stay
    older = stay - days
    assert {day.isocalendar()[:2] for day in stay} >= {
        (NOW - timedelta(weeks=weeks)).isocalendar()[:2] for weeks in range(8)
    }
    assert len({(day.year, day.month) for day in stay}) == 12
    assert len(older) <= 8 + 12
    assert min(stay) == date(2026, 4, 30)


def test_kept_day_by_day_it_comes_to_the_same_as_at_once():
    """The rule is applied after each backup: what it lets go early must not be missed later."""
    daily = []
    for days in reversed(range(800)):
        now = NOW - timedelta(days=days)
        daily.append(one(now))
        gone = {each.path for each in superseded(daily, now)}
        daily = [each for each in daily if each.path not in gone]
    at_once = staying([one(NOW - timedelta(days=days)) for days in range(800)])
    assert {each.path for each in daily} == {each.path for each in at_once}


def test_all_of_the_last_two_days_stay_and_of_older_days_the_last():
    kept = [one(NOW - timedelta(hours=hours)) for hours in range(0, 24 * 5, 6)]
    stay = staying(kept)
    assert [each for each in kept if NOW - each.tail.at < timedelta(days=2)] == stay[:8]
    older = [each.tail.at.date() for each in stay[8:]]
    assert len(older) == len(set(older))


def test_those_before_an_update_are_counted_by_themselves():
    updates = [one(NOW - timedelta(days=100 * many), UPDATE) for many in range(1, 9)]
    days = [one(NOW - timedelta(days=many)) for many in range(14)]
    stay = staying([*updates, *days])
    assert [each for each in stay if each.tail.why == UPDATE] == updates[:6]
    assert [each for each in stay if each.tail.why == DAILY] == days


def test_where_the_disk_is_narrow_the_oldest_go_and_the_last_three_never():
    kept = [one(NOW - timedelta(days=days)) for days in range(6)]
    assert to_make_room(kept, 150) == [kept[5], kept[4]]
    assert to_make_room(kept, 300) == [kept[5], kept[4], kept[3]]
    assert to_make_room(kept, 301) == []  # nothing goes where it would not help
    assert to_make_room(kept[:3], 1) == []
