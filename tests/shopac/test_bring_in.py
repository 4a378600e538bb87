"""An owner brings in a file of entries that a tablet saved: through the same door, once, or not."""

import json
import uuid
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

from jobs.models import Entry, Job, Person, Photo
from jobs.models import Tablet as Row
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import make_pass
from tests.factories import make_person, make_shop, said_of
from tests.shopac.kept_files import PICTURE, file_of, parts_of, print_of, saved, sealed
from tests.shopac.tablet import FIELDS, Tablet

pytestmark = pytest.mark.django_db
CHANGED_SINCE = "It is not as a tablet of this shop saved it: changed since, or made elsewhere."


@pytest.fixture
def owner() -> Person:
    make_shop()
    return make_person(OWNER, name="T. Okafor")


@pytest.fixture
def desk(owner) -> Client:
    """The owner's browser."""
    browser = Client()
    browser.force_login(owner)
    return browser


@pytest.fixture
def tablet(owner) -> Tablet:
    """A tablet that the owner has revoked."""
    found = Tablet()
    Row.objects.create(key=found.key, revoked_by=owner, revoked_at=timezone.now())
    return found


def bring(browser: Client, *entries: dict[str, Any], **more: str) -> str:
    """What the page says to a file with these entries."""
    response = browser.post("/bring_in/", {"file": file_of(*entries), **more})
    assert response.status_code == 200, response.content.decode()
    return response.content.decode().replace("&#x27;", "'")


def refused(browser: Client, said: dict[str, Any], why: str, **more: str) -> None:
    """The entry is not taken, the page says why, and nothing is stored."""
    page = bring(browser, said, **more)
    assert "0 on the shop server, 1 not taken" in page
    assert why in page, page
    assert not Entry.objects.exists()


# What comes in.


def test_an_entry_of_a_revoked_tablet_comes_in_under_its_key_and_its_authors_name(
    desk, owner, tablet
):
    said = saved(tablet)
    assert tablet.send({**said, "pass": make_pass(tablet.author, tablet.key)}).status_code == 401
    assert "1 on the shop server" in bring(desk, said)
    entry = Entry.objects.get()
    assert (str(entry.key), entry.fingerprint) == (said["key"], said["fingerprint"])
    assert (entry.author, entry.sender, entry.tablet) == (tablet.author, owner, tablet.key)
    [mark] = said_of(entry)
    assert mark.startswith("Brought in from a file that was saved on the tablet, by T. Okafor, ")
    assert Job.objects.get().key == entry.key


def test_brought_in_twice_it_gets_the_same_answer_and_is_there_once(desk, tablet):
    said = saved(tablet)
    first, second = bring(desk, said), bring(desk, said)
    assert first.partition("</ul>")[0].rpartition("<ul")[2] in second
    assert Entry.objects.count() == 1


def test_what_the_tablet_had_sent_already_is_told_with_when_that_was(desk, owner):
    sent = Tablet()
    said = sent.said()
    assert sent.send(said).status_code == 201
    kept = saved(sent, **{name: said[name] for name in ("key", "job", "fields", "typed_at")})
    assert "<strong>On the shop server</strong> since" in bring(desk, kept)
    assert Entry.objects.get().marks == []


def test_photos_come_in_whole(desk, tablet):
    bring(desk, saved(tablet, photo=PICTURE))
    photo = Photo.objects.get()
    assert photo.sent_bytes == len(PICTURE)


def test_entries_come_in_in_the_order_in_which_they_were_kept(desk, tablet):
    first = saved(tablet, sequence=1)
    later = saved(
        tablet, kind="failing_now", job=first["key"], sequence=2, fields={"failing": ["yes"]}
    )
    assert "2 on the shop server" in bring(desk, later, first)
    assert [one.kind for one in Entry.objects.order_by("id")] == ["intake", "failing_now"]


def test_what_nobody_signed_for_keeps_its_place_among_the_others_of_its_file(desk, tablet):
    first = saved(tablet, sequence=1)
    nameless = {"tablet": "", "pass_head": "", "seal": "", "author": ""}
    fields = {"failing": ["yes"]}
    more = {"kind": "failing_now", "job": first["key"], "fields": fields}
    later = saved(tablet, **more, sequence=2) | nameless
    bring(desk, first, later, own="1")
    told = list(Entry.objects.order_by("id").values_list("sequence", flat=True))
    assert told == [1, 2]


