"""Changes on the car: each opens the next car state, and a correction takes the place of one."""

import uuid
from datetime import timedelta
from itertools import permutations

import pytest
from django.urls import reverse
from django.utils import timezone

from diagnostics.record.job import change_of
from jobs.entries import CHANGE
from jobs.logbook import enter
from jobs.models import CarState, Change, Entry, Job
from jobs.models.changes import PARTS, QUESTIONS, WHATS, touches
from jobs.models.people import DESK
from jobs.models.points import open_points
from tests.diagnostics.step_forms import tell as tell_step
from tests.factories import make_job, make_person, make_told, said_of, tell

pytestmark = pytest.mark.django_db
CLUTCH = {"what": "fitted", "part": "clutch", "source": "new"}


def page_of(client, job: Job, more: str = "") -> str:
    return client.get(f"{reverse('repair')}?job={job.key}{more}").content.decode()


def test_a_change_opens_the_next_car_state_and_says_what_it_touches():
    job = make_job()
    assert tell(CHANGE, job, **CLUTCH).stands
    state = CarState.objects.get(job=job, number=1)
    assert state.what == "Clutch, complete: fitted or swapped, new"
    assert state.touches == ["clutch"]


def test_the_job_goes_into_repair_and_never_back_by_itself():
    job = make_job()
    tell(CHANGE, job, **CLUTCH)
    job.refresh_from_db()
    assert job.stage == "repairing"
    Job.objects.update(stage="verifying")
    tell(CHANGE, job, what="gap_set")
    job.refresh_from_db()
    assert job.stage == "verifying"


def test_the_same_change_sent_twice_is_one():
    job, key = make_job(), uuid.uuid4()
    told = make_told(CLUTCH, job_key=job.key, key=key)
    assert [enter(CHANGE, told).state, enter(CHANGE, told).state] == ["accepted", "again"]
    assert Change.objects.count() == 1
    assert CarState.objects.filter(job=job).count() == 2


def test_a_correction_takes_the_place_in_the_same_state_and_both_stay():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    told = CLUTCH | {"part": "compressor", "serial": "0417"}
    enter(CHANGE, make_told(told, job_key=job.key, corrects=first.key))
    old, new = Change.objects.all()
    assert (old.superseded_by, old.state, new.state.number) == (new, new.state, 1)
    assert new.state.what.startswith("Compressor: fitted")
    assert "compressor" in new.state.touches


def test_a_correction_of_what_was_corrected_already_takes_the_newest_ones_place():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    for serial in ("1", "2"):
        told = CLUTCH | {"serial": serial}
        enter(CHANGE, make_told(told, job_key=job.key, corrects=first.key))
    assert [one.serial for one in Change.objects.filter(superseded_by=None)] == ["2"]


def codes(job: Job) -> list[str]:
    """The codes of the open points about changes."""
    points = open_points(job, [], job.changes.all())
    return [point.code for point in points if point.page == "repair"]


@pytest.mark.parametrize("elsewhere", [False, True])
def test_a_correction_of_what_is_not_in_this_job_stands_alone_and_is_an_open_point(elsewhere):
    job = make_job()
    other = tell(CHANGE, make_job(plate="ZL.1473C"), what="gap_set")
    corrects = other.key if elsewhere else uuid.uuid4()
    enter(CHANGE, make_told({"what": "gap_set"}, job_key=job.key, corrects=corrects))
    assert codes(job) == ["corrects_nothing"]
    assert not Change.objects.exclude(superseded_by=None).exists()


def test_nothing_changed_that_corrects_nothing_opens_no_state_and_begins_no_repair():
    job = make_job()
    told = make_told({"what": "nothing"}, job_key=job.key, corrects=uuid.uuid4())
    assert enter(CHANGE, told).stands
    job.refresh_from_db()
    assert (job.stage, job.car_states.count()) == ("intake", 1)
    assert codes(job) == ["corrects_nothing"]


