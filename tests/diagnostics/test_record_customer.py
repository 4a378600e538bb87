"""The customer's page and the parts of a whole job: what stands in them, what is not claimed."""

import functools
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.utils import timezone

from diagnostics.entries import PRICES_TYPED
from diagnostics.evidence.verdict_shown import Part, Question
from diagnostics.record.build import Heading, record_data
from diagnostics.record.customer import NO_TERMS, Told, states, what_is_open, words_of
from diagnostics.record.job import facts
from jobs.entries import CHANGE, PHOTO, RECOVERY
from jobs.logbook import enter
from jobs.models import Change, Job
from jobs.models.closing import ENDINGS
from jobs.models.people import OWNER
from tests.diagnostics.full_job import full_job
from tests.diagnostics.jobs_told import COMES_NOT, stood
from tests.diagnostics.jobs_told import Told as JobTold
from tests.factories import make_job, make_person, make_told
from tests.pictures import jpeg, sent

pytestmark = pytest.mark.django_db


def data_of(job: Job) -> Any:
    return record_data(job, Heading(1, make_person(OWNER), timezone.now()), None)


@functools.cache
def built_once() -> Any:
    return data_of(full_job().again)


@pytest.fixture
def whole() -> Any:
    """The record of the whole job, built once: these tests only read it."""
    return built_once()


def test_what_was_found_is_told_as_read_then_as_concluded_with_the_step_that_shows_it(whole: Any):
    (found,) = whole["customer"]["found"]
    assert found["text"].startswith("Gap 0.90–0.95\u00a0mm at 3 points.")
    assert "(step 9) We conclude: Clutch and hub: air gap too wide, most likely." in found["text"]
    assert found["standing"] == "likely"


def test_without_a_decision_it_is_what_the_tests_say_now():
    told = JobTold()
    told.test(COMES_NOT)
    found = data_of(told.again)["customer"]["found"]
    assert all(one["standing"] in ("proved", "likely", None) for one in found)


def test_nothing_tested_is_not_told_as_nothing_found():
    (found,) = data_of(make_job())["customer"]["found"]
    assert (found["text"], found["standing"]) == ("Nothing was tested.", None)


def test_what_was_done_names_the_repair_and_the_charge_before_the_rest(whole: Any):
    did = whole["customer"]["did"]
    assert did[0] == "Clutch, complete: fitted or swapped, new, serial number 88 1034"
    assert did.index(next(one for one in did if one.startswith("Charge: "))) < did.index(
        next(one for one in did if one.startswith("Recovery: 410\u00a0g"))
    )
    assert did[-1].startswith("More than one thing was changed between")


def test_that_the_loop_was_opened_comes_after_what_was_moved():
    """The page may end before the list does: amounts before what goes without saying."""
    told = JobTold()
    stood(told.tell(CHANGE, what="opened"))
    stood(told.tell(CHANGE, **COMPRESSOR))
    stood(told.tell(RECOVERY, grams_out="12", cylinder="unnamed"))
    did = data_of(told.again)["customer"]["did"]
    assert [one.partition(":")[0] for one in did[:3]] == ["Compressor", "Recovery", "Loop opened"]


COMPRESSOR: dict[str, Any] = {"what": "fitted", "part": "compressor", "source": "new"}


def completed_later() -> Any:
    """A compressor was fitted, the drier after it; then the compressor's seller was added."""
    told = JobTold()
    first = stood(told.tell(CHANGE, **COMPRESSOR))
    stood(told.tell(CHANGE, what="fitted", part="drier", source="new"))
    more = {**COMPRESSOR, "seller": "Corley Parts", "corrected_why": "Receipt came."}
    at = told.job.opened_at + timedelta(minutes=9)
    again = make_told(more, job_key=told.job.key, corrects=first.key, happened_at=at)
    stood(enter(CHANGE, again))
    return data_of(told.again)


def test_what_was_completed_later_was_done_when_it_was_told_first():
    data = completed_later()
    assert data["customer"]["did"][0].startswith("Compressor: ")
    state = data["states"][1]
    wrong, right = state["told"]
    assert (right["done_at"], right["done"]) == (wrong["at"], wrong["when"])
    assert right["done"] == state["when"]
    assert (wrong["corrected"], right["corrected"]) == ("", right["when"])
    assert right["when"] != right["done"]


