"""Open points: an owner waives one or overrides an order; neither is a pass, and both print."""

import json
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils.html import escape

from diagnostics.assess import made, steps_of, system_of
from diagnostics.entries import ISSUE
from diagnostics.evidence.orders import ORDERS
from diagnostics.models import Override, Waiver
from diagnostics.points import gates
from diagnostics.waived import identity, parted
from jobs.entries import CHANGE, CUSTOMER, DISCARD
from jobs.logbook import FORBIDDEN, REFUSED, RETURNED, enter
from jobs.models import Entry, Record
from jobs.models.people import DESK, OWNER, TECHNICIAN
from jobs.models.points import OpenPoint
from jobs.models.stages import WHY_BACK
from tests.diagnostics.jobs_told import CLUTCH, HOLDS, LIQUID, Told, stood
from tests.diagnostics.test_gates import LIVE, MIXED
from tests.factories import make_person, make_told

pytestmark = pytest.mark.django_db
RUN = {"test_kind": "running_pressures", "low": "200", "high": "1300", "shaft": "yes"}


def page(client: Client, told: Told, role: str = OWNER, name: str = "points") -> str:
    client.force_login(make_person(role))
    return client.get(reverse(name), {"job": str(told.job.key)}).content.decode()


def issued(told: Told) -> Any:
    fields = {"issue": "1", "entries": str(Entry.objects.filter(job_key=told.job.key).count())}
    stood(enter(ISSUE, make_told(fields, make_person(OWNER), job_key=told.job.key)))
    return json.loads(Record.objects.get().data)


def codes(told: Told) -> tuple[set[str], set[str]]:
    """Of the points, those that are open and those that were waived."""
    still, waived = told.now.parted
    return {one.code for one in still}, {one.point.code for one in waived}


def test_the_page_has_every_point_and_forms_for_the_owner_only(client: Client):
    told = Told(vin=None)
    assert "Not noted yet: VIN" in page(client, told, TECHNICIAN)
    assert "Waive this point" not in page(client, told, TECHNICIAN)
    assert "Waive this point" in page(client, told, OWNER)
    assert "Override it for this job" in page(client, told, OWNER)


def test_who_is_not_signed_in_is_sent_to_sign_in(client: Client):
    response = client.get(reverse("points"), {"job": str(Told().job.key)})
    assert response["Location"].startswith("/sign_in/")


@pytest.mark.parametrize("role", [TECHNICIAN, DESK])
def test_only_an_owner_waives_and_overrides(role: str, client: Client):
    told = Told(vin=None)
    person = make_person(role)
    assert told.waive("car", author=person).state == FORBIDDEN
    assert told.override("hub_first", author=person).state == FORBIDDEN
    client.force_login(person)
    for name in ("points_waive", "points_override"):
        response = client.post(f"{reverse(name)}?job={told.job.key}", {"reason": "x"})
        assert response.status_code == 403
    assert not Waiver.objects.exists()
    assert not Override.objects.exists()


def test_a_waived_point_says_by_whom_when_and_why_on_job_points_and_record(client: Client):
    told = Told(vin=None)
    owner = make_person(OWNER, name="T. Okafor-Lindqvist")
    stood(told.waive("car", "No plate behind the glass.", owner))
    assert codes(told) == (set(), {"car"})
    for name in ("job", "points"):
        shown = page(client, told, DESK, name)
        assert "Waived by T. Okafor-Lindqvist, " in shown
        assert "No plate behind the glass." in shown
        assert "That is no pass." in shown
    data = issued(told)
    (point,) = data["open_points"]
    assert point["waived"].endswith(": No plate behind the glass.")
    assert data["stands"]["points"] == 0
    assert "1 waived" in data["stands"]["detail"]
    assert [(one["what"], one["counts"]) for one in data["let"]] == [("waived", True)]


def test_job_points_tablet_and_record_tell_the_same_points(client: Client):
    told = Told(vin=None)
    told.test(RUN)
    stood(told.close("declined", declined_by="customer", told_how="phone", reason="No."))
    told.test(HOLDS)
    sentences = [one.sentence for one in told.now.points]
    assert {"car", "hub_first", "after_closed"} <= {one.code for one in told.now.points}
    client.force_login(make_person(OWNER))
    tablet = client.get(reverse("job_json"), {"job": str(told.job.key)}).json()["points"]
    assert [one["sentence"] for one in tablet] == sentences
    assert [one["text"] for one in issued(told)["open_points"]] == sentences
    for name in ("job", "points"):
        shown = page(client, told, OWNER, name)
        assert [one for one in sentences if escape(one) not in shown] == []


