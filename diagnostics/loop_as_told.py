"""What a timer, a hand-over note or work told of the loop: as somebody told it, none was read.

That a timer was ended or a note taken over takes nothing back; a step or a change made later does.
"""

from collections.abc import Iterable, Iterator

from django.db.models import Prefetch, QuerySet, prefetch_related_objects

from diagnostics.loop_events import Event
from diagnostics.loop_worked import by_work
from jobs.models import Handover, Job, Waiting

# The code of the event and how it is told; what a timer is about began with it.
BY_TIMER = {
    "vacuum": ("told_vacuum", "pump started"),
    "nitrogen": ("told_nitrogen", "under nitrogen since"),
}
BY_NOTE = {
    "vacuum": ("told_vacuum", "vacuum running"),
    "nitrogen": ("told_nitrogen", "nitrogen in it"),
    "open": ("told_open", "open, not capped,"),
    "open_capped": ("told_open", "open, capped,"),
}


def as_told(job: Job) -> list[Event]:
    """All that a job's timers and notes told, and what work on its loop did."""
    with_told(job)
    told = [*by_timers(job.waitings.all()), *by_notes(job.handovers.all())]
    return [*told, *by_work(job.car_states.all())]


def with_told(job: Job) -> None:
    """Read timers and notes with who told them, once of one job, unless they came with it."""
    waits, notes = Prefetch("waitings", waits_told()), Prefetch("handovers", notes_told())
    prefetch_related_objects([job], waits, notes, "car_states")


def waits_told() -> QuerySet[Waiting]:
    """What cars wait for or waited for, ended or not."""
    return Waiting.objects.select_related("entry__author", "person")


def notes_told() -> QuerySet[Handover]:
    """The hand-over notes."""
    return Handover.objects.select_related("entry__author", "to")


def by_timers(waits: Iterable[Waiting]) -> Iterator[Event]:
    """What timers told that stand; one that was corrected told nothing."""
    for one in waits:
        if one.what in BY_TIMER and not one.superseded_by_id:
            code, what = BY_TIMER[one.what]
            yield Event(one.began_at, code, what, one.entry.author.name)


def by_notes(notes: Iterable[Handover]) -> Iterator[Event]:
    """What the taps of notes told."""
    for note in notes:
        for stands in note.stands:
            if stands in BY_NOTE:
                code, what = BY_NOTE[stands]
                yield Event(note.entry.done_at, code, what, note.entry.author.name)
