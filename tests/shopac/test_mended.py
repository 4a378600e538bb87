"""What a tablet tells of who mended an entry there after it was first told."""

from datetime import timedelta

import pytest
from django.utils import timezone

from jobs.models import Entry
from jobs.passes import make_pass
from tests.factories import make_person, make_shop
from tests.shopac.tablet import Tablet

pytestmark = pytest.mark.django_db


@pytest.fixture
def tablet(db) -> Tablet:
    make_shop()
    return Tablet()


def told_mended(tablet, minutes: float, by: str) -> list[dict[str, str]]:
    """The marks of an intake told an hour ago, and mended so many minutes after that."""
    typed_at = timezone.now() - timedelta(hours=1)
    mended = {"pass": by, "at": (typed_at + timedelta(minutes=minutes)).isoformat()}
    said = tablet.said(typed_at=typed_at.isoformat(), mended=[mended])
    assert tablet.send(said).status_code == 201
    entry = Entry.objects.get(key=said["key"])
    assert entry.typed_at == typed_at
    return [mark for mark in entry.marks if mark["code"] == "mended"]


def test_what_its_author_set_right_within_ten_minutes_is_no_mark(tablet):
    own = make_pass(tablet.author, tablet.key)
    assert told_mended(tablet, 9, own) == []
    assert len(told_mended(tablet, 11, own)) == 1


def test_a_mark_names_who_mended_an_entry_and_nobody_under_a_forged_pass(tablet):
    other = make_person(name="E. Quist-Other")
    assert [one["person"] for one in told_mended(tablet, 1, make_pass(other, tablet.key))] == [
        str(other.key)
    ]
    assert [one["person"] for one in told_mended(tablet, 1, "forged")] == [""]


@pytest.mark.parametrize("mended", [7, "x", [7], [{}], [{"at": "x"}], {"at": "x"}])
def test_who_mended_an_entry_must_be_readable(tablet, mended):
    assert tablet.send(mended=mended).status_code == 400
    assert not Entry.objects.exists()
