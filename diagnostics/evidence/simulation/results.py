"""What a campaign showed: shares with their bounds, means, and what went wrong most often."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from operator import attrgetter
from typing import Any

from diagnostics.evidence.simulation.bounds import upper_bound
from diagnostics.evidence.simulation.job import SORTS, Ended, Stood, sort_of

# Wrong "proved" at most, as a share of all such standings at the end of jobs.
TARGETS = {"home": 1 / 200, "off": 1 / 50, "outside": 1 / 20}
WORST = 12
WORDS = {"not_ok": "not in order", "ok": "in order", "single": "one answer"}


@dataclass(frozen=True)
class Share:
    """`wrong` of `of`, its 95 % upper bound, and what the bound may be (None: nothing is asked).

    `doubted` is how many of them were wrong by the program's own shares: at home as many as are,
    with far less chance in it. Standings of one job hang together, so the bound is a little too
    low; that of whole jobs is not.
    """

    what: str
    wrong: int
    of: int
    at_most: float | None = None
    doubted: float | None = None

    @property
    def share(self) -> float:
        """The share that was counted; 0 of none."""
        return self.wrong / self.of if self.of else 0.0

    @property
    def bound(self) -> float:
        """The upper bound."""
        return upper_bound(self.wrong, self.of)

    @property
    def kept(self) -> bool | None:
        """Whether the bound is kept; None: none is asked."""
        return None if self.at_most is None else self.bound < self.at_most

    def as_json(self) -> dict[str, Any]:
        """The share as data."""
        return asdict(self) | {
            "share": round(self.share, 6), "bound": round(self.bound, 6), "kept": self.kept,
        }  # fmt: skip


@dataclass(frozen=True)
class Result:
    """One campaign: a world, a policy, what was counted."""

    world: str
    policy: str
    jobs: Sequence[Ended]

    @property
    def proofs(self) -> list[Share]:
        """Wrong standings at the end of the jobs."""
        stood = [one for job in self.jobs for one in job.stood]
        proved = [one for one in stood if one.standing == "proved"]
        by_sort = {sort: [one for one in proved if sort_of(one.code) == sort] for sort in SORTS}
        target = TARGETS[self.world]
        jobs = sum(
            any(one.wrong and one.standing == "proved" for one in job.stood) for job in self.jobs
        )
        return [
            *(counted(f"proved, {WORDS[sort]}", by_sort[sort], target) for sort in SORTS),
            counted("ruled out", [one for one in stood if one.standing == "ruled_out"]),
            Share("jobs with a wrong proof", jobs, len(self.jobs)),
        ]

    @property
    def disagreements(self) -> list[Share]:
        """How many planted slips stand in a disagreement, how often one is told without a slip."""
        clean = [job for job in self.jobs if not job.slips]
        found, slips = (sum(map(attrgetter(name), self.jobs)) for name in ("slips_found", "slips"))
        return [
            Share("slips found", found, slips),
            Share("jobs without a slip that tell of one", sum(j.alarm for j in clean), len(clean)),
        ]  # fmt: skip

    @property
    def means(self) -> dict[str, float]:
        """By job: tests, minutes, cost above the least, all of it, faults and those missed."""
        count = len(self.jobs)
        whole = {
            "tests": sum(job.tests for job in self.jobs),
            "bay minutes": sum(job.minutes for job in self.jobs),
            "decision cost": sum(job.cost for job in self.jobs),
            "of it needless": sum(job.cost - job.least for job in self.jobs),
            "minutes and needless": sum(job.minutes + job.cost - job.least for job in self.jobs),
            "faults": sum(job.faults for job in self.jobs),
            "faults missed": sum(job.missed for job in self.jobs),
        }
        return {name: round(value / count, 3) for name, value in whole.items()}

    @property
    def outside(self) -> dict[str, float]:
        """Of cars with a cause outside the list: its share at first and at last, how often it rose.

        Empty where there are none.
        """
        told = [job.outside for job in self.jobs if job.outside]
        if not told:
            return {}
        return {
            "jobs": len(told),
            "at first": round(sum(first for first, _ in told) / len(told), 4),
            "at last": round(sum(last for _, last in told) / len(told), 4),
            "rose": round(sum(last > first for first, last in told) / len(told), 4),
        }

    @property
    def worst(self) -> list[dict[str, Any]]:
        """What was wrongly proved or ruled out most often, and by which tests mostly."""
        wrong = [one for job in self.jobs for one in job.stood if one.wrong]
        times = Counter((o.standing, o.variable, o.code, o.true, o.carried[:1]) for o in wrong)
        return [
            {"standing": standing, "variable": variable, "code": code, "true": true,
             "by": "".join(by), "times": count}
            for (standing, variable, code, true, by), count in times.most_common(WORST)
        ]  # fmt: skip

    @property
    def doubtful(self) -> list[dict[str, Any]]:
        """The proofs that add most to those that are wrong by the program's own shares.

        By answer and the test that carries it most: how often, and the mean share against it.
        """
        doubts: dict[tuple[str, str, str], list[float]] = {}
        for job in self.jobs:
            for one in job.stood:
                if one.standing == "proved":
                    by = "".join(one.carried[:1])
                    doubts.setdefault((one.variable, one.code, by), []).append(one.doubt)
        most = sorted(doubts.items(), key=lambda item: -sum(item[1]))[:WORST]
        return [
            {"variable": variable, "code": code, "by": by, "times": len(many),
             "doubt": round(sum(many) / len(many), 5)}
            for (variable, code, by), many in most
        ]  # fmt: skip

    def as_json(self) -> dict[str, Any]:
        """Everything as data."""
        return {
            "world": self.world,
            "policy": self.policy,
            "jobs": len(self.jobs),
            "proofs": [one.as_json() for one in self.proofs],
            "disagreements": [one.as_json() for one in self.disagreements],
            "means": self.means,
            "outside": self.outside,
            "worst": self.worst,
            "doubtful": self.doubtful,
        }


def counted(what: str, stood: Sequence[Stood], at_most: float | None = None) -> Share:
    """How many standings are wrong, and how many would be by the program's own shares."""
    doubted = sum(one.doubt for one in stood)
    return Share(what, sum(one.wrong for one in stood), len(stood), at_most, round(doubted, 3))
