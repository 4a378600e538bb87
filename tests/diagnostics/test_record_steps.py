"""The steps of a job on its record: made, superseded, not possible, not made."""

import hashlib
import io
from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from diagnostics.entries import STEP
from diagnostics.models import Step
from diagnostics.record.build import Heading, record_data
from jobs.entries import FAILING_NOW
from jobs.logbook import enter
from jobs.models import Entry, Job, Person, Photo, System
from jobs.models.people import OWNER, TECHNICIAN
from jobs.models.wordings import in_shop_time
from jobs.paper.frozen import RecordData, exact_text
from jobs.paper.typeset import typeset
from jobs.photos import Sent
from tests.diagnostics.step_forms import open_state, switch
from tests.factories import make_job, make_person, make_told
from tests.jobs.records import printed, squeezed

pytestmark = pytest.mark.django_db

COIL = {
    "test_kind": "coil_power",
    "test_version": "1",
    "engine": "off",
    "ground": "good",
    "volts": "12,38",
    "amps": "3.05",
    "magnet": "yes",
    "holds": "no",
    "pushed": "yes",
}
NOT_DONE = {"test_kind": "coil_power", "test_version": "1", "not_done": "no_access"}


def make_step(job: Job, author: Person | None = None, corrects: Any = None, **fields: Any) -> Step:
    """A step told as its form does; a field given as None is left out."""
    told = {name: value for name, value in (COIL | fields).items() if value is not None}
    entry = make_told(told, author or make_person(), job_key=job.key, corrects=corrects)
    outcome = enter(STEP, entry)
    assert outcome.stands, outcome.form and outcome.form.errors
    return Step.objects.get(key=entry.key)


def data_of(job: Job) -> RecordData:
    job.refresh_from_db()
    return record_data(job, Heading(1, make_person(OWNER, name="E. Quist"), timezone.now()), None)


def test_a_step_stands_with_finding_readings_and_what_it_does_not_tell():
    job = make_job()
    make_step(job, make_person(TECHNICIAN, name="R. Sand"), seen="A click was heard.")
    (step,) = data_of(job)["steps"]
    assert (step["number"], step["state"], step["test"]) == (1, 0, "Power straight at the coil")
    assert step["finding"].endswith("it holds when pushed.")
    volts = next(one for one in step["readings"] if one["si_unit"] == "V")
    assert (volts["text"], volts["typed"], volts["si"]) == ("12.38\u00a0V", "12,38", 12.38)
    assert any("Relay, fuse, switches and wiring" in text for text in step["not_tested"])
    assert step["remark"] == "A click was heard."
    assert step["by"] == "R. Sand"


def test_a_step_is_stamped_with_whether_it_was_failing():
    job = make_job()
    enter(FAILING_NOW, make_told({"failing": "no"}, job_key=job.key))
    make_step(job, holds="yes", pushed=None)
    (step,) = data_of(job)["steps"]
    assert step["failing"] == "not failing at that time"
    assert any("a normal result says little" in note for note in step["notes"])


def test_what_arrived_behind_a_step_but_happened_before_it_stands_with_it():
    job = make_job()
    step = make_step(job)
    switch(job, "yes", step.made_at)
    done = [open_state(job, moment) for moment in (step.made_at, job.opened_at)]
    data = data_of(job)
    (told,) = data["steps"]
    assert (told["failing"], told["state"]) == ("failing at that time", done[0].number)
    assert [state["number"] for state in data["states"]] == [0, done[1].number, done[0].number]


def test_a_kind_that_was_made_is_not_listed_as_not_tested():
    job = make_job()
    make_step(job)
    assert "Power straight at the coil" not in [one["what"] for one in data_of(job)["not_tested"]]


def test_what_could_not_be_done_is_told_with_its_reason_and_is_no_finding():
    job = make_job()
    reasons = {"not_done": "no_access", "not_done_words": "frame rail"}
    empty: dict[str, Any] = dict.fromkeys(("engine", "amps", "ground", "magnet", "holds", "pushed"))
    make_step(job, **{**empty, **reasons})
    data = data_of(job)
    assert data["steps"] == []
    (one,) = data["not_done"]
    assert one["why"].startswith("Could not be done: no access (frame rail). That is no result.")
    assert "12.38\u00a0V" in one["why"]
    assert data["stands"]["detail"].startswith("No test made, 1 could not be done")


