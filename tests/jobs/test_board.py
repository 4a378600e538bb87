"""The board: every open job, by what holds the car."""

import re
import uuid
from datetime import datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from diagnostics.entries import STEP
from jobs.entries import CHANGE, PLACE, WAITING
from jobs.logbook import enter
from jobs.models import Job, Waiting
from jobs.models.holds import hold
from jobs.models.moments import short_day, short_time
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.passes import TABLET_COOKIE, tablet_token
from jobs.views import board as board_view
from tests.diagnostics.jobs_told import Told, stood
from tests.diagnostics.step_forms import tell as tell_step
from tests.diagnostics.test_gates import LOCKED, MIXED
from tests.diagnostics.test_loop_state import RECOVERED, RUNNING, SOME
from tests.evidence.test_hv_isolation import DONE
from tests.factories import make_job, make_person, make_shop, make_told, tell

pytestmark = pytest.mark.django_db
SEEN = {"test_kind": "complaint_seen", "setting": "cold", "seen": "warm"}
NOON = datetime(2026, 6, 10, 12, 0, tzinfo=timezone.get_default_timezone())  # a Wednesday


@pytest.fixture
def page(client):
    """The board as a technician sees it, as text."""
    make_shop()
    client.force_login(make_person())

    def ask(**query):
        response = client.get(reverse("board"), query)
        assert response.status_code == 200
        return response.content.decode()

    return ask


def part_of(shown: str, code: str) -> str:
    """One group of the board."""
    found = re.search(rf'data-group="{code}">.*?</section>', shown, re.DOTALL)
    assert found
    return found[0]


def plates(text: str) -> list[str]:
    return re.findall(r"<bdi>(\w\w\.\w+)</bdi>", text)


def timer(job, minutes_ago, minutes, what="vacuum"):
    moment = timezone.now() - timedelta(minutes=minutes_ago)
    fields = {"what": what, "minutes": str(minutes)}
    assert enter(WAITING, make_told(fields, job_key=job.key, typed_at=moment)).stands


def test_the_root_address_leads_to_it(client):
    client.force_login(make_person())
    assert client.get("/")["Location"] == reverse("board") == "/board/"


def test_nobody_sees_it_without_a_sign_in(client):
    assert client.get(reverse("board"))["Location"].startswith(reverse("sign_in"))


def test_a_car_that_waits_for_nothing_can_go_on_with_its_next_step(page):
    make_job()
    shown = part_of(page(), "now")
    assert plates(shown) == ["KX.4731D"]
    assert re.search(r"Next: [^<]+, \d+ minutes", shown)
    assert "here since" in shown
    assert "worth its minutes" in shown


def test_a_timer_runs_by_itself_until_it_is_over_and_then_the_car_can_go_on(page):
    timer(make_job(), 20, 45)
    timer(make_job(plate="PW.5504K"), 50, 45)
    shown = page()
    assert plates(part_of(shown, "runs")) == ["KX.4731D"]
    assert "Vacuum, 20 of 45 minutes" in part_of(shown, "runs")
    assert plates(part_of(shown, "now")) == ["PW.5504K"]
    assert "Vacuum: 45 minutes are up: read the vacuum" in part_of(shown, "now")
    assert "over since" in part_of(shown, "now")


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"what": "yes", "words": "estimate 2"}, "Customer, yes or no: estimate 2"),
        ({"what": "part", "words": "drier"}, "Part: drier"),
        ({"what": "sublet", "words": "coil, Umbel Rewinding"}, "Work sent out: coil"),
        ({"what": "other", "words": "the car wash"}, "The car wash"),
    ],
)
def test_a_car_that_waits_for_someone_says_for_whom(page, fields, words):
    tell(WAITING, make_job(), **fields)
    shown = part_of(page(), "waits")
    assert plates(shown) == ["KX.4731D"]
    assert words in shown


