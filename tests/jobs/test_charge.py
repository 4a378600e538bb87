"""Refrigerant put into a car: out of which cylinder, by weight, what stayed in the hose."""

import pytest
from django.urls import reverse

from jobs.entries import CHARGE, RECOVERY
from jobs.logbook import enter
from jobs.models import CarState, Cylinder, Job, LoopWork, Move
from jobs.models.amounts import held
from jobs.models.cylinders import by_gas
from jobs.models.loop_works import is_emptied
from tests.factories import make_job, make_person, make_told, said_of, tell
from tests.jobs.test_recovery import a_cylinder, moved, recovery

pytestmark = pytest.mark.django_db
FULL = {"fill": "full", "grams_in": "520", "hose": "machine"}  # the label says 520 g


def problems(job: Job, **fields: str) -> dict[str, str]:
    """The sentences by field where a charge goes back to its form."""
    outcome = tell(CHARGE, job, **fields)
    assert outcome.form is not None, outcome.state
    return {name: " ".join(map(str, said)) for name, said in outcome.form.errors.items()}


def test_a_charge_leaves_its_cylinder_and_touches_the_charge():
    job, five = make_job(), a_cylinder("Cylinder 5", holds=5000)
    assert tell(CHARGE, job, **FULL, cylinder=five.key.hex).stands
    assert held(Move.objects.all())[five.pk] == 4_480_000
    state = CarState.objects.get(job=job, number=1)
    assert state.what == "Charge: 520\u00a0g from Cylinder 5"
    assert (state.did, state.touches) == (["charged"], ["charge"])


def test_what_stays_in_the_hose_as_liquid_is_a_move_to_the_hose():
    """1.8 m of 4.8 mm hold 33 mL; saturated liquid R-134a at 20 °C has 1225 kg/m³: 40 g.

    The density: ASHRAE Handbook, Fundamentals, R-134a; from memory.
    """
    job, five = make_job(), a_cylinder(holds=5000)
    told = FULL | {"grams_in": "560", "hose": "liquid"}
    assert tell(CHARGE, job, **told, cylinder=five.key.hex).stands
    (_, into_car, _, _), (_, in_hose, _, place) = moved(job)
    assert place == "hose"
    assert in_hose == pytest.approx(40_000, abs=600)
    assert into_car + in_hose == 560_000


def test_a_machine_that_allows_for_the_hose_leaves_nothing_in_it():
    job = make_job()
    tell(CHARGE, job, **FULL, cylinder="unnamed")
    assert [place for *_, place in moved(job)] == ["car"]


@pytest.mark.parametrize(("typed", "asked"), [("500", True), ("506", False), ("540", True)])
def test_a_whole_charge_off_the_label_by_more_than_15_grams_is_asked(typed, asked):
    job = make_job()
    told = FULL | {"grams_in": typed, "cylinder": "unnamed"}
    if not asked:
        assert tell(CHARGE, job, **told).stands
        return
    assert "the label says 520\u00a0g" in problems(job, **told)["grams_in"]
    kept = tell(CHARGE, job, **told, grams_in_why="Rear unit is shut off.")
    assert kept.stands
    (work,) = LoopWork.objects.filter(job=job)
    assert any("Rear unit is shut off." in words for words in said_of(work.entry))


def test_a_top_up_says_so_and_is_no_whole_charge():
    job = make_job()
    assert tell(CHARGE, job, fill="top_up", grams_in="120", cylinder="unnamed").stands
    state = CarState.objects.get(job=job, number=1)
    assert (state.did, state.what) == (["topped_up"], "Topped up: 120\u00a0g")


def test_whether_it_is_the_whole_charge_is_asked():
    assert "fill" in problems(make_job(), grams_in="520", cylinder="unnamed")


