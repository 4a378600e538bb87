"""The balance of a job's grams as a drawing and in words, its oil as a small table.

The drawing has its places in percent and in the height of letters, so text keeps its size from the
smallest screen to paper, and all it is drawn with stands in its own attributes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django import template

from jobs.balance import Balance
from jobs.balance_told import Row, heading, rows, sentences
from jobs.models import Job, LoopWork
from jobs.models.balances import balance_of_job, oil_of_job, oil_told
from jobs.models.evacuations import details
from jobs.models.shop import units_chosen

register = template.Library()
# Percent of the width for bars; right of it stand the numbers.
WIDTH = 68.0
# In heights of a letter: a row, where its words and its bar stand in it, how thick the bar is.
ROW, WORDS, BAR, THICK = 2.5, 1.2, 1.6, 0.35


@dataclass(frozen=True)
class Drawn:
    """A row in its place: `x` and `width` in percent, the others in heights of a letter."""

    row: Row
    x: float
    width: float
    words_y: float
    bar_y: float
    middle: float
    rule_y: float | None  # a rule above it: what comes is another part

    @property
    def right(self) -> float:
        """Where it ends."""
        return round(self.x + self.width, 2)

    @property
    def ends(self) -> tuple[float, float]:
        """From where to where the strokes at the ends of a length go."""
        return round(self.middle - 0.3, 2), round(self.middle + 0.3, 2)


def drawn(listed: Sequence[Row]) -> list[Drawn]:
    """Rows in their places, all to one scale."""
    most = max((row.end for row in listed), default=0) or 1
    made = []
    for count, row in enumerate(listed):
        top = count * ROW
        begins = count > 0 and listed[count - 1].group != row.group
        made.append(
            Drawn(
                row,
                round(row.start / most * WIDTH, 2),
                round((row.end - row.start) / most * WIDTH, 2),
                round(top + WORDS, 2),
                round(top + BAR, 2),
                round(top + BAR + THICK / 2, 2),
                round(top, 2) if begins else None,
            )
        )
    return made


def as_said(balance: Balance, unit: str) -> dict[str, Any]:
    """The drawing with its heading and its sentences; {} where nothing was moved."""
    listed = rows(balance, unit)
    if not listed:
        return {}
    places = drawn(listed)
    label = places[0].right if places[0].row.code == "label" else None
    told = "; ".join(f"{row.words}: {row.number}" for row in listed)
    return {
        "heading": heading(balance, unit),
        "rows": places,
        "label_x": label,
        "height": round(len(places) * ROW, 2),
        "told": f"{heading(balance, unit)}. {told}.",
        "says": sentences(balance, unit),
    }


@register.filter
def readings_told(work: LoopWork) -> list[str]:
    """What was read while it was pumped and after the valve was shut, one line each."""
    return details(work.told) if work.what == "evacuation" else []


@register.inclusion_tag("jobs/_balance.html")
def job_balance(job: Job | None, *, with_oil: bool = True) -> dict[str, Any]:
    """Grams and oil of a job, where any moved; a tablet's kept page has none."""
    if job is None or not job.loop_works.exists():
        return {}
    units = units_chosen()
    said = {"grams": as_said(balance_of_job(job), units.unit("g")), "job": job}
    return said | ({"oil": oil_told(oil_of_job(job), units)} if with_oil else {})