def test_what_else_it_waits_for_is_told_in_a_soft_line(page):
    job = make_job()
    tell(WAITING, job, what="part", words="drier", due_date="2020-01-02")
    timer(job, 20, 45)
    shown = part_of(page(), "waits")
    assert "was due" in shown
    assert "Also: Vacuum, until" in shown


def test_an_empty_group_says_what_would_stand_there(page):
    shown = page()
    assert "No car waits for a customer, a part or a person." in shown
    assert "Nothing runs by itself" in shown


def test_a_row_tells_car_place_who_and_what_is_promised(page):
    sand = make_person(name="R. Sand")
    job = make_job()
    tell(PLACE, job, bay_words="2", has_it=str(sand.key))
    assert "Brenloh Ilex 1.6, 2017 · bay\xa02 · R. Sand" in page()


def test_a_promise_that_is_past_is_told_in_words(page):
    job = make_job()
    tell(PLACE, job, promised_date="2020-01-02", promised_time="14:55")
    shown = part_of(page(), "now")
    assert "2 Jan 2020 14:55" in shown
    assert "was due" in shown


def test_an_open_loop_is_told_with_what_must_not_be_done(page):
    job = make_job()
    tell(CHANGE, job, what="opened")
    assert "<strong>Loop open, as far as is noted. Must not be run.</strong>" in page()


def test_a_car_with_high_voltage_says_so_until_a_test_proved_it_dead(page):
    job = make_job(drive="electric_hv")
    assert "High voltage not proven dead." in page()
    fields = {**DONE, "test_kind": "hv_isolation", "test_version": "1"}
    assert enter(STEP, make_told(fields, job_key=job.key)).stands
    assert "not proven dead" not in page()


@pytest.mark.parametrize("then", [SEEN, RUNNING])
def test_a_car_that_was_switched_on_since_is_not_proven_dead(page, then):
    told = Told(drive="electric_hv")
    told.test({**DONE, "test_kind": "hv_isolation"})
    told.test(then)
    assert "High voltage not proven dead." in page()


def test_an_override_proves_no_high_voltage_dead(page):
    stood(Told(drive="electric_hv").override("dead_first"))
    assert "High voltage not proven dead." in page()


@pytest.mark.parametrize("found", [LOCKED, MIXED])
def test_what_a_test_found_by_which_it_must_not_be_run_is_told(page, found):
    Told().test(found)
    assert "<strong>Must not be run.</strong>" in page()


def test_what_comes_before_running_is_told_where_nothing_bars_it(page):
    told = Told()
    told.test(RECOVERED)
    told.test(SOME)
    assert "<strong>Before it is run, make sure of its charge.</strong>" in page()


def test_a_car_without_high_voltage_says_nothing_of_it(page):
    make_job(drive="belt_clutch")
    assert "High voltage" not in page()


def test_a_closed_job_is_not_on_it(page):
    make_job()
    Job.objects.update(stage="closed")
    assert plates(page()) == []


def test_a_tablet_sees_its_own_cars_first_the_latest_before_the_others(client):
    tablet = uuid.uuid4()
    for plate in ("AA.0001A", "AA.0002A", "AA.0003A"):
        job = make_job(plate=plate)
        if plate != "AA.0001A":
            enter(PLACE, make_told({"bay_words": "2"}, job_key=job.key, tablet=tablet))
    client.force_login(make_person())
    assert "with this tablet" not in client.get(reverse("board")).content.decode()
    client.cookies[TABLET_COOKIE] = tablet_token(tablet)
    shown = client.get(reverse("board")).content.decode()
    assert plates(shown) == ["AA.0003A", "AA.0002A", "AA.0001A"]
    assert "Cars worked on with this tablet come first." in shown


def test_what_is_promised_earlier_stands_before_what_is_not_promised(page):
    make_job(plate="AA.0001A")
    for plate, day in (("AA.0002A", "2031-01-03"), ("AA.0003A", "2031-01-02")):
        tell(PLACE, make_job(plate=plate), promised_date=day, promised_time="12:00")
    assert plates(page()) == ["AA.0003A", "AA.0002A", "AA.0001A"]


