"""Loading the demo: again, after an interruption, and never into a real shop."""

import pytest
from django.core.management import CommandError, call_command

from jobs.models import (
    Entry,
    Job,
    Person,
)
from jobs.pins import try_password, try_pin
from shopac.management.commands import demo
from shopac.management.demo import photos as demo_photos
from shopac.management.demo import story as demo_story
from shopac.management.demo.photos import PHOTOS
from tests.factories import make_shop

pytestmark = pytest.mark.django_db
MADE_FIRST = ("person", "shop")
QUICK = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # hashing is slow on purpose


@pytest.fixture(autouse=True)
def quick_hashes(settings):
    """It is not what is tested here."""
    settings.PASSWORD_HASHERS = QUICK


def test_a_folder_whose_people_were_made_without_entries_stays_as_it_is():
    call_command("demo")
    Entry.objects.filter(kind__in=MADE_FIRST).delete()
    call_command("demo")
    assert not Entry.objects.filter(kind__in=MADE_FIRST).exists()


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
    on_jobs = [line for line in demo.STORY if line[4]]
    papers = 1  # the record of the story told in full
    told = Entry.objects.exclude(job_key=None).count()
    assert told == len(on_jobs) + len(PHOTOS) + papers


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