def test_work_on_the_loop_that_was_corrected_was_done_when_it_was_told_first():
    told = JobTold()
    first: dict[str, Any] = {
        "grams_out": "410",
        "machine": "newer",
        "temperature": "24",
        "cylinder": "unnamed",
    }
    wrong = stood(told.tell(RECOVERY, **first))
    again = {**first, "grams_out": "401", "corrected_why": "Misread."}
    stood(enter(RECOVERY, make_told(again, job_key=told.job.key, corrects=wrong.key)))
    before, after = data_of(told.again)["amounts"]["works"]
    assert after["done_at"] == before["at"]
    assert after["corrected"] == after["when"]


def test_the_serial_number_stands_with_the_part_it_is_of():
    also = [{"part": "drier", "branch": "", "number": ""}]
    assert words_of(Change(**COMPRESSOR, serial="TV-88", also=also)) == (
        "Compressor: fitted or swapped, new, serial number TV-88; with it receiver-drier or"
        " accumulator"
    )


def test_what_the_check_of_a_vin_says_is_not_on_the_customer_s_page():
    data = data_of(make_job(vin="XXT5518W0EA004417"))
    assert "ninth character" not in str(data["facts"])
    assert "ninth character" in str(data["system"])


def test_an_ending_does_not_claim_the_inside_of_a_loop_that_nobody_saw_again():
    ending = ENDINGS["repaired_verified"]
    assert "but for the inside of the loop" in ending.said(unseen=True)
    assert "inside of the loop" not in ending.said(unseen=False)


def test_a_photo_at_no_place_is_named_by_the_work_it_came_with(settings: Any, tmp_path: Path):
    settings.DATA = tmp_path
    job = make_job()
    told = {"grams_out": "410", "machine": "newer", "temperature": "24", "cylinder": "unnamed"}
    stood(enter(RECOVERY, make_told(told, job_key=job.key, photos=[sent(jpeg())])))
    relay = {"what": "fitted", "part": "relay", "source": "new"}
    stood(enter(CHANGE, make_told(relay, job_key=job.key, photos=[sent(jpeg())])))
    stood(enter(PHOTO, make_told({}, job_key=job.key, photos=[sent(jpeg())])))
    photos = data_of(job)["photos"]
    assert [one["place_text"] for one in photos] == [
        "Recovery",
        "Relay: fitted or swapped, new",
        "Not filed at a place",
    ]


def test_what_no_test_settled_and_what_was_not_shown_remains(whole: Any):
    told = " ".join(whole["customer"]["remains"])
    assert "Not settled by tests: " in told
    assert "Not shown after the repair: " in told
    assert "Leak search at pressure" in told


def test_of_a_question_settled_in_part_only_what_is_open_is_named():
    """What tests found in order does not stand beside them as not settled."""
    clutch, belt = (
        Part("hub", "Clutch and hub", "proved", "in order"),
        Part("belt", "Belt", "open", ""),
    )
    whole = Question("clutch", "Clutch", "", "open", "", (clutch, belt))
    assert what_is_open(whole) == "Clutch (belt)"
    none = Question("heat", "Heat", "", "open", "", (Part("fan", "Fan", "open", ""),))
    assert what_is_open(none) == "Heat"


def test_whether_a_closed_car_fails_now_is_not_said_to_be_missing():
    """How it left is said by its ending; of an open car a missing answer is told as missing."""
    job = make_job(failing_now=None)
    assert failing_lines(job) == ["failing now: not noted"]
    job.stage, job.closing_kind = "closed", "repaired_verified"
    assert failing_lines(job) == []
    job.failing_now = "yes"
    assert failing_lines(job) == ["failing now: yes"]


def failing_lines(job: Job) -> list[str]:
    return [line for one in facts(job) for line in one["lines"] if "failing" in line]


def test_a_warranty_is_told_as_it_was_typed_and_never_made_up():
    told = JobTold()
    assert data_of(told.again)["customer"]["warranty"]["text"] == [NO_TERMS]
    terms: dict[str, Any] = {"shop_months": "12", "shop_pays": ["labor", "parts"]}
    stood(told.tell(PRICES_TYPED, **terms, rate="96"))
    given = data_of(told.again)["customer"]["warranty"]
    assert given["text"][0].startswith("Labor and Parts, for 12 months from the day")
    assert (given["shop_months"], given["shop_pays"]) == (12, ["labor", "parts"])


def test_what_was_billed_has_its_tax_and_what_was_agreed(whole: Any):
    paid = whole["customer"]["paid"]
    assert paid["total_units"] == 28_600
    assert "no tax in it" in paid["text"]
    assert "Agreed: estimate 1" in paid["text"]


