"""The door for tablets: who may send, and that nothing that is sent makes the server stumble."""

import hashlib
import json
import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.core import signing
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils import timezone

from jobs.logbook import fingerprint
from jobs.models import Entry, Job, Person, Photo, Reused
from jobs.models.people import DESK, OWNER
from jobs.passes import PASS_SALT, TABLET_COOKIE, make_pass, tablet_token
from tests.factories import make_job, make_person, make_shop, said_of
from tests.shopac.tablet import FIELDS, Tablet

pytestmark = pytest.mark.django_db


@pytest.fixture
def tablet(db) -> Tablet:
    make_shop()
    return Tablet()


def settled(response, status: int, state: str, said: dict[str, Any]) -> dict[str, Any]:
    """An answer a tablet believes: key and fingerprint echoed."""
    told = response.json()
    assert (response.status_code, told["state"]) == (status, state), told
    photos = [(one["field"], one["sha256"]) for one in said["photos"]]
    job = uuid.UUID(said["job"])
    print_ = fingerprint(said["kind"], said["version"], job, said["fields"], photos)
    assert (told["key"], told["fingerprint"]) == (said["key"], print_)
    return told


def unsettled(response, status: int, state: str) -> dict[str, Any]:
    """An answer that settles nothing: the tablet keeps what it has."""
    told = response.json()
    assert (response.status_code, told["state"]) == (status, state), told
    assert not {"key", "fingerprint"} & set(told)
    assert (Entry.objects.count(), Reused.objects.count()) == (0, 0)
    return told


# Who may send.


def test_an_entry_arrives_under_its_authors_name_without_anybody_signed_in(tablet):
    said = tablet.said()
    settled(tablet.send(said), 201, "accepted", said)
    entry = Entry.objects.get()
    assert (entry.author, entry.sender, entry.tablet) == (tablet.author, None, tablet.key)
    assert entry.marks == []


def test_an_entry_that_had_no_name_says_so_for_good(tablet):
    tablet.send(tablet.said(nameless=True))
    entry = Entry.objects.get()
    assert [mark["code"] for mark in entry.marks] == ["nameless"]
    assert f"the name of {tablet.author.name}, who signed in there" in said_of(entry)[0]


def test_the_same_entry_again_gets_the_first_answer(tablet):
    said = tablet.said()
    first = settled(tablet.send(said), 201, "accepted", said)
    second = settled(tablet.send(said), 200, "again", said)
    assert first["result"] == second["result"]
    assert Job.objects.count() == 1


def test_it_is_the_author_who_counts_not_whoever_is_signed_in_by_then(tablet):
    sender = make_person(DESK)
    tablet.browser.force_login(sender)
    tablet.send()
    entry = Entry.objects.get()
    assert (entry.author, entry.sender) == (tablet.author, sender)


@pytest.mark.parametrize(
    "forged",
    [
        "x",
        "a:b:c",
        "\ud800",
        "\x00",
        "." * 10_000,
        signing.dumps({"person": "x", "tablet": "y", "at": "z"}, salt=PASS_SALT),
        signing.dumps({"person": str(uuid.uuid4())}, salt=PASS_SALT),
        signing.dumps([1, 2], salt=PASS_SALT),
        signing.dumps(None, salt=PASS_SALT),
        signing.dumps({"person": 1, "tablet": 2, "at": 3}, salt=PASS_SALT),
    ],
    ids=range(10),
)
def test_a_forged_pass_is_asked_to_sign_in_and_stores_nothing(tablet, forged):
    told = unsettled(tablet.send(**{"pass": forged}), 401, "sign_in")
    assert "not one of this shop" in told["why"]


@pytest.mark.parametrize("pass_", [None, 7, ["x"], {"person": "x"}, True])
def test_a_pass_that_is_not_even_text_is_no_trouble(tablet, pass_):
    unsettled(tablet.send(**{"pass": pass_}), 401, "sign_in")


def test_an_entry_without_a_pass_waits_for_a_sign_in(tablet):
    told = unsettled(tablet.send(**{"pass": ""}), 401, "sign_in")
    assert "Nobody was signed in" in told["why"]


def test_a_pass_with_one_letter_changed_is_forged(tablet):
    good = make_pass(tablet.author, tablet.key)
    changed = good[:-1] + ("A" if good[-1] != "A" else "B")
    unsettled(tablet.send(**{"pass": changed}), 401, "sign_in")


