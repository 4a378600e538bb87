"""What each budget is, and the rows of a result: measured, allowed, kept or not."""

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from shopac.bench.pages import Timed

STEPS = 40
JOB_RATIO = 3.0  # a job's page with 40 steps against the bare page
FIND_GROWTH = 2.0  # find among the most jobs against find among the fewest
PAPER_MS = 300.0
IDLE_MB = 150.0


@dataclass(frozen=True)
class Row:
    """One budget: what was measured, in which unit, what it may be at most (None: no budget)."""

    what: str
    measured: float
    unit: str
    at_most: float | None = None

    @property
    def kept(self) -> bool | None:
        """Whether the budget is kept; None: there is none."""
        return None if self.at_most is None else self.measured <= self.at_most

    def as_json(self) -> dict[str, Any]:
        """The row as data."""
        return asdict(self) | {"measured": round(self.measured, 2), "kept": self.kept}


def of_pages(jobs: int, pages: Mapping[str, Timed]) -> Iterator[Row]:
    """The ratio of each page at one size of the shop, the job page's against its budget."""
    for name, page in pages.items():
        at_most = JOB_RATIO if name == job_page(STEPS) else None
        yield Row(f"{name}, {size(jobs)}", page.ratio, "× bare page", at_most)


def job_page(steps: int) -> str:
    """The name of a job's page with that many steps."""
    return f"job page, {steps} steps"


def of_growth(few: Mapping[str, Timed], many: Mapping[str, Timed]) -> Iterator[Row]:
    """How much longer the slowest find takes among many jobs than the slowest among few.

    One by one they would compare pages of two rows with pages of fifty: writing rows takes longer
    than finding them.
    """
    slowest = [
        max(page.ratio for name, page in pages.items() if name.startswith("find"))
        for pages in (many, few)
    ]
    yield Row("slowest find: many ÷ few", slowest[0] / slowest[1], "×", FIND_GROWTH)


def of_queries(pages: Mapping[str, Timed], fewer_steps: int) -> Iterator[Row]:
    """Whether a job's page asks the database more often for more steps."""
    few, many = pages[job_page(fewer_steps)].queries, pages[job_page(STEPS)].queries
    yield Row(f"queries of a job page, {STEPS} steps", many, "queries", few)


def size(jobs: int) -> str:
    """A number of jobs as it is shown."""
    return f"{jobs:,} jobs".replace(",", " ")
