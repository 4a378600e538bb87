"""The parts of a record that tell how the job went: its stages, its end, what an owner let go."""

from collections.abc import Iterable, Sequence
from typing import Any

from diagnostics.assess import override_touched
from diagnostics.evidence.orders import ORDERS
from diagnostics.models import Override, Waiver
from diagnostics.record.words import times
from diagnostics.waived import Waived
from jobs.models import CarState, Job, StageMove
from jobs.models.closing import ENDINGS, QUESTIONS, in_words
from jobs.paper import frozen_stages
from jobs.paper.frozen_shared import Value

NO_SUCH_ENDING = "This version of the program does not know this ending."


def closing(job: Job, moves: Sequence[StageMove], *, unseen: bool) -> frozen_stages.Closing | None:
    """How the job was closed; None: it is open, or nothing tells.

    `unseen`: nobody looked inside the loop since the repair.
    """
    move = moves[-1] if moves else None
    if job.stage != "closed" or move is None or move.to != "closed":
        return None
    ending = ENDINGS.get(move.closing_kind)
    answers = move.answers
    return {
        "kind": move.closing_kind,
        "text": ending.words if ending else move.closing_kind,
        "sentence": ending.said(unseen=unseen) if ending else NO_SUCH_ENDING,
        "not_said": ending.not_said if ending else "",
        "answers": [
            {"label": name, "lines": [in_words(code, answers)], "values": told(code, answers[code])}
            for code, (name, _) in QUESTIONS.items()
            if answers.get(code) not in (None, "", [])
        ],
        "odometer": answers.get("odometer_out"),
        "odometer_unit": answers.get("odometer_out_unit") or None,
        "by": move.entry.author.name,
        "author": str(move.entry.author.key),
        "entry": str(move.entry.key),
        **times(move.entry),
    }


def told(code: str, answer: Any) -> dict[str, Value]:
    """An answer as a program reads it; of a temperature what was typed, and SI."""
    if isinstance(answer, dict):
        millikelvin = round(answer["si"] * 1000)
        return {code: answer["typed"], f"{code}_unit": answer["unit"], f"{code}_mk": millikelvin}
    return {code: answer}


def stages(moves: Iterable[StageMove]) -> list[frozen_stages.Moved]:
    """The way of the job, oldest first."""
    return [
        {
            "stage": move.to,
            "came_from": move.came_from,
            "back": move.went_back,
            "closing_kind": move.closing_kind,
            "text": move.to_words,
            "why": move.why_words,
            "why_code": move.why,
            "by": move.entry.author.name,
            "author": str(move.entry.author.key),
            "entry": str(move.entry.key),
            **times(move.entry),
        }
        for move in moves
    ]


def let(
    overrides: Iterable[Override],
    waivers: Iterable[Waiver],
    waived: Iterable[Waived],
    states: Sequence[CarState],
) -> list[frozen_stages.Let]:
    """What an owner let go, oldest first, what bears on nothing any more included."""
    bearing = {one.waiver.pk for one in waived}
    return [
        *(overridden(one, states) for one in overrides),
        *(waived_data(one, counts=one.pk in bearing) for one in waivers),
    ]


def overridden(one: Override, states: Sequence[CarState]) -> frozen_stages.Let:
    """An order that the job may go against."""
    order = ORDERS.get(one.order)
    over = one.ended_at and one.job.stage != "closed"  # a paper of the closed job has it still
    return {
        "what": "overridden",
        "code": one.order,
        "text": order.first if order else one.order,
        "reason": one.reason,
        "said": one.said,
        "counts": not over and not override_touched(one, states),
        "by": one.entry.author.name,
        "author": str(one.entry.author.key),
        "entry": str(one.entry.key),
        **times(one.entry),
    }


def waived_data(one: Waiver, *, counts: bool) -> frozen_stages.Let:
    """A point that was waived."""
    return {
        "what": "waived",
        "code": one.code,
        "text": one.point,
        "reason": one.reason,
        "said": one.said,
        "counts": counts,
        "by": one.entry.author.name,
        "author": str(one.entry.author.key),
        "entry": str(one.entry.key),
        **times(one.entry),
    }
