"""A record's data from a job's rows, as they stand: what is frozen at issue.

Nothing here decides anything; a figure that is shown stands as text beside its machine value.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from diagnostics.assess import overrides_of
from diagnostics.job_now import all_points
from diagnostics.loop_state import LoopState
from diagnostics.physics.shown_units import ShownIn
from diagnostics.record import consents as agreed
from diagnostics.record import job as parts
from diagnostics.record import stages
from diagnostics.record.amounts import amounts
from diagnostics.record.customer import Told, customer_page
from diagnostics.record.decisions import decisions
from diagnostics.record.issues import entries_of
from diagnostics.record.opinion import opinion, questions_of
from diagnostics.record.priced import estimates, invoices, old_parts_chosen
from diagnostics.record.qualifications import cards_of, in_one
from diagnostics.record.repaired import loop_parts, taken_out, verification
from diagnostics.record.steps import NO_REASON, Made, made_in, not_tested
from diagnostics.record.words import DECIDED, STANDS, iso, kind_words, numbers, several
from diagnostics.shop_told import shop_told
from diagnostics.since_changed import inside_unseen
from diagnostics.still_around import still_around
from diagnostics.waived import Pointed, parted, waivers_of
from diagnostics.weighing import around_with
from jobs.models import Change, Consent, Entry, Job, Person, Shop
from jobs.models.changes import changes_of, standing, times_changed
from jobs.models.marks import marks_in_words
from jobs.models.points import of_conflicts, of_discards, open_points
from jobs.models.shop import changes_until
from jobs.models.stages import moves_of
from jobs.models.wordings import in_shop_time
from jobs.paper import frozen
from jobs.paper.frozen_people import Human
from jobs.paper.parts import differing

NOT_COMPARED = "The issue before cannot be read as it was frozen: not compared with it."
FIRST = "Issue 1: nothing came before it."


@dataclass(frozen=True)
class Heading:
    """What an issue is called, and by whom and when it is frozen.

    `changed` is in the issuer's words, empty for the first issue; `address` opens the job.
    """

    issue: int
    author: Person
    moment: datetime
    changed: str = ""
    address: str = ""


def record_data(job: Job, heading: Heading, before: frozen.RecordData | None) -> frozen.RecordData:
    """The data of an issue; `before` is that of the issue it supersedes.

    `job` comes with customer, car and system.
    """
    shop = Shop.objects.first() or Shop(name="", currency="")
    entries = list(entries_of(job))
    around = ("entry__author", "superseded_by", "withdrawn_by", "estimate")
    consents = list(job.consents.select_related(*around))
    changes = list(changes_of(job))
    states = list(job.car_states.select_related("opened_by"))
    made = made_in(job, states, standing(changes))
    names = named(entries, made, consents)
    open_here = [
        *open_points(job, consents, changes),
        *of_conflicts(entries, marks_in_words(entries, on_paper=True)),
        *of_discards(entries),
    ]
    listed = all_points(open_here, made.assessed, states, job) + still_around(job, made.loop)
    still, waived = parted(listed, waivers_of(job))
    points = [*map(point_of, still), *(point_of(one.point, one.waiver.said) for one in waived)]
    moves = moves_of(job)
    around_it = around_with(job, made.assessed, states, standing(changes), made.loop)
    questions = questions_of(around_it)
    stood = stands(job, made, (len(still), len(waived)), times_changed(changes))
    ended = stages.closing(job, moves, unseen=inside_unseen(states, made.assessed))
    verified = verification(job, around_it, shop_told())
    billed = invoices(job)
    data: frozen.RecordData = {
        "schema": frozen.SCHEMA,
        "record": issue_of(job, shop, heading),
        "shop": shop_of(shop, heading.moment),
        "facts": parts.facts(job),
        "stands": stood,
        "customer": customer_page(
            Told(job, ended, stood, questions, made.assessed, changes, verified, billed)
        ),
        "closing": ended,
        "stages": stages.stages(moves),
        "let": stages.let(overrides_of(job), waivers_of(job), waived, states),
        "decisions": decisions(job),
        "said": parts.said(job),
        "cautions": parts.cautions(job),
        "system": parts.system(job.vehicle, ShownIn(shop.units)),
        "states": parts.states(states, changes),
        "steps": made.steps,
        "opinion": opinion(questions),
        "not_done": made.not_done,
        "not_tested": not_tested(job, made),
        "photos": parts.photos(job, names, made.numbers, changes),
        "verification": verified,
        "loop_parts": loop_parts(job, standing(changes)),
        "old_parts": taken_out(job),
        "old_parts_chosen": old_parts_chosen(job),
        "estimates": estimates(job),
        "invoices": billed,
        "amounts": amounts(job, ShownIn(shop.units)),
        "open_points": points,
        "consents": agreed.consents(consents, agreed.gone(job, entries)),
        "people": people(job, entries, made, heading),
        "equipment": made.equipment,
        "corrections": parts.corrections(
            entries, names, {**made.reasons, **reasons_of(changes)}, made.alone
        ),
    }
    if heading.issue > 1 and before is None:
        data["record"]["changed"] = f"{heading.changed} {NOT_COMPARED}".strip()
    if before:
        data["record"]["changed"] = " ".join([heading.changed, *differences(before, data)]).strip()
    return data


def shop_of(shop: Shop, moment: datetime) -> frozen.Shop:
    """Who issues it, in the words its law asks for, and by which entries it was so set."""
    return {
        "name": shop.name,
        "lines": shop.lines,
        "law": shop.law,
        "settings": [{"part": part, "entry": key} for part, key in changes_until(moment).items()],
    }


def issue_of(job: Job, shop: Shop, heading: Heading) -> frozen.Issue:
    """Which paper this is."""
    author = heading.author
    return {
        "number": job.number,
        "issue": heading.issue,
        "job": str(job.key),
        "plate": job.vehicle.plate,
        "at": iso(heading.moment),
        "when": in_shop_time(heading.moment),
        "issued_by": f"{author.name}, {author.role_words.lower()}",
        "author": str(author.key),
        "role": author.role,
        "changed": FIRST,
        "address": heading.address,
        "zone": str(timezone.get_current_timezone()),
        "paper": "us-letter" if shop.paper == "us-letter" else "a4",
    }


def stands(job: Job, made: Made, points: tuple[int, int], changed: int) -> frozen.Stands:
    """How the job stands, counted from what was entered; `changed`: how often the car was.

    `points` are those that are open, and how many more were waived.
    """
    open_now, waived = points
    done, not_done = made.stand
    counted = [several(done, "test", "tests") + " made"]
    if not_done:
        counted.append(f"{not_done} could not be done")
    counted.append(several(open_now, "point", "points") + " open")
    if waived:
        counted.append(f"{waived} waived")
    car = several(changed, "change to the car is", "changes to the car are").capitalize()
    return {
        "head": head(job),
        "detail": f"{', '.join(counted).capitalize()}. {car} entered in this job.",
        "stage": job.stage,
        "tests": done,
        "not_done": not_done,
        "points": open_now,
        "changes": changed,
        "loop": loop_of(made.loop),
    }


def head(job: Job) -> str:
    """How the job stands, in one statement."""
    if job.closing_words:
        return f"{job.closing_words}."
    decided = job.stage == "deciding" and job.decisions.filter(superseded_by=None).exists()
    return DECIDED if decided else STANDS[job.stage]


def loop_of(seen: LoopState) -> frozen.Loop:
    """What was last seen of the loop."""
    return {
        "text": f"{seen.words}.",
        "run": seen.run,
        "not_told": list(seen.not_told),
        "code": seen.code,
        "seen_at": iso(seen.seen_at) if seen.seen_at else None,
    }


def reasons_of(changes: Iterable[Change]) -> dict[object, str]:
    """Why a change took another's place, by its entry's key."""
    return {one.key: one.corrected_why or NO_REASON for one in changes if one.entry.corrects}


def point_of(point: Pointed, waived: str = "") -> frozen.Point:
    """An open point; of a waived one by whom, when and why."""
    number = getattr(point, "number", None)
    return {"text": point.sentence, "code": point.code, "step": number, "waived": waived}


def named(entries: list[Entry], made: Made, consents: list[Consent]) -> dict[object, str]:
    """What each entry is called on the paper, by key: by its number, or by its kind and time."""
    agreed = {one.entry.key: one.number for one in consents if one.entry.kind == "consent"}
    return {
        **{
            entry.key: f"{kind_words(entry.kind)} of {in_shop_time(entry.happened_at)}"
            for entry in entries
        },
        **{key: f"step {number}" for key, number in made.numbers.items()},
        **{key: f"consent no. {number}" for key, number in agreed.items()},
    }


def people(job: Job, entries: list[Entry], made: Made, heading: Heading) -> list[Human]:
    """Who did what: everybody who entered something, and who issues it."""
    did: dict[str, list[str]] = {}
    steps: dict[str, list[int]] = {}
    everybody = (heading.author, *authors(entries))
    keys = {person.name: str(person.key) for person in everybody}
    cards = cards_of(everybody, job.opened_at, heading.moment)
    for entry in entries:
        done = did.setdefault(entry.author.name, [])
        name = kind_words(entry.kind)
        if entry.key in made.numbers:
            steps.setdefault(entry.author.name, []).append(made.numbers[entry.key])
        elif entry.kind != "issue" and name not in done:
            done.append(name)
        elif entry.kind == "issue" and entry.result:  # the one being frozen has no result yet
            done.append(f"issue {entry.result['issue']}")
    did.setdefault(heading.author.name, []).append(f"issue {heading.issue}")
    for name, made_by in steps.items():
        did[name].insert(0, f"{'step' if len(made_by) == 1 else 'steps'} {numbers(made_by)}")
    return [
        {
            "name": name,
            "author": keys[name],
            "did": ", ".join(done),
            "steps": sorted(steps.get(name, [])),
            "qualification": in_one(cards.get(keys[name], ())),
            "qualifications": cards.get(keys[name], []),
        }
        for name, done in did.items()
    ]


def authors(entries: list[Entry]) -> list[Person]:
    """Who entered something, once for each entry."""
    return [entry.author for entry in entries]


def differences(before: frozen.RecordData, after: frozen.RecordData) -> list[str]:
    """Which parts of the paper differ from the issue before, in one sentence; none if none does."""
    changed = differing(before, after)
    return [f"Other than in the issue before: {', '.join(changed)}."] if changed else []
