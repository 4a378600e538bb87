"""The customer's page of a record: what was found, done, left open and promised, in plain words."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from diagnostics.assess import Assessed
from diagnostics.decided import decisions_of, last_of
from diagnostics.evidence.verdict_shown import IN_ORDER, Question
from diagnostics.evidence.verdict_words import BY_NAME
from diagnostics.models import Decision
from diagnostics.physics.shown_units import ShownIn
from diagnostics.price_sheet import PAYS, Sheet, sheet_of, shop_prices
from diagnostics.record.opinion import steps_of
from diagnostics.record.priced import paid
from diagnostics.record.words import STANDING_WORDS, in_parts, several
from jobs.models import Change, Job, LoopWork
from jobs.models.changes import NO_REPAIR, NOTHING, WITH_IT
from jobs.models.changes import standing as still_told
from jobs.models.loop_works import FILLS, standing_works, works_of
from jobs.models.oil_works import amount_of
from jobs.models.said import in_a_line
from jobs.paper import frozen, frozen_priced, frozen_repair, frozen_stages
from jobs.paper import frozen_customer as told

FOUND_MOST = 3  # sentences: LOOK of the page; the rest stands in the opinion
NONE_FOUND = "No test showed or made likely what is at fault."
NOT_BY_TESTS = "Nothing was tested."
VERIFIED = "repaired_verified"
BACK_IF = ("Come back if it blows warm again", "or if you hear or smell anything new")
NO_TERMS = "None was noted for this job. What the law gives you stays as it is."
LAW_STAYS = "What the law gives you stays as it is."
MONTHS = "{what}, for {months} months from the day it is handed back, {who}."


@dataclass(frozen=True)
class Told:
    """What the page is made of. `end` is how the job was closed, None: it is open.

    `stands`, `questions`, `verified` and `billed` are those of the record; `changes` are all that
    were told, superseded ones too.
    """

    job: Job
    end: frozen_stages.Closing | None
    stands: frozen.Stands
    questions: Sequence[Question]
    steps: Sequence[Assessed]
    changes: Sequence[Change]
    verified: frozen_repair.Verification | None
    billed: list[frozen_priced.Priced]


def customer_page(of: Told) -> told.Customer:
    """All of it."""
    row = last_of(decisions_of(of.job))
    typed = of.job.prices_typed.select_related("entry__author")
    return {
        "states": states(of),
        "back": back(of.end),
        "found": found(row, of.questions, of.steps),
        "did": did(of.changes, list(works_of(of.job)), of.verified),
        "remains": remains(of, row),
        "warranty": warranty(sheet_of(of.job, typed, shop_prices())),
        "paid": paid(of.billed),
    }


def states(of: Told) -> told.Statement:
    """How it stands, in a few words: two numbers where two compare, else the ending, else so far.

    That it cools is said only of a vent that became colder by more than the instruments may be off.
    """
    end = of.end
    read = of.verified["numbers"] if of.verified else None
    if end is None:
        return {"text": of.stands["head"], "under": of.stands["detail"], "code": of.stands["stage"]}
    if read and read["beyond"] and end["kind"] == VERIFIED:
        cools = read["apart"].endswith("colder") and read["now_si"] < read["then_si"]
        first = "It cools" if cools else read["name"]
        where = f"{read['name'].lower()}, under like conditions (part 2). " if cools else ""
        text = f"{first}: {read['then']} → {read['now']}"
        return {"text": text, "under": f"{where}{end['sentence']}", "code": "cools"}
    return {"text": f"{end['text']}.", "under": end["sentence"], "code": end["kind"]}


def back(end: frozen_stages.Closing | None) -> told.Statement:
    """When to come back, as told at the closing; else when anything is wrong."""
    for answer in end["answers"] if end else ():
        if "come_back" in answer["values"]:
            said = answer["lines"][0]
            return {"text": f"Come back: {said}", "under": BACK_IF[0] + ", too", "code": "asked"}
    return {"text": BACK_IF[0], "under": BACK_IF[1], "code": ""}


def found(
    decision: Decision | None, questions: Sequence[Question], steps: Sequence[Assessed]
) -> list[told.Sentence]:
    """What is at fault, each with the test that shows it best; of a decision as it was then."""
    rows = rows_of(decision) if decision else rows_now(questions)
    listed = [one for _, one in zip(range(FOUND_MOST), sentences(rows, steps), strict=False)]
    if listed:
        return listed
    made = [one for one in steps if one.stands]
    text = f"{NONE_FOUND} {several(len(made), 'test was', 'tests were')} made."
    return [{"text": text if made else NOT_BY_TESTS, "standing": None, "steps": []}]


def rows_of(decision: Decision) -> Iterator[tuple[str, str, Any, list[int]]]:
    """What a decision rested on that is not in order: words, variable, standing, steps."""
    for row in decision.rested_on:
        if row["code"] != "ok":
            yield row["words"], row["variable"], row["standing"], row["steps"]


def rows_now(questions: Iterable[Question]) -> Iterator[tuple[str, str, Any, list[int]]]:
    """The same as the tests leave it now."""
    for question in questions:
        for part in question.parts:
            if part.standing in ("proved", "likely") and part.said != IN_ORDER:
                steps = sorted(steps_of(part))
                yield f"{part.words}: {part.said}", part.name, part.standing, steps


def sentences(
    rows: Iterable[tuple[str, str, Any, list[int]]], steps: Sequence[Assessed]
) -> Iterator[told.Sentence]:
    """Each as a sentence: what was read, then what follows from it."""
    for words, variable, standing, numbers in rows:
        one = best(variable, numbers, steps)
        read = f"{one.finding} " if one else ""
        which = f" (step {one.step.number})" if one else ""
        concluded = f"{read.rstrip()}{which} We conclude: {words}, {STANDING_WORDS[standing]}."
        yield {"text": in_parts(concluded.strip()), "standing": standing, "steps": numbers}


def best(variable: str, numbers: Sequence[int], steps: Sequence[Assessed]) -> Assessed | None:
    """Of the tests that bear on it the last that looked at that question and was not normal."""
    about = BY_NAME[variable].question if variable in BY_NAME else ""
    bear = [one for one in steps if one.step.number in numbers and one.stands and one.meaning]
    mine = sorted(bear, key=lambda one: one.step.made_at)
    odd = [one for one in mine if not (one.came_out and one.came_out.normal)]
    direct = [one for one in odd if one.kind and one.kind.about == about]
    return next(iter([*reversed(direct), *reversed(odd)]), None)


def did(
    changes: Sequence[Change],
    works: Sequence[LoopWork],
    verified: frozen_repair.Verification | None,
) -> list[str]:
    """What was changed on the car and done to its loop.

    The repair and the charge first, then what else was moved, last that it was opened and closed;
    each of these in the order in which it was done. What was corrected later was done when it was
    told first. Tests after several changes tell of all of them together.
    """
    made = [one for one in still_told(changes) if one.what != NOTHING]
    done = [one for one in standing_works(works) if one.what != "oil" or one.told.get("added")]
    told = [
        *((2 if one.what in NO_REPAIR else 0, one.entry.done_at, words_of(one)) for one in made),
        *((rank(one), one.entry.done_at, in_parts(work_words(one))) for one in done),
    ]
    listed = [words for *_, words in sorted(told, key=lambda one: one[:2])]
    if verified and verified["several"]:
        listed.append(verified["several"])
    return listed


def rank(work: LoopWork) -> int:
    """Where work on the loop stands among what was done: what was charged is asked first."""
    return 0 if set(work.told["did"]).intersection(FILLS) else 1


def work_words(work: LoopWork) -> str:
    """Work on the loop; of a recovery with the oil that came along: the line of oil has none."""
    oil = amount_of(work, "oil_out")
    with_it = f", {ShownIn().text(oil * 1e-9, 'mL')} of oil with it" if oil else ""
    return f"{work.words}{with_it}"


def words_of(change: Change) -> str:
    """A change with the number of the part, before what was changed with it."""
    if not change.serial:
        return change.words
    first, with_it, others = change.words.partition(WITH_IT)
    return f"{first}, serial number {change.serial}{with_it}{others}"


def remains(of: Told, decision: Decision | None) -> list[str]:
    """What was not seen to: what the ending does not say, what is open, what the way leaves.

    In this order, because where the page has no room the last are left to the parts behind.
    """
    end, stands = of.end, of.stands
    listed = [end["not_said"]] if end and end["not_said"] else []
    untold = [what_is_open(one) for one in of.questions if one.standing == "open"]
    if untold:
        listed.append(f"Not settled by tests: {', '.join(untold)}. Not settled is not “in order”.")
    if stands["points"]:
        listed.append(f"{several(stands['points'], 'point', 'points')} open: see part 2.")
    chosen = next((row for row in (decision.offered if decision else ()) if row["chosen"]), None)
    if chosen:
        listed += [in_parts(text) for text in chosen["leaves"] if text]
        listed += [in_parts(text) for text in chosen["unshown"]]
    if of.verified and of.changes:
        left = [one["text"] for one in of.verified["to_show"] if one["stands"] != "shown"]
        if left:
            listed.append(f"Not shown after the repair: {'; '.join(left)}.")
    return list(dict.fromkeys(listed))


def what_is_open(question: Question) -> str:
    """A question that is not settled; where only one of its parts is not, which: Clutch (belt)."""
    parts = [in_a_line(one.words) for one in question.parts if one.standing == "open"]
    one_of_more = len(parts) == 1 < len(question.parts)
    return f"{question.name} ({parts[0]})" if one_of_more else question.name


def warranty(sheet: Sheet) -> told.Warranty:
    """What was typed of it for this job."""
    terms = sheet.terms
    listed = []
    if terms.shop_months and terms.shop_pays:
        what = " and ".join(PAYS[one] for one in terms.shop_pays if one in PAYS)
        listed.append(MONTHS.format(what=what, months=terms.shop_months, who="by this shop"))
        if not terms.shop_left:
            listed.append("Not for what this repair left in the car.")
    if terms.seller_months and terms.seller_pays:
        what = " and ".join(PAYS[one] for one in terms.seller_pays if one in PAYS)
        who = "by the seller of the part, as that seller sees it"
        listed.append(MONTHS.format(what=what, months=terms.seller_months, who=who))
    return {
        "text": [*listed, LAW_STAYS] if listed else [NO_TERMS],
        "shop_months": terms.shop_months or None,
        "shop_pays": list(terms.shop_pays),
        "seller_months": terms.seller_months or None,
        "seller_pays": list(terms.seller_pays),
    }
