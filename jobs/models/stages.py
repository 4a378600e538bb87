"""The way of a job through its stages: who moved it, when, why, and how it was closed."""

from typing import Any

from django.db import models
from django.db.models import Q

from jobs.models.closing import ENDINGS, answers_in_words
from jobs.models.entries import Entry
from jobs.models.jobs import STAGES, Job
from jobs.models.wordings import words

# What moves a job by itself, by the kind of its entry; else it was a test.
BY_ITSELF = {"change": "a change on the car", "decision": "a decision"}
WHY_BACK = {
    "new_finding": "Something new was found",
    "part_wrong": "A part does not fit or does not work",
    "fails_again": "It fails again",
    "customer": "The customer decided otherwise",
    "too_early": "Moved on too early",
    "mistake": "Tapped by mistake",
    "other": "Something else",
}


class StageMove(models.Model):
    """A job that went from one stage to another. Never changed, never deleted.

    `entry` is the decision, or the test or change with which the job went on by itself. `why` is a
    code of WHY_BACK and `words` are somebody's own. Of a job that was closed, `closing_kind` says
    how and `answers` what was told with it, as the form of that ending asks.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="stage_moves")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="stage_moved")
    came_from = models.CharField(max_length=20)
    to = models.CharField(max_length=20)
    moved_at = models.DateTimeField()
    why = models.CharField(max_length=40, blank=True)
    words = models.CharField(max_length=300, blank=True)
    closing_kind = models.CharField(max_length=30, blank=True)
    answers: Any = models.JSONField(default=dict)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(to__in=list(STAGES), came_from__in=list(STAGES)),
                name="stage_move_known",
                violation_error_message="This stage is not one a job can be in.",
            ),
            models.CheckConstraint(
                condition=Q(to="closed") ^ Q(closing_kind=""),
                name="stage_move_closed_somehow",
                violation_error_message="A job is closed in one of the ways, or is not closed.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.came_from} to {self.to}"

    @property
    def went_back(self) -> bool:
        """Whether it went to an earlier stage."""
        return is_back(self.came_from, self.to)

    @property
    def by_itself(self) -> bool:
        """Whether a test, a change or a decision moved it, and nobody told the stage."""
        return self.entry.kind not in ("stage", "close")

    @property
    def to_words(self) -> str:
        """The stage it went to, and how it was closed."""
        if self.to == "closed":
            ending = ENDINGS.get(self.closing_kind)
            return f"Closed: {ending.in_a_line if ending else self.closing_kind}"
        stage = STAGES[self.to]
        return f"Opened again: {stage.lower()}" if self.came_from == "closed" else stage

    @property
    def why_words(self) -> str:
        """Why, in one line; empty: nobody was asked."""
        if self.by_itself:
            return f"with {BY_ITSELF.get(self.entry.kind, 'a test')}"
        told = words(WHY_BACK, self.why) if self.why and self.why != "other" else ""
        return ": ".join(text for text in (told, self.words) if text)

    @property
    def told(self) -> list[tuple[str, str]]:
        """What was told when it was closed: (name, words)."""
        return answers_in_words(self.answers)


def is_back(came_from: str, to: str) -> bool:
    """Whether that is an earlier stage."""
    order = list(STAGES)
    return order.index(to) < order.index(came_from)


def moves_of(job: Job) -> list[StageMove]:
    """The way of a job, oldest first, each with its entry and who told it."""
    return list(job.stage_moves.select_related("entry__author"))


def closed_by(job: Job) -> StageMove | None:
    """What closed a job that is closed; None: it is open, or nothing tells."""
    if job.stage != "closed":
        return None
    moves = job.stage_moves.select_related("entry__author")
    return moves.filter(to="closed").order_by("-id").first()