def test_a_pass_of_another_shop_is_forged(tablet, settings):
    said = tablet.said()
    settings.SECRET_KEY = "another shop's"
    tablet.browser.cookies[TABLET_COOKIE] = tablet_token(tablet.key)
    unsettled(tablet.send(said), 401, "sign_in")


def test_a_withdrawn_pass_is_taken_no_more_and_a_new_one_is(tablet):
    said = tablet.said()
    tablet.author.passes_from = timezone.now()
    tablet.author.save()
    told = unsettled(tablet.send(said), 401, "sign_in")
    assert "ended the sign-ins" in told["why"]
    assert tablet.send().status_code == 201


def test_a_pass_copied_to_another_tablet_sends_nothing(tablet):
    stolen = tablet.said()
    unsettled(Tablet().send(stolen), 401, "sign_in")


def test_a_pass_in_a_browser_that_is_no_tablet_sends_nothing(tablet):
    stolen = tablet.said()
    tablet.browser.cookies.clear()
    told = unsettled(tablet.send(stolen), 401, "sign_in")
    assert "sign in first" in told["why"]


def test_a_forged_tablet_cookie_makes_no_tablet(tablet):
    tablet.browser.cookies[TABLET_COOKIE] = str(tablet.key)
    unsettled(tablet.send(), 401, "sign_in")


def test_what_was_typed_on_another_tablet_is_taken_from_who_is_signed_in_and_marked(tablet):
    said = tablet.said()
    other = Tablet()
    other.browser.force_login(make_person(OWNER))
    settled(other.send(said), 201, "accepted", said)
    assert "on another tablet" in said_of(Entry.objects.get())[0]


def test_what_arrives_after_its_author_left_is_taken_and_marked(tablet):
    said = tablet.said()
    tablet.author.is_active = False
    tablet.author.save()
    settled(tablet.send(said), 201, "accepted", said)
    assert said_of(Entry.objects.get()) == [
        f"{tablet.author.name} no longer worked here when this arrived."
    ]


@pytest.mark.parametrize(("hours", "offset_h", "marked"), [(-2, 0, True), (-2, 2, False)])
def test_what_was_typed_before_its_author_signed_in_is_marked_by_the_corrected_clock(
    tablet, hours, offset_h, marked
):
    typed_at = timezone.now() + timedelta(hours=hours)
    tablet.send(typed_at=typed_at.isoformat(), clock_offset_ms=offset_h * 3_600_000)
    marks = said_of(Entry.objects.get())
    assert any("before" in mark for mark in marks) is marked


def test_without_an_offset_from_the_tap_the_one_at_sending_says_when_it_was_typed(tablet):
    typed_at = timezone.now() - timedelta(hours=2)
    two_hours = 2 * 3_600_000
    clocks = {"clock_offset_ms": None, "clock_offset_sent_ms": two_hours}
    tablet.send(typed_at=typed_at.isoformat(), **clocks)
    entry = Entry.objects.get()
    assert (entry.clock_offset_ms, entry.clock_offset_sent_ms) == (None, two_hours)
    assert abs(entry.happened_at - entry.arrived_at) < timedelta(minutes=1)
    assert entry.marks == []


def test_a_year_offline_is_no_reason_to_turn_an_entry_away(tablet):
    then = timezone.now() - timedelta(days=400)
    said = tablet.said(
        typed_at=(then + timedelta(hours=1)).isoformat(),
        **{"pass": make_pass(tablet.author, tablet.key, then)},
    )
    settled(tablet.send(said), 201, "accepted", said)
    assert Entry.objects.get().marks == []


# Whose work it is.


def test_another_roles_entry_is_refused_with_key_and_fingerprint_and_stored_nowhere(tablet):
    job = make_job()
    desk = Tablet(make_person(DESK, name="Noor"))
    said = desk.said(kind="step", job=str(job.key), fields={"test_kind": ["coil_power"]})
    before = Entry.objects.count()
    told = settled(desk.send(said), 403, "forbidden", said)
    assert "Front desk cannot enter this" in told["why"]
    assert Entry.objects.count() == before


