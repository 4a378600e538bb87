"""Refrigerant taken out of a car: booked where it went, told as what came out, and no more."""

import uuid
from typing import Any

import pytest
from django.urls import reverse

from jobs.entries import CHARGE, RECOVERY
from jobs.forms.charge import ChargeForm
from jobs.forms.fields import answers_of
from jobs.forms.loop_work import CylinderTap, LoopWorkForm
from jobs.forms.recovery import RecoveryForm
from jobs.logbook import enter
from jobs.models import CarState, Cylinder, Job, LoopWork, Move
from jobs.models.amounts import held
from jobs.models.people import DESK
from tests.factories import make_job, make_person, make_told, said_of, tell
from tests.jobs.cylinders import buy, make_cylinder, stood

pytestmark = pytest.mark.django_db


def a_cylinder(name: str = "Cylinder 3", *, holds: int = 0, **fields: str) -> Cylinder:
    """One of the shop, with so many grams bought into it."""
    made = make_cylinder(fields.pop("kind", "refillable"), name=name, **fields)
    if holds:
        stood(buy(made, f"{holds} g"))
    return made


def recovery(cylinder: Any = None, **more: str) -> dict[str, str]:
    """One recovery as it is typed."""
    where = {"cylinder": cylinder.key.hex} if cylinder else {"cylinder": "unnamed"}
    return {"grams_out": "410", "gas": "identified", **where, **more}


def problems(job: Job, **fields: str) -> dict[str, str]:
    """The sentences by field where a recovery goes back to its form."""
    outcome = tell(RECOVERY, job, **fields)
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, said)) for name, said in outcome.form.errors.items()}


def moved(job: Job) -> list[tuple[str, int, str, str]]:
    """What stands of the moves of a job."""
    rows = Move.objects.filter(job=job, undoes=None, undone_by=None)
    return [(one.substance, one.amount, one.from_place, one.to_place) for one in rows]


def test_recovered_grams_lie_in_the_cylinder_and_open_the_next_car_state():
    job, three = make_job(), a_cylinder()
    assert tell(RECOVERY, job, **recovery(three)).stands
    assert held(Move.objects.all()) == {three.pk: 410_000}
    state = CarState.objects.get(job=job, number=1)
    assert state.what == "Recovery: 410\u00a0g into Cylinder 3"
    assert (state.did, state.touches) == (["recovered"], [])


def test_a_second_pull_is_a_move_of_its_own_and_counts():
    job, three = make_job(), a_cylinder()
    tell(RECOVERY, job, **recovery(three, waited="again", grams_again="12"))
    assert [amount for _, amount, _, _ in moved(job)] == [410_000, 12_000]
    assert LoopWork.objects.get().told["out_mg"] == 422_000


def test_the_scale_alone_tells_the_grams():
    job, three = make_job(), a_cylinder(holds=7250)
    scale = {"scale_before": "14.250", "scale_after": "14.662"}
    tell(RECOVERY, job, **recovery(three, **scale) | {"grams_out": ""})
    assert moved(job) == [("refrigerant", 412_000, "car", "cylinder")]


@pytest.mark.parametrize(
    ("typed", "asked"), [("14.225", False), ("14.275", False), ("14.215", True), ("8.600", True)]
)
def test_a_scale_off_book_and_tare_by_more_than_two_weighings_may_be_is_asked_and_kept(
    typed: str, asked: bool
):
    """Scales in a shop are good to ±15 g (our judgement): this reading and the book's own."""
    job, three = make_job(), a_cylinder(holds=7250)
    scale = {"scale_before": typed, "scale_after": f"{float(typed) + 0.41:.3f}"}
    if asked:
        said = problems(job, **recovery(three, **scale))
        assert said["scale_before"].startswith(
            f"It showed {typed}\u00a0kg before; by the book this cylinder had 14.250\u00a0kg then"
        )
        scale["scale_before_why"] = "Another collar on it."
    assert tell(RECOVERY, job, **recovery(three, **scale)).stands
    assert moved(job) == [("refrigerant", 410_000, "car", "cylinder")]
    kept = [one["code"] for one in LoopWork.objects.get().entry.marks]
    assert kept == ["scale_off_book"] * asked


def test_a_scale_set_to_nothing_or_a_cylinder_without_tare_is_held_to_no_book():
    three = a_cylinder(holds=7250)
    nothing = {"scale_before": "0", "scale_after": "0.410"}
    assert tell(RECOVERY, make_job(), **recovery(three, **nothing)).stands
    Cylinder.objects.filter(pk=three.pk).update(tare_mg=None)
    off = {"scale_before": "3.000", "scale_after": "3.410"}
    assert tell(RECOVERY, make_job(), **recovery(three, **off)).stands