def test_what_is_contaminated_goes_into_no_car_unless_it_is_done_already():
    job = make_job()
    mixed = a_cylinder("Mixed", kind="contaminated")
    told = FULL | {"cylinder": mixed.key.hex}
    assert "never goes into a car" in problems(job, **told)["cylinder"]
    assert tell(CHARGE, job, **told, is_done="done").stands
    assert held(Move.objects.all())[mixed.pk] == -520_000
    assert Move.objects.get(job=job).gas == ""
    assert CarState.objects.get(job=job, number=1).did == ["topped_up"]


def test_more_than_the_cylinder_holds_is_asked_and_booked_below_zero_once_done():
    job, five = make_job(), a_cylinder(holds=300)
    told = FULL | {"cylinder": five.key.hex}
    assert "weigh it" in problems(job, **told)["cylinder"]
    assert tell(CHARGE, job, **told, is_done="done").stands
    assert held(Move.objects.all())[five.pk] == -220_000


def test_a_cylinder_that_weighs_otherwise_than_the_book_has_it_is_asked_about():
    job, five = make_job(), a_cylinder(holds=5000)
    told = FULL | {"cylinder": five.key.hex, "scale_before": "9.350", "scale_after": "8.830"}
    assert "by the book this cylinder had 12.000\u00a0kg" in problems(job, **told)["scale_before"]
    assert tell(CHARGE, job, **told, scale_before_why="The book is off.").stands


def test_another_refrigerant_than_the_labels_is_asked():
    job, yf = make_job(), a_cylinder(refrigerant="R-1234yf")
    said = problems(job, **FULL, cylinder=yf.key.hex)["cylinder"]
    assert "the label says R-134a" in said


def test_charging_into_a_leak_is_taken_and_stands_in_its_words():
    job = make_job()
    assert tell(CHARGE, job, **FULL, cylinder="unnamed", leak="not_found").stands
    assert CarState.objects.get(job=job, number=1).what.endswith("leak not found")


def test_dye_is_no_refrigerant():
    job = make_job()
    tell(CHARGE, job, **FULL, cylinder="unnamed", dye="7.5")
    assert moved(job)[-1] == ("dye", 7_500, "stock", "car")
    assert moved(job)[0][:2] == ("refrigerant", 520_000)


def test_the_page_begins_with_the_whole_charge_where_the_loop_was_emptied(client):
    job = make_job()
    client.force_login(make_person())
    address = f"{reverse('charge')}?job={job.key}"
    assert not client.get(address).context["form"]["fill"].value()
    tell(RECOVERY, job, **recovery())
    page = client.get(address)
    assert page.context["form"]["fill"].value() == "full"
    assert "520\u00a0g\u00a0(18.3\u00a0oz) of R-134a" in page.content.decode()


def test_a_loop_is_emptied_until_it_is_filled():
    job = make_job()
    tell(RECOVERY, job, **recovery())
    assert is_emptied(job.car_states.all())
    tell(CHARGE, job, **FULL, cylinder="unnamed")
    assert not is_emptied(job.car_states.all())


def test_a_charge_put_right_stays_of_the_refrigerant_that_its_cylinder_had():
    job, five = make_job(), a_cylinder(holds=5000)
    first = tell(CHARGE, job, **FULL, cylinder=five.key.hex)
    Cylinder.objects.filter(pk=five.pk).update(refrigerant="R-1234yf")
    told = FULL | {"grams_in": "525", "cylinder": five.key.hex, "cylinder_why": "it was R-134a"}
    assert enter(CHARGE, make_told(told, job_key=job.key, corrects=first.key)).stands
    assert by_gas([five.pk])[five.pk] == {"R-134a": 4_475_000}


def test_dye_into_a_high_voltage_compressor_is_asked_about():
    job = make_job(drive="electric_hv", clutch=None)
    assert "its maker names" in problems(job, **FULL, dye="7")["dye"]
    assert tell(CHARGE, job, **FULL, dye="7", dye_why="by the maker's sheet").stands


def test_dye_into_a_belt_driven_compressor_is_not_asked_about():
    assert tell(CHARGE, make_job(), **FULL, dye="7").stands