def test_a_superseded_step_keeps_its_readings_and_loses_its_meaning():
    job = make_job()
    first = make_step(job, volts="11.2")
    make_step(job, corrects=first.key)
    data = data_of(job)
    old, new = data["steps"]
    assert old["finding"] == "Superseded by step 2; it counts no more."
    assert any(one["text"] == "11.2\u00a0V" for one in old["readings"])
    assert [old["bearings"], old["not_tested"], old["source"]] == [[], [], ""]
    assert new["bearings"]
    assert [one["what"] for one in data["corrections"]] == [
        "Step 2 replaces step 1: no reason given"
    ]
    assert data["stands"]["detail"].startswith("1 test made")


def test_an_odd_value_that_was_kept_is_marked_with_the_reason():
    job = make_job()
    make_step(job, volts="17", volts_why="read twice")
    data = data_of(job)
    (mark,) = data["steps"][0]["marks"]
    assert mark == {
        "text": "Outside what a 12 V car shows. Kept as typed: read twice",
        "code": "outside",
        "field": "volts",
    }
    assert any("Kept as typed: read twice" in point["text"] for point in data["open_points"])
    assert data["corrections"] == []


@pytest.mark.parametrize("not_done", [False, True])
def test_a_step_bears_who_typed_it_oddly_and_when_it_arrived(not_done: bool):
    job = make_job()
    typed_at = timezone.now() - timedelta(hours=18)
    odd = "By the tablet’s clock this was typed before R. Sand signed in there."
    fields = dict.fromkeys(COIL) | NOT_DONE if not_done else COIL
    told = {name: value for name, value in fields.items() if value is not None}
    sand, marks = make_person(name="R. Sand"), [{"code": "before_sign_in"}]
    entry = make_told(told, sand, job_key=job.key, typed_at=typed_at, marks=marks)
    assert enter(STEP, entry).stands
    arrived_at = Entry.objects.get(key=entry.key).arrived_at
    data = data_of(job)
    (step,) = data["not_done"] if not_done else data["steps"]
    assert step["marks"] == [{"text": odd, "code": "before_sign_in", "field": ""}]
    assert step["when"] == in_shop_time(typed_at)
    assert step["arrived"] == f"arrived {in_shop_time(arrived_at)}"
    found = printed(typeset(exact_text(data)).pdf)
    assert squeezed(odd) in found
    assert squeezed(step["arrived"]) in found


def test_a_step_made_where_it_is_barred_says_so():
    job = make_job(drive="electric_hv")
    make_step(job)
    (step,) = data_of(job)["steps"]
    assert step["marks"][0]["text"].startswith("Made where it is barred. High voltage")
    assert step["marks"][0]["code"] == "barred"
    assert step["bearings"] == []


def test_a_kind_that_is_not_known_any_more_keeps_its_readings():
    job = make_job()
    step = make_step(job)
    Step.objects.filter(pk=step.pk).update(kind="forgotten", readings={"ohms": "3.6"})
    (told,) = data_of(job)["steps"]
    assert told["finding"].startswith("This version of the program does not know this test")
    assert [(one["name"], one["text"]) for one in told["readings"]] == [("ohms", "3.6")]


def test_many_steps_of_one_person_are_put_together():
    job = make_job()
    sand, quist = make_person(name="R. Sand"), make_person(name="A. Other")
    for author in (sand, sand, sand, quist, sand):
        make_step(job, author)
    did = {one["name"]: one["did"] for one in data_of(job)["people"]}
    assert (did["R. Sand"], did["A. Other"]) == ("steps 1–3, 5", "step 4")


