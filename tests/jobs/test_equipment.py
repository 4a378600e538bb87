"""The shop's instruments: told of by an owner, checked, and laid beside a tablet."""

import uuid
from datetime import date, timedelta

import pytest
from django.test import Client
from django.utils import timezone

from jobs.entries import EQUIPMENT_CHECK, EQUIPMENT_TABLET
from jobs.logbook import enter
from jobs.models import Check, Entry, Equipment, TabletSet
from jobs.models.equipment import beside, in_use
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import TABLET_COOKIE, tablet_token
from tests.factories import make_person, make_thing, make_told
from tests.jobs.test_people_cards import jpeg

pytestmark = pytest.mark.django_db
GAUGES = {
    "kind": "gauge_set",
    "maker": "Orrisdale",
    "model": "Twin 80",
    "serial": "80-22417",
    "made": "2022",
    "standard": "EN 837-1 class 1.6",
    "accuracy_pressure": "16 kPa",
    "checked_on": "2025-11-02",
    "until": "2026-11-01",
}


def browser_of(role: str, tablet: uuid.UUID | None = None) -> Client:
    browser = Client()
    browser.force_login(make_person(role))
    if tablet:
        browser.cookies[TABLET_COOKIE] = tablet_token(tablet)
    return browser


@pytest.fixture
def owner() -> Client:
    return browser_of(OWNER)


def send(browser: Client, page: str = "enter", **fields):
    said = {"key": str(uuid.uuid4()), **fields}
    return browser.post(f"/equipment/{page}/", {k: v for k, v in said.items() if v is not None})


def page_of(browser: Client, query: str = "") -> str:
    return browser.get(f"/equipment/{query}").content.decode().replace("\u00a0", " ")


def test_an_instrument_is_added_with_plate_accuracy_check_and_photo(owner):
    assert send(owner, **GAUGES, photo=jpeg()).status_code == 302
    thing = Equipment.objects.get()
    assert (thing.name, thing.plate_words) == (
        "Gauge set 1", "Orrisdale Twin 80, serial 80-22417",
    )  # fmt: skip
    assert thing.reads == ["pressure"]
    assert thing.accuracy["pressure"]["fixed"] == 16_000
    assert thing.checks.get().until == date(2026, 11, 1)
    shown = page_of(owner, f"?thing={thing.key}")
    assert "EN 837-1 class 1.6" in shown
    assert "Photo 1 of Gauge set 1" in shown


def test_one_without_a_name_gets_its_kind_and_the_next_number():
    names = [make_thing().name, make_thing(name="Gauge set 3").name, make_thing().name]
    assert names == ["Gauge set 1", "Gauge set 3", "Gauge set 4"]


def test_what_is_tapped_goes_before_what_a_kind_usually_reads():
    assert make_thing("multimeter").reads == ["voltage", "current", "resistance"]
    assert make_thing("multimeter", reads=["voltage"]).reads == ["voltage"]
    assert make_thing("other", accuracy_mass="2 g").reads == ["mass"]


