"""Oil told: what came out and went in is booked once, what nobody measured is none of it."""

import uuid

import pytest
from django.urls import reverse

from diagnostics.physics.shown_units import ShownIn
from jobs.entries import OIL, RECOVERY
from jobs.logbook import enter
from jobs.models import CarState, Entry, Job, LoopWork, Move
from jobs.models.balances import oil_of_job, oil_told
from jobs.models.people import DESK
from tests.factories import make_job, make_person, make_told, said_of, tell

pytestmark = pytest.mark.django_db
COMPRESSOR = {
    "oil": "pag46",
    "source": "compressor",
    "part": "compressor",
    "drained_old": "60",
    "arrived": "some",
    "drained_new": "120",
    "prefilled": "70",
    "added": "20",
}


def moved(job: Job) -> set[tuple[str, int, str, str]]:
    """What stands of the moves of a job: substance, µL, from where, to where."""
    rows = Move.objects.filter(job=job, undoes=None, undone_by=None)
    return {(one.substance, one.amount, one.from_place, one.to_place) for one in rows}


def problems(job: Job, **fields: str) -> dict[str, str]:
    """The sentences by field where it goes back to its form."""
    outcome = tell(OIL, job, **fields)
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, said)) for name, said in outcome.form.errors.items()}


def test_each_amount_moves_once_and_what_was_drained_from_the_new_part_never_was_in_the_car():
    job = make_job()
    assert tell(OIL, job, **COMPRESSOR).stands
    assert moved(job) == {
        ("oil", 60_000, "car", "waste"),
        ("oil", 120_000, "part", "waste"),
        ("oil", 70_000, "part", "car"),
        ("oil", 20_000, "stock", "car"),
    }
    assert {one.gas for one in Move.objects.all()} == {"pag46"}


def test_dye_counts_aside_and_is_no_oil():
    job = make_job()
    tell(OIL, job, dye="7", added="20")
    assert ("dye", 7_000, "stock", "car") in moved(job)
    assert oil_of_job(job).gained == 20_000


def test_what_stays_in_other_parts_by_the_table_is_no_move():
    job = make_job()
    tell(OIL, job, allotted="30", added="30")
    assert moved(job) == {("oil", 30_000, "stock", "car")}
    assert oil_of_job(job).by_table == 30_000


def test_ounces_are_whole_microliters():
    """1 fl oz (US) is 29.573 529 562 5 mL: NIST SP 811, appendix B.8."""
    job = make_job()
    tell(OIL, job, added="2 fl oz")
    assert moved(job) == {("oil", 59_147, "stock", "car")}


def test_oil_opens_a_car_state_that_says_what_was_done():
    job = make_job()
    tell(OIL, job, **COMPRESSOR)
    state = CarState.objects.get(job=job, number=1)
    assert state.what == "Oil: 60\xa0mL out, 90\xa0mL in"
    assert state.did == ["oil_drained", "oil_in"]


def test_the_same_oil_sent_twice_is_one():
    job, key = make_job(), uuid.uuid4()
    told = make_told({"added": "20"}, job_key=job.key, key=key)
    assert [enter(OIL, told).state, enter(OIL, told).state] == ["accepted", "again"]
    assert moved(job) == {("oil", 20_000, "stock", "car")}


def test_a_correction_takes_the_moves_back_and_both_stay_to_be_read():
    job = make_job()
    first = tell(OIL, job, added="200")
    told = {"added": "20", "why_asked": "1", "corrected_why": "a zero too many"}
    assert enter(OIL, make_told(told, job_key=job.key, corrects=first.key)).stands
    assert moved(job) == {("oil", 20_000, "stock", "car")}
    assert LoopWork.objects.count() == 2
    assert CarState.objects.filter(job=job).count() == 2


