"""Every kind of test on its page, in the logbook, among the job's steps and on its record."""

import json

import pytest
from django.urls import reverse
from django.utils import timezone

from diagnostics.entries import STEP
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.fields import Choice, Number
from diagnostics.evidence.kind import Kind
from diagnostics.forms.step import StepForm
from diagnostics.models import Step
from diagnostics.record.build import Heading, record_data
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.people import OWNER
from jobs.paper.frozen import exact_text
from tests.evidence.trial import fine_on
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db

ALL = pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
DRIVES = ("belt_clutch", "belt_clutchless", "electric_hv", "electric_48", "belt_electric")


def job_for(kind: Kind) -> Job:
    """A job whose car has a drive on which such a test is offered."""
    drive = next(one for one in DRIVES if kind.forbids({"drive": one}) is None)
    return make_job(drive=drive, branches=["front", "rear"])


def plain(number: float) -> str:
    """A number as people type it."""
    return f"{number:.4f}".rstrip("0").rstrip(".")


def as_typed(kind: Kind) -> dict[str, str]:
    """What the button for fine sets, else the first thing that tells something."""
    if kind.fine:
        return fine_on(kind, {"branches": ["front", "rear"]})
    asked = next(one for one in kind.fields if not one.condition and not one.when)
    if isinstance(asked, Choice):
        return {asked.name: asked.answers[0].code}
    if isinstance(asked, Number):
        return {asked.name: plain((asked.span.low + asked.span.high) / 2)}
    return {asked.name: "as seen"}


def everything(kind: Kind) -> dict[str, str]:
    """Something typed or tapped in every field, whether it is asked or not."""
    found = {}
    for asked in kind.fields:
        found[f"{asked.name}_why"] = "read twice"
        if isinstance(asked, Choice):
            found[asked.name] = asked.answers[-1].code
        elif isinstance(asked, Number):
            found[asked.name] = plain(asked.span.high)
            found[f"{asked.name}_unit"] = asked.units[-1]
        else:
            found[asked.name] = "as seen"
    return found


def tell(job: Job, kind: Kind, fields: dict[str, str]) -> Step:
    """The step told to the logbook."""
    told = {"test_kind": kind.name, "test_version": str(kind.version), **fields}
    entry = make_told(told, job_key=job.key)
    outcome = enter(STEP, entry)
    assert outcome.stands, outcome.form and outcome.form.errors
    return Step.objects.get(key=entry.key)


@ALL
def test_its_page_opens_for_a_job_with_title_cautions_and_every_question(client, kind):
    client.force_login(make_person())
    job = job_for(kind)
    response = client.get(reverse("step", args=[kind.name]), {"job": str(job.key)})
    assert response.status_code == 200
    page = response.content.decode()
    assert kind.title in page
    assert kind.cautions[-1] in page
    for asked in kind.fields:
        assert f'data-asked="{asked.name}"' in page


@ALL
def test_what_it_shows_so_far_is_told_while_it_is_filled(client, kind):
    client.force_login(make_person())
    told = {"job": str(job_for(kind).key), **as_typed(kind)}
    address = reverse("step", args=[kind.name])
    response = client.get(address, told, headers={"HX-Request": "true"})
    assert response.status_code == 200
    assert response.content.decode().strip()


@ALL
def test_a_post_of_its_page_records_it_and_the_steps_page_shows_it(client, kind):
    client.force_login(make_person())
    job = job_for(kind)
    address = f"{reverse('step', args=[kind.name])}?job={job.key}"
    told = {"test_kind": kind.name, "test_version": str(kind.version), **as_typed(kind)}
    assert client.post(address, told).status_code == 302
    assert Step.objects.get().kind == kind.name
    page = client.get(reverse("steps"), {"job": str(job.key)})
    assert page.status_code == 200
    assert kind.title in page.content.decode()


@ALL
@pytest.mark.parametrize("fill", [as_typed, everything], ids=["fine", "everything"])
def test_it_stands_on_the_record_as_plain_data(kind, fill):
    job = job_for(kind)
    tell(job, kind, fill(kind))
    job.refresh_from_db()
    data = record_data(job, Heading(1, make_person(OWNER), timezone.now()), None)
    (step,) = data["steps"]
    assert step["test"] == kind.title
    assert step["finding"]
    assert {one["field"] for one in step["readings"]} <= {one.name for one in kind.fields}
    assert json.loads(exact_text(data))["steps"][0]["kind"] == kind.name


@ALL
def test_whatever_is_odd_about_it_comes_back_to_its_field_and_never_breaks_the_page(client, kind):
    client.force_login(make_person())
    job = job_for(kind)
    address = f"{reverse('step', args=[kind.name])}?job={job.key}"
    told = {name: text for name, text in everything(kind).items() if not name.endswith("_why")}
    told |= {"test_kind": kind.name, "test_version": str(kind.version)}
    response = client.post(address, told)
    assert response.status_code in (302, 422)
    if response.status_code == 422:
        page = response.content.decode()
        assert "keep it and say why" in page
        assert all(text in page for text in told.values())


@ALL
def test_it_is_listed_as_not_tested_as_long_as_it_was_not_made(kind):
    job = job_for(kind)
    data = record_data(job, Heading(1, make_person(OWNER), timezone.now()), None)
    assert kind.title in [one["what"] for one in data["not_tested"]]


@ALL
def test_no_field_of_a_kind_takes_the_name_of_one_that_every_form_has(kind):
    own = [asked.name for asked in kind.fields]
    made = {name for one in own for name in (one, f"{one}_why", f"{one}_unit")}
    shared = set(StepForm(kind=None).fields) | {"not_done", "photo", "key", "corrects", "button"}
    assert len(own) == len(set(own))
    assert not made & shared
