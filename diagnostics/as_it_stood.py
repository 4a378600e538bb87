"""Steps as rows, each with how car, switch and its author's cards stood when it was made."""

from datetime import UTC, datetime
from typing import Any

from django.db.models import (
    BooleanField,
    Case,
    Count,
    Exists,
    OuterRef,
    Q,
    QuerySet,
    Subquery,
    TextField,
    Value,
    When,
)
from django.db.models.fields.json import KT
from django.db.models.functions import Cast, Coalesce, Lower, Replace, TruncDate

from diagnostics.evidence.read_with import NEEDS
from diagnostics.instruments import NAMED
from diagnostics.models import Step
from jobs.models import CarState, Entry, Job, Photo, Qualification
from jobs.models.entries import switched

LONG_AGO = datetime(1, 1, 2, tzinfo=UTC)  # before anything happened


def rows(job: Job) -> QuerySet[Step]:
    """The steps of a job with author, how the car stood, and what superseded them."""
    steps = as_it_stood(Step.objects.filter(job=job).order_by("number"))
    return steps.select_related("entry__author", "superseded_by", "supersedes")


def as_it_stood(steps: QuerySet[Step]) -> QuerySet[Step]:
    """The steps, each with its photos counted, the job's switch and the car's state at its moment.

    And the last entry by which somebody threw it away on a tablet, not knowing that it was here.
    Switch and state go by the times at which things were done, never by the order in which tablets
    brought them, and those of a correction by when the step that it puts right was made. What
    happened at the step's own moment counts as before it.
    """
    begun = Q(number=0) | Q(opened_at__lte=OuterRef("made_at"))
    states = CarState.objects.filter(begun, job=OuterRef("job")).reverse()
    changed = states.filter(number__gt=0).exclude(touches=[]).values("opened_at")[:1]
    turned = switched().filter(
        job_key=OuterRef("job__key"),
        done_at__lte=OuterRef("made_at"),
        done_at__gte=OuterRef("changed_then"),  # of a car changed since nobody has told it
    )
    pictures = Photo.objects.filter(entry=OuterRef("entry")).order_by().values("entry")
    discards = Entry.objects.filter(kind="discard", job_key=OuterRef("job__key")).annotate(
        of=plain(KT("fields__discarded__0"))
    )
    last_discard = discards.filter(of=plain(OuterRef("key"))).order_by("-id")
    answer = turned.values_list(KT("fields__failing__0"))[:1]
    read: dict[str, Any] = {
        "changed_then": Coalesce(Subquery(changed), Value(LONG_AGO)),
        "failing_then": Coalesce(Subquery(answer), Value(""), output_field=TextField()),
        "state_then": Subquery(states.values("number")[:1]),
        "thrown_away": Subquery(last_discard.values("key")[:1]),
        "photo_count": Coalesce(Subquery(pictures.values(count=Count("pk"))), Value(0)),
        "made_on": TruncDate("made_at"),  # by the shop's own days
        "qualified_then": Case(
            *(When(kind=kind, then=Exists(cards(needs))) for kind, needs in NEEDS.items()),
            default=Value(True),
            output_field=BooleanField(),
        ),
    }
    return steps.annotate(**read).prefetch_related(NAMED)


def cards(needs: str) -> QuerySet[Qualification]:
    """What somebody was qualified by for such work on the day of a step, by what is entered now."""
    day = OuterRef("made_on")
    ends = Q(valid_to=None) | Q(valid_to__gte=day)
    rows = Qualification.objects.filter(person=OuterRef("entry__author"), kind=needs)
    return rows.filter(ends, valid_from__lte=day, mistake=False, superseded_by=None)


def plain(key: Any) -> Lower:
    """A key as text without dashes, as it stands in a column or was told: databases differ."""
    dash, nothing = (Value(text, output_field=TextField()) for text in ("-", ""))
    return Lower(Replace(Cast(key, TextField()), dash, nothing, output_field=TextField()))
