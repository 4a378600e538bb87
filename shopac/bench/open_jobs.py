"""The shop of a measurement: an owner, a few open cars, and one with many test steps.

All of it comes in through the logbook, as in a shop.
"""

import uuid
from collections.abc import Mapping
from datetime import timedelta

from django.utils import timezone

from diagnostics.record.issues import last_issue, next_number
from jobs.actions.shop import set_up_shop
from jobs.logbook import Outcome, Told, enter
from jobs.models import Job, Person
from jobs.models.jobs import last_told
from jobs.models.people import OWNER
from shopac.door import ENTRIES

OPEN_JOBS = 30
INTAKE = {
    "make_model": "Brenloh Ilex 1.6",
    "model_year": "2017",
    "odometer": "84 200 mi",
    "drive": "belt_clutch",
    "displacement": "fixed",
    "voltage": "12",
    "switched_side": "feed",
    "refrigerant": "R-134a",
    "label_charge": "520 g",
    "label_charge_source": "label",
    "branches": "front",
    "complaint": "Blows warm since last week.",
}
# Tests that read a number, an answer, several numbers: what a real job is a mixture of.
TESTS: tuple[dict[str, str], ...] = (
    {"test_kind": "complaint_seen", "engages": "no", "there": "yes"},
    {
        "test_kind": "coil_power",
        "engine": "off",
        "ground": "good",
        "volts": "12.38",
        "amps": "3.05",
        "magnet": "yes",
        "holds": "no",
        "pushed": "yes",
    },
    {"test_kind": "coil_resistance", "one": "3.6", "other": "3.6", "temperature": "20"},
    {"test_kind": "air_gap", "gap_1": "0.91", "gap_2": "0.93", "gap_3": "0.92"},
    {"test_kind": "hub_turn", "turns": "free"},
    {
        "test_kind": "static_pressure",
        "low": "480 kPa",
        "high": "482 kPa",
        "temperature": "21",
        "where": "places",
        "soaked": "yes",
    },
    {"test_kind": "vent_temperature", "branch": "front", "vent": "24.8", "intake": "29"},
    {"test_kind": "noise", "on": "not_tried", "off": "no"},
)


def begin() -> Person:
    """The shop and its owner, who makes every entry here."""
    set_up_shop("Measured Lane Cooling", "1 Measured Lane", "USD", "a4")
    return Person.objects.create(name="Bench", role=OWNER)


def take_in(author: Person, number: int) -> Job:
    """One car taken in now; plate, name and phone differ by its number."""
    key = uuid.uuid4()
    who = {"customer_name": f"Open Job {number}", "phone": f"555 0199 {number:04d}"}
    fields = INTAKE | who | {"plate": f"QQ.{number:04d}Q"}
    say("intake", author, fields, key=key, job_key=key)
    return Job.objects.get(key=key)


def test_it(author: Person, job: Job, steps: int) -> None:
    """Record that many steps on a job, one minute after another."""
    for number in range(steps):
        at = timezone.now() - timedelta(minutes=steps - number)
        fields = {"test_version": "1", **TESTS[number % len(TESTS)]}
        say("step", author, fields, job_key=job.key, happened_at=at)


def issue(author: Person, job: Job) -> None:
    """Freeze the next issue of a job's record, its paper included."""
    number = next_number(last_issue(job))
    last = last_told(job, uuid.uuid4())
    fields = {"issue": str(number), "entries": str(last), "changed": "Measured again."}
    say("issue", author, fields, job_key=job.key)


def say(kind: str, author: Person, fields: Mapping[str, str], **columns: object) -> Outcome:
    """One entry through the logbook.

    Raises:
        RuntimeError: it was not taken, which is a mistake in this module.

    """
    told = Told(
        **{"key": uuid.uuid4(), "job_key": None, **columns},  # type: ignore[arg-type]
        version=ENTRIES[kind].version,
        fields={name: [value] for name, value in fields.items()},
        author=author,
        sender=author,
    )
    outcome = enter(ENTRIES[kind], told)
    if not outcome.stands:
        raise RuntimeError(f"{kind}: {outcome.form.errors if outcome.form else outcome.why}")
    return outcome
