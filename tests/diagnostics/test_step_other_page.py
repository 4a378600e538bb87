"""Steps from a page older or newer than the program, and steps of a photo alone: never refused."""

import hashlib
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from diagnostics.assess import ONLY_A_PHOTO, steps_of
from diagnostics.evidence.kinds.coil_power import COIL_POWER
from diagnostics.forms.other_page import ENTRY_VERSION
from diagnostics.models import TOLD, Step
from diagnostics.points import step_points
from tests.diagnostics.step_forms import errors_of, step_of, tell, typed
from tests.factories import make_job, make_person, make_shop
from tests.shopac.tablet import Tablet

pytestmark = pytest.mark.django_db

OTHER_PAGE = "Typed on an older or newer page: "
BLANK = dict.fromkeys(["ground", "volts", "amps", "magnet", "holds", "pushed"])


@pytest.fixture
def tablet() -> Tablet:
    make_shop()
    return Tablet()


def send(tablet: Tablet, job: Any, photo: Any = b"", version: Any = 1, **changed: Any) -> Any:
    """A step sent to the door by a tablet."""
    fields = {name: [text] for name, text in typed(**changed).items()}
    photos, files = [], None
    if photo:
        sha256 = hashlib.sha256(photo).hexdigest()
        photos = [{"field": "photo", "name": "p.jpg", "sha256": sha256}]
        files = {"photo": SimpleUploadedFile("p.jpg", photo, "image/jpeg")}
    said = tablet.said(kind="step", job=str(job.key), version=version, fields=fields, photos=photos)
    return tablet.send(said, files)


def the_step() -> Any:
    """The one step in the shop, with what it means."""
    step = Step.objects.select_related("job__vehicle__system").get()
    (one,) = steps_of(step.job)
    return one


def codes(step: Step) -> list[str]:
    return [mark["code"] for mark in step.marks]


# A photo alone.


def test_a_step_that_holds_only_a_photo_is_taken_and_carries_nothing(tablet):
    assert send(tablet, make_job(), photo=b"no picture, but kept", **BLANK).status_code == 201
    one = the_step()
    assert one.finding == ONLY_A_PHOTO
    assert (one.meaning.outcome.carries, one.meaning.outcome.marks) == (False, ())
    assert one.step.entry.photos[0]["name"] == "p.jpg"


def test_a_photo_beside_a_reading_is_not_only_a_photo(tablet):
    assert send(tablet, make_job(), photo=b"x").status_code == 201
    assert ONLY_A_PHOTO not in the_step().finding


def test_words_alone_are_not_only_a_photo():
    step_of(tell(make_job(), **BLANK, seen="Smoke at once."))
    assert ONLY_A_PHOTO not in the_step().finding


def test_a_photo_alone_stands_so_on_the_steps_page(client, tablet):
    job = make_job()
    send(tablet, job, photo=b"x", **BLANK)
    client.force_login(make_person())
    page = client.get(reverse("steps"), {"job": str(job.key)}).content.decode()
    assert ONLY_A_PHOTO in page


def test_a_photo_alone_leaves_its_test_to_be_made(tablet):
    send(tablet, make_job(), photo=b"x", **BLANK)
    assert not the_step().stands


# Answers that are not listed.


def test_an_answer_that_is_not_listed_is_kept_as_typed_with_a_mark(tablet):
    assert send(tablet, make_job(), magnet="perhaps").status_code == 201
    step = the_step().step
    assert step.readings["magnet"] == "perhaps"
    (mark,) = step.marks_said
    assert (mark["field"], mark["code"]) == ("magnet", "unknown_answer")
    assert mark["sentence"].startswith(f"{OTHER_PAGE}“perhaps” is not among the answers")


def test_what_was_typed_stands_in_the_mark_once_though_the_sentence_has_such_a_word():
    (mark,) = step_of(tell(make_job(), magnet="on")).marks
    assert mark["told"] == "on"
    assert mark["sentence"].startswith(f"{OTHER_PAGE}“{TOLD}” is not among")


def test_an_answer_that_is_not_listed_feeds_nothing():
    job = make_job()
    step_of(tell(job, magnet="perhaps"))
    step_of(tell(job, magnet=None))
    odd, without = (one.meaning for one in steps_of(job))
    assert odd
    assert without
    assert odd.outcome == without.outcome
    assert "perhaps, kept as told, is used for nothing." in odd.notes[0]


def test_what_hangs_on_an_answer_that_is_not_listed_is_taken_too():
    step = step_of(tell(make_job(), holds="jumps", lets_go="yes", pushed=None))
    assert codes(step) == ["unknown_answer", "not_asked"]


def test_a_reason_not_listed_why_it_could_not_be_done_is_kept_and_marked():
    code = "roof_in_the_way_of_the_lift_and_nobody_to_help"
    step = step_of(tell(make_job(), not_done=code))
    assert step.not_done == code[:40]
    assert codes(step) == ["unknown_answer"]
    assert f"“{code}”" in step.marks_said[0]["sentence"]


