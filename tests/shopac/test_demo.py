"""What the demo's shop shows, loaded through the door once."""

import io

import pytest
from django.core.management import CommandError, call_command
from django.db import transaction
from django.test import override_settings
from django.utils import timezone

from diagnostics.models import Decision
from jobs.models import (
    Cylinder,
    Entry,
    Equipment,
    Job,
    Move,
    Person,
    Qualification,
    Shop,
)
from jobs.models.amounts import held
from jobs.paper.shelf import data_of, file_of
from jobs.pins import try_password, try_pin
from shopac.management.demo import photos as demo_photos
from shopac.management.demo import story as demo_story
from shopac.management.demo.photos import PHOTOS
from shopac.management.demo.told import FIRST_OWNER, key_of

pytestmark = pytest.mark.django_db
MADE_FIRST = ("person", "shop")
QUICK = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # hashing is slow on purpose


@pytest.fixture(scope="module")
def loaded(django_db_setup, django_db_blocker):
    """What the demo printed, loaded once for all tests here; taken back when they are through."""
    quick = override_settings(PASSWORD_HASHERS=QUICK)
    printed = io.StringIO()
    with django_db_blocker.unblock(), quick, transaction.atomic():
        call_command("demo", stdout=printed)
        yield printed.getvalue()
        transaction.set_rollback(True)


def job_of(plate: str) -> Job:
    return Job.objects.filter(vehicle__plate=plate).latest("id")


def test_every_stage_drive_and_closing_kind_of_its_story_is_there(loaded):
    jobs = list(Job.objects.select_related("vehicle__system"))
    assert len(jobs) >= 24
    assert {job.stage for job in jobs} >= {"intake", "testing", "deciding", "repairing", "closed"}
    drives = {job.vehicle.system.drive for job in jobs}
    assert drives >= {"belt_clutch", "belt_clutchless", "electric_hv"}
    assert {job.closing_kind for job in jobs if job.stage == "closed"} >= {
        *("repaired_verified", "repaired_not_verifiable", "tested_only", "declined", "refused"),
        *("not_reproduced", "as_designed", "released_unfinished"),
    }
    assert all(job.key == job.entry.key for job in jobs)


def test_the_story_told_in_full_ends_with_a_record_and_every_gram_accounted_for(loaded):
    job = job_of("RW.5126C")
    record = job.records.get()
    assert file_of(record).startswith(b"%PDF")
    assert data_of(record)["record"]["issue"] == 1
    told = {move.from_place: move.amount for move in job.moves.filter(substance="refrigerant")}
    assert told == {"car": 410_000, "cylinder": 650_000}
    assert job.closing_kind == "repaired_verified"
    assert job.invoices.count() == job.estimates.count() == 1


def test_in_the_story_the_compressor_was_chosen_and_clutch_parts_stood_beside_it(loaded):
    decided = Decision.objects.get(job=job_of("RW.5126C"))
    chosen = next(one for one in decided.offered if one["chosen"])
    assert chosen["code"] == decided.plan == "compressor_device"
    assert any("clutch" in one["code"] and one["total"] for one in decided.offered)


@pytest.mark.parametrize(
    ("plate", "kind"),
    [
        ("NB.7720L", "recovered_share"),
        ("CV.9017P", "coil_resistance"),
        ("SL.2264M", "air_gap"),
        ("LD.6650C", "hub_turn"),
        ("WE.3907B", "feed_voltage"),
        ("JT.8241R", "sealant_test"),
    ],
)
def test_a_car_that_stops_one_tap_before_the_point_has_a_note_that_names_the_test(
    loaded, plate, kind
):
    assert job_of(plate).handovers.latest("id").next_test == kind


def test_what_the_cylinders_hold_is_what_went_in_and_came_out(loaded):
    moves = list(Move.objects.filter(substance="refrigerant"))
    for cylinder in Cylinder.objects.all():
        into = sum(one.amount for one in moves if one.to_cylinder_id == cylinder.pk)
        out = sum(one.amount for one in moves if one.from_cylinder_id == cylinder.pk)
        assert held(moves)[cylinder.pk] == into - out >= 0


def test_on_one_car_prices_were_typed_and_it_was_decided(loaded):
    decided = Decision.objects.get(job=job_of("QD.3358T"))
    chosen = next(one for one in decided.offered if one["chosen"])
    assert chosen["total"]
    assert any(one["total"] and not one["chosen"] for one in decided.offered)


def test_one_car_was_here_before_and_comes_back_with_the_same_trouble(loaded):
    last = job_of("MV.2864H")
    assert last.follows
    assert last.follows.vehicle == last.vehicle
    assert last.follows.stage == "closed"
    apart = (last.opened_at - last.follows.opened_at).days
    assert apart < (Shop.objects.get().comeback_days or 0)


def test_no_car_stands_on_the_board_twice_and_numbers_are_in_the_order_of_the_visits(loaded):
    still_open = [job.vehicle_id for job in Job.objects.exclude(stage="closed")]
    assert len(still_open) == len(set(still_open))
    first, *_ = Job.objects.order_by("number")
    assert first == Job.objects.order_by("opened_at").first()


def test_shop_and_people_are_entries_of_the_first_owner(loaded):
    made = Entry.objects.filter(kind__in=MADE_FIRST).order_by("pk")
    assert [(entry.kind, entry.author.name) for entry in made] == [
        *[("person", FIRST_OWNER)] * (len(demo_story.PEOPLE) - 1),
        ("shop", FIRST_OWNER),
    ]
    assert {person.key for person in Person.objects.all()} - {entry.key for entry in made} == {
        key_of(FIRST_OWNER)
    }


def test_one_card_ran_out_and_one_check_is_due(loaded):
    today = timezone.localdate()
    over = [one for one in Qualification.objects.all() if not one.valid_on(today)]
    assert [one.person.name for one in over] == ["E. Quist"]
    due = [one.name for one in Equipment.objects.all() if one.overdue_on(today)]
    assert due == ["Gauge set 1"]


def test_it_names_no_real_plate_and_no_real_shop(loaded):
    plates = Job.objects.values_list("vehicle__plate", flat=True)
    assert all(plate[2] == "." and plate[3:7].isdigit() and plate[7:].isalpha() for plate in plates)


# ---- loaded once more ---------------------------------------------------------------------------


def test_the_sign_ins_it_prints_are_right(loaded):
    for name, _, pin, password in demo_story.PEOPLE:
        person = Person.objects.get(name=name)
        assert f"{name}: {person.role_words}, PIN {pin}" in loaded
        assert try_pin(person.key, pin).person == person
        if password:
            assert f"password: {password}" in loaded
            assert try_password(name, password).person == person


def test_a_second_time_it_only_prints_the_sign_ins(loaded):
    before = Entry.objects.count()
    printed = io.StringIO()
    call_command("demo", stdout=printed)
    assert Entry.objects.count() == before
    assert printed.getvalue() == loaded


def test_a_folder_whose_people_were_made_without_entries_stays_as_it_is(loaded):
    Entry.objects.filter(kind__in=MADE_FIRST).delete()
    call_command("demo")
    assert not Entry.objects.filter(kind__in=MADE_FIRST).exists()


def test_a_photo_that_is_not_taken_is_told_not_passed_over(loaded, monkeypatch):
    _, job, who, hours_ago, what, _ = PHOTOS[0]
    nowhere = ("photo nowhere", job, who, hours_ago, what, ("nowhere", "arrived", ""))
    monkeypatch.setattr(demo_photos, "PHOTOS", (nowhere,))
    with pytest.raises(CommandError, match="photo nowhere"):
        call_command("demo")
