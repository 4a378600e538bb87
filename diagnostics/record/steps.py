"""The parts of a record that come from test steps: made, not possible, not made."""

import uuid
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from diagnostics.assess import Assessed, readings_of, steps_of, system_of
from diagnostics.evidence.catalogue import KINDS
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import LoopState, loop_state
from diagnostics.models import Step
from diagnostics.record.equipment import equipment_of, read_with_of
from diagnostics.record.readings import Shown, shown_meaning, shown_readings
from diagnostics.record.words import FAILING_WORDS, done_times, in_parts
from jobs.models import CarState, Change, Entry, Job
from jobs.models.first_told import first_told
from jobs.models.marks import marks_in_words
from jobs.paper import frozen
from jobs.paper.frozen_people import Equipment

NO_REASON = "no reason given"
NOT_MADE = "not made in this job"
KIND_UNKNOWN = "This version of the program does not know this test; its readings stand as taken."


@dataclass(frozen=True)
class Made:
    """The steps of a job for its paper.

    `assessed` are all of them, `numbers` their numbers by their entry's key, `kinds` the kinds of
    those that stand, `stand` says how many stand as made and as not possible, `reasons` why a step
    took another's place, by its entry's key, `alone` the keys of corrections that took none, `loop`
    what they and the changes tell of the loop, `equipment` what they were read with.
    """

    steps: list[frozen.Step]
    not_done: list[frozen.NotDone]
    assessed: list[Assessed]
    numbers: Mapping[uuid.UUID, int]
    reasons: Mapping[uuid.UUID, str]
    alone: frozenset[uuid.UUID]
    kinds: frozenset[str]
    stand: tuple[int, int]
    loop: LoopState
    equipment: Equipment


def made_in(job: Job, states: Sequence[CarState], changes: Iterable[Change]) -> Made:
    """What was made in a job, what was superseded included: nothing vanishes from a record.

    `states` are the job's car states in their order, `changes` those changes that stand.
    """
    all_steps = steps_of(job, states)
    standing = [one for one in all_steps if not one.step.superseded_by_id]
    first = first_told(one.step for one in all_steps)
    return Made(
        steps=[step_of(one, first[one.step.pk]) for one in all_steps if not one.step.not_done],
        not_done=[not_done_of(one, first[one.step.pk]) for one in all_steps if one.step.not_done],
        assessed=all_steps,
        numbers={one.step.key: one.step.number for one in all_steps},
        reasons={one.step.key: one.step.corrected_why or NO_REASON for one in all_steps},
        alone=frozenset(one.step.key for one in all_steps if one.corrects_nothing),
        kinds=frozenset(one.step.kind for one in standing),
        stand=(
            sum(one.stands for one in standing),
            sum(bool(one.step.not_done) for one in standing),
        ),
        loop=loop_state(all_steps, changes, told=as_told(job)),
        equipment=equipment_of(all_steps),
    )


def step_of(one: Assessed, first: Entry) -> frozen.Step:
    """One step, told `first` by that entry.

    A superseded one keeps its readings, but no longer says what they mean.
    """
    step = one.step
    normal = bool(one.came_out and one.came_out.normal)
    shown = shown_meaning(None if step.superseded_by else one.meaning, normal=normal)
    return {
        "number": step.number,
        "key": str(step.key),
        "kind": step.kind,
        "version": step.kind_version,
        "state": step.state_then,
        "failing": FAILING_WORDS.get(step.failing_then, ""),
        "failing_now": step.failing_then,
        "test": one.title,
        "finding": finding_of(one),
        "outcome": shown.outcome,
        "superseded_by": superseded_by(step),
        "readings": shown_readings(one.kind, readings_of(step), one.units),
        "read_with": read_with_of(one),
        "worked_out": shown.worked_out,
        "drawing": shown.drawing,
        "bearings": shown.bearings,
        "not_tested": shown.not_tested,
        "limits": shown.limits,
        "source": shown.source,
        "notes": notes_of(one, shown),
        "remark": step.seen,
        "marks": marks_of(one),
        "by": step.entry.author.name,
        "author": str(step.entry.author.key),
        **done_times(step.entry, first),
    }


def superseded_by(step: Step) -> int | None:
    """The number of the step that took its place."""
    return step.superseded_by.number if step.superseded_by else None


def finding_of(one: Assessed) -> str:
    """What was found, or why that does not stand here."""
    if one.step.superseded_by:
        return f"Superseded by step {one.step.superseded_by.number}; it counts no more."
    return in_parts(one.finding) or KIND_UNKNOWN


def notes_of(one: Assessed, shown: Shown) -> list[str]:
    """What else a reader has to know."""
    if one.step.superseded_by:
        return []
    return [note for note in (*shown.notes, one.failing_note) if note]


def marks_of(one: Assessed) -> list[frozen.Kept]:
    """What was odd or against an order when it was recorded, and why it stays.

    What is odd about who typed it and when comes last.
    """
    told: list[frozen.Kept] = []
    if one.barred:
        text = f"Made where it is barred. {one.barred}"
        told.append({"text": text, "code": "barred", "field": ""})
    told += [
        {"text": f"Made under an override. {let.said}", "code": let.order, "field": ""}
        for let in one.under
    ]
    told += [
        {"text": mark["sentence"], "code": mark["code"], "field": mark["field"]}
        for mark in one.step.marks_said
    ]
    entry = one.step.entry
    of_entry: list[frozen.Kept] = [
        {"text": said.words, "code": said.code, "field": said.field}
        for said in marks_in_words([entry])[entry.pk]
    ]
    return [*told, *of_entry]


def not_done_of(one: Assessed, first: Entry) -> frozen.NotDone:
    """A test that could not be made, with what was read or seen all the same."""
    step = one.step
    readings = shown_readings(one.kind, readings_of(step), one.units)
    read = [f"{told['name']}: {told['text']}" for told in readings]
    why = [one.not_done, *(["Read before: " + "; ".join(read)] if read else []), step.seen]
    if step.superseded_by:
        why.insert(0, f"Superseded by step {step.superseded_by.number}.")
    return {
        "number": step.number,
        "key": str(step.key),
        "kind": step.kind,
        "version": step.kind_version,
        "state": step.state_then,
        "test": one.title,
        "why": "\n".join(text for text in why if text),
        "code": step.not_done,
        "superseded_by": superseded_by(step),
        "readings": readings,
        "marks": marks_of(one),
        "by": step.entry.author.name,
        "author": str(step.entry.author.key),
        **done_times(step.entry, first),
    }


def not_tested(job: Job, made: Made) -> list[frozen.NotTested]:
    """Every kind of test that was neither made nor begun, and why as far as anybody knows."""
    fitted = system_of(job.vehicle.system)
    return [
        {"kind": name, "what": kind.title, "why": kind.forbids(fitted) or NOT_MADE}
        for name, kind in KINDS.items()
        if name not in made.kinds
    ]
