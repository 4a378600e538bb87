"""The A/C of a job's car, looked at later."""

import uuid

import pytest
from django.urls import reverse

from diagnostics.assess import system_of
from diagnostics.evidence.system import System
from jobs.entries import SYSTEM
from jobs.models import Entry, Job
from jobs.models.points import open_points
from jobs.models.vehicles import DRIVES
from tests.factories import LEAST, make_job, make_person, said_of, tell

pytestmark = pytest.mark.django_db


def test_the_system_looked_at_later_keeps_what_was_known():
    job = make_job(drive=None)
    tell(SYSTEM, job, drive="belt_clutch", label_charge="1,1 lb")
    system = Job.objects.select_related("vehicle__system").get().vehicle.system
    assert (system.drive, system.refrigerant) == ("belt_clutch", "R-134a")
    assert system.label_charge_mg == 498_952  # 1.1 lb x 453 592.37 mg
    mark = said_of(Entry.objects.get(kind="system"))
    assert mark == ["Label charge changed; before: 520\u00a0g\u00a0(18.3\u00a0oz)."]


def test_the_page_is_filled_with_what_is_known(client):
    job = make_job()
    client.force_login(make_person())
    page = client.get(f"{reverse('system')}?job={job.key}").content.decode()
    assert 'value="520"' in page
    assert page.count("checked") == 8  # drive, displacement, voltage, side, gas, g, label, front


def test_the_page_is_for_signed_in_people(client):
    job = make_job()
    assert client.get(f"{reverse('system')}?job={job.key}").status_code == 302


def test_the_page_posts_without_script(client):
    job = make_job(**LEAST)
    client.force_login(make_person())
    fields = {"drive": "belt_clutch", "key": str(uuid.uuid4())}
    response = client.post(f"{reverse('system')}?job={job.key}", fields)
    assert response["Location"] == f"/job/?job={job.key}"
    assert Entry.objects.filter(kind="system", job_key=job.key).count() == 1
    assert client.cookies["shopac_taken"].value == fields["key"]  # the draft of it can go


def coil_of(job: Job) -> tuple[int | None, str | None]:
    system = Job.objects.get(pk=job.pk).vehicle.system
    return system.coil_milliohm, system.sources.get("coil_milliohm")


def test_the_coils_own_figure_is_kept_in_whole_milliohm_with_where_it_was_read():
    job = make_job()
    tell(SYSTEM, job, coil="3,65 Ω", coil_source="workshop_data")
    assert coil_of(job) == (3650, "workshop_data")


def test_a_figure_no_coil_has_asks_before_it_is_kept():
    outcome = tell(SYSTEM, make_job(), coil="365")
    assert outcome.form
    assert "1 to 40" in outcome.form.errors["coil"][0]


def test_a_figure_no_coil_has_is_kept_in_words_only_and_feeds_no_computation():
    job = make_job()
    tell(SYSTEM, job, coil="365", coil_why="so it says")
    assert coil_of(job)[0] is None
    assert "so it says" in said_of(Entry.objects.get(kind="system"))[0]


@pytest.mark.parametrize("typed", ["three", "3.6 V", "3,6,5"])
def test_a_coil_figure_that_is_no_number_of_ohms_is_said_at_the_field(typed):
    outcome = tell(SYSTEM, make_job(), coil=typed)
    assert outcome.form
    assert list(outcome.form.errors) == ["coil"]


def test_a_wrong_label_charge_is_taken_out_by_a_dash_and_its_source_with_it():
    job = make_job()
    assert tell(SYSTEM, job, label_charge="–", label_charge_unit="g", label_charge_source="label")
    system = Job.objects.get().vehicle.system
    assert (system.label_charge_mg, system.sources) == (None, {})
    [mark] = said_of(Entry.objects.get(kind="system"))
    assert mark == "Label charge not known; before: 520\u00a0g\u00a0(18.3\u00a0oz)."


def test_a_wrong_tap_is_taken_out_by_tapping_not_known():
    job = make_job()
    assert tell(SYSTEM, job, drive="-", branches=["-"]).stands
    system = Job.objects.get().vehicle.system
    assert (system.drive, system.branches, system.voltage) == ("", [], "12")
    assert said_of(Entry.objects.get(kind="system")) == [
        "Compressor drive not known; before: Belt with magnetic clutch.",
        "Branches not known; before: Front.",
    ]


def test_not_known_beside_a_branch_asks_which_it_is():
    outcome = tell(SYSTEM, make_job(), branches=["-", "front"])
    assert outcome.form
    assert "Untick" in outcome.form.errors["branches"][0]


def system_points(job: Job) -> str:
    return " ".join(one.sentence for one in open_points(job, []) if one.page == "system")