def test_oil_entered_by_mistake_moves_nothing():
    job = make_job()
    first = tell(OIL, job, added="20")
    told = {"mistake": "yes", "why_asked": "1", "corrected_why": "another car"}
    enter(OIL, make_told(told, job_key=job.key, corrects=first.key))
    assert moved(job) == set()
    assert not oil_of_job(job).into


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"arrived": "dry", "prefilled": "70"}, "prefilled"),
        ({"arrived": "kept", "drained_new": "70"}, "drained_new"),
        ({"arrived": "whole_system", "added": "100"}, "added"),
        ({"floor": "90", "added": "40"}, "floor"),
        ({"added": "900"}, "added"),
        ({"added": "-5"}, "added"),
        ({"dye": "80"}, "dye"),
    ],
)
def test_what_does_not_go_together_is_asked_and_with_a_reason_it_stands(fields, field):
    job = make_job()
    assert field in problems(job, **fields)
    kept = tell(OIL, job, **fields, **{f"{field}_why": "told by the maker"})
    assert kept.stands
    entry = Entry.objects.get(key=kept.key)
    assert [mark["field"] for mark in entry.marks] == [field]
    assert "Kept as typed: told by the maker" in said_of(entry)[0]


def test_oil_that_cannot_be_is_kept_as_typed_and_moves_nothing():
    job = make_job()
    assert tell(OIL, job, added="-5", added_why="as the sheet has it").stands
    assert tell(OIL, job, added="90000", added_why="so it says").stands
    assert moved(job) == set()


@pytest.mark.parametrize("drive", ["electric_hv", "belt_electric"])
def test_a_high_voltage_compressor_takes_only_the_oil_that_its_maker_names(drive):
    job = make_job(drive=drive, clutch="magnetic" if drive == "belt_electric" else None)
    assert "one part in 100" in problems(job, oil="poe", added="20")["by_maker"]
    assert "how" in problems(job, added="20", by_maker="yes", how="port")
    assert tell(OIL, job, oil="poe", added="20", by_maker="yes", how="part").stands


def test_a_second_type_of_oil_on_one_job_is_asked_about():
    job = make_job()
    tell(OIL, job, oil="pag46", added="20")
    assert "do not mix" in problems(job, oil="poe", added="20")["oil"]
    assert tell(OIL, job, oil="pag46", added="5").stands


def test_oil_that_a_recovery_told_already_is_asked_about_before_it_counts_again():
    job = make_job()
    recovered(job)
    assert "with_refrigerant" in problems(job, with_refrigerant="18")
    assert oil_of_job(job).gained == -18_000


def recovered(job: Job) -> None:
    """A recovery that set 18 mL apart, into a cylinder that is not entered."""
    told = {"grams_out": "385", "gas": "identified", "cylinder": "unnamed", "oil_out": "18"}
    outcome = tell(RECOVERY, job, **told)
    assert outcome.stands, outcome.form and outcome.form.errors


def test_nothing_told_is_asked_for():
    assert "added" in problems(make_job(), oil="")


def test_the_balance_says_what_nobody_knows():
    job = make_job()
    tell(OIL, job, **COMPRESSOR, allotted="20", system="135")
    told = oil_told(oil_of_job(job), ShownIn())
    says = " ".join(told["says"])
    assert "10\xa0mL more went in than came out." in says  # 70 + 20 - 60 - 20
    assert "20\xa0mL of what came out stands in the maker’s table; nobody measured it." in says
    assert "how much is in it now is not either" in says
    assert "If it held its 135\xa0mL when it came, it holds 145\xa0mL now." in says


def test_a_page_shows_the_oil_so_far_in_the_unit_of_the_shop(client):
    job = make_job()
    tell(OIL, job, **COMPRESSOR)
    client.force_login(make_person())
    page = client.get(f"{reverse('oil')}?job={job.key}").content.decode()
    assert "Drained from the old part (compressor)" in page
    assert "60\xa0mL" in page


def test_a_correction_begins_as_it_was_typed(client):
    job = make_job()
    first = tell(OIL, job, **COMPRESSOR | {"added": "2", "added_unit": "fl oz"})
    client.force_login(make_person())
    page = client.get(f"{reverse('oil')}?job={job.key}&corrects={first.key}").content.decode()
    assert 'name="added_unit" value="fl oz"' in page
    assert 'name="added" value="2"' in page


def test_the_front_desk_neither_opens_the_form_of_a_car_nor_enters_oil(client):
    job, desk = make_job(), make_person(DESK)
    client.force_login(desk)
    assert client.get(f"{reverse('oil')}?job={job.key}").status_code == 403
    assert enter(OIL, make_told({"added": "20"}, desk, job_key=job.key)).state == "forbidden"
