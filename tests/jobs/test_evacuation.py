"""An evacuation told: how deep, by what, how long; kept as read, and never called tight."""

import uuid

import pytest
from django.urls import reverse

from jobs.entries import EVACUATION
from jobs.logbook import enter
from jobs.models import CarState, Entry, Job, LoopWork, Move, Shop
from jobs.models.evacuations import details, hold_of
from jobs.models.people import DESK
from tests.factories import make_job, make_person, make_shop, make_told, tell

pytestmark = pytest.mark.django_db
READ = {
    "gauge": "system",
    "depth": "430",
    "pumped": "25",
    "temperature": "24",
    "m1": "1",
    "v1": "75000",
    "t1": "1",
    "p1": "470",
    "t2": "3",
    "p2": "530",
}


def problems(job: Job, **fields: str) -> dict[str, str]:
    """The sentences by field where it goes back to its form."""
    outcome = tell(EVACUATION, job, **fields)
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, said)) for name, said in outcome.form.errors.items()}


def told_of(job: Job, **fields: str) -> dict:
    """What the row keeps of one evacuation."""
    assert tell(EVACUATION, job, **fields).stands
    return LoopWork.objects.get(job=job).told


def test_readings_are_kept_in_si_with_what_was_typed_and_its_unit():
    """1 micron is 0.133322387415 Pa: NIST SP 811, appendix B.8."""
    told = told_of(make_job(), **READ)
    assert told["depth"]["si"] == pytest.approx(430 * 0.133322387415)
    assert (told["depth"]["typed"], told["depth"]["unit"]) == ("430", "micron")


def test_it_opens_a_car_state_that_says_how_deep_and_moves_nothing():
    job = make_job()
    tell(EVACUATION, job, **READ)
    state = CarState.objects.get(job=job, number=1)
    assert state.what == "Evacuation: 430\xa0micron, pumped for 25\xa0min, loop at 24\xa0°C"
    assert (state.did, Move.objects.count()) == (["evacuated"], 0)


def test_minutes_alone_tell_no_vacuum():
    job = make_job()
    tell(EVACUATION, job, pumped="30")
    state = CarState.objects.get(job=job, number=1)
    assert state.did == ["pumped"]
    assert "how deep is not told" in state.what


def test_a_needle_is_never_told_as_a_depth():
    told = told_of(make_job(), gauge="needle", needle="29", pumped="30")
    assert "which cannot show how deep" in LoopWork.objects.get().words
    assert "depth" not in told


@pytest.mark.parametrize("typed", ["57 Pa", "0.57 mbar", "430"])
def test_depth_is_read_in_the_units_of_the_trade(typed):
    told = told_of(make_job(), depth=typed)
    assert told["depth"]["si"] == pytest.approx(57, rel=0.01)


def test_the_unit_the_shop_chose_stands_beside_the_number(client):
    make_shop()
    Shop.objects.update(units={"vacuum": "Pa"})
    client.force_login(make_person())
    page = client.get(f"{reverse('evacuation')}?job={make_job().key}").content.decode()
    assert 'name="depth_unit" value="Pa"' in page
    assert told_of(make_job(), depth="60", depth_unit="Pa")["depth"]["si"] == 60


@pytest.mark.parametrize(
    ("fields", "field", "words"),
    [
        ({"depth": "90000"}, "depth", "20 to 5000 micron"),
        ({"depth": "800000"}, "depth", "20 to 5000 micron"),
        ({"v1": "800000", "m1": "1"}, "v1", "no vacuum"),
        ({"depth": "-3"}, "depth", "20 to 5000 micron"),
        ({"needle": "35", "gauge": "needle"}, "needle", "20 to 30 inHg"),
        ({"pumped": "900"}, "pumped", "5 to 300 minutes"),
        ({"temperature": "95"}, "temperature", "0 to 60 °C"),
        ({"depth": "430", "t1": "5", "p1": "470", "t2": "3", "p2": "500"}, "t2", "later than"),
    ],
)
def test_absurd_readings_are_asked_about_and_with_a_reason_they_stand(fields, field, words):
    job = make_job()
    assert words in problems(job, **fields)[field]
    kept = tell(EVACUATION, job, **fields, **{f"{field}_why": "gauge is new"})
    assert kept.stands
    assert [mark["field"] for mark in Entry.objects.get(key=kept.key).marks] == [field]