def test_people_are_not_changed_from_a_tablet_even_by_an_owner(tablet):
    owner = Tablet(make_person(OWNER))
    fields = {"name": ["Mallory"], "role": ["owner"], "pin_hash": ["4071"]}
    said = owner.said(kind="person", fields=fields)
    settled(owner.send(said), 409, "refused", said)
    assert not Person.objects.filter(name="Mallory").exists()


@pytest.mark.parametrize("name", ["pin", "password", "held_pin", "held_password"])
def test_a_pin_among_the_fields_is_no_entry_and_is_kept_nowhere(tablet, name):
    tablet.send(said := tablet.said())
    for key in (said["key"], str(uuid.uuid4())):
        response = tablet.send(key=key, fields={**FIELDS, name: ["74019283"]})
        assert response.status_code == 400
        assert "no part of an entry" in response.json()["why"]
    assert Reused.objects.count() == 0
    assert "74019283" not in str(list(Entry.objects.values()))


def test_other_content_under_a_taken_key_is_refused_and_both_are_kept(tablet):
    said = tablet.said()
    tablet.send(said)
    other = {**said, "fields": {**FIELDS, "complaint": ["Does not blow at all."]}}
    settled(tablet.send(other), 409, "reused", other)
    assert Reused.objects.get().fields["complaint"] == ["Does not blow at all."]


# What is sent.

NOT_JSON = ["", "{", "null", "[]", "7", '"text"', "\x00", "{'a': 1}", "[" * 100_000, "9" * 10_000]


@pytest.mark.parametrize("body", NOT_JSON, ids=range(len(NOT_JSON)))
def test_what_is_no_json_object_is_no_entry(tablet, body):
    unsettled(tablet.raw(body), 400, "no_entry")


@pytest.mark.parametrize("body", [b"\xff\xfe\x00", b"\x80" * 50, b'{"key": "\xff"}'])
def test_bytes_that_are_no_text_are_no_entry(tablet, body):
    unsettled(tablet.raw(body), 400, "no_entry")


@pytest.mark.parametrize("kind", ["text/plain", "multipart/form-data; boundary=x", "x/y"])
def test_a_body_of_another_kind_is_no_entry(tablet, kind):
    unsettled(tablet.raw("--x\r\nbroken", kind), 400, "no_entry")


ODD: list[Any] = [
    None, True, False, 0, -1, 7, 1.5, float("nan"), float("inf"), 10**30, -(10**30), "", "x",
    "\x00",
    "\ud800", "é" * 10_000, [], ["x"], [[]], {}, {"a": "b"}, [None], {"": [""]}, {"a": ["b"]},
]  # fmt: skip
PARTS = (
    "key kind version job fields photos corrects rev sequence typed_at happened_at "
    "clock_offset_ms clock_offset_sent_ms pass"
).split()


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("value", ODD, ids=range(len(ODD)))
def test_no_part_of_an_entry_can_hold_anything_the_server_stumbles_over(tablet, part, value):
    response = tablet.send(**{part: value})
    assert response.status_code < 500
    assert response.headers["Content-Type"] == "application/json"
    assert isinstance(response.json()["why"], str)


@pytest.mark.parametrize("part", ["key", "kind", "version", "fields", "typed_at"])
def test_a_missing_part_is_no_entry(tablet, part):
    said = tablet.said()
    del said[part]
    unsettled(tablet.send(said), 400, "no_entry")


def test_fields_as_deep_as_text_can_nest_are_no_entry(tablet):
    deep = json.dumps(tablet.said()).replace(json.dumps(FIELDS), "[" * 50_000 + "]" * 50_000)
    unsettled(tablet.raw(deep), 400, "no_entry")


TEXTS = [
    "a\x00b", "\ud800", "🔧" * 1000, "\u202eabc", "<script>alert(1)</script>", "x" * 10_000,
    "'; drop table jobs_job; --", "NaN", "1e999", "\r\n\r\n", " ",
]  # fmt: skip


@pytest.mark.parametrize("text", TEXTS, ids=range(len(TEXTS)))
@pytest.mark.parametrize("name", sorted(FIELDS))
def test_any_text_in_any_field_is_taken_or_goes_back_to_its_form(tablet, name, text):
    response = tablet.send(fields={**FIELDS, name: [text]})
    told = response.json()
    assert (response.status_code, told["state"]) in {(201, "accepted"), (422, "returned")}
    if told["state"] == "returned":
        assert name in told["errors"]


