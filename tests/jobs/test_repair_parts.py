"""Several parts of one opening, the new part's gap, and what a part seller asks."""

import io
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from diagnostics.record.job import change_of
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import CarState, Change, Photo
from jobs.models.points import open_points
from tests.factories import make_job, make_person, make_told, said_of, tell

pytestmark = pytest.mark.django_db
COMPRESSOR: dict[str, Any] = {"what": "fitted", "part": "compressor", "source": "new"}
ALSO: dict[str, Any] = {"also": ["drier", "expansion_device", "seal"]}


def told(**fields: Any) -> Change:
    """A compressor that was fitted, with more told of it."""
    job = make_job()
    outcome = tell(CHANGE, job, **COMPRESSOR | fields)
    assert outcome.stands, outcome.form and outcome.form.errors
    return Change.objects.get(job=job)


def errors(**fields: Any) -> dict[str, str]:
    """The sentences by field when it comes back."""
    outcome = tell(CHANGE, make_job(), **COMPRESSOR | fields)
    assert outcome.form
    return {name: " ".join(map(str, texts)) for name, texts in outcome.form.errors.items()}


def test_the_parts_of_one_opening_are_one_entry_and_one_state_of_the_car():
    change = told(**ALSO)
    assert change.state.number == 1
    assert CarState.objects.filter(job=change.job).count() == 2
    assert [part.part for part in change.parts] == [
        *("compressor", "drier", "expansion_device", "seal"),
    ]
    assert change.state.what == (
        "Compressor: fitted or swapped, new; with it receiver-drier or accumulator, expansion"
        " device, seal or valve core"
    )


def test_a_state_bears_on_what_any_of_its_parts_touches():
    assert "heat" in told(also=["condenser"]).state.touches
    assert "heat" not in told(also=["drier"]).state.touches


def test_each_part_of_the_opening_may_have_its_number():
    change = told(**ALSO, number_drier="44-102", number_seal="")
    assert [part.number for part in change.parts] == ["", "44-102", "", ""]


def test_a_part_that_is_tapped_twice_stands_once():
    change = told(part="drier", also=["drier", "seal"])
    assert [part.part for part in change.parts] == ["drier", "seal"]


def test_without_a_first_part_the_first_of_the_others_stands_in_its_place():
    change = told(part="", also=["drier", "seal"])
    assert (change.part, [one["part"] for one in change.also]) == ("drier", ["seal"])


def test_the_same_part_of_another_branch_is_another_part():
    change = told(part="expansion_device", branch="rear", also=["expansion_device"])
    assert [(part.part, part.branch) for part in change.parts] == [
        ("expansion_device", "rear"),
        ("expansion_device", ""),
    ]
    assert change.words.startswith("Expansion device, rear: fitted")


def test_a_correction_begins_with_all_that_was_told(client):
    change = told(**ALSO, number_drier="44-102", gap_1="0.45", seller="Halm Parts", proof="R-77")
    client.force_login(make_person())
    address = f"{reverse('repair')}?job={change.job.key}&corrects={change.key}"
    said = client.get(address).content.decode()
    for value in ("44-102", "0.45 mm", "Halm Parts", "R-77"):
        assert f'value="{value}"' in said
    assert said.count('name="also"') > 3
    assert 'value="seal" checked' in said.replace(' id="id_also_2"', "")


def test_a_corrected_opening_has_the_parts_of_the_correction():
    change = told(**ALSO)
    again = COMPRESSOR | {"also": ["drier", "condenser"], "serial": "1"}
    assert enter(CHANGE, make_told(again, job_key=change.job.key, corrects=change.key)).stands
    state = CarState.objects.get(job=change.job, number=1)
    assert "condenser" in state.what
    assert "heat" in state.touches


def test_a_condenser_of_the_same_opening_waits_for_its_number_too():
    change = told(serial="0417", also=["condenser", "drier"])
    [point] = [one for one in open_points(change.job, [], [change]) if one.code == "serial"]
    assert point.sentence == "Condenser: serial number not noted yet"