def test_a_needle_deeper_than_the_air_of_a_high_shop_presses_is_asked_about():
    """29.9 inHg at sea level, 25.0 inHg at 1 500 m (TRADE: ISO 2533 standard atmosphere)."""
    make_shop()
    assert tell(EVACUATION, make_job(), gauge="needle", needle="29").stands
    Shop.objects.update(altitude_m=1500, air_pa=84_556)
    assert "altitude" in problems(make_job(), gauge="needle", needle="29")["needle"]
    assert tell(EVACUATION, make_job(), gauge="needle", needle="24.5").stands


def test_what_a_needle_shows_at_best_is_told_where_the_shop_stands(client):
    make_shop()
    Shop.objects.update(altitude_m=1500, air_pa=84_556)
    client.force_login(make_person())
    page = client.get(f"{reverse('evacuation')}?job={make_job().key}").content.decode()
    assert "Perfect vacuum shows 25.0\xa0inHg" in page


def test_a_reading_that_cannot_be_feeds_nothing():
    told = told_of(make_job(), depth="-3", depth_why="as the gauge shows")
    assert told["depth"]["unused"]
    assert "depth" not in hold_of(LoopWork.objects.get())
    assert CarState.objects.get(number=1).did == ["pumped"]


def test_what_was_read_tells_the_hold_in_its_own_fields():
    told_of(make_job(), **READ)
    begins = hold_of(LoopWork.objects.get())
    assert (begins["depth"], begins["depth_unit"], begins["p2"]) == ("430", "micron", "530")
    assert "v1" not in begins


def test_timed_readings_stand_in_words():
    lines = details(told_of(make_job(), **READ))
    assert "While pumping: 75\xa0000\xa0micron at 1\xa0min" in lines
    assert any(
        line.startswith("After the valve was shut: 470\xa0micron at 1\xa0min") for line in lines
    )


def test_no_page_of_it_says_that_nothing_leaks(client):
    job = make_job()
    tell(EVACUATION, job, **READ)
    client.force_login(make_person())
    page = client.get(f"{reverse('evacuation')}?job={job.key}").content.decode().lower()
    assert "no leak" not in page
    assert "tight" not in page.split("<main")[1]


def test_the_same_evacuation_sent_twice_is_one():
    job, key = make_job(), uuid.uuid4()
    told = make_told(READ, job_key=job.key, key=key)
    assert [enter(EVACUATION, told).state, enter(EVACUATION, told).state] == ["accepted", "again"]
    assert LoopWork.objects.count() == 1


def test_a_correction_takes_its_place_in_the_same_car_state():
    job = make_job()
    first = tell(EVACUATION, job, **READ)
    told = READ | {"depth": "340", "why_asked": "1", "corrected_why": "read wrong"}
    assert enter(EVACUATION, make_told(told, job_key=job.key, corrects=first.key)).stands
    old, new = LoopWork.objects.order_by("id")
    assert (old.superseded_by, old.state) == (new, new.state)
    assert CarState.objects.get(job=job, number=1).what.startswith("Evacuation: 340")


def test_a_timer_is_started_on_its_page_and_runs_with_the_car(client):
    job = make_job()
    client.force_login(make_person())
    page = client.get(f"{reverse('evacuation')}?job={job.key}").content.decode()
    assert f'action="{reverse("waiting")}?job={job.key}"' in page
    posted = {"key": str(uuid.uuid4()), "what": "vacuum", "minutes": "30"}
    assert client.post(f"{reverse('waiting')}?job={job.key}", posted).status_code == 302
    page = client.get(f"{reverse('evacuation')}?job={job.key}").content.decode()
    assert 'data-timer="left"' in page


def test_the_front_desk_neither_opens_the_form_of_a_car_nor_enters_it(client):
    job, desk = make_job(), make_person(DESK)
    client.force_login(desk)
    assert client.get(f"{reverse('evacuation')}?job={job.key}").status_code == 403
    assert enter(EVACUATION, make_told(READ, desk, job_key=job.key)).state == "forbidden"