def test_a_correction_that_arrives_first_takes_the_place_of_what_arrives_later():
    job, key = make_job(), uuid.uuid4()
    enter(CHANGE, make_told(CLUTCH | {"serial": "0417"}, job_key=job.key, corrects=key))
    enter(CHANGE, make_told({"what": "gap_set"}, job_key=job.key, key=key))
    second, first = Change.objects.all()
    assert first.superseded_by == second
    assert second.state == first.state
    assert first.state.what.startswith("Clutch, complete")
    assert codes(job) == []
    assert [state.touches for state in job.car_states.exclude(pk=first.state_id)] == [[], []]


def test_a_change_that_was_a_mistake_before_it_arrived_begins_no_repair():
    job, key = make_job(), uuid.uuid4()
    enter(CHANGE, make_told({"what": "nothing"}, job_key=job.key, corrects=key))
    enter(CHANGE, make_told({"what": "gap_set"}, job_key=job.key, key=key))
    job.refresh_from_db()
    assert job.stage == "intake"
    assert codes(job) == []


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_a_chain_of_corrections_ends_at_the_last_in_whatever_order_it_arrives(order):
    job, keys = make_job(), [uuid.uuid4() for _ in range(3)]
    now = timezone.now()
    for place in order:
        told = {"corrects": keys[place - 1]} if place else {}
        moment = now + timedelta(hours=place - 5)
        one = make_told(
            CLUTCH | {"serial": str(place)},
            job_key=job.key,
            key=keys[place],
            happened_at=moment,
            **told,
        )
        assert enter(CHANGE, one).stands
    (stands,) = Change.objects.filter(superseded_by=None)
    assert (stands.serial, stands.state.number) == ("2", 1)
    assert stands.state.opened_at == now - timedelta(hours=5)
    assert [state.touches for state in job.car_states.all() if state.touches] == [["clutch"]]
    assert codes(job) == []


def test_two_changes_correcting_one_leave_one_that_stands():
    job, key = make_job(), uuid.uuid4()
    for serial in ("1", "2"):
        told = CLUTCH | {"serial": serial}
        enter(CHANGE, make_told(told, job_key=job.key, corrects=key))
    enter(CHANGE, make_told(CLUTCH, job_key=job.key, key=key))
    assert [one.serial for one in Change.objects.filter(superseded_by=None)] == ["2"]
    assert codes(job) == []


@pytest.mark.parametrize("sequences", [(5, 3), (3, 5), (3, 3), (3, None), (None, 3), (None, None)])
def test_states_that_began_at_one_moment_are_counted_as_they_are_listed(sequences):
    job, moment = make_job(), timezone.now() - timedelta(hours=1)
    for sequence in (*sequences, 4):
        told = {"happened_at": moment, "sequence": sequence}
        assert enter(CHANGE, make_told({"what": "gap_set"}, job_key=job.key, **told)).stands
    assert [state.number for state in job.car_states.all()] == [0, 1, 2, 3]


def test_two_changes_that_correct_each_other_leave_one_that_stands():
    job, keys = make_job(), [uuid.uuid4(), uuid.uuid4()]
    for one, other in (keys, keys[::-1]):
        enter(CHANGE, make_told({"what": "gap_set"}, job_key=job.key, key=one, corrects=other))
    assert [bool(change.superseded_by) for change in Change.objects.all()] == [True, False]


def test_car_states_are_counted_by_when_they_began_though_one_arrives_late():
    job, now = make_job(), timezone.now()
    for what, hours in (("gap_set", 1), ("fuse", 3), ("opened", 2)):
        moment = now + timedelta(hours=hours - 5)
        enter(CHANGE, make_told({"what": what}, job_key=job.key, happened_at=moment))
    assert [(state.number, state.what) for state in job.car_states.all()] == [
        (0, "Car as arrived"),
        (1, WHATS["gap_set"]),
        (2, WHATS["opened"]),
        (3, WHATS["fuse"]),
    ]


def test_a_change_entered_by_mistake_leaves_a_state_that_touches_nothing():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    told = {"what": "nothing"}
    assert enter(CHANGE, make_told(told, job_key=job.key, corrects=first.key)).stands
    assert CarState.objects.get(job=job, number=1).touches == []


