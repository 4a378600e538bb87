"""The epoch: by it tablets learn that a database went back in time."""

from importlib import import_module

import pytest
from django.apps import apps

from jobs.actions.epoch import begin
from jobs.models import Epoch
from jobs.models.epochs import current

pytestmark = pytest.mark.django_db
FIRST = import_module("jobs.migrations.0022_epoch")


@pytest.fixture(autouse=True)
def new_database(db) -> None:
    """As the migration leaves it: what ran before may have emptied the table."""
    Epoch.objects.all().delete()
    FIRST.begin_first(apps, None)


def test_a_new_database_has_its_first_epoch():
    assert current() == Epoch.objects.get()


def test_a_new_epoch_holds_from_then_on_and_the_one_before_stays_to_be_read():
    before = Epoch.objects.get()
    begun = begin("Restored from a backup.")
    assert current() == begun
    assert begun.key != before.key
    assert list(Epoch.objects.all()) == [before, begun]