def test_belt_and_electric_asks_whether_there_is_a_magnetic_clutch_before_which_side_is_switched():
    job = make_job(drive="belt_electric", switched_side=None)
    assert "magnetic clutch" in system_points(job)
    assert "switched side" not in system_points(job)
    tell(SYSTEM, job, clutch="magnetic")
    job = Job.objects.select_related("customer", "vehicle__system").get()
    assert system_points(job) == "Not noted yet: switched side"
    assert system_of(job.vehicle.system)["clutch"] == "magnetic"


@pytest.mark.parametrize("drive", [*sorted(DRIVES.keys() - {"belt_electric"}), None])
def test_no_other_drive_is_asked_for_a_clutch_and_none_keeps_the_answer_of_another(drive):
    job = make_job(drive=drive, clutch="none")
    assert "magnetic" not in system_points(job)
    assert system_of(job.vehicle.system)["clutch"] == ""


def gap_of(job: Job) -> tuple[int | None, int | None, str | None]:
    system = Job.objects.get(pk=job.pk).vehicle.system
    return system.gap_low_um, system.gap_high_um, system.sources.get("gap")


LIMITS = {"gap_low": "0.35", "gap_high": "0,65", "gap_source": "workshop_data"}


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        (LIMITS, (350, 650)),
        # 0.014 in x 25.4 mm = 0.3556 mm, 0.026 in = 0.6604 mm
        ({"gap_low": "0.014", "gap_high": "0.026", "gap_unit": "in"}, (356, 660)),
        ({"gap_low": "0.014 in", "gap_high": "0.65 mm"}, (356, 650)),
    ],
)
def test_the_gaps_own_limits_are_kept_in_whole_micrometers(typed, kept):
    job = make_job()
    tell(SYSTEM, job, **LIMITS | typed)
    assert gap_of(job) == (*kept, "workshop_data")


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"gap_low": "0.35"}, "gap_low", "type the smallest and the largest"),
        ({"gap_high": "0.65"}, "gap_high", "type the smallest and the largest"),
        ({"gap_low": "0.65", "gap_high": "0.35"}, "gap_high", "not above the smallest"),
        ({"gap_low": "0.014", "gap_high": "0.5"}, "gap_low", "0.1 to 2 mm"),  # inches, untapped
        ({"gap_low": "0.35", "gap_high": "0.65", "gap_unit": "in"}, "gap_low", "0.1 to 2 mm"),
    ],
)
def test_limits_no_gap_has_ask_and_are_kept_in_words_only(typed, field, sentence):
    outcome = tell(SYSTEM, make_job(), **typed)
    assert outcome.form
    assert sentence in outcome.form.errors[field][0]
    job = make_job()
    whys = {f"{name}_why": "so it says" for name in ("gap_low", "gap_high")}
    assert tell(SYSTEM, job, **typed, **whys).stands
    assert gap_of(job)[:2] == (None, None)
    assert any("so it says" in said for said in said_of(Entry.objects.filter(kind="system").get()))


@pytest.mark.parametrize("typed", ["half", "0.5 V", "0,3,5"])
def test_a_limit_of_the_gap_that_is_no_length_is_said_at_the_field(typed):
    outcome = tell(SYSTEM, make_job(), gap_low=typed, gap_high="0.65")
    assert outcome.form
    assert list(outcome.form.errors) == ["gap_low"]


@pytest.mark.parametrize(
    "typed", [{"gap_low": "-", "gap_high": "–"}, {"gap_low": "–"}, {"gap_high": "–"}]
)
def test_limits_of_the_gap_are_taken_out_together_by_a_dash(typed):
    job = make_job()
    tell(SYSTEM, job, **LIMITS)
    assert tell(SYSTEM, job, **typed).stands
    assert gap_of(job) == (None, None, None)
    assert said_of(Entry.objects.filter(kind="system").latest("id")) == [
        "Air gap, smallest allowed not known; before: 0.35\u00a0mm.",
        "Air gap, largest allowed not known; before: 0.65\u00a0mm.",
    ]


def test_the_page_shows_the_limits_of_the_gap(client):
    job = make_job()
    tell(SYSTEM, job, **LIMITS)
    client.force_login(make_person())
    page = client.get(f"{reverse('system')}?job={job.key}").content.decode()
    assert 'value="0.35"' in page
    assert 'value="0.65"' in page


def test_a_kind_of_test_sees_the_gaps_limits_with_where_they_were_read():
    job = make_job()
    tell(SYSTEM, job, **LIMITS)
    system = system_of(Job.objects.get(pk=job.pk).vehicle.system)
    assert (system["gap_low_m"], system["gap_high_m"]) == (0.00035, 0.00065)
    assert system["gap_source"] == "workshop data"


def test_kinds_of_test_are_read_against_nothing_that_no_page_takes():
    job = make_job()
    tell(SYSTEM, job, **LIMITS, coil="3.6", coil_source="workshop_data")
    system = system_of(Job.objects.get(pk=job.pk).vehicle.system)
    assert system.keys() == System.__annotations__.keys()
