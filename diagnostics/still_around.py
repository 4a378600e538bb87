"""What may still be around a car that is to be closed: a timer, gauges, a tag, a vacuum told.

Each is as somebody told it; that it is gone is told by an entry, or by nobody.
"""

from collections.abc import Iterator

from diagnostics.loop_as_told import with_told
from diagnostics.loop_state import TOLD, LoopState
from diagnostics.points import StepPoint
from jobs.models import Job
from jobs.models.wordings import in_shop_time

Points = Iterator[StepPoint]


def still_around(job: Job, loop: LoopState) -> list[StepPoint]:
    """All of it, at a fixed number of queries."""
    with_told(job)
    return [*of_loop(loop), *of_timers(job), *of_gauges(job), *of_tags(job)]


def of_loop(loop: LoopState) -> Points:
    """What was only told of the loop, and looked at by no test since."""
    if loop.code in TOLD:
        sentence = f"Told, not read: {loop.words}. {loop.run}"
        yield StepPoint("loop_as_told", sentence, None, about=f"{loop.code} {loop.seen_at}")


def of_timers(job: Job) -> Points:
    """What runs by itself and was not ended, over or not."""
    for one in job.waitings.all():
        if one.stands and one.by_itself and one.until:
            ends = in_shop_time(one.until)
            sentence = f"{one.label}: its timer goes until {ends}, and nobody ended it."
            page = ("waiting", "What it waits for")
            yield StepPoint("timer_runs", sentence, None, *page, str(one.key))


def of_gauges(job: Job) -> Points:
    """Gauges that the last hand-over note left on."""
    note = next(reversed(list(job.handovers.all())), None)
    if note and "gauges_on" in note.stands:
        at, who = in_shop_time(note.entry.happened_at), note.entry.author.name
        sentence = f"Gauges on, as told by {who}, {at}; that they are off is not told."
        yield StepPoint("gauges_on", sentence, None, "handover", "Hand over", str(note.key))


def of_tags(job: Job) -> Points:
    """The last tag that somebody made for it."""
    one = job.tags.select_related("entry__author").last()
    if one:
        at, who, why = in_shop_time(one.entry.happened_at), one.entry.author.name, one.sentences
        sentence = (
            f"Tag “A/C must not be run”, made by {who}, {at} ({'; '.join(why)}): that it was taken"
            " off is not noted."
        )
        yield StepPoint("tag_made", sentence, None, "tag", "Tag for the car", str(one.key))
