"""What tests, gates and the loop's state make of work on the loop."""

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from diagnostics.assess import steps_of
from diagnostics.booked import all_booked
from diagnostics.evidence.changed import DONE
from diagnostics.loop_worked import weighed_in
from diagnostics.next_step import next_of
from diagnostics.price_sheet import shop_prices
from diagnostics.record.qualified import why_not
from diagnostics.shop_told import shop_told
from diagnostics.weighing import around_of, changes_by_state, weighed, what_was_told
from jobs.entries import CHARGE, EVACUATION, MACHINE_CYCLE, RECOVERY
from jobs.models import CarState
from jobs.models.loop_works import DID
from shopac.views.job_json import rows
from shopac.views.job_json import told as json_told
from tests.diagnostics.jobs_told import LIQUID, Told, stood
from tests.factories import make_person, qualify

pytestmark = pytest.mark.django_db
OUT: dict[str, Any] = {"cylinder": "unnamed", "gas": "label", "grams_out": "200"}
OUT |= {"machine": "newer", "temperature": "22", "waited": "steady", "came_back": "12"}
IN: dict[str, Any] = {"cylinder": "unnamed", "fill": "full", "grams_in": "520", "hose": "machine"}
SHARE = {"test_kind": "recovered_share", "recovered": "200", "machine": "newer"}
SHARE |= {"temperature": "22", "repeated": "yes"}

DEBRIS = {"test_kind": "debris", "expansion": "clean"}


def emptied() -> Told:
    """A car whose refrigerant was read to be there, and recovered."""
    car = Told()
    car.test(LIQUID)
    stood(car.tell(RECOVERY, **OUT))
    return car


def codes(car: Told) -> list[str]:
    """The codes of what is open about the loop's work."""
    pages = ("recovery", "charge", "machine_cycle")
    return [one.code for one in car.now.points if one.page in pages]


def shut(car: Told) -> dict[str, str]:
    """The gates that are shut, {code: what they bar}."""
    return {one.code: one.act for one in car.now.shut}


def amount_now(car: Told) -> dict[str, float]:
    """How likely each amount is held to be now."""
    found = weighed(around_of(car.again))
    return {one.code: one.share for one in found.stands if one.variable == "amount"}


def test_after_a_recovery_the_loop_must_not_be_run_until_it_is_charged():
    car = emptied()
    assert car.now.loop.code == "recovered"
    assert car.now.loop.run.startswith("Must not be run")
    stood(car.tell(CHARGE, **IN))
    assert (car.now.loop.code, car.now.loop.run) == ("charged", "")


def test_a_charge_tells_what_went_in_and_not_what_is_in_it():
    car = emptied()
    stood(car.tell(CHARGE, **IN))
    said = car.now.loop.text
    assert "How much is in it now" in said
    assert "Tight: not told by this." in said


def test_a_machines_cycle_leaves_the_loop_charged_and_evacuated():
    car = Told()
    car.change(what="opened")
    car.change(what="closed")
    cycle: dict[str, Any] = {
        "grams_out": "0",
        "depth": "400",
        "minutes": "30",
        "oil_in": "40",
        "grams_in": "520",
    }
    stood(car.tell(MACHINE_CYCLE, cylinder="unnamed", hose="machine", **cycle))
    loop = car.now.loop
    assert (loop.code, loop.was_open, loop.oil_out) == ("charged", False, "")


def test_pumping_waits_for_a_recovery_and_no_more_once_it_is_booked():
    car = Told()
    car.test(LIQUID)
    assert shut(car)["recovered_first"] == "pump"
    stood(car.tell(RECOVERY, **OUT))
    assert "recovered_first" not in shut(car)
    stood(car.tell(CHARGE, **IN))
    assert "recovered_first" in shut(car)