def test_nothing_changed_is_no_answer_of_a_new_change():
    assert tell(CHANGE, make_job(), what="nothing").form


ON_A_PART = ["fitted", "cleaned", "wire", "adjusted", "flushed", "other"]


@pytest.mark.parametrize("what", ON_A_PART)
def test_what_is_done_on_a_part_asks_for_it_at_its_field(what):
    outcome = tell(CHANGE, make_job(), what=what)
    assert outcome.form
    assert "Which part?" in str(outcome.form.errors["part"])


@pytest.mark.parametrize("what", ON_A_PART)
def test_what_is_done_on_a_part_may_say_in_words_which(what):
    assert tell(CHANGE, make_job(), what=what, where="ground left of the battery").stands


def test_what_else_was_done_keeps_its_lines_on_the_page_and_in_what_is_printed(client):
    job = make_job()
    tell(CHANGE, job, **CLUTCH, where="front bolts renewed\r\nplate cleaned")
    change = Change.objects.get()
    assert change.where == "front bolts renewed\nplate cleaned"
    client.force_login(make_person())
    assert f'<li class="told" dir="auto">{change.where}</li>' in page_of(client, job)
    lines = change_of(change)["lines"]
    assert "Where, and what else: front bolts renewed\nplate cleaned" in lines


def test_where_and_what_else_is_typed_on_several_lines(client):
    client.force_login(make_person())
    assert '<textarea name="where"' in page_of(client, make_job())


def test_flushing_a_condenser_is_asked_about_and_stays_with_a_reason():
    # trade articles: parallel-flow condensers cannot be flushed reliably
    job = make_job()
    outcome = tell(CHANGE, job, what="flushed", part="condenser")
    assert outcome.form
    assert "cannot be flushed reliably" in str(outcome.form.errors["part"])
    kept = tell(CHANGE, job, what="flushed", part="condenser", part_why="round tubes, one path")
    assert kept.stands


@pytest.mark.parametrize("part", ["clutch", "compressor"])
def test_a_serial_number_may_wait_and_is_an_open_point(part):
    job = make_job()
    first = tell(CHANGE, job, what="fitted", part=part)
    [point] = [one for one in open_points(job, [], job.changes.all()) if one.code == "serial"]
    assert (point.page, "serial number" in point.sentence) == ("repair", True)
    told = {"what": "fitted", "part": part, "serial": "88"}
    enter(CHANGE, make_told(told, job_key=job.key, corrects=first.key))
    assert not [one for one in open_points(job, [], job.changes.all()) if one.code == "serial"]


def test_a_relay_has_no_serial_number_to_wait_for():
    job = make_job()
    tell(CHANGE, job, what="fitted", part="relay")
    assert not [one for one in open_points(job, [], job.changes.all()) if one.code == "serial"]


@pytest.mark.parametrize("what", WHATS)
@pytest.mark.parametrize("part", ["", *PARTS])
def test_every_change_touches_something(what, part):
    assert set(touches(what, part)) <= set(QUESTIONS)
    assert touches(what, part)


def test_the_page_shows_what_was_changed_and_offers_to_add_the_number(client):
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH, where="front bolts renewed")
    client.force_login(make_person())
    shown = page_of(client, job)
    assert "Clutch, complete: fitted or swapped, new" in shown
    assert "front bolts renewed" in shown
    assert "Correct or add the serial number" in shown
    again = page_of(client, job, f"&corrects={first.key}")
    assert 'value="clutch" checked' in again.replace(' required=""', "").replace(
        ' id="id_part_0"', ""
    )
    assert "Nothing changed, entered by mistake" in again


def test_the_button_of_a_correction_promises_no_new_state_of_the_car(client):
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    client.force_login(make_person())
    new = "data-if-new>It opens the next state of the car."
    instead = "data-if-corrects>It takes the place of the earlier one."
    first_page, again = page_of(client, job), page_of(client, job, f"&corrects={first.key}")
    assert (new in first_page, instead in first_page) == (True, False)
    assert (new in again, instead in again) == (False, True)