def test_what_one_tablet_recorded_on_a_car_that_another_took_in_comes_in_with_it(desk, owner):
    first, second = sorted((Tablet(), Tablet()), key=lambda one: str(one.key))
    car = saved(second)
    told = saved(first, kind="failing_now", job=car["key"], fields={"failing": ["yes"]})
    page = bring(desk, told)
    assert "Bring in what the tablet saved where the car was taken in" in page
    assert "2 on the shop server" in bring(desk, told, car)


def test_one_entry_that_is_not_taken_keeps_no_other_out(desk, tablet):
    good, bad = saved(tablet), saved(tablet) | {"fingerprint": "0" * 64}
    page = bring(desk, bad, good)
    assert "1 on the shop server, 1 not taken" in page
    assert str(Entry.objects.get().key) == good["key"]


def test_who_mended_it_on_the_tablet_stays_known(desk, tablet):
    other = make_person(TECHNICIAN, name="R. Sand")
    said = saved(tablet)
    at, signed = timezone.now().isoformat(), make_pass(other, tablet.key)
    mending = {"at": at, "clock_offset_ms": 0, "pass_head": signed.rpartition(":")[0]}
    forged = {**mending, "seal": sealed(signed + "x", [said["key"], at, 0])}
    sealed_one = {**mending, "seal": sealed(signed, [said["key"], at, 0])}
    bring(desk, said | {"mended": [sealed_one, forged]})
    marks = [one["person"] for one in Entry.objects.get().marks if one["code"] == "mended"]
    assert marks == [str(other.key), ""]


# What does not.


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("fields", {**FIELDS, "plate": ["XX.0000X"]}),
        ("kind", "failing_now"),
        ("happened_at", "2026-01-01T00:00:00Z"),
        ("corrects", "1b833b11-aabf-46fe-8252-3f9fadb35d16"),
    ],
)
def test_changed_content_is_found_by_its_fingerprint(desk, tablet, name, value):
    refused(desk, saved(tablet) | {name: value}, "changed after it was saved")


@pytest.mark.parametrize(
    "change",
    [
        {"key": str(uuid.uuid4())},
        {"typed_at": "2026-01-01T00:00:00+00:00"},
        {"sequence": 99},
        {"rev": 7},
        {"clock_offset_ms": 86_400_000},
        {"clock_offset_sent_ms": 86_400_000},
        {"seal": ""},
        {"seal": "ф" * 64},
        {"seal": None},
    ],
)
def test_what_the_fingerprint_does_not_hold_the_seal_does(desk, tablet, change):
    refused(desk, saved(tablet) | change, CHANGED_SINCE)


def test_a_forger_who_works_the_fingerprint_out_again_lacks_the_seal(desk, tablet):
    said = saved(tablet) | {"fields": {**FIELDS, "plate": ["XX.0000X"]}}
    said["fingerprint"] = print_of(said)
    refused(desk, said, CHANGED_SINCE)
    refused(desk, said, CHANGED_SINCE, own="1")


def test_a_pass_of_somebody_elses_making_seals_nothing(desk, tablet, owner):
    said = saved(tablet)
    other = Tablet(owner)
    head = make_pass(owner, other.key).rpartition(":")[0]
    made_up = said | {"pass_head": head, "author": owner.name}
    made_up["seal"] = sealed(f"{head}:made-up", parts_of(made_up))
    refused(desk, made_up, CHANGED_SINCE)


def test_the_pass_in_a_file_does_not_send(desk, tablet, owner):
    said = saved(tablet)
    Row.objects.update(revoked_by=None, revoked_at=None)
    for text in (said["pass_head"], f"{said['pass_head']}:", f"{said['pass_head']}:{said['seal']}"):
        assert tablet.send(said | {"pass": text}).status_code == 401
    assert not Entry.objects.exists()


@pytest.mark.parametrize("encoded", ["", "bm90IGl0", "!!", None, 5, "\x00"])
def test_a_photo_that_is_not_the_one_that_was_kept_keeps_its_entry_out(desk, tablet, encoded):
    said = saved(tablet, photo=PICTURE)
    said["photos"][0]["base64"] = encoded
    refused(desk, said, "A photo of it does not stand in the file whole")