def test_a_weighed_charge_opens_running_for_a_measurement_and_a_top_up_does_not():
    car, other = emptied(), emptied()
    stood(car.tell(CHARGE, **IN))
    stood(other.tell(CHARGE, **IN | {"fill": "top_up", "grams_in": "100"}))
    assert "charge_first" not in shut(car)
    assert "charge_first" in shut(other)


def test_oil_that_came_out_bars_the_charge_until_it_is_noted_back_in():
    car = Told()
    stood(car.tell(RECOVERY, **OUT, oil_out="15"))
    assert shut(car)["oil_first"] == "charge"
    cycle: dict[str, Any] = {"oil_in": "15", "grams_in": "520", "grams_out": "0"}
    stood(car.tell(MACHINE_CYCLE, cylinder="unnamed", hose="machine", **cycle))
    assert "oil_first" not in shut(car)


def test_what_bars_a_recovery_is_said_on_its_page_and_bars_no_entry(client):
    car = Told()
    client.force_login(make_person())
    page = client.get(f"{reverse('recovery')}?job={car.job.key}").content.decode()
    assert "Search for the leak under pressure before the refrigerant is recovered." in page
    assert "Identify the gas before the shop’s own hoses are put on." in page
    stood(car.tell(RECOVERY, **OUT))


def test_what_was_done_against_the_order_is_an_open_point_once():
    car = emptied()
    assert codes(car).count("leak_search_first") == 1
    assert codes(car).count("gas_first") == 1
    stood(car.tell(CHARGE, **IN))
    assert codes(car).count("gas_first") == 1


def test_charging_an_open_loop_that_was_not_evacuated_is_an_open_point():
    car = Told()
    car.change(what="opened")
    stood(car.tell(CHARGE, **IN))
    assert {"closed_first", "oil_first"} <= {*codes(car)}
    other = Told(plate="ZL.1473C")
    other.change(what="opened")
    other.change(what="closed")
    stood(other.tell(CHARGE, **IN))
    assert "evacuated_first" in codes(other)


def test_a_machine_that_only_charges_an_open_loop_leaves_the_same_points_open():
    car = Told()
    car.change(what="opened")
    stood(car.tell(MACHINE_CYCLE, grams_in="520"))
    assert {"closed_first", "oil_first"} <= {*codes(car)}
    car = Told()
    car.change(what="opened")
    car.change(what="closed")
    stood(car.tell(MACHINE_CYCLE, grams_in="520"))
    assert {"evacuated_first", "oil_first"} <= {*codes(car)}


def test_a_machine_that_evacuates_oils_and_charges_in_one_go_leaves_none_of_them():
    car = Told()
    car.change(what="opened")
    car.change(what="closed")
    stood(car.tell(MACHINE_CYCLE, depth="400", oil_in="60", grams_in="520"))
    assert not {"closed_first", "evacuated_first", "oil_first"} & {*codes(car)}


def test_a_machine_that_only_charges_recovered_nothing_before_a_leak_search():
    car = Told()
    stood(car.tell(MACHINE_CYCLE, grams_in="520"))
    assert "leak_search_first" not in codes(car)


def test_what_each_work_did_changes_only_what_is_said_of_it():
    assert {*DID} <= {*DONE}


SHALLOW: tuple[dict[str, Any], ...] = (
    {"depth": "400000", "depth_why": "As it shows."},
    {"needle": "10", "needle_why": "As it shows.", "gauge": "needle"},
    {"depth": "430", "t1": "5", "p1": "30000"},
)


@pytest.mark.parametrize("read", SHALLOW)
def test_half_a_vacuum_does_not_open_the_charge(read):
    car = Told()
    car.change(what="opened")
    car.change(what="closed")
    stood(car.tell(EVACUATION, pumped="30", **read))
    assert "evacuated_first" in shut(car)
    assert "less deep than water boils away at" in car.now.loop.text
    assert car.now.loop.run.startswith("Must not be run")
    stood(car.tell(CHARGE, **IN))
    assert "evacuated_first" in codes(car)