def test_a_recovery_put_right_is_held_to_the_book_of_when_it_was_done():
    job, three = make_job(), a_cylinder(holds=7250)
    scale = {"scale_before": "14.250", "scale_after": "14.660"}
    first = tell(RECOVERY, job, **recovery(three, **scale))
    other = {"fill": "full", "grams_in": "520", "hose": "machine", "cylinder": three.key.hex}
    assert tell(CHARGE, make_job(), **other).stands
    more = {"corrected_why": "Oil was left out.", "why_asked": "1", "oil_out": "5"}
    told = make_told(recovery(three, **scale, **more), job_key=job.key, corrects=first.key)
    assert enter(RECOVERY, told).stands


def test_grams_that_differ_from_the_scale_are_asked_and_kept_with_why():
    job, three = make_job(), a_cylinder(holds=7250)
    scale = {"scale_before": "14.250", "scale_after": "14.310"}
    assert "410\u00a0g are told" in problems(job, **recovery(three, **scale))["grams_out"]
    kept = tell(RECOVERY, job, **recovery(three, **scale, grams_out_why="Hose pulled on it."))
    assert kept.stands
    assert moved(job)[0][1] == 410_000
    entry = LoopWork.objects.get().entry
    assert any("Hose pulled on it." in words for words in said_of(entry))


def test_oil_that_came_out_is_booked_once_and_zero_is_no_move():
    job, other = make_job(), make_job(plate="ZL.1473C")
    tell(RECOVERY, job, **recovery(oil_out="15"))
    tell(RECOVERY, other, **recovery(oil_out="0"))
    assert ("oil", 15_000, "car", "waste") in moved(job)
    assert [one[0] for one in moved(other)] == ["refrigerant"]
    assert LoopWork.objects.get(job=other).told["oil_out"]["typed"] == "0"


def test_a_cylinder_that_is_not_entered_yet_is_booked_as_such():
    job = make_job()
    tell(RECOVERY, job, **recovery(cylinder_named="Blue, 14 kg"))
    assert moved(job) == [("refrigerant", 410_000, "car", "unnamed")]
    assert LoopWork.objects.get().words == "Recovery: 410\u00a0g into Blue, 14 kg"


def test_what_nobody_weighed_is_no_move_and_no_zero():
    job = make_job()
    assert tell(RECOVERY, job, cylinder="unnamed", note="Scale was broken.").stands
    assert moved(job) == []
    assert CarState.objects.get(job=job, number=1).did == ["recovery"]


def test_an_empty_form_tells_nothing():
    assert "grams_out" in problems(make_job(), cylinder="unnamed")


def test_next_to_nothing_is_told_from_a_recovery():
    job = make_job()
    tell(RECOVERY, job, **recovery(grams_out="3"))
    assert CarState.objects.get(job=job, number=1).did == ["nothing_came"]


@pytest.mark.parametrize("typed", ["4100", "4,1 kg", "9 lb"])
def test_more_than_a_car_holds_is_asked_and_booked_with_why(typed):
    job = make_job()
    assert "check the unit" in problems(job, **recovery(grams_out=typed))["grams_out"]
    assert tell(RECOVERY, job, **recovery(grams_out=typed, grams_out_why="A bus.")).stands
    assert moved(job)[0][1] > 4_000_000


def test_what_no_car_holds_is_kept_as_typed_and_never_booked():
    job = make_job()
    told = recovery(grams_out="410 kg", grams_out_why="So it showed.")
    assert tell(RECOVERY, job, **told).stands
    assert moved(job) == []
    assert LoopWork.objects.get().told["grams_out"]["typed"] == "410"


def test_unknown_gas_asks_for_a_cylinder_of_its_own_and_is_booked_where_it_went():
    job, three = make_job(), a_cylinder()
    told = recovery(three, gas="unknown")
    assert "contaminated" in problems(job, **told)["cylinder"]
    assert tell(RECOVERY, job, **told, is_done="done").stands
    assert Move.objects.get(job=job).gas == ""
    own = a_cylinder("Mixed", kind="contaminated")
    assert tell(RECOVERY, make_job(plate="ZL.1473C"), **recovery(own, gas="unknown")).stands


def test_a_second_refrigerant_in_one_cylinder_is_asked():
    three = a_cylinder(refrigerant="R-1234yf")
    assert "one refrigerant to a cylinder" in problems(make_job(), **recovery(three))["cylinder"]


