"""The demo: loaded through the door, once, and never into a real shop."""

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from diagnostics.models import Decision, Step
from jobs.models import Entry, Equipment, Job, Person, Qualification, Record, Shop
from jobs.paper.shelf import data_of, file_of
from jobs.pins import try_password, try_pin
from shopac.management.commands import demo
from shopac.management.demo import photos as demo_photos
from shopac.management.demo import story as demo_story
from shopac.management.demo.photos import PHOTOS
from shopac.management.demo.told import FIRST_OWNER, key_of
from tests.factories import make_shop

pytestmark = pytest.mark.django_db
MADE_FIRST = ("person", "shop")


@pytest.fixture(autouse=True)
def quick_hashes(settings):
    """Hashing is slow on purpose; here it is not what is tested."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


def test_it_takes_its_cars_in_through_the_door():
    call_command("demo")
    assert Shop.objects.get().demo
    plates = [job.vehicle.plate for job in Job.objects.order_by("id")]
    assert plates == [
        *("MV.2864H", "KX.4731D", "PW.5504K", "AB.1295N"),
        *("QD.3358T", "MV.2864H", "RM.2086C"),
    ]
    assert all(job.key == job.entry.key for job in Job.objects.all())


def test_two_cars_have_a_step_and_one_a_frozen_record():
    call_command("demo")
    coils = Step.objects.filter(kind="coil_power").order_by("pk")
    tested = coils.values_list("job__vehicle__plate", "kind")
    assert list(tested[:2]) == [("KX.4731D", "coil_power"), ("PW.5504K", "coil_power")]
    record = Record.objects.get()
    assert record.job.vehicle.plate == "KX.4731D"
    assert data_of(record)["record"]["issue"] == 1
    assert file_of(record).startswith(b"%PDF")


def test_on_one_car_prices_were_typed_and_it_was_decided():
    call_command("demo")
    decided = Decision.objects.get()
    assert decided.job.vehicle.plate == "QD.3358T"
    chosen = next(one for one in decided.offered if one["chosen"])
    assert chosen["total"]
    assert any(one["total"] and not one["chosen"] for one in decided.offered)


def test_one_car_was_here_before_and_comes_back_with_the_same_trouble():
    call_command("demo")
    last = Job.objects.exclude(follows=None).get()
    assert last.follows
    assert last.follows.vehicle == last.vehicle
    assert last.follows.stage == "closed"
    apart = (last.opened_at - last.follows.opened_at).days
    assert apart < (Shop.objects.get().comeback_days or 0)


def test_no_car_stands_on_the_board_twice_and_numbers_are_in_the_order_of_the_visits():
    call_command("demo")
    still_open = [job.vehicle_id for job in Job.objects.exclude(stage="closed")]
    assert len(still_open) == len(set(still_open))
    first, *_ = Job.objects.order_by("number")
    assert first == Job.objects.order_by("opened_at").first()


def test_shop_and_people_are_entries_of_the_first_owner():
    call_command("demo")
    made = Entry.objects.filter(kind__in=MADE_FIRST).order_by("pk")
    assert [(entry.kind, entry.author.name) for entry in made] == [
        *[("person", FIRST_OWNER)] * (len(demo_story.PEOPLE) - 1),
        ("shop", FIRST_OWNER),
    ]
    assert {person.key for person in Person.objects.all()} - {entry.key for entry in made} == {
        key_of(FIRST_OWNER)
    }


def test_a_folder_whose_people_were_made_without_entries_stays_as_it_is():
    call_command("demo")
    Entry.objects.filter(kind__in=MADE_FIRST).delete()
    call_command("demo")
    assert not Entry.objects.filter(kind__in=MADE_FIRST).exists()


def test_one_card_ran_out_and_one_check_is_due():
    call_command("demo")
    today = timezone.localdate()
    over = [one for one in Qualification.objects.all() if not one.valid_on(today)]
    assert [one.person.name for one in over] == ["E. Quist"]
    due = [one.name for one in Equipment.objects.all() if one.overdue_on(today)]
    assert due == ["Gauge set 1"]


def test_the_sign_ins_it_prints_are_right(capsys):
    call_command("demo")
    printed = capsys.readouterr().out
    for name, _, pin, password in demo_story.PEOPLE:
        person = Person.objects.get(name=name)
        assert f"{name}: {person.role_words}, PIN {pin}" in printed
        assert try_pin(person.key, pin).person == person
        if password:
            assert f"password: {password}" in printed
            assert try_password(name, password).person == person


def test_a_second_time_it_only_prints_the_sign_ins(capsys):
    call_command("demo")
    before = Entry.objects.count()
    first = capsys.readouterr().out
    call_command("demo")
    assert Entry.objects.count() == before
    assert capsys.readouterr().out == first


def test_one_that_was_interrupted_goes_on_where_it_stopped(monkeypatch):
    with monkeypatch.context() as interrupted:
        interrupted.setattr(demo, "STORY", demo.STORY[:2])
        interrupted.setattr(demo, "photos", lambda: ())
        call_command("demo")
    call_command("demo")
    assert Entry.objects.exclude(job_key=None).count() == len(demo.STORY) + len(PHOTOS)


def test_a_photo_that_is_not_taken_is_told_not_passed_over(monkeypatch):
    name, job, who, hours_ago, what, _ = PHOTOS[0]
    nowhere = (name, job, who, hours_ago, what, ("nowhere", "arrived", ""))
    monkeypatch.setattr(demo_photos, "PHOTOS", (nowhere,))
    with pytest.raises(CommandError, match=name):
        call_command("demo")


def test_it_stays_out_of_a_real_shop():
    make_shop()
    with pytest.raises(CommandError, match="real shop"):
        call_command("demo")
    assert not Job.objects.exists()


def test_it_names_no_real_plate_and_no_real_shop():
    call_command("demo")
    plates = Job.objects.values_list("vehicle__plate", flat=True)
    assert all(plate[2] == "." and plate[3:7].isdigit() and plate[7:].isalpha() for plate in plates)