def test_a_charge_into_a_leak_is_taken_and_is_an_open_point():
    car = Told()
    stood(car.tell(CHARGE, **IN, leak="not_repaired"))
    assert "into_leak" in codes(car)


def test_a_cylinder_that_is_not_entered_and_grams_not_told_stay_open():
    car = Told()
    stood(car.tell(RECOVERY, cylinder="unnamed", note="Scale was broken."))
    assert {"cylinder_unnamed", "grams_untold"} <= {*codes(car)}


def test_a_recovery_empties_and_a_charge_fills_what_is_weighed():
    car = emptied()
    assert amount_now(car)["empty"] > 0.9
    stood(car.tell(CHARGE, **IN))
    assert amount_now(car)["ok"] > 0.8
    changes = list(changes_by_state(car.now.states, []))
    assert [dict(one).get("amount") for one in changes] == ["emptied", "filled"]


def test_recovered_grams_tell_of_the_car_before_they_came_out():
    car = emptied()
    car.test(SHARE)
    states, steps = car.now.states, car.now.steps
    (share,) = [one for one in what_was_told(steps, states) if one.kind == "recovered_share"]
    assert share.state == 0
    assert next(one for one in steps if one.step.kind == "recovered_share").step.state_then == 1


def test_two_pulls_booked_apart_are_one_emptying_and_a_charge_between_parts_them():
    def state(number: int, *did: str) -> CarState:
        return CarState(number=number, did=list(did))

    apart = [state(0), state(1, "recovered"), state(2, "recovered")]
    assert weighed_in("recovered_share", 2, apart) == 0
    refilled = [*apart, state(3, "charged"), state(4, "recovered")]
    assert weighed_in("recovered_share", 4, refilled) == 3
    assert weighed_in("recovered_share", 3, refilled) == 3
    assert weighed_in("static_pressure", 2, apart) == 2


def test_the_grams_of_the_same_recovery_count_once():
    """Typed alone, or booked and then read: what was in the car is held to be the same."""
    typed, booked = Told(), Told()
    typed.test(LIQUID)
    booked.test(LIQUID)
    typed.test(SHARE)
    stood(booked.tell(RECOVERY, **OUT))
    booked.test(SHARE)

    def told(car: Told) -> list[tuple[str, str, int]]:
        return [
            (one.kind, one.outcome, one.state)
            for one in what_was_told(steps_of(car.again), list(car.again.car_states.all()))
        ]

    assert told(typed) == told(booked)


def test_after_a_charge_tests_of_it_come_and_no_other_recovery():
    car = emptied()
    car.test(SHARE)
    stood(car.tell(CHARGE, **IN))
    around = around_of(car.again)
    step = next_of(weighed(around), around)
    assert step.best
    named = [one.kind.name for one in (step.best, *step.others, *step.beside)]
    assert "recovered_share" not in named
    assert car.again.failing_now == ""
    assert any(one.code == "not_tested_since" for one in car.now.points)


def test_grams_read_of_a_booked_recovery_tell_nothing_of_the_loop_after_it():
    car = emptied()
    car.test(DEBRIS)
    assert car.now.loop.code == "open"
    car.test(SHARE)
    assert car.now.loop.code == "open"
    assert "closing not noted" in car.now.loop.words


def test_grams_read_after_a_charge_with_no_recovery_booked_tell_of_the_loop():
    car = emptied()
    stood(car.tell(CHARGE, **IN))
    car.test(SHARE)
    assert car.now.loop.code == "recovered"


def test_the_test_of_recovered_grams_begins_with_what_was_booked_and_says_so(client):
    car = emptied()
    client.force_login(make_person())
    page = client.get(f"{reverse('step', args=['recovered_share'])}?job={car.job.key}")
    form = page.context["form"]
    told = {name: form[name].value() for name in ("recovered", "machine", "repeated")}
    assert told == {"recovered": "200", "machine": "newer", "repeated": "yes"}
    assert (form["temperature"].value(), form["temperature_unit"].value()) == ("22", "°C")
    assert "Begins with what was booked" in page.content.decode()


