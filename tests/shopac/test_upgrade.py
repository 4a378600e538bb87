"""A shop that is updated, or brought back, while tablets still keep entries of before."""

import json
import shutil
import uuid
from dataclasses import replace
from pathlib import Path

import pytest
from django.core import signing
from django.utils import timezone

from jobs.models import Entry, Job
from shopac import door
from tests.factories import make_job, make_person, make_shop
from tests.shopac import small_shop
from tests.shopac.tablet import Tablet

# As tablets of that release keep them. Never changed: a later release adds a file of its own.
KEPT = json.loads((Path(__file__).parent / "kept_entries.json").read_text())
# A pass as that release signed it.
PASS_SALT = "shopac.pass"


def pass_of(person, tablet):
    told = {"person": str(person.key), "tablet": str(tablet), "at": timezone.now().isoformat()}
    return signing.dumps(told, salt=PASS_SALT)


@pytest.mark.django_db
def test_what_a_tablet_of_the_first_release_keeps_is_taken():
    make_shop()
    tablet = Tablet(make_person("owner"))
    signed = pass_of(tablet.author, tablet.key)
    job = str(uuid.uuid4())
    for number, one in enumerate(KEPT["entries"]):
        key = job if one.get("opens") else str(uuid.uuid4())
        said = {"kind": one["kind"], "version": one["version"], "fields": one["fields"]}
        answer = tablet.send(**said, key=key, job=job, sequence=number, **{"pass": signed})
        assert (answer.status_code, answer.json()["state"]) == (201, "accepted"), answer.content
    assert Entry.objects.filter(job_key=job).count() == len(KEPT["entries"])
    assert Job.objects.get(key=job).vehicle.plate == KEPT["entries"][0]["fields"]["plate"][0]


@pytest.mark.django_db
def test_a_kind_that_has_a_newer_version_takes_the_one_before(monkeypatch):
    """The number says which form was filled; it is kept with the entry and turns nothing away."""
    make_shop()
    job = make_job()
    newer = replace(door.ENTRIES["failing_now"], version=2)
    monkeypatch.setitem(door.ENTRIES, "failing_now", newer)
    tablet = Tablet(make_person("technician"))
    said = {"kind": "failing_now", "version": 1, "fields": {"failing": ["yes"]}}
    answer = tablet.send(**said, job=str(job.key))
    assert answer.status_code == 201
    key = answer.json()["key"]
    assert Entry.objects.get(key=key).version == 1
    assert Entry.objects.get(key=key).fingerprint == answer.json()["fingerprint"]


SEND = """
import json, sys
import django
django.setup()
from django.test import Client
told = json.loads(sys.argv[1])
browser = Client(HTTP_HOST="127.0.0.1")
browser.cookies["shopac_tablet"] = told["cookie"]
answer = browser.post("/entries/", told["body"], content_type="application/json")
print(answer.status_code, answer.json()["state"])
"""
KEEP = """
import json, uuid
import django
django.setup()
from django.utils import timezone
from jobs.models import Job, Person
from jobs.passes import make_pass, tablet_token
tablet = uuid.uuid4()
body = {
    "key": str(uuid.uuid4()), "kind": "failing_now", "version": 1,
    "job": str(Job.objects.first().key), "fields": {"failing": ["yes"]},
    "typed_at": timezone.now().isoformat(), "sequence": 1,
    "pass": make_pass(Person.objects.get(name="R. Sand"), tablet),
}
print(json.dumps({"cookie": tablet_token(tablet), "body": json.dumps(body)}))
"""


def send(folder, kept):
    """What the door of a shop with this folder answers, in a process of its own."""
    done = small_shop.run(folder, "-c", SEND, kept)
    assert not done.returncode, done.stderr
    return done.stdout.strip()


@pytest.mark.sqlite
def test_an_entry_kept_before_an_update_or_a_restore_arrives_once_after_it(tmp_path):
    """The pass is signed with a key that comes back with the backup; nothing else could read it."""
    shop = small_shop.make(tmp_path / "data")
    backup = tmp_path / "backup.zip"
    assert not small_shop.manage(shop, "backup", str(backup)).returncode
    kept = small_shop.run(shop, "-c", KEEP).stdout

    # A release before: one change of the tables waits.
    assert not small_shop.manage(shop, "migrate", "sessions", "zero").returncode
    done = small_shop.run(shop, "-m", "shopac.prepare", "http://127.0.0.1:8000/", "--empty")
    assert "Backed up the database" in done.stderr
    assert send(shop, kept) == "201 accepted"
    assert send(shop, kept) == "200 again"

    # The disk broke: another folder, from the backup of before.
    shutil.rmtree(shop)
    other = tmp_path / "other"
    assert not small_shop.manage(other, "restore", str(backup)).returncode
    assert send(other, kept) == "201 accepted"
    assert send(other, kept) == "200 again"