def test_an_answer_that_is_not_listed_stands_in_a_form_that_comes_back(client):
    client.force_login(make_person())
    job = make_job()
    address = f"{reverse('step', args=['coil_power'])}?job={job.key}"
    page = client.post(address, typed(magnet="<perhaps>", volts="twelve")).content.decode()
    assert 'value="&lt;perhaps&gt;"' in page
    assert "&lt;perhaps&gt; (typed on an older or newer page)" in page


def test_a_correction_begins_with_an_answer_that_is_not_listed(client):
    client.force_login(make_person())
    job = make_job()
    step = step_of(tell(job, magnet="perhaps"))
    address = f"{reverse('step', args=['coil_power'])}?job={job.key}&corrects={step.key}"
    assert "perhaps (typed on an older or newer page)" in client.get(address).content.decode()


def test_text_that_is_no_number_still_comes_back():
    assert "is no number" in errors_of(tell(make_job(), magnet="perhaps", volts="x"))["volts"]


def test_what_was_typed_on_another_page_stands_in_the_row_beside_the_sentence_not_in_it():
    job = make_job()
    step = step_of(tell(job, magnet="Oswin", owner="Ida Marwell", not_done="as Runa said"))
    assert {mark["told"] for mark in step.marks} == {"Oswin", "Ida Marwell", "as Runa said"}
    stored = " ".join(mark["sentence"] for mark in step.marks)
    assert not [text for text in ("Oswin", "Marwell", "Runa") if text in stored]
    shown = " ".join(point.sentence for point in step_points([the_step()]))
    assert "“Oswin” is not among the answers" in shown
    assert "“owner” is not asked here; “Ida Marwell” is kept as typed" in shown
    assert "“as Runa said” is not among the answers" in shown


# Fields and versions.


def test_a_field_nobody_asks_here_is_kept_and_marked(tablet):
    assert send(tablet, make_job(), gap="0.6").status_code == 201
    step = the_step().step
    assert step.entry.fields["gap"] == ["0.6"]
    (mark,) = step.marks_said
    assert mark["code"] == "unknown_field"
    assert mark["sentence"] == (
        f"{OTHER_PAGE}“gap” is not asked here; “0.6” is kept as typed and used for nothing."
    )


def test_a_step_of_nothing_but_a_field_nobody_asks_here_is_kept():
    step_of(tell(make_job(), **BLANK, gap="0.6"))
    one = the_step()
    assert one.finding != ONLY_A_PHOTO
    assert [point.code for point in step_points([one])] == ["unknown_field"]


@pytest.mark.parametrize(
    ("field", "values", "words"),
    [
        ("hub", ["not_free", "free"], "“Hub turned by hand before?”: “Not free”, then “Free”"),
        ("volts", ["1.2", "12.4"], "“Voltage at the coil’s pins”: “1.2”, then “12.4”"),
        ("magnet", ["yes", "perhaps", "no"], "“Yes”, then “perhaps”, then “No”"),
        ("magnet", ["yes", ""], "“Yes”, then nothing"),
        ("seen", ["Smoke.", "None."], "“Smoke.”, then “None.”"),
        ("volts_unit", ["V", "mV"], "“volts_unit”: “V”, then “mV”"),
    ],
)
def test_two_values_told_for_one_field_both_stand_and_the_last_counts(field, values, words):
    step = step_of(tell(make_job(), engine="running", pushed=None, **{field: values}))
    (mark,) = [one for one in step.marks_said if one["code"] == "told_twice"]
    assert mark["field"] == field
    assert words in mark["sentence"]
    assert mark["sentence"].startswith("Told more than once: ")
    assert mark["sentence"].endswith("; the last counts.")
    assert step.entry.fields[field] == values
    if field == "hub":
        assert step.readings[field] == "free"
    stored = next(one for one in step.marks if one["code"] == "told_twice")["sentence"]
    assert not [text for text in ("Smoke", "perhaps", "12.4", "Not free") if text in stored]


def test_one_value_told_twice_over_is_no_news(tablet):
    step = step_of(tell(make_job(), magnet=["yes", "yes"]))
    assert step.marks == []


def test_a_step_whose_only_answer_was_taken_away_by_a_second_value_is_kept():
    told: dict[str, Any] = {**BLANK, "holds": ["yes", ""]}
    step_of(tell(make_job(), **told))
    one = the_step()
    assert one.finding != ONLY_A_PHOTO
    assert [point.code for point in step_points([one])] == ["told_twice"]


def test_a_newer_version_of_the_test_is_marked():
    newer = COIL_POWER.version + 1
    step = step_of(tell(make_job(), test_version=str(newer)))
    assert (step.kind_version, codes(step)) == (newer, ["newer"])
    assert step.marks_said[0]["sentence"] == (
        f"Typed on a newer page: it has this test in version {newer}, this program in"
        f" {COIL_POWER.version}."
    )


def test_a_newer_version_of_the_entry_is_marked(tablet):
    assert send(tablet, make_job(), version=ENTRY_VERSION + 1).status_code == 201
    step = the_step().step
    assert codes(step) == ["newer"]
    assert "has test steps in version" in step.marks_said[0]["sentence"]


def test_a_step_of_this_program_has_no_mark(tablet):
    assert send(tablet, make_job()).status_code == 201
    assert the_step().step.marks == []