def test_a_correction_takes_back_what_the_first_moved_and_counts_alone():
    job, three, four = make_job(), a_cylinder(), a_cylinder("Cylinder 4")
    first = tell(RECOVERY, job, **recovery(three))
    told = recovery(four, grams_out="401", corrected_why="Wrong cylinder.")
    assert enter(RECOVERY, make_told(told, job_key=job.key, corrects=first.key)).stands
    assert held(Move.objects.all()) == {three.pk: 0, four.pk: 401_000}
    assert CarState.objects.get(job=job, number=1).what == "Recovery: 401\u00a0g into Cylinder 4"
    assert [one.superseded_by_id is None for one in LoopWork.objects.all()] == [False, True]


def test_a_recovery_that_did_not_happen_moves_nothing_and_did_nothing_to_the_loop():
    job, three = make_job(), a_cylinder()
    first = tell(RECOVERY, job, **recovery(three))
    told = {"mistake": "yes", "corrected_why": "The other car."}
    assert enter(RECOVERY, make_told(told, job_key=job.key, corrects=first.key)).stands
    assert held(Move.objects.all()) == {three.pk: 0}
    assert CarState.objects.get(job=job, number=1).did == []


def test_a_correction_that_arrives_first_counts_once_the_other_is_here():
    job, three, key = make_job(), a_cylinder(), uuid.uuid4()
    told = recovery(three, grams_out="401")
    assert enter(RECOVERY, make_told(told, job_key=job.key, corrects=key)).stands
    assert enter(RECOVERY, make_told(recovery(three), job_key=job.key, key=key)).stands
    assert held(Move.objects.all()) == {three.pk: 401_000}
    assert CarState.objects.filter(job=job, did=["recovered"]).count() == 1


def test_the_same_recovery_sent_twice_is_booked_once():
    job, three, key = make_job(), a_cylinder(), uuid.uuid4()
    told = make_told(recovery(three), job_key=job.key, key=key)
    assert [enter(RECOVERY, told).state, enter(RECOVERY, told).state] == ["accepted", "again"]
    assert held(Move.objects.all()) == {three.pk: 410_000}


def test_weighing_out_and_back_is_testing_and_more_going_in_than_out_is_repair():
    job = make_job()
    tell(RECOVERY, job, **recovery())
    job.refresh_from_db()
    assert job.stage == "testing"
    back = {"cylinder": "unnamed", "fill": "full", "grams_in_why": "Back as it was."}
    tell(CHARGE, job, **back, grams_in="410")
    job.refresh_from_db()
    assert job.stage == "testing"
    tell(CHARGE, job, cylinder="unnamed", fill="top_up", grams_in="110")
    job.refresh_from_db()
    assert job.stage == "repairing"


def test_a_recovery_while_it_is_decided_begins_the_repair():
    job = make_job()
    Job.objects.update(stage="deciding")
    tell(RECOVERY, job, **recovery())
    job.refresh_from_db()
    assert job.stage == "repairing"


def test_the_page_shows_what_was_recovered_and_begins_a_correction_as_it_was_typed(client):
    job, three = make_job(), a_cylinder()
    made = tell(RECOVERY, job, **recovery(three, temperature="70 °F"))
    client.force_login(make_person())
    page = client.get(f"{reverse('recovery')}?job={job.key}").content.decode()
    assert "Recovery: 410\u00a0g into Cylinder 3" in page
    again = client.get(f"{reverse('recovery')}?job={job.key}&corrects={made.key}")
    form = again.context["form"]
    assert (form["grams_out"].value(), form["cylinder"].value()) == ("410", three.key.hex)
    assert (form["temperature"].value(), form["temperature_unit"].value()) == ("70", "°F")


def test_the_desk_recovers_nothing(client):
    client.force_login(make_person(DESK))
    job = make_job()
    assert client.get(f"{reverse('recovery')}?job={job.key}").status_code == 403


def test_cylinders_that_are_never_taken_for_the_work_come_last_with_why():
    for name, kind in (("A", "new"), ("B", "contaminated"), ("C", "refillable")):
        a_cylinder(name, kind=kind)

    def offered(form: type[LoopWorkForm]) -> list[str]:
        field = form().fields["cylinder"]
        assert isinstance(field, CylinderTap)
        return [words for _code, words in answers_of(field)]

    into, out = offered(RecoveryForm), offered(ChargeForm)
    assert [one[0] for one in into] == ["B", "C", "A", "O"]
    assert into[2].endswith(": never filled again")
    assert [one[0] for one in out] == ["A", "C", "B", "O"]
    assert out[2].endswith(": never charged from")
