"""What a campaign showed: shares with their bounds, means, and what went wrong most often."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from diagnostics.evidence.simulation.bounds import upper_bound
from diagnostics.evidence.simulation.job import SORTS, Ended, sort_of

# Wrong "proved" at most, as a share of all such standings at the end of jobs.
TARGETS = {"home": 1 / 200, "off": 1 / 50, "outside": 1 / 20}
WORST = 12
WORDS = {"not_ok": "not in order", "ok": "in order", "single": "one answer"}


@dataclass(frozen=True)
class Share:
    """`wrong` of `of`, its 95 % upper bound, and what the bound may be (None: nothing is asked).

    Standings of one job hang together, so the bound is a little too low; that of whole jobs is not.
    """

    what: str
    wrong: int
    of: int
    at_most: float | None = None

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
        wrong = [one for job in self.jobs for one in job.wrong]
        false = Counter(sort_of(one.code) for one in wrong if one.standing == "proved")
        there: Counter[str] = sum((job.proved for job in self.jobs), Counter())
        target = TARGETS[self.world]
        ruled = sum(one.standing == "ruled_out" for one in wrong)
        jobs = sum(any(one.standing == "proved" for one in job.wrong) for job in self.jobs)
        return [
            *(Share(f"proved, {WORDS[kind]}", false[kind], there[kind], target) for kind in SORTS),
            Share("ruled out", ruled, sum(job.ruled_out for job in self.jobs)),
            Share("jobs with a wrong proof", jobs, len(self.jobs)),
        ]  # fmt: skip

    @property
    def disagreements(self) -> list[Share]:
        """How many planted slips stand in a disagreement, how often one is told without a slip."""
        clean = [job for job in self.jobs if not job.slips]
        return [
            Share("slips found", sum(j.slips_found for j in self.jobs), sum(j.slips for j in self.jobs)),
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
            "at first": round(sum(first for _, before in told) / len(told), 4),
            "at last": round(sum(last for _, last in told) / len(told), 4),
            "rose": round(sum(last > first for first, last in told) / len(told), 4),
        }

    @property
    def worst(self) -> list[dict[str, Any]]:
        """What was wrongly proved or ruled out most often, and by which tests mostly."""
        counted = Counter(
            (one.standing, one.variable, one.code, one.true, one.carried[:1])
            for job in self.jobs
            for one in job.wrong
        )
        return [
            {"standing": standing, "variable": variable, "code": code, "true": true,
             "by": "".join(by), "times": times}
            for (standing, variable, code, true, by), times in counted.most_common(WORST)
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
        }