NUMBERS: dict[str, Any] = {
    "name": "At the vent",
    "then": "24.8 °C",
    "now": "7.1 °C",
    "apart": "17.7 K colder",
}
NUMBERS |= {"beyond": True, "then_si": 297.95, "now_si": 280.25, "steps": [11, 16]}
ENDED: dict[str, Any] = {
    "kind": "repaired_verified",
    "text": "Repaired and verified",
    "sentence": "We repaired it.",
}


def statement(numbers: Any, **ended: Any) -> Any:
    """What stands large on page 1 of a job closed so, with these two numbers."""
    nothing: Any = [None] * 8
    of: Any = Told(*nothing)
    object.__setattr__(of, "end", ENDED | ended)
    object.__setattr__(of, "verified", {"numbers": numbers})
    return states(of)


def test_that_it_cools_is_told_with_its_two_numbers():
    told = statement(NUMBERS)
    assert (told["text"], told["code"]) == ("It cools: 24.8 °C → 7.1 °C", "cools")
    assert "under like conditions" in told["under"]


@pytest.mark.parametrize(
    "other",
    [
        {"beyond": False},
        {"apart": "300 kPa more", "then_si": 2e5, "now_si": 5e5, "name": "High side"},
        {"apart": "3.0 K warmer", "then_si": 280.0, "now_si": 283.0},
    ],
)
def test_it_is_not_said_to_cool_where_the_numbers_do_not_say_so(other: dict[str, Any]):
    assert "It cools" not in statement(NUMBERS | other)["text"]


def test_it_is_not_said_to_cool_where_the_job_did_not_end_so():
    assert statement(NUMBERS, kind="tested_only")["text"] == "Repaired and verified."


def test_without_two_numbers_the_ending_stands_alone():
    assert statement(None)["text"] == "Repaired and verified."


# ---- amounts, parts, before and after ------------------------------------------------------------


def test_amounts_stand_as_whole_milligrams_beside_their_words(whole: Any):
    told = whole["amounts"]
    assert (told["label_mg"], told["recovered_mg"], told["charged_mg"]) == (
        650_000,
        410_000,
        650_000,
    )
    assert told["missing_least_mg"] == 650_000 - 410_000 - told["remainder_mg"]
    assert [row["code"] for row in told["rows"]][:4] == ["label", "recovered", "unknown", "missing"]


def test_each_move_names_its_places_and_the_cylinder(whole: Any):
    (out,) = [one for one in whole["amounts"]["moves"] if one["amount"] == 410_000]
    assert (out["from_place"], out["to_place"], out["to_cylinder"]) == (
        "car",
        "cylinder",
        "Machine 1",
    )


def test_oil_stands_by_side_in_microliters(whole: Any):
    told = {(one["side"], one["microliters"]) for one in whole["amounts"]["oil"]}
    assert told == {("out", 6_000), ("into", 60_000)}


def test_work_that_was_corrected_stays_to_be_read_and_counts_no_more():
    told = JobTold()
    first: dict[str, Any] = {
        "grams_out": "410",
        "machine": "newer",
        "temperature": "24",
        "cylinder": "unnamed",
    }
    wrong = stood(told.tell(RECOVERY, **first))
    again = {**first, "grams_out": "401", "corrected_why": "Misread."}
    stood(enter(RECOVERY, make_told(again, job_key=told.job.key, corrects=wrong.key)))
    data = data_of(told.again)["amounts"]
    assert [one["counts"] for one in data["works"]] == [False, True]
    assert data["recovered_mg"] == 401_000
    assert sum(one["undone"] for one in data["moves"]) == 2


def test_before_and_after_stand_under_like_conditions(whole: Any):
    told = whole["verification"]
    assert told["numbers"]["beyond"]
    assert told["numbers"]["apart"].endswith("colder")
    vent = next(one for one in told["twins"] if one["kind"] == "vent_temperature")
    assert vent["compared"]
    assert {one["name"] for one in vent["conditions"]} >= {"Blower", "Engine speed"}


def test_a_car_that_was_not_changed_has_no_before_and_after():
    assert data_of(make_job())["verification"] is None


def test_parts_that_stayed_and_the_old_one_s_place_stand_with_the_parts(whole: Any):
    told = {one["part"]: one["text"] for one in whole["loop_parts"]}
    assert told["condenser"] == "Kept, seen clean"
    assert [one["went"] for one in whole["old_parts"]] == ["Kept in the shop"]
    assert whole["old_parts_chosen"]["choice"] == "shop"


def test_a_change_alone_has_no_parts_of_the_loop():
    told = JobTold()
    stood(told.tell(CHANGE, what="fitted", part="relay", source="new"))
    assert data_of(told.again)["loop_parts"] == []