def test_the_page_says_above_the_form_what_was_agreed_and_what_needs_more(client):
    job = make_job(consent_amount="150")
    client.force_login(make_person())
    said = page_of(client, job)
    assert (
        'Agreed: <bdi>find the fault</bdi>, up to <strong class="nowrap">150.00\xa0EUR</strong>.'
        in said
    )
    assert "Work beyond that needs the customer’s agreement first" in said
    assert said.index("Agreed: <bdi>find") < said.index("<form")


def test_the_page_says_that_nothing_was_agreed_or_counts_any_more(client):
    nothing = {"consent_amount": None, "consent_how": None, "consent_given_by": None}
    never, gone = make_job(**nothing), make_job(plate="KX.1111B")
    gone.consents.update(withdrawn_by=gone.entry)
    client.force_login(make_person())
    for job in (never, gone):
        said = page_of(client, job)
        assert "<strong>Nothing agreed so far</strong>, not even to find the fault." in said
        assert "Agreed: <bdi>find" not in said


def test_the_page_without_a_job_does_not_say_that_nothing_was_agreed(client):
    client.force_login(make_person())
    said = client.get(reverse("repair")).content.decode()
    assert "Nothing agreed" not in said
    assert "What was agreed stands on the shop server." in said


def test_a_change_of_another_job_cannot_be_corrected_from_here(client):
    first = tell(CHANGE, make_job(), **CLUTCH)
    client.force_login(make_person())
    other = make_job(plate="KX.1111B")
    assert client.get(f"/repair/?job={other.key}&corrects={first.key}").status_code == 404
    assert client.get(f"/repair/?job={other.key}&corrects=no-key").status_code == 404


def test_the_page_posts_without_script(client):
    job = make_job()
    client.force_login(make_person())
    response = client.post(f"/repair/?job={job.key}", CLUTCH | {"key": str(uuid.uuid4())})
    assert response["Location"] == f"/job/?job={job.key}"
    assert Change.objects.count() == 1


def test_the_front_desk_repairs_nothing(client):
    client.force_login(make_person(DESK))
    assert client.get(f"/repair/?job={make_job().key}").status_code == 403


def test_the_page_takes_the_same_queries_however_much_was_changed(
    client, django_assert_max_num_queries
):
    job = make_job()
    client.force_login(make_person())
    for _ in range(5):
        tell(CHANGE, job, **CLUTCH)
    with django_assert_max_num_queries(8):
        page_of(client, job)


@pytest.mark.parametrize(("tested", "stage"), [(True, "testing"), (False, "intake")])
def test_a_job_whose_only_change_was_a_mistake_is_not_in_repair_any_more(tested, stage):
    job = make_job()
    if tested:
        tell_step(job)
    first = tell(CHANGE, job, **CLUTCH)
    mistake = make_told({"what": "nothing"}, job_key=job.key, corrects=first.key)
    assert enter(CHANGE, mistake).stands
    job.refresh_from_db()
    assert job.stage == stage
    tell(CHANGE, job, what="fuse")
    job.refresh_from_db()
    assert job.stage == "repairing"


def test_of_two_changes_one_mistake_leaves_the_job_in_repair():
    job = make_job()
    first = tell(CHANGE, job, **CLUTCH)
    tell(CHANGE, job, what="fuse")
    assert enter(CHANGE, make_told({"what": "nothing"}, job_key=job.key, corrects=first.key)).stands
    job.refresh_from_db()
    assert job.stage == "repairing"


@pytest.mark.parametrize(("hours", "marked"), [(-1, True), (1, False)])
def test_a_change_that_happened_before_the_car_was_received_is_marked(hours, marked):
    job = make_job()
    received = timezone.now() - timedelta(hours=2)
    Job.objects.update(opened_at=received)
    told = make_told(CLUTCH, job_key=job.key, happened_at=received + timedelta(hours=hours))
    entry = Entry.objects.get(key=enter(CHANGE, told).key)
    words = "By its time this happened before the car was received."
    assert said_of(entry) == ([words] if marked else [])
