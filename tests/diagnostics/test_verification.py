"""The verification page: before and after, what is still to show, too cold to show it."""

import re
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from diagnostics.entries import VERIFIED
from diagnostics.verification import Verification, verification_of
from jobs.entries import CHANGE, CONDITIONS
from jobs.logbook import enter
from jobs.models.people import DESK
from tests.diagnostics.jobs_told import CLUTCH, COMES_NOT, HOLDS, LIQUID, Told, stood
from tests.diagnostics.verified_jobs import (
    COMPRESSOR,
    COOLS,
    ENGAGES,
    ENGAGES_NOT,
    VENT,
    as_it_came,
    repaired,
    shown,
)
from tests.factories import make_job, make_person, make_told

pytestmark = pytest.mark.django_db
SWITCH: dict[str, Any] = {"test_kind": "pressure_switch", "type": "low_switch", "contacts": "open"}
DRIVES: tuple[dict[str, Any], ...] = (
    {"drive": "belt_clutch"},
    {"drive": "belt_clutchless", "displacement": "variable_outer"},
    {"drive": "electric_hv", "displacement": "speed", "branches": ["front", "battery"]},
    {"drive": "electric_48", "displacement": "speed"},
    {"drive": "belt_electric", "clutch": "magnetic", "branches": ["front", "rear"]},
    {"drive": None, "displacement": None},
)


def seen(told: Told) -> Verification:
    return verification_of(told.again)


def page(told: Told, client: Client | None = None, **person: Any) -> str:
    browser = client or Client()
    browser.force_login(make_person(**person))
    return browser.get(reverse("verification"), {"job": str(told.job.key)}).content.decode()


def stands(told: Told) -> dict[str, str]:
    return {one.item.code: one.stands for one in seen(told).shown}


def in_the_cold(told: Told, ambient: str = "9") -> None:
    stood(told.tell(CONDITIONS, ambient=ambient))


def test_nobody_sees_it_without_a_sign_in(client):
    assert client.get(reverse("verification"), {"job": str(make_job().key)}).status_code == 302


def test_a_car_on_which_nothing_was_changed_has_nothing_to_verify():
    assert "Nothing was changed on the car yet." in page(as_it_came())


def test_both_readings_stand_beside_each_other_with_the_difference_under_like_conditions():
    shown_page = page(shown())
    assert "17.7\u00a0K colder" in shown_page
    assert re.search(r'class="two-numbers">.*24\.8\u00a0°C.*7\.1\u00a0°C', shown_page)


def test_under_other_conditions_both_stand_and_nothing_is_claimed():
    told = repaired()
    told.test(COOLS, doors="closed")
    shown_page = page(told)
    assert "7.1\u00a0°C" in shown_page
    assert "24.8\u00a0°C" in shown_page
    assert "colder</span>" not in shown_page
    assert "two-numbers" not in shown_page
    assert "Before and after do not compare" in shown_page
    assert stands(told)["vent_front"] == "not_compared"


def test_conditions_that_were_not_told_are_no_like_conditions():
    told = repaired()
    told.test(COOLS, rpm=None, humidity=None)
    [vent] = [one for one in seen(told).twins if one.kind == "vent_temperature"]
    assert not vent.compared
    assert [one.why for one in vent.unlike] == ["not told now", "not told now"]


def test_a_test_of_a_state_between_is_no_twin_of_the_last_state():
    told = repaired()
    told.test(COOLS)
    told.change(what="fuse")
    [vent] = [one for one in seen(told).twins if one.kind == "vent_temperature"]
    assert vent.now is None
    assert vent.why_not.startswith("Made again in car state 1 only")


def test_what_was_not_made_again_says_so_with_the_conditions_under_which_it_compares():
    shown_page = page(repaired())
    assert "Not made again since the car was changed." in shown_page
    assert "It compares under these conditions only." in shown_page


def test_a_test_that_could_not_be_made_again_is_no_pass():
    told = repaired()
    told.test({"test_kind": "vent_temperature", "not_done": "no_tool"})
    assert stands(told)["vent_front"] == "could_not"
    assert "Could not be done: no tool" in page(told)


def test_two_changes_between_are_credited_to_none_of_them():
    told = shown()
    assert seen(told).several == ""
    told.change(what="cleaned", part="wiring")
    assert seen(told).several.startswith("More than one thing was changed")
    assert "Changed between: Clutch, complete: fitted or swapped, new; Wiring" in page(told)


