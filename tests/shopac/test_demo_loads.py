"""Loading the demo: after an interruption, and never into a real shop."""

import pytest
from django.core.management import CommandError, call_command

from jobs.models import Entry, Job
from shopac.management.commands import demo
from shopac.management.demo.photos import PHOTOS
from tests.factories import make_shop

pytestmark = pytest.mark.django_db
QUICK = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # hashing is slow on purpose


@pytest.fixture(autouse=True)
def quick_hashes(settings):
    """It is not what is tested here."""
    settings.PASSWORD_HASHERS = QUICK


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


def test_it_stays_out_of_a_real_shop():
    make_shop()
    with pytest.raises(CommandError, match="real shop"):
        call_command("demo")
    assert not Job.objects.exists()