def test_a_step_s_texts_are_on_the_paper_and_none_says_a_chance_or_condemns():
    job = make_job()
    System.objects.update(coil_milliohm=3600)
    make_step(job, temperature="118 F", seen="50 % of the time it clicks")
    data = data_of(job)
    found = printed(typeset(exact_text(data)).pdf)
    step = data["steps"][0]
    texts = [step["finding"], *step["not_tested"], *step["notes"], step["remark"]]
    assert not [text for text in texts if squeezed(text) not in found]
    ours = found.replace(squeezed(step["remark"]), "")
    assert "%" not in ours
    assert "defective" not in ours.lower()
    assert "leak-free" not in ours.lower()


def test_queries_do_not_grow_with_the_steps(django_assert_max_num_queries: Any):
    job = make_job()
    author = make_person(OWNER)
    for _ in range(12):
        make_step(job, author)
    with django_assert_max_num_queries(54):
        record_data(job, Heading(1, author, timezone.now()), None)


def test_a_correction_stands_with_what_was_wrong_with_the_earlier_step():
    job = make_job()
    first = make_step(job)
    make_step(job, corrects=first.key, corrected_why="Clamp on the wrong lead.")
    (correction,) = data_of(job)["corrections"]
    assert correction["what"] == "Step 2 replaces step 1: Clamp on the wrong lead."


# Photos.


def picture(entry: Entry, job: Job, number: int = 1, why: str = "") -> None:
    """The row of a photo that came with an entry."""
    sent = hashlib.sha256(f"{entry.pk}.{number}".encode()).hexdigest()
    Photo.objects.create(
        entry=entry, job_key=job.key, number=number, field="photo", sent_sha256=sent,
        sent_bytes=3, why=why,
    )  # fmt: skip


def test_every_photo_is_listed_with_its_step_hash_and_why_it_cannot_be_shown():
    job = make_job()
    step = make_step(job, make_person(TECHNICIAN, name="R. Sand"))
    picture(step.entry, job, 1)
    picture(step.entry, job, 2, why="This is no picture.")
    picture(Entry.objects.get(kind="intake"), job)
    data = data_of(job)
    told = data["photos"]
    assert [(one["number"], one["step"]) for one in told] == [(1, None), (2, 1), (3, 1)]
    assert told[0]["of"].startswith("intake of ")
    assert [one["of"] for one in told[1:]] == ["step 1", "step 1"]
    assert told[1]["sha256"] == Photo.objects.get(number=1, entry=step.entry).sent_sha256
    assert [one["why"] for one in told] == ["", "", "This is no picture."]
    assert (told[2]["by"], told[2]["at"]) == ("R. Sand", data["steps"][0]["at"])


def test_the_photos_are_printed_as_numbered_lines_with_the_start_of_their_hash():
    job = make_job()
    step = make_step(job)
    picture(step.entry, job, why="This is no picture.")
    data = data_of(job)
    text = printed(typeset(exact_text(data)).pdf)
    (photo,) = data["photos"]
    assert squeezed("; cannot be shown: This is no picture.") in text
    assert photo["sha256"][:12] in text
    assert photo["sha256"][:20] not in text  # the next heading's number may look like a digit more


def test_the_vin_is_printed_once_with_what_is_odd_about_it():
    data = data_of(make_job(vin="XZ9BR1L67HT0041"))
    labels = [*data["facts"], *data["system"]]
    everywhere = [line for one in labels for line in one["lines"]]
    assert sum("XZ9BR1L67HT0041" in line for line in everywhere) == 1
    assert any("characters" in line for line in everywhere)


def test_an_entry_with_a_photo_alone_is_no_test_made_on_page_one():
    job = make_job()
    make_step(job)
    data = b"picture"
    digest = hashlib.sha256(data).hexdigest()
    sent = Sent("photo", "a.jpg", digest, len(data), "image/jpeg", io.BytesIO(data))
    bare = {"test_kind": "walk_round", "test_version": "1"}
    assert enter(STEP, make_told(bare, job_key=job.key, photos=[sent])).stands
    stands = data_of(job)["stands"]
    assert (stands["tests"], stands["detail"].partition(",")[0]) == (1, "1 test made")