def test_a_change_entered_by_mistake_is_not_counted_among_them():
    told = shown()
    mistake = told.change(what="fuse")
    told.change(what="fuse")
    assert len(seen(told).changed) == 3

    fields = {"what": "nothing", "corrected_why": "Not this car."}
    stood(enter(CHANGE, make_told(fields, job_key=told.job.key, corrects=mistake.key)))
    assert len(seen(told).changed) == 2


def test_what_was_shown_names_its_step_and_what_was_not_leads_to_its_test():
    told = shown()
    shown_page = page(told)
    rows = shown_page.split("to-show")[1].split("</ul>", maxsplit=1)[0]
    assert f"/steps/?job={told.job.key}#step-7" in rows
    assert f"/step/condenser_fan/?job={told.job.key}" in rows
    assert stands(told) == {
        "complaint": "shown",
        "takes_hold": "shown",
        "gap": "shown",
        "cycling": "not_yet",
        "fans": "not_yet",
        "vent_front": "shown",
        "again_coil_power": "shown",
    }


def test_the_front_desk_reads_it_and_gets_no_link_to_a_test_and_no_form():
    shown_page = page(repaired(), role=DESK)
    assert "Not yet." in shown_page
    assert "/step/" not in shown_page.split("<main>")[1]
    assert "<form" not in shown_page.split("<main>")[1]


def test_a_new_compressor_asks_for_what_an_opened_loop_asks_for():
    told = as_it_came(branches=["front", "rear"])
    told.change(**COMPRESSOR)
    assert {"pressures", "leak", "caps", "label", "vent_rear", "gap"} <= {*stands(told)}


def test_debris_found_before_asks_for_the_second_look_at_the_filter():
    told = as_it_came()
    told.test({"test_kind": "debris", "drier": "found", "flakes": "yes"})
    told.change(**COMPRESSOR)
    assert stands(told)["filter"] == "not_yet"


@pytest.mark.parametrize("system", DRIVES, ids=lambda one: str(one["drive"]))
def test_every_drive_has_its_page_with_links_to_tests_that_it_allows_only(system):
    intake = {"switched_side": None, **system}
    told = Told(**intake)
    told.change(**COMPRESSOR)
    client = Client()
    shown_page = page(told, client)
    links = {*re.findall(r'href="(/step/\w+/\?job=[\w-]+)"', shown_page)}
    assert links
    for link in links:
        assert "does not fit this car" not in client.get(link).content.decode()
    assert seen(told).shown


def test_it_is_not_showable_in_the_cold_and_says_why_what_was_shown_and_when_to_come_back():
    told = repaired()
    in_the_cold(told)
    told.test(HOLDS)
    told.test(ENGAGES_NOT)
    shown_page = page(told)
    assert "Not showable at 9\u00a0°C" in shown_page
    assert "rests at 300\u00a0kPa" in shown_page
    assert "Shown all the same:</strong> Power straight at the coil, again." in shown_page
    assert "On a day with at least 15\u00a0°C" in shown_page
    assert stands(told)["takes_hold"] == "could_not"


def test_the_cold_ending_is_one_tap_away_with_air_and_when_filled_in(client):
    told = repaired()
    in_the_cold(told)
    link = re.search(r'href="(/close/\?[^"]*repaired_not_verifiable[^"]*)"', page(told, client))
    assert link is not None
    form = client.get(link.group(1).replace("&amp;", "&")).content.decode()
    assert re.search(r'name="air"[^>]*value="9"|value="9"[^>]*name="air"', form)
    assert "On a day with at least 15" in form


def test_the_switchs_own_figure_is_taken_from_the_test_that_noted_it():
    told = as_it_came()
    told.test(SWITCH, rest="470", temperature="20", closes_at="420")
    told.change(**CLUTCH)
    in_the_cold(told, "16")
    assert "closes at 420\u00a0kPa, as noted in step 5" in page(told)


def test_warm_air_told_since_ends_the_cold():
    told = repaired()
    in_the_cold(told)
    in_the_cold(told, "22")
    assert seen(told).cold is None


def test_without_the_airs_temperature_it_says_that_nobody_told():
    told = repaired()
    assert seen(told).air is None
    assert "was not told since the car was changed" in page(told)


def test_the_control_units_own_refusal_for_the_cold_is_a_finding():
    told = repaired()
    refused = {"power": "on", "asked": "yes", "commanded": "no", "reason": "cold"}
    told.test({"test_kind": "command_data", **refused})
    assert "keeps it off for the cold, by step 5" in page(told)


