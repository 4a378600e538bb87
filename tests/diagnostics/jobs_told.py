"""Jobs told to the logbook in the order in which things happen to them, a minute apart."""

from datetime import datetime, timedelta
from typing import Any

from django.utils import timezone

from diagnostics.entries import CLOSE, OVERRIDE, STAGE, STEP, WAIVE
from diagnostics.job_now import JobNow, job_now
from diagnostics.waived import identity
from jobs.entries import CHANGE, FAILING_NOW
from jobs.logbook import EntryKind, Outcome, enter
from jobs.models import Entry, Job, Person
from jobs.models.people import OWNER
from tests.factories import make_job, make_person, make_told

START = timezone.now().replace(second=0, microsecond=0) - timedelta(hours=9)
# Liquid at rest in a loop of R-134a at 20 °C: published property tables; from memory.
LIQUID = {
    "test_kind": "static_pressure",
    "low": "470",
    "temperature": "20",
    "where": "places",
    "soaked": "yes",
}
HOLDS: dict[str, Any] = {
    "test_kind": "coil_power",
    "engine": "off",
    "ground": "good",
    "volts": "12.4",
    "amps": "3.4",
    "magnet": "yes",
    "holds": "yes",
    "lets_go": "yes",
}
COMES_NOT: dict[str, Any] = {**HOLDS, "holds": "no", "pushed": "yes", "lets_go": None}
CLUTCH: dict[str, Any] = {"what": "fitted", "part": "clutch", "source": "new", "serial": "0417"}


class Told:
    """One job, with what is told of it."""

    def __init__(self, desk: Person | None = None, **intake: Any) -> None:
        self.job = make_job(desk, **intake)
        Entry.objects.filter(pk=self.job.entry_id).update(happened_at=START, done_at=START)
        Job.objects.filter(pk=self.job.pk).update(opened_at=START)
        self.minutes = 0

    @property
    def now(self) -> JobNow:
        """The job as it stands."""
        return job_now(self.again)

    @property
    def again(self) -> Job:
        """The job read anew."""
        return Job.objects.select_related("customer", "vehicle__system").get(pk=self.job.pk)

    def tell(
        self,
        kind: EntryKind,
        author: Person | None = None,
        *,
        at: datetime | None = None,
        corrects: Any = None,
        **said: Any,
    ) -> Outcome:
        """One entry, a minute after the last."""
        self.minutes += 1
        moment = at or START + timedelta(minutes=self.minutes)
        fields = {name: value for name, value in said.items() if value is not None}
        told = make_told(
            fields, author, job_key=self.job.key, happened_at=moment, corrects=corrects
        )
        return enter(kind, told)

    def test(self, fields: dict[str, Any], **more: Any) -> Outcome:
        """A test made."""
        return stood(self.tell(STEP, test_version="1", **{**fields, **more}))

    def change(self, **fields: Any) -> Outcome:
        """A change on the car."""
        return stood(self.tell(CHANGE, **fields))

    def failing(self, answer: str) -> Outcome:
        """The switch."""
        return stood(self.tell(FAILING_NOW, failing=answer))

    def stage(self, to: str, author: Person | None = None, **fields: Any) -> Outcome:
        """Moved to another stage."""
        told = {"came_from": self.again.stage, "to": to, **fields}
        return self.tell(STAGE, author, **told)

    def close(self, code: str, author: Person | None = None, **fields: Any) -> Outcome:
        """Closed."""
        told = {"came_from": self.again.stage, "closing_kind": code, **fields}
        return self.tell(CLOSE, author, **told)

    def waive(self, code: str, reason: str = "Looked at.", author: Person | None = None) -> Outcome:
        """The first open point of that code waived, by an owner unless by somebody else."""
        point = next(one for one in self.now.points if one.code == code)
        about = identity(point)[1]
        owner = author or make_person(OWNER)
        return self.tell(WAIVE, owner, code=code, about=about, reason=reason)

    def tell_waive(self, code: str, about: str, reason: str = "Looked at.") -> Outcome:
        """A point named by its code and what it is about, waived by an owner."""
        return self.tell(WAIVE, make_person(OWNER), code=code, about=about, reason=reason)

    def override(self, order: str, reason: str = "On the bench.", author: Person | None = None):
        """An order overridden."""
        return self.tell(OVERRIDE, author or make_person(OWNER), order=order, reason=reason)


def stood(outcome: Outcome) -> Outcome:
    """An entry that has to be taken."""
    assert outcome.stands, (outcome.why, outcome.form and outcome.form.errors)
    return outcome