def test_a_correction_of_the_test_begins_with_its_own_figures(client):
    car = emptied()
    made = car.test(SHARE, recovered="190")
    client.force_login(make_person())
    address = f"{reverse('step', args=['recovered_share'])}?job={car.job.key}&corrects={made.key}"
    assert client.get(address).context["form"]["recovered"].value() == "190"


def test_a_figure_that_differs_from_what_was_booked_is_said_and_both_stand():
    car = emptied()
    car.test(SHARE, recovered="190")
    (point,) = [one for one in car.now.points if one.code == "differs_from_booked"]
    assert "190\u00a0g typed, 200\u00a0g booked" in point.sentence
    same = emptied()
    same.test(SHARE)
    assert not [one for one in same.now.points if one.code == "differs_from_booked"]


def test_a_tablet_is_told_what_was_booked_what_is_shut_and_the_label():
    car = emptied()
    job = rows().get(pk=car.job.pk)
    told = json_told(job, {}, shop_told(), shop_prices(), [{"key": "x", "words": "Cylinder 3"}])
    assert told["booked"]["recovered_share"]["fields"]["recovered"] == "200"
    assert told["emptied"] is True
    assert told["label"].startswith("520\u00a0g")
    assert told["cylinders"] == [{"key": "x", "words": "Cylinder 3"}]
    assert [one["opens"] for one in told["works"]] == [("recovered_first",)]
    assert any("charge" in one["works"] for one in told["gates"])


def test_what_was_not_weighed_begins_no_test():
    car = Told()
    stood(car.tell(RECOVERY, cylinder="unnamed", note="Scale was broken."))
    assert all_booked(car.again.loop_works.all()) == {}


def test_a_gate_of_work_is_told_by_its_page():
    car = Told()
    found = {one.code: one.works for one in car.now.shut}
    assert found["gas_first"] == ["recovery", "charge", "machine_cycle"]
    assert found["leak_search_first"] == ["recovery", "machine_cycle"]


def test_after_a_booked_recovery_its_reading_comes_next_until_it_is_made():
    car = emptied()
    around = around_of(car.again)
    first = next_of(weighed(around), around).best
    assert first
    assert (first.kind.name, first.minutes) == ("recovered_share", 1)
    car.test(SHARE)
    around = around_of(car.again)
    after = next_of(weighed(around), around).best
    assert after is None or after.kind.name != "recovered_share"


def test_a_loop_that_was_emptied_is_offered_nothing_that_needs_its_charge():
    car = emptied()
    car.test(SHARE)
    around = around_of(car.again)
    step = next_of(weighed(around), around)
    named = {one.kind.name for one in (step.best, *step.others, *step.beside) if one}
    assert named.isdisjoint({"gas_identity", "sealant_test", "leak_search", "equalising"})


def test_work_of_somebody_without_a_card_that_day_is_an_open_point_and_bars_an_issue():
    car, sand = Told(), make_person(name="R. Sand")
    stood(car.tell(RECOVERY, sand, **OUT))
    assert "not_qualified_refrigerant" in codes(car)
    assert "R. Sand" in why_not(car.again, sand)
    qualify(sand)
    assert "not_qualified_refrigerant" not in codes(car)
    assert why_not(car.again, sand) == ""


def test_a_tablets_jobs_are_read_as_often_however_many_had_work_on_their_loop():
    def worked(plate: str) -> None:
        car = Told(plate=plate)
        car.change(what="opened")
        stood(car.tell(RECOVERY, **OUT))
        stood(car.tell(CHARGE, **IN))

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            for job in rows():
                json_told(job, {}, shop, prices)
        return len(queries)

    shop, prices = shop_told(), shop_prices()
    worked("AA.1000A")
    one = asked()
    worked("BB.2000B")
    worked("CC.3000C")
    assert asked() == one