def test_what_a_form_would_send_back_is_told_with_what_is_to_be_mended(desk, tablet):
    refused(desk, saved(tablet, fields={**FIELDS, "odometer": ["abc"]}), "Odometer: ")


def test_an_online_entry_does_not_come_in_by_a_file(desk, tablet, owner):
    said = saved(Tablet(owner), kind="person", job=None, fields={"name": ["x"]})
    refused(desk, said, "This is done on a page of the shop server")


def test_a_role_that_may_not_enter_it_may_not_by_a_file_either(desk, tablet):
    author = Tablet(make_person(DESK))
    said = saved(author, kind="step", job=str(uuid.uuid4()), fields={"x": ["1"]})
    refused(desk, said, "Front desk cannot enter this.")


# What no sign-in stands behind.


def nameless(tablet: Tablet) -> dict[str, Any]:
    return saved(tablet) | {"pass_head": "", "seal": "", "author": ""}


def test_a_nameless_entry_waits_for_the_owners_own_name(desk, tablet, owner):
    said = nameless(tablet)
    refused(desk, said, "Nobody was signed in when this was typed.")
    assert "1 on the shop server" in bring(desk, said, own="1")
    entry = Entry.objects.get()
    assert entry.author == owner
    assert "taken in under the name of who brought it in" in said_of(entry)[0]


def test_a_name_without_a_pass_is_nobodys_word(desk, tablet):
    said = saved(tablet) | {"pass_head": "", "seal": ""}
    refused(desk, said, "The name on it was not confirmed by a PIN")


def test_a_sign_in_that_was_ended_since_does_the_same(desk, tablet, owner):
    said = saved(tablet)
    tablet.author.passes_from = timezone.now()
    tablet.author.save()
    refused(desk, said, "The owner has ended the sign-ins of")
    bring(desk, said, own="1")
    assert Entry.objects.get().author == owner


# Files that are none.


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b"{}",
        b'{"format": 1}',
        b'{"format": 1, "entries": []}',
        b'{"format": 1, "entries": [5]}',
        b'{"format": 2, "entries": [{}]}',
        b"\xff\xfe\x00",
        b"[" * 100_000,
        b'{"format": 1, "entries": {"a": 1}}',
        b"%PDF-1.7",
    ],
)
def test_another_file_is_said_to_be_none(desk, content):
    response = desk.post("/bring_in/", {"file": SimpleUploadedFile("a.json", content)})
    assert response.status_code == 422
    assert "Nothing was taken in." in response.content.decode() or content == b""


def test_no_file_is_said(desk):
    assert desk.post("/bring_in/").status_code == 422


@pytest.mark.parametrize(
    "said",
    [
        {},
        {"key": 5},
        {"key": None, "fields": []},
        {"photos": 5},
        {"photos": [5]},
        {"photos": [{}] * 50},
        {"mended": 5},
        {"kind": ["x"], "author": {"a": 1}},
        {"sequence": "1", "tablet": ["x"]},
        {"sequence": True},
        {"key": str(uuid.uuid4()), "typed_at": "never"},
    ],
)
def test_an_entry_of_another_shape_is_words_and_no_stumble(desk, tablet, said):
    bring(desk, {**saved(tablet), **said} if said else said)
    assert not Entry.objects.exists()


def test_markup_in_a_file_is_shown_as_text(desk, tablet):
    said = saved(tablet) | {"author": "<script>x</script>", "seal": "", "kind": "<b>"}
    assert b"<script>x" not in json.dumps(bring(desk, said)).encode()


@pytest.mark.parametrize("role", [TECHNICIAN, DESK])
def test_only_an_owner_brings_a_file_in(owner, tablet, role):
    browser = Client()
    browser.force_login(make_person(role))
    response = browser.post("/bring_in/", {"file": file_of(saved(tablet))})
    assert response.status_code == 403
    assert not Entry.objects.exists()


def test_the_list_asks_as_often_for_many_entries_as_for_few(
    desk, tablet, django_assert_max_num_queries
):
    said = [saved(tablet, sequence=number) for number in range(4)]
    bring(desk, *said)
    with django_assert_max_num_queries(9 + 4):  # one a known entry
        bring(desk, *said)
