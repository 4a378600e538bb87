"""From rows to what they mean: the A/C as kinds ask for it, and a step with its meaning."""

import uuid
from collections.abc import Iterable
from dataclasses import dataclass

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.fields import shown_reading
from diagnostics.evidence.findings import FAILING_NOTES, Meaning
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, from_json
from diagnostics.evidence.system import System
from diagnostics.models import Step
from jobs.models import Job
from jobs.models import System as SystemRow
from jobs.models.vehicles import CHARGE_SOURCES
from jobs.models.wordings import words


@dataclass(frozen=True)
class Assessed:
    """A step with what it means on the system as it is known now.

    `meaning` is None where the test could not be done, and where this version of the program does
    not know the kind any more; the readings stay in the row.
    """

    step: Step
    kind: Kind | None
    meaning: Meaning | None
    told: list[tuple[str, str]]
    not_done: str
    barred: str
    failing_note: str

    @property
    def stands(self) -> bool:
        """Whether it is a test made, and counts: neither replaced nor impossible."""
        return not self.step.not_done and not self.step.superseded_by_id

    @property
    def corrects(self) -> str:
        """Which step it took the place of, and what was wrong with that one; empty: none."""
        corrected = getattr(self.step, "supersedes", None)
        if corrected is None:
            return ""
        why = self.step.corrected_why or "no reason given"
        return f"Step {self.step.number} replaces step {corrected.number}: {why}"

    @property
    def onward(self) -> str:
        """What the step itself says to do next, in its own sentences."""
        return " ".join(self.meaning.onward) if self.meaning else ""

    @property
    def title(self) -> str:
        """The test's name."""
        return self.kind.title if self.kind else self.step.kind

    @property
    def finding(self) -> str:
        """What was found, in one or two sentences."""
        if self.meaning is None:
            return self.not_done
        return f"{self.meaning.lead} {self.meaning.outcome.sentence}".strip()


def system_of(row: SystemRow) -> System:
    """The A/C as far as kinds ask for it; what is not known is left out."""
    system: System = {
        "drive": row.drive,
        "voltage": row.voltage,
        "switched_side": row.switched_side,
    }
    if row.coil_milliohm:
        source = row.sources.get("coil_milliohm", "")
        system["coil_ohm"] = row.coil_milliohm / 1000
        system["coil_ohm_source"] = words(CHARGE_SOURCES, source).lower() if source else ""
    return system


def system_of_job(job_key: uuid.UUID | None) -> System:
    """The same for a job by its key; nothing is known of a job that is not here."""
    row = SystemRow.objects.filter(vehicle__jobs__key=job_key).first() if job_key else None
    return system_of(row) if row else {}


def readings_of(step: Step) -> Readings:
    """A step's readings as kinds compute with them."""
    return from_json(step.readings)


def assess(step: Step, system: System) -> Assessed:
    """What one step means."""
    kind = KINDS.get(step.kind)
    readings = readings_of(step)
    done = kind is not None and not step.not_done
    meaning = kind.meaning(readings, system) if kind and done else None
    told = [
        (asked.question, shown_reading(asked, readings[asked.name]))
        for asked in (kind.fields if kind else ())
        if asked.name in readings
    ]
    return Assessed(
        step,
        kind,
        meaning,
        told,
        not_done_words(kind, step),
        (kind.forbids(system) or "") if kind and done else "",
        FAILING_NOTES.get(step.failing_now, "") if meaning else "",
    )


def not_done_words(kind: Kind | None, step: Step) -> str:
    """That a test could not be done, and why; empty when it was."""
    if not step.not_done:
        return ""
    reasons = {reason.code: reason.words for reason in kind.not_done} if kind else {}
    reason = reasons.get(step.not_done, step.not_done).lower()
    detail = f" ({step.not_done_words})" if step.not_done_words else ""
    return f"Could not be done: {reason}{detail}. That is no result."


def steps_of(job: Job) -> list[Assessed]:
    """All steps of a job in the order made, each with its meaning, in one query.

    The job comes with car and system.
    """
    system = system_of(job.vehicle.system)
    return [assess(step, system) for step in rows(job)]


def rows(job: Job) -> Iterable[Step]:
    """The steps of a job with author, car state and what superseded them."""
    steps = Step.objects.filter(job=job).order_by("number")
    return steps.select_related("entry__author", "car_state", "superseded_by", "supersedes")