@pytest.mark.parametrize("name", ["", "Plate", "a b", "1a", "x" * 200, "\x00", "\ud800", "a-b"])
def test_a_field_no_form_of_ours_has_is_no_entry(tablet, name):
    unsettled(tablet.send(fields={**FIELDS, name: ["x"]}), 400, "no_entry")


def test_a_form_error_echoes_key_and_fingerprint_and_stores_nothing(tablet):
    said = tablet.said(fields={"plate": ["KX.4731D"]})
    told = settled(tablet.send(said), 422, "returned", said)
    assert "complaint" in told["errors"]
    assert Entry.objects.count() == 0


def test_a_kind_the_server_does_not_know_is_refused_and_says_why(tablet):
    said = tablet.said(kind="x_ray")
    told = settled(tablet.send(said), 409, "refused", said)
    assert "does not know this kind" in told["why"]


def test_an_entry_of_more_than_two_megabytes_of_text_is_too_large(tablet):
    body = json.dumps(tablet.said(fields={**FIELDS, "complaint": ["x" * 3_000_000]}))
    unsettled(tablet.raw(body), 413, "too_large")


@pytest.mark.parametrize("address", ["/entries/", "/intake/", "/sign_in/"])
def test_a_body_larger_than_any_form_is_not_written_to_the_disk(tablet, settings, address):
    settings.BODY_BYTES_MAX = 1000
    file = SimpleUploadedFile("a.jpg", b"x" * 2000, "image/jpeg")
    response = tablet.browser.post(address, {"photo": file})
    assert response.status_code == 413
    assert not hasattr(response.wsgi_request, "_files")


# Photos.


def a_photo(data: bytes, name: str = "a.jpg") -> tuple[dict[str, str], SimpleUploadedFile]:
    line = {"field": "photo", "name": name, "sha256": hashlib.sha256(data).hexdigest()}
    return line, SimpleUploadedFile(name, data, "image/jpeg")


def test_a_photo_comes_with_its_entry_by_its_hash(tablet):
    line, file = a_photo(b"not a picture")
    said = tablet.said(photos=[line])
    settled(tablet.send(said, {"photo": file}), 201, "accepted", said)
    assert Photo.objects.get().sent_sha256 == line["sha256"]


def test_an_entry_whose_photo_did_not_come_is_no_entry(tablet):
    line, _ = a_photo(b"not here")
    told = unsettled(tablet.send(tablet.said(photos=[line]), {}), 400, "no_entry")
    assert "did not arrive whole" in told["why"]


def test_an_entry_whose_photo_came_cut_off_is_no_entry(tablet):
    line, _ = a_photo(b"the whole of it")
    cut = SimpleUploadedFile("a.jpg", b"the whole", "image/jpeg")
    unsettled(tablet.send(tablet.said(photos=[line]), {"photo": cut}), 400, "no_entry")


@pytest.mark.parametrize(
    "listed", ["x", 7, {"a": 1}, [1], ["x"], [{}], [{"sha256": []}], [{"sha256": {}}], [None]]
)
def test_a_list_of_photos_that_is_none_is_no_entry(tablet, listed):
    unsettled(tablet.send(tablet.said(photos=listed), {}), 400, "no_entry")


def test_a_photo_over_the_limit_is_too_large_with_key_and_fingerprint(tablet, settings):
    settings.PHOTO_BYTES_MAX = 10
    line, file = a_photo(b"more than ten bytes")
    said = tablet.said(photos=[line])
    told = settled(tablet.send(said, {"photo": file}), 413, "too_large", said)
    assert "smaller" in told["why"]
    assert Entry.objects.count() == 0


def test_more_photos_than_one_entry_takes_is_no_entry(tablet, settings):
    settings.PHOTOS_PER_ENTRY_MAX = 1
    came = [a_photo(b"1", "a.jpg"), a_photo(b"2", "b.jpg")]
    sent = {"photo": [file for _, file in came]}
    unsettled(tablet.send(tablet.said(photos=[line for line, _ in came]), sent), 400, "no_entry")


def test_asking_the_door_for_a_page_is_not_what_it_is_for(tablet):
    assert tablet.browser.get("/entries/").status_code == 405
