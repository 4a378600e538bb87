"""A job's rows as its balance needs them, and the balance in words for a page."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from diagnostics.physics.shown_units import ShownIn
from jobs.balance import Balance, Before, Flow, balance_of, share_of
from jobs.models.amounts import CAR, CYLINDER, REFRIGERANT, LoopWork, Move
from jobs.models.jobs import Job
from jobs.models.loop_works import standing_works
from jobs.models.oil_works import OilBalance, oil_balance, standing_moves


def balance_of_job(job: Job) -> Balance:
    """The balance of a job that comes with its car's system, in at most four queries."""
    works = list(job.loop_works.select_related("entry"))
    before = before_of(job.follows) if job.follows_id else None
    return balanced(job, standing_moves(job), works, before)


def balanced(
    job: Job, moves: Iterable[Move], works: Iterable[LoopWork], before: Before | None = None
) -> Balance:
    """The same of rows that are here: `moves` that stand, all `works` with their entries."""
    system = job.vehicle.system
    standing = standing_works(works)
    shares = {str(one.entry_id): share_of_work(one, system.refrigerant) for one in standing}
    flows = [*flows_of(moves), *nothing_came(standing)]
    return balance_of(flows, system.label_charge_mg, shares, before, pumped_at(standing))


def nothing_came(works: Iterable[LoopWork]) -> list[Flow]:
    """Recoveries that brought nothing: told, and no move."""
    told = [one for one in works if one.told.get("out_mg") == 0]
    return [Flow(one.entry.done_at, 0, CAR, CYLINDER, work=str(one.entry_id)) for one in told]


def pumped_at(works: Iterable[LoopWork]) -> list[datetime]:
    """When the loop was pumped down, how deep or not."""
    pumped = ("evacuated", "pumped", "shallow")
    return [one.entry.done_at for one in works if {*pumped} & {*one.told.get("did", ())}]


def before_of(job: Job | None) -> Before | None:
    """What the visit before put into the emptied car; None: that is not known."""
    if job is None:
        return None
    works = standing_works(job.loop_works.select_related("entry"))
    flows = [*flows_of(standing_moves(job)), *nothing_came(works)]
    balance = balance_of(flows, None, {}, evacuated=pumped_at(works))
    last = balance.cycles[-1] if balance.cycles else None
    if last is None or balance.charged is None or last.charged_at is None:
        return None
    return Before(balance.charged, last.charged_at)


def flows_of(moves: Iterable[Move]) -> list[Flow]:
    """Moves of refrigerant as the balance takes them."""
    return [
        Flow(
            one.happened_at,
            one.amount,
            one.from_place,
            one.to_place,
            one.from_cylinder.kind if one.from_cylinder else "",
            str(one.entry_id),
        )
        for one in moves
        if one.substance == REFRIGERANT
    ]


def share_of_work(work: LoopWork, refrigerant: str) -> float | None:
    """The least share that the machine of a recovery takes out; None: not known."""
    read = work.told.get("temperature")
    warm = read["si"] if isinstance(read, dict) and not read.get("unused") else None
    gas = "" if work.told.get("gas") == "unknown" else refrigerant
    return share_of(str(work.told.get("machine", "")), warm, gas)


def oil_of_job(job: Job) -> OilBalance:
    """The balance of its oil; the job comes with its car's system."""
    works = standing_works(job.loop_works.select_related("entry"))
    return oil_balance(works, job.vehicle.system.label_oil_ul)


def oil_told(oil: OilBalance, units: ShownIn) -> dict[str, Any]:
    """The oil as a small table and sentences; {} where nothing was told."""
    if not (oil.out or oil.into or oil.aside):
        return {}

    def volume(amount: int) -> str:
        return units.text(amount * 1e-9, "mL")

    groups = [
        (words, [(one.words, volume(one.amount), one.measured) for one in rows])
        for words, rows in (
            ("Out of the car", oil.out),
            ("Into the car", oil.into),
            ("Never in the car, or no oil", oil.aside),
        )
        if rows
    ]
    return {"groups": groups, "says": sentences_of(oil, units)}


def sentences_of(oil: OilBalance, units: ShownIn) -> list[str]:
    """What it comes to, and what nobody knows."""
    says = []
    amount = units.text(abs(oil.gained) * 1e-9, "mL")
    if oil.out or oil.into:
        more = "more" if oil.gained > 0 else "less"
        told = f"{amount} {more} went in than" if oil.gained else "As much went in as"
        says.append(f"{told} came out.")
    if oil.by_table:
        by_table = units.text(oil.by_table * 1e-9, "mL")
        says.append(f"{by_table} of what came out stands in the maker’s table; nobody measured it.")
    says.append("How much was in it before is not known, so how much is in it now is not either.")
    if oil.label and (oil.out or oil.into):
        held = units.text(oil.label * 1e-9, "mL")
        now = units.text((oil.label + oil.gained) * 1e-9, "mL")
        says.append(f"If it held its {held} when it came, it holds {now} now.")
    return says
