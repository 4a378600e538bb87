"""What holds a car: it can go on now, something runs by itself, or it waits for someone.

From the rows of what it waits for and the time that is promised; nothing here asks the database.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time

from django.utils import timezone

from jobs.models.moments import short_time
from jobs.models.places import promise_word
from jobs.models.waiting import Waiting

NOW, RUNS, WAITS = "now", "runs", "waits"
GROUPS = {NOW: "Can go on now", RUNS: "Runs by itself", WAITS: "Waits for someone"}
NONE_IN = {
    NOW: "No car can go on now: each one here waits, or none is here.",
    RUNS: "Nothing runs by itself: no soak, vacuum, nitrogen or timer.",
    WAITS: "No car waits for a customer, a part or a person.",
}


@dataclass(frozen=True)
class Hold:
    """What holds one car. `waiting` is what counts first of what it waits for; None: nothing.

    `at` is when it counts, by which the cars of a group are put in order; `when` and `word` say it.
    """

    group: str
    waiting: Waiting | None
    also: tuple[Waiting, ...]
    at: datetime
    when: str
    word: str


def hold(
    waits: Iterable[Waiting], promised_at: datetime | None, opened_at: datetime, now: datetime
) -> Hold:
    """What holds a car that waits for these.

    A timer that is over needs a hand, whatever else the car waits for.
    """
    listed = sorted(waits, key=end_of)
    over = [one for one in listed if one.by_itself and one.over(now)]
    someone = [one for one in listed if not one.by_itself]
    runs = [one for one in listed if one.by_itself and not one.over(now)]
    for group, found in ((NOW, over), (WAITS, someone), (RUNS, runs)):
        if found:
            first = found[0]
            also = tuple(one for one in listed if one is not first)
            return Hold(group, first, also, end_of(first), *first.moment(now))
    if promised_at:
        said = short_time(promised_at, now), promise_word(promised_at, now)
        return Hold(NOW, None, (), promised_at, *said)
    return Hold(NOW, None, (), opened_at, short_time(opened_at, now), "here since")


def end_of(one: Waiting) -> datetime:
    """When it is over, due or, where nobody told, since when it waits."""
    if one.until:
        return one.until
    if one.due_on:
        return timezone.make_aware(datetime.combine(one.due_on, time.max))
    return one.began_at


def in_order(holds: dict[int, Hold], own: Sequence[int], group: str) -> list[int]:
    """The jobs of a group by their ids: the tablet's own first, then by what comes first.

    Of those that can go on, what is timed comes before what only stands here.
    """
    mine = {pk: place for place, pk in enumerate(own)}
    far = datetime.max.replace(tzinfo=UTC)

    def place(pk: int) -> tuple[int, bool, datetime, int]:
        one = holds[pk]
        untimed = one.word == "here since"
        return mine.get(pk, len(mine)), untimed, one.at or far, pk

    return sorted((pk for pk, one in holds.items() if one.group == group), key=place)