def test_only_a_machine_that_recovers_has_a_recovery_class():
    assert make_thing("recovery_machine", recovery_class="newer").recovery_class == "newer"
    assert make_thing("scale", recovery_class="newer").recovery_class == ""


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"kind": None}, "Tap one of these"),
        ({"kind": "hammer"}, "not in the list"),
        ({"accuracy_pressure": "1.6"}, "needs its unit"),
        ({"accuracy_pressure": "1.6 % of full scale"}, "work it out"),
        ({"until": "2025-11-01"}, "before it was checked"),
        ({"checked_on": None}, "when it was checked"),
        ({"checked_on": "yesterday"}, "such as 3 Mar 2026"),
        ({"checked_on": "2099-11-02", "until": "2099-12-01"}, "still to come"),
        ({"serial": "s" * 81}, "80 fit here"),
        ({"thing": str(uuid.uuid4())}, "no such instrument"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_typed_is_lost(owner, changed, sentence):
    response = send(owner, **{**GAUGES, **changed})
    shown = response.content.decode()
    assert response.status_code == 422
    assert sentence in shown
    assert 'value="Twin 80"' in shown
    assert not Equipment.objects.exists()


def test_one_of_the_list_is_told_of_again_and_the_logbook_has_both(owner):
    thing = make_thing(name="Blue gauges")
    told = {"kind": "gauge_set", "thing": str(thing.key), "maker": "Fenwold"}
    assert send(owner, **told, out_of_use_since="2026-01-05").status_code == 302
    thing.refresh_from_db()
    assert (thing.name, thing.maker, Equipment.objects.count()) == ("Blue gauges", "Fenwold", 1)
    assert thing.out_of_use_since == date(2026, 1, 5)
    assert Entry.objects.filter(kind="equipment").count() == 2


def test_a_check_is_added_and_one_that_was_wrong_is_corrected(owner):
    thing = make_thing(checked_on="2025-11-02", until="2026-11-01")
    send(owner, "check", thing=str(thing.key), checked_on="2026-10-30", until="2027-10-30")
    wrong = Check.objects.get(checked_on="2026-10-30")
    shown = page_of(owner, f"?thing={thing.key}&corrects={wrong.key}")
    assert 'value="2027-10-30"' in shown
    said = {"thing": str(thing.key), "checked_on": "2026-10-29", "corrects": str(wrong.key)}
    send(owner, "check", **said)
    counting = [one.checked_on for one in thing.checks.all() if one.counts]
    assert counting == [date(2025, 11, 2), date(2026, 10, 29)]
    assert "corrected already" in send(owner, "check", **said).content.decode()


def test_a_check_holds_for_its_own_days_whenever_it_was_noted():
    """What was read last year rests on last year's check, not on today's."""
    thing = make_thing(checked_on="2025-11-02", until="2026-11-01")
    told = {"thing": str(thing.key), "checked_on": "2026-11-20", "until": "2027-11-20"}
    assert enter(EQUIPMENT_CHECK, make_told(told, make_person(OWNER))).stands
    due = [thing.overdue_on(date(2026, 11, day)) for day in (1, 2, 19, 20)]
    assert due == [None, date(2026, 11, 1), date(2026, 11, 1), None]


def test_no_check_noted_is_no_day_that_has_passed_and_no_check_made():
    thing = make_thing()
    assert thing.overdue_on(timezone.localdate()) is None
    assert thing.check_words(timezone.localdate()) == "check not noted"


def test_a_check_that_is_due_stands_in_the_list_and_on_its_page():
    thing = make_thing(checked_on="2025-11-02", until="2025-11-03")
    staff = browser_of(DESK)
    assert "<strong>Was to be checked by 3 Nov 2025.</strong>" in page_of(staff)
    assert "It was to be checked by 3 Nov 2025." in page_of(staff, f"?thing={thing.key}")


def test_the_desk_and_technicians_read_it_and_are_offered_no_change():
    thing = make_thing()
    for role in (DESK, TECHNICIAN):
        browser = browser_of(role)
        assert "Add an instrument" not in page_of(browser)
        assert "Change or correct" not in page_of(browser, f"?thing={thing.key}")
        assert send(browser, **GAUGES).status_code == 403


def test_a_tablet_remembers_what_lies_beside_it():
    gauges, scale = make_thing(), make_thing("scale")
    tablet, other = uuid.uuid4(), uuid.uuid4()
    browser = browser_of(TECHNICIAN, tablet)
    assert send(browser, "tablet", things=[str(gauges.key)]).status_code == 302
    things = in_use(timezone.localdate())
    assert beside(tablet, things) == [gauges]
    assert beside(other, things) == beside(None, things) == []
    send(browser, "tablet", things=[str(scale.key)])
    assert beside(tablet, things) == [scale]
    send(browser, "tablet")  # nothing any more
    assert beside(tablet, things) == []
    assert TabletSet.objects.count() == 1


def test_a_browser_that_is_no_tablet_is_told_how_to_become_one():
    thing = make_thing()
    browser = browser_of(TECHNICIAN)
    assert "not known as a tablet" in page_of(browser)
    assert (
        "Sign in here once more"
        in send(browser, "tablet", things=[str(thing.key)]).content.decode()
    )


def test_a_thing_out_of_use_is_not_offered():
    thing, today = make_thing(), timezone.localdate()
    Equipment.objects.update(out_of_use_since=today)
    assert in_use(today) == []
    assert in_use(today - timedelta(days=1)) == [thing]
    assert "Out of use since" in page_of(browser_of(DESK))


def test_an_unknown_thing_beside_a_tablet_is_no_thing_of_the_shop():
    told = make_told({"things": [str(uuid.uuid4())]}, tablet=uuid.uuid4())
    outcome = enter(EQUIPMENT_TABLET, told)
    assert outcome.form is not None
    assert "no such instrument" in str(outcome.form.errors)


def test_links_that_cannot_be_read_end_in_a_page_that_says_so(owner):
    thing = make_thing()
    for query in ("?thing=x", f"?thing={uuid.uuid4()}", f"?thing={thing.key}&corrects=x"):
        assert owner.get(f"/equipment/{query}").status_code == 404
    assert owner.post("/equipment/check/", {"thing": "x"}).status_code == 404


def test_the_list_asks_the_database_as_often_with_many_things(django_assert_num_queries):
    browser = browser_of(TECHNICIAN, uuid.uuid4())
    make_thing(checked_on="2025-11-02")
    with django_assert_num_queries(5):  # session, person, things, checks, what lies beside
        page_of(browser)
    for _ in range(5):
        make_thing("scale", checked_on="2025-11-02")
    with django_assert_num_queries(5):
        page_of(browser)


def test_the_way_there_stands_on_the_first_page():
    assert 'href="/equipment/"' in browser_of(TECHNICIAN).get("/board/").content.decode()
