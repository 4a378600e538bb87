"""What a technician types into the form of the first test, and telling it to the logbook."""

import uuid
from datetime import datetime
from typing import Any

from diagnostics.as_it_stood import as_it_stood
from diagnostics.entries import STEP
from diagnostics.models import Step
from jobs.entries import FAILING_NOW
from jobs.logbook import Outcome, enter
from jobs.models import CarState, Entry, Job, Person
from tests.factories import make_person, make_told

COIL = {
    "test_kind": "coil_power",
    "test_version": "1",
    "engine": "off",
    "ground": "good",
    "volts": "12.38",
    "volts_unit": "V",
    "amps": "3.05",
    "amps_unit": "A",
    "magnet": "yes",
    "holds": "no",
    "pushed": "yes",
}


def typed(**changed: Any) -> dict[str, Any]:
    """The form as typed; a field given as None is left out."""
    return {name: value for name, value in (COIL | changed).items() if value is not None}


def tell(job: Job, author: Person | None = None, *, told: Any = None, **changed: Any) -> Outcome:
    """The form told to the logbook; `told` are columns of the entry."""
    first = {"job_key": job.key} | (told or {})
    return enter(STEP, make_told(typed(**changed), author or make_person(), **first))


def step_of(outcome: Outcome) -> Step:
    """The row an accepted entry wrote."""
    assert outcome.stands, outcome.form and outcome.form.errors
    return Step.objects.get(key=outcome.key)


def stood(step: Step) -> Step:
    """The row as pages read it: with how the car stood."""
    return as_it_stood(Step.objects.all()).get(pk=step.pk)


def switch(job: Job, answer: str, at: datetime, **told: Any) -> None:
    """The switch turned at a moment, told to the logbook now."""
    entry = make_told({"failing": answer}, job_key=job.key, happened_at=at, **told)
    assert enter(FAILING_NOW, entry).stands


def open_state(job: Job, at: datetime, **told: Any) -> CarState:
    """Something done to the car at a moment, in the order of calls its next state."""
    entry = make_told({"failing": "yes"}, job_key=job.key, happened_at=at, **told)
    assert enter(FAILING_NOW, entry).stands  # an entry of any kind: none opens a state yet
    return CarState.objects.create(
        job=job,
        number=job.car_states.count(),
        opened_by=Entry.objects.get(key=entry.key),
        opened_at=at,
        what="Gap set",
    )


def errors_of(outcome: Outcome) -> dict[str, str]:
    """The sentences by field of a form that came back."""
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


def some_key() -> str:
    """A key of nothing."""
    return str(uuid.uuid4())