def test_more_than_a_page_of_a_group_is_one_link_away(page, monkeypatch):
    monkeypatch.setattr(board_view, "PAGE", 2)
    for number in range(1, 6):
        make_job(plate=f"AA.000{number}A")
    shown = page()
    assert plates(shown) == ["AA.0001A", "AA.0002A"]
    assert '<a class="alone" href="?group=now&amp;from=2">3 more cars</a>' in shown
    further = page(**{"group": "now", "from": "4"})
    assert plates(further) == ["AA.0005A"]
    assert 'data-group="waits"' not in further


@pytest.mark.parametrize("text", ["x", "-1", "²", "9" * 30, ""])
def test_a_page_that_is_none_is_the_first(page, text):
    make_job()
    assert page(**{"group": "now", "from": text, "kind": text})


def test_two_cars_in_one_bay_or_on_one_hook_are_mentioned(page):
    for plate in ("KX.4731D", "PW.5504K"):
        tell(PLACE, make_job(plate=plate), bay_words="2", key_hook="7")
    tell(PLACE, make_job(plate="MV.2864H"), bay_words="yard", key_hook="8")
    tell(PLACE, make_job(plate="AB.1187T"), bay_words="yard")
    shown = page()
    assert shown.count("Bay 2 is told of 2 cars; Key 7 is told of 2 cars.") == 2
    assert "ard is told" not in shown
    assert "key\N{NO-BREAK SPACE}8" in shown


@pytest.mark.parametrize(("few", "many"), [(3, 30)])
def test_it_asks_the_database_the_same_however_many_jobs_are_open(client, few, many):
    make_shop()
    client.force_login(make_person())
    client.cookies[TABLET_COOKIE] = tablet_token(uuid.uuid4())
    counts = []
    for number in (few, many - few):
        for at in range(number):
            job = make_job(plate=f"AA.{number}{at}A")
            tell(PLACE, job, bay_words=str(at), has_it="me")
            if at % 3 == 0:
                timer(job, 20, 45)
            if at % 3 == 1:
                tell_step(job)
                tell(WAITING, job, what="part", words="drier")
        with CaptureQueriesContext(connection) as queries:
            client.get(reverse("board"))
        counts.append(len(queries))
    assert counts[0] == counts[1]
    assert counts[0] <= 17


@pytest.mark.parametrize(("role", "shown"), [(OWNER, True), (DESK, False), (TECHNICIAN, False)])
def test_the_owners_pages_are_the_owners(client, role, shown):
    client.force_login(make_person(role))
    text = client.get(reverse("board")).content.decode()
    assert (f'href="{reverse("people")}"' in text) == shown
    assert f'href="{reverse("find")}#words"' in text
    assert f'href="{reverse("intake")}"' in text


def test_the_page_that_tablets_keep_has_no_car_and_nobody_in_it(client):
    make_job()
    person = make_person(OWNER, name="Unmistakable Name")
    client.force_login(person)
    text = client.get(f"{reverse('board')}?kept").content.decode()
    assert "data-board-kept" in text
    assert plates(text) == []
    assert person.name not in text


def test_a_timer_that_is_over_comes_before_whom_the_car_waits_for():
    over = Waiting(what="vacuum", began_at=NOON, until=NOON + timedelta(minutes=45))
    part = Waiting(what="part", words="drier", began_at=NOON)
    found = hold([part, over], None, NOON, NOON + timedelta(hours=1))
    assert (found.group, found.waiting, found.also) == ("now", over, (part,))


def test_times_are_told_as_short_as_they_are_clear():
    days = [
        short_day(NOON.date() + timedelta(days=more), NOON.date()) for more in (0, 1, 6, 7, -1, 365)
    ]
    assert days == ["today", "Thu", "Tue", "17 Jun", "9 Jun", "10 Jun 2027"]
    assert short_time(NOON, NOON) == "12:00"
    assert short_time(NOON + timedelta(days=1), NOON) == "Thu 12:00"