def test_each_question_says_whether_its_cure_is_shown():
    told = repaired()
    clutch = next(one for one in seen(told).cured if one.code == "clutch")
    assert clutch.verdict == "not_shown"
    assert "Cured: not shown" in page(told)
    told = shown()
    clutch = next(one for one in seen(told).cured if one.code == "clutch")
    assert clutch.verdict == "shown"
    assert "air gap too wide" in clutch.was
    other = next(one for one in seen(told).cured if one.code == "heat")
    assert other.verdict == "untouched"


def test_what_is_still_wrong_after_it_is_not_called_cured():
    told = repaired()
    told.test(COMES_NOT)
    told.test(ENGAGES_NOT)
    clutch = next(one for one in seen(told).cured if one.code == "clutch")
    assert clutch.verdict in ("still", "not_shown")
    assert "Cured: shown" not in page(told)


def test_the_two_numbers_come_frozen_with_their_values():
    told = seen(shown()).before_after
    assert told is not None
    assert (told.then, told.now, told.beyond) == ("24.8\u00a0°C", "7.1\u00a0°C", True)
    assert (round(told.then_si, 2), round(told.now_si, 2)) == (297.95, 280.25)
    assert (told.steps, told.states) == ((4, 8), (0, 1))
    none = seen(repaired())
    assert none.before_after is None
    assert none.no_numbers.startswith("No vent temperature and no high side pressure while it ran")


def test_job_and_steps_lead_to_it_from_the_first_change_on(client):
    told = as_it_came()
    client.force_login(make_person())
    asked = {"job": str(told.job.key)}
    for name in ("job", "steps"):
        assert "/verification/" not in client.get(reverse(name), asked).content.decode()
    told.change(**CLUTCH)
    for name in ("job", "steps"):
        link = f'href="/verification/?job={told.job.key}"'
        assert link in client.get(reverse(name), asked).content.decode()


def test_the_endings_of_a_repair_lead_to_it(client):
    told = repaired()
    client.force_login(make_person())
    asked = {"job": str(told.job.key), "closing_kind": "repaired_not_verifiable"}
    ending = client.get(reverse("close"), asked).content.decode()
    assert f"/verification/?job={told.job.key}" in ending
    assert "Of the repair: What the customer says is gone (not yet);" in ending


def test_what_is_not_shown_holds_no_ending():
    told = shown()
    told.test(LIQUID)
    assert seen(told).still_open
    stood(told.close("repaired_verified"))


def test_a_look_that_arrives_after_closing_is_an_open_point(client):
    told = shown()
    told.test(LIQUID)
    stood(told.close("repaired_verified"))
    stood(told.tell(VERIFIED, caps="on"))
    assert any("A look at caps and service label" in one.sentence for one in told.now.points)


def asked_often(client: Client, told: Told) -> int:
    """How often the page asks the database."""
    with CaptureQueriesContext(connection) as queries:
        client.get(reverse("verification"), {"job": str(told.job.key)})
    return len(queries)


def test_it_asks_the_database_as_often_however_much_was_told():
    told, client = shown(), Client()
    client.force_login(make_person())
    few = asked_often(client, told)
    for _ in range(4):
        told.test(COOLS)
        told.change(**CLUTCH)
        in_the_cold(told)
        told.test(ENGAGES)
        told.test(VENT, branch="rear")
    assert asked_often(client, told) == few
    assert few < 25


def test_the_page_without_a_job_has_nobodys_data_and_places_for_its_script(client):
    client.force_login(make_person())
    shown_page = client.get(reverse("verification")).content.decode()
    for place in ("said", "cold", "shown", "twins", "since"):
        assert f"data-verification-{place}" in shown_page


def test_a_tablet_is_told_it_without_the_names_of_people_and_nothing_before_a_change(client):
    told = shown()
    client.force_login(make_person(name="Unmistakable Name"))
    asked = {"job": str(told.job.key)}
    kept = client.get(reverse("job_json"), asked).json()["verification"]
    assert kept["said"] == "5 of 7 shown"
    assert kept["shown"][1]["kinds"] == ["complaint_seen", "running_pressures"]
    assert any("17.7\u00a0K colder" in one["said"] for one in kept["twins"])
    client.post(f"{reverse('verification')}?job={told.job.key}", {"caps": "on"})
    assert "Unmistakable" not in str(client.get(reverse("job_json"), asked).json()["verification"])
    before = client.get(reverse("job_json"), {"job": str(as_it_came().job.key)}).json()
    assert before["verification"] is None