def test_a_waived_point_of_a_step_is_not_to_be_looked_at_again_on_its_page(client: Client):
    told = Told()
    told.test(RUN)
    assert "To look at again" in page(client, told, TECHNICIAN, "steps")
    for code in sorted(codes(told)[0]):
        stood(told.waive(code, "Seen on the bench."))
    shown = page(client, told, TECHNICIAN, "steps")
    assert "To look at again" not in shown
    assert "Seen on the bench." in shown
    assert "That is no pass." in shown


def test_a_reason_is_required_and_what_was_typed_stays(client: Client):
    told = Told(vin=None)
    assert told.waive("car", "").state == RETURNED
    client.force_login(make_person(OWNER))
    (point,) = told.now.points
    code, about = identity(point)
    said = {"code": code, "about": about, "reason": "x" * 301}
    response = client.post(f"{reverse('points_waive')}?job={told.job.key}", said)
    assert response.status_code == 422
    assert "x" * 301 in response.content.decode()


def test_a_point_that_is_not_open_is_not_waived():
    told = Told()
    outcome = told.tell_waive("car", "vin")
    assert outcome.state == REFUSED


def test_another_value_that_lacks_is_another_point():
    told = Told(vin=None)
    stood(told.waive("car"))
    told.tell(CUSTOMER, phone="555 010 0188")
    assert codes(told) == (set(), {"car"})
    another = Told(vin=None, odometer=None)
    assert identity(another.now.points[0]) != identity(told.now.points[0])


def test_another_change_without_its_number_is_another_point():
    told = Told()
    told.change(**{**CLUTCH, "serial": None})
    stood(told.waive("serial"))
    assert "serial" not in codes(told)[0]
    told.change(**{**CLUTCH, "serial": None, "part": "compressor"})
    still, waived = codes(told)
    assert "serial" in still
    assert "serial" in waived


def test_a_step_thrown_away_anew_is_another_point():
    told = Told()
    step = told.test(HOLDS)
    stood(told.tell(DISCARD, reason="Wrong car.", discarded=str(step.key)))
    stood(told.waive("discarded_stands"))
    assert "discarded_stands" not in codes(told)[0]
    stood(told.tell(DISCARD, reason="Again.", discarded=str(step.key)))
    assert "discarded_stands" in codes(told)[0]


def test_a_point_that_went_and_came_again_the_same_is_waived_still():
    point = OpenPoint("vin", "VIN X: odd", "vehicle", "X")
    waiver = Waiver(code="vin", about="X", reason="Read twice.")
    assert parted([point], [waiver])[0] == []
    assert parted([OpenPoint("vin", "VIN Y: odd", "vehicle", "Y")], [waiver])[1] == []


def test_points_without_what_they_are_about_are_told_by_their_sentence():
    one, other = (OpenPoint("odd", f"{what} is odd", "vehicle") for what in ("This", "That"))
    assert identity(one) != identity(other)


def test_a_waived_stage_point_lets_the_job_go_on():
    told = Told()
    assert told.stage("deciding").state == REFUSED
    told.stage("testing")
    code, about = "no_test", "deciding"
    stood(told.tell_waive(code, about, "Seen by the eye."))
    stood(told.stage("deciding"))


# Orders.
def test_an_overridden_order_offers_what_it_barred_and_says_so(client: Client):
    told = Told()
    told.test(LIQUID)
    first = "Turn the hub by hand"
    assert first in page(client, told, OWNER)
    stood(told.override("hub_first", "Seen turning on the bench."))
    shown = page(client, told, OWNER)
    assert "Overridden by " in shown
    assert f"<strong>{first}" not in shown
    client.force_login(make_person())
    form = client.get(f"/step/running_pressures/?job={told.job.key}").content.decode()
    waits = form.split("<strong>First:</strong>")[1].split("</div>")[0]
    assert "only a free hub is run" not in waits
    assert "<strong>Overridden:</strong> <bdi>Turn the hub by hand" in form


