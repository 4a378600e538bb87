"""A case to its verdict, next steps and options, as plain data for scripts and reviewers."""

from collections.abc import Mapping, Sequence
from typing import Any

from diagnostics.evidence.case import Case, Step
from diagnostics.evidence.evaluate_options import options
from diagnostics.evidence.findings import FAILING_NOTES
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.network import QUESTIONS
from diagnostics.evidence.inference.states import EMPTIED
from diagnostics.evidence.inference.verdict import Stands
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.lasting import LASTING
from diagnostics.evidence.loop_needs import NEEDS_CLOSED, NEEDS_OPEN
from diagnostics.evidence.made_again import to_make_again
from diagnostics.evidence.next_words import reason
from diagnostics.evidence.orders import ORDERS, PRESSURE_THERE, RUN, Made
from diagnostics.evidence.plan import WORTH_IT, Asked, NextTest, Plan, minutes, plan
from diagnostics.evidence.verdict_words import (
    BY_NAME,
    alone_words,
    answer_words,
    carried_by,
    disagree_words,
    not_alone_words,
    weaker_words,
)
from diagnostics.evidence.weigh import QUESTION, Verdict, questions_touched, weigh

# What was found by which it must not be run; that nobody could prove it dead is no finding.
MUST_NOT_RUN = (*RUN, "gas_first", "dead_first")
NO_FINDING = ("not_proven",)


def evaluate(case: Case, kinds: Mapping[str, Kind], tables: Mapping[str, Looks]) -> dict[str, Any]:
    """Everything that is concluded of a case."""
    tests = [step.test for step in case.steps if step.weighs]
    verdict = weigh(case.system, tests, case.changes, tables)
    asked = to_make_again(asked_of(case), verdict.disagree)
    chosen = plan(verdict.weighed, asked, kinds, tables)
    return {
        "name": case.name,
        "steps": steps_made(case),
        "left_out_as_too_old": sorted(verdict.too_old),
        "questions": questions(verdict),
        "standings": [standing(one, verdict, kinds) for one in verdict.stands],
        "joint": [not_alone_words(one) for one in verdict.joint],
        "disagree": [
            {"what": one.what, "steps": list(one.steps), "again": one.again,
             "sentence": disagree_words(one, kinds)}
            for one in verdict.disagree
        ],
        "something_else": list(verdict.something_else),
        "next": {
            "decide": chosen.decide and not not_sure(chosen, asked, kinds),
            "look_first": not_sure(chosen, asked, kinds),
            "best": offer(chosen.best, kinds) if chosen.best else None,
            "others": [offer(one, kinds, instead=True) for one in chosen.others],
            "beside": [offer(one, kinds, instead=True) for one in chosen.beside],
            "left_out": list(chosen.left_out),
            "unproved": [
                {"variable": one.variable, "words": one.words, "cures": list(one.cures)}
                for one in chosen.unproved
            ],
        },
        "options": options(case, verdict, asked, kinds, tables),
    }  # fmt: skip


def not_sure(chosen: Plan, asked: Asked, kinds: Mapping[str, Kind]) -> list[str]:
    """What has to be noted of the system before tests that are worth their minutes."""
    worth_it = (
        kinds[one.kind]
        for one in chosen.worths
        if one.saves >= WORTH_IT * minutes(kinds[one.kind], asked.setups)
        and one.kind not in asked.unable
    )
    return list(dict.fromkeys(text for kind in worth_it if (text := kind.not_sure(asked.system))))


def asked_of(case: Case) -> Asked:
    """What the next test of a case is chosen from."""
    last = len(case.changes)
    made = [
        Made(
            step.kind.name, step.outcome, touched(case, step.state, step.kind),
            *opened_and_shut(case, step.kind, step.readings),
        )
        for step in case.steps
        if step.outcome
    ]  # fmt: skip
    now = [step for step in case.steps if step.state == last]
    done = {
        step.kind.name
        for step in case.steps
        if step.outcome and not touched(case, step.state, step.kind) and not again(case, step)
    }
    opened = {one.kind for one in made} & {"recovered_share", "debris", "oil_condition"}
    taken_out = is_taken_out(case)
    shut = NEEDS_CLOSED if case.is_open else frozenset()
    shut |= frozenset() if opened or taken_out else NEEDS_OPEN
    return Asked(
        case.system,
        tuple(made),
        frozenset(done),
        frozenset(one for step in now if step.outcome for one in step.kind.setup),
        frozenset(step.kind.name for step in now if step.not_done),
        shut,
        taken_out or any(is_shut(code, made, case) for code in MUST_NOT_RUN),
    )