# The gap of the new part.


def test_the_gap_of_the_new_part_is_kept_in_whole_micrometers():
    change = told(gap_1="0,45", gap_2="0.5", gap_3="0.018 in")
    assert change.gap_um == [450, 500, 457]
    assert change.gap_words == "0.45\xa0mm · 0.5\xa0mm · 0.457\xa0mm"


def test_a_gap_that_no_clutch_has_is_asked_about_and_stays_with_a_reason():
    assert "0.1 to 2 mm" in errors(gap_1="45")["gap_1"]
    change = told(gap_1="45", gap_1_why="as on the sheet", gap_2="0.45")
    assert change.gap_um == [450]
    assert "as on the sheet" in " ".join(said_of(change.entry))


@pytest.mark.parametrize("typed", ["wide", "0.45 kg", "0..45"])
def test_a_gap_that_is_no_length_comes_back(typed):
    assert errors(gap_1=typed)["gap_1"]


def test_a_gap_of_what_was_not_fitted_is_not_kept_as_one():
    job = make_job()
    assert tell(CHANGE, job, what="gap_set", gap_1="0.45").stands
    assert Change.objects.get().gap_um == []


# What a seller asks.


def test_what_a_seller_asks_stands_in_what_is_frozen():
    more = {"old_serial": "OLD-1", "old_part_number": "P-1", "seller": "Halm", "proof": "R-77"}
    frozen = change_of(told(**ALSO, **more, number_drier="44-102", gap_1="0.45"))
    for line in (
        "Receiver-drier or accumulator, number: 44-102",
        "Air gap of the new part, before it was fitted: 0.45\xa0mm",
        "Old part, serial number: OLD-1",
        "Bought from: Halm",
        "Proof of purchase: R-77",
    ):
        assert line in frozen["lines"]
    assert frozen["values"]["also"] == ["drier", "expansion_device", "seal"]


@pytest.mark.parametrize("serial", ["序列号 ٠٤١٧-Ж", "\u202e0417", "0417\n88"])
def test_a_serial_number_in_any_script_is_kept_on_one_line(serial):
    assert "\n" not in told(serial=serial).serial
    assert told(old_serial=serial).old_serial


def test_a_number_that_is_too_long_says_how_long_it_may_be():
    assert "61 characters; 60 fit" in errors(old_serial="9" * 61)["old_serial"]
    assert "61 characters; 60 fit" in errors(also=["drier"], number_drier="9" * 61)["number_drier"]


def picture(name: str, shade: int) -> SimpleUploadedFile:
    data = io.BytesIO()
    Image.new("L", (30, 20), shade).save(data, "JPEG")
    return SimpleUploadedFile(name, data.getvalue(), "image/jpeg")


def test_photos_of_the_old_and_the_new_part_are_filed_as_such(client):
    job = make_job()
    client.force_login(make_person())
    fields = COMPRESSOR | {"photo_old": picture("a.jpg", 9), "photo_new": picture("b.jpg", 99)}
    answer = client.post(f"{reverse('repair')}?job={job.key}", fields)
    assert answer.status_code == 302
    filed = [(one.about, one.place) for one in Photo.objects.order_by("about")]
    assert filed == [("new_part", "compressor"), ("old_part", "compressor")]


# Flushing what cannot be flushed.


@pytest.mark.parametrize("part", ["compressor", "drier", "expansion_device"])
def test_what_is_not_flushed_is_asked_about_and_stays_with_a_reason(part):
    asked = {"what": "flushed", "part": part, "source": ""}
    assert "are not flushed" in errors(**asked)["part"]
    assert told(**asked, part_why="rinsed only").what == "flushed"


def test_what_is_flushed_with_another_part_is_asked_about_too():
    asked = {"what": "flushed", "part": "hose", "source": "", "also": ["condenser", "drier"]}
    sentence = errors(**asked)["part"]
    assert "cannot be flushed reliably" in sentence
    assert "are not flushed" in sentence