def test_a_test_made_under_it_broke_no_order_and_says_under_whose(client: Client):
    told = Told()
    told.test(LIQUID)
    told.test(RUN)
    assert "hub_first" in codes(told)[0]
    stood(told.override("hub_first", author=make_person(OWNER, name="T. Okafor-Lindqvist")))
    told.test(RUN)
    before, after = steps_of(told.again)[1:]
    assert [order.code for order in before.broken if order.code == "hub_first"]
    assert "hub_first" not in [order.code for order in after.broken]
    assert [one.order for one in after.under] == ["hub_first"]
    shown = page(client, told, DESK, "steps")
    assert "Made under an override of the order." in shown
    marks = [mark["text"] for step in issued(told)["steps"] for mark in step["marks"]]
    assert any(text.startswith("Made under an override. Overridden by T. Okafor") for text in marks)


def test_a_test_that_shuts_the_order_again_ends_the_override():
    told = Told()
    stood(told.override("hub_first"))
    assert told.override("hub_first").state == REFUSED  # nothing waits for it
    told.test({"test_kind": "hub_turn", "turns": "locked"})
    assert told.override("hub_first", "Known, it frees when warm.").state == REFUSED


FINDS: list[tuple[str, dict[str, Any], dict[str, Any], str]] = [
    ("hub_first", {}, {"test_kind": "hub_turn", "turns": "locked"}, "hub_found"),
    ("gas_first", {}, MIXED, "gas_found"),
    ("dead_first", {"drive": "electric_hv"}, LIVE, "hv_found"),
]


@pytest.mark.parametrize(("order", "car", "find", "gate"), FINDS)
def test_no_override_hides_a_find_nor_is_one_offered_against_it(
    order: str, car: dict[str, Any], find: dict[str, Any], gate: str, client: Client
):
    told = Told(**car)
    stood(told.override(order, "Before anybody looked."))
    told.test(find)
    outcome = told.override(order)
    assert outcome.state == REFUSED
    assert "Step 1, " in outcome.why
    assert "never for what a test told" in outcome.why
    now = told.now
    system = system_of(now.job.vehicle.system)
    shut = gates(system, now.steps, now.states, now.loop, now.overrides)
    assert {gate, order} <= {one.code for one in shut}
    shown = page(client, told, OWNER)
    assert f'name="order" value="{order}"' not in shown
    assert "It does not hold against what was found: " in shown
    assert "It does not hold against what was found: " in page(client, told, TECHNICIAN, "job")


def test_an_override_ends_when_the_job_is_closed():
    told = Told()
    stood(told.override("hub_first"))
    told.test(LIQUID)
    told.test(RUN)
    stood(told.close("tested_only"))
    stood(told.stage("testing", why=next(iter(WHY_BACK))))
    assert "hub_first" in {code for code, order in ORDERS.items() if shut_now(told, order)}
    assert [one.order for one in told.now.steps[1].under] == ["hub_first"]  # made under it then
    told.test(RUN)
    assert "hub_first" in [order.code for order in told.now.steps[2].broken]
    stood(told.override("hub_first"))


def shut_now(told: Told, order: Any) -> bool:
    """Whether an order is shut, overrides counted."""
    now = told.now
    done = made(now.steps, now.states, now.overrides)
    return not order.is_kept(done, system_of(now.job.vehicle.system))


def test_a_change_in_what_the_order_looks_at_ends_it_too():
    told = Told()
    stood(told.override("hub_first"))
    told.change(**{**CLUTCH, "part": "compressor"})
    stood(told.override("hub_first"))


def test_an_order_that_is_none_comes_back():
    assert Told().override("be_careful").state == RETURNED


def test_the_jobs_data_carry_the_override_to_a_tablet(client: Client):
    told = Told()
    stood(told.override("hub_first"))
    client.force_login(make_person())
    said = client.get(reverse("job_json"), {"job": str(told.job.key)}).json()
    assert [one["opens"] for one in said["overrides"]] == [["hub_first"]]


def test_the_page_asks_the_database_as_often_with_many_points(
    client: Client, django_assert_max_num_queries: Any
):
    told = Told(vin=None)
    client.force_login(make_person(OWNER))
    for _ in range(6):
        told.change(**{**CLUTCH, "serial": None})
        told.test({**HOLDS, "volts": "17.2", "volts_why": "charger on"})
    told.waive("car")
    with django_assert_max_num_queries(25):
        client.get(reverse("points"), {"job": str(told.job.key)})


def test_changes_that_correct_each_other_are_told_apart():
    told = Told()
    outcome = told.tell(CHANGE, **{**CLUTCH, "serial": None})
    assert outcome.stands
    assert {identity(one)[1] for one in told.now.points if one.code == "serial"} == {
        str(outcome.key)
    }