def again(case: Case, step: Step) -> bool:
    """Whether a test made while it did not fail is to be made again, because it fails now."""
    away = step.failing in FAILING_NOTES and step.kind.name not in LASTING
    return case.failing == "yes" and away


def touched(case: Case, state: int, kind: Kind) -> bool:
    """Whether the car was changed after that state in what a kind of test is about."""
    later: Sequence[Any] = case.changes[state:]
    return any(kind.about in questions_touched(change) for change in later)


def opened_and_shut(case: Case, kind: Kind, readings: Any) -> tuple[tuple[str, ...], ...]:
    """The orders that a step's readings open and shut."""
    bears = kind.bears(readings, case.system)
    return bears.opens, bears.shuts


def is_taken_out(case: Case) -> bool:
    """Whether the refrigerant was let out, and neither a charge nor pressure was noted since."""
    of_amount = [(at, one["amount"]) for at, one in enumerate(case.changes, 1) if "amount" in one]
    if not of_amount or of_amount[-1][1] != EMPTIED:
        return False
    return not any(
        step.kind.name == "static_pressure" and step.outcome in PRESSURE_THERE
        for step in case.steps
        if step.state >= of_amount[-1][0]
    )


def is_shut(code: str, made: Sequence[Made], case: Case) -> bool:
    """Whether something found says that the car must not be run."""
    order = ORDERS[code]
    found = (one for one in made if one.outcome not in NO_FINDING or order.is_opened_by(one))
    return order.is_shut(found, case.system)


def steps_made(case: Case) -> list[dict[str, Any]]:
    """Each step with what it means by itself."""
    return [
        {
            "number": step.number,
            "kind": step.kind.name,
            "outcome": step.outcome,
            "state": step.state,
            "sentence": step.meaning.outcome.sentence if step.meaning else "",
            "not_done": step.not_done,
        }
        for step in case.steps
    ]


def questions(verdict: Verdict) -> list[dict[str, Any]]:
    """Each of the six questions with the standing of each of its variables."""
    return [
        {
            "question": code,
            "words": words,
            "not_ok": {
                one.variable: one.standing
                for one in verdict.stands
                if one.code == "not_ok" and QUESTION[one.variable] == code
            },
        }
        for code, words in QUESTIONS.items()
    ]


def standing(one: Stands, verdict: Verdict, kinds: Mapping[str, Kind]) -> dict[str, Any]:
    """One answer's standing with what carries it."""
    told = verdict.weighed.told
    return {
        "variable": one.variable,
        "code": one.code,
        "words": answer_words(one.variable, one.code),
        "standing": one.standing,
        "share": round(one.share, 6),
        "weaker": one.weaker,
        "weaker_words": weaker_words(one),
        "rests_on": one.alone,
        "rests_on_words": alone_words(one, kinds),
        "carried": [
            {
                "kind": each.kind,
                "steps": list(each.steps),
                "odds": float(f"{each.odds:.4g}"),
                "sentence": carried_by(each, told, kinds),
            }
            for each in one.carried
        ],
    }


def offer(one: NextTest, kinds: Mapping[str, Kind], *, instead: bool = False) -> dict[str, Any]:
    """A test that may be made next, or instead of that."""
    return {
        "kind": one.kind,
        "title": kinds[one.kind].title,
        "minutes": round(one.minutes, 1),
        "saves": round(one.saves, 2),
        "about": BY_NAME[one.variable].words,
        "proves": one.proves,
        "leads_to": one.leads_to,
        "reason": reason(one, kinds, instead=instead),
    }
