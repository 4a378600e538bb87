"""The parts of a record about what was fitted and what shows that it cools now."""

from collections.abc import Iterable, Sequence
from typing import Any

from diagnostics.evidence.before_after import BeforeAfter
from diagnostics.evidence.twins import Condition, Row, Twin
from diagnostics.record.words import in_parts, times
from diagnostics.verification import Verification, conditions_of, looks_of, verified_by
from diagnostics.weighing import Around
from jobs.models import Change, Job
from jobs.models.loop_parts import loop_table, told_of
from jobs.models.taken_out import taken_out_of
from jobs.paper import frozen_repair as frozen


def loop_parts(job: Job, changes: Iterable[Change]) -> list[frozen.LoopPart]:
    """A line for each part of the loop, nothing where nobody told of any."""
    rows = loop_table(job.vehicle.system, changes, told_of(job))
    if not any(row.code for row in rows):
        return []
    return [
        {
            "part": row.part,
            "branch": row.branch,
            "name": row.name,
            "text": in_parts(row.text),
            "code": row.code,
            "change": str(row.change.key) if row.change else None,
        }
        for row in rows
    ]


def taken_out(job: Job) -> list[frozen.TakenOut]:
    """Where the old parts went, as last told of each."""
    return [
        {
            "change": str(key),
            "code": one.went,
            "went": one.words,
            "core_units": one.core_minor,
            "currency": one.currency,
            "by": one.entry.author.name,
            "author": str(one.entry.author.key),
            **times(one.entry),
        }
        for key, one in taken_out_of(job).items()
    ]


def verification(job: Job, around: Around, shop: Any) -> frozen.Verification | None:
    """Before and after; None: the car was not changed."""
    rows, told = conditions_of(job), looks_of(job)
    found = verified_by(around, rows, told, shop, with_verdict=False)
    return verification_data(found) if found.changed else None


def verification_data(found: Verification) -> frozen.Verification:
    """All of it."""
    return {
        "numbers": numbers(found.before_after) if found.before_after else None,
        "why": in_parts(found.no_numbers),
        "several": found.several,
        "cold": in_parts(". ".join([found.cold.words, *found.cold.reasons])) if found.cold else "",
        "twins": [twin(one) for one in found.twins],
        "to_show": [
            {
                "text": in_parts(one.item.words),
                "stands": one.stands,
                "words": one.words,
                "because": in_parts(one.because),
                "step": one.step,
            }
            for one in found.shown
        ],
    }


def numbers(told: BeforeAfter) -> frozen.Numbers:
    """The two numbers of page 1."""
    return {
        "name": told.words,
        "then": in_parts(told.then),
        "now": in_parts(told.now),
        "apart": in_parts(told.apart),
        "beyond": told.beyond,
        "then_si": told.then_si,
        "now_si": told.now_si,
        "steps": list(told.steps),
        "states": list(told.states),
        "conditions": conditions(told.conditions),
    }


def twin(one: Twin) -> frozen.Twin:
    """One test both times."""
    return {
        "kind": one.kind,
        "name": one.name,
        "then_step": one.then.step,
        "then_state": one.then.state,
        "now_step": one.now.step if one.now else None,
        "now_state": one.now.state if one.now else None,
        "rows": [row(each) for each in one.rows],
        "conditions": conditions(one.conditions),
        "compared": one.compared,
        "why": in_parts(one.why_not),
    }


def row(one: Row) -> frozen.TwinRow:
    """One reading both times."""
    return {
        "field": one.field,
        "name": one.words,
        "then": in_parts(one.then),
        "now": in_parts(one.now),
        "apart": in_parts(one.apart),
        "then_si": one.then_si,
        "now_si": one.now_si,
    }


def conditions(told: Sequence[Condition]) -> list[frozen.Condition]:
    """The conditions both times."""
    return [
        {
            "field": one.field,
            "name": one.words,
            "then": in_parts(one.then),
            "now": in_parts(one.now),
            "why": in_parts(one.why),
        }
        for one in told
    ]
