"""What a repair leaves open, and the gates that it shuts. Common practice, no source."""

from typing import Any

import pytest

from diagnostics.points import Gate
from diagnostics.repaired import work_of
from diagnostics.templatetags.loop import bars_pumping
from diagnostics.weighing import around_of, changes_by_state
from jobs.entries import LOOP_PARTS, OLD_PART, TAKEN_OUT
from jobs.models import Photo
from jobs.models.photos import OLD_PART as ABOUT_OLD
from tests.diagnostics.jobs_told import CLUTCH, Told, stood

pytestmark = pytest.mark.django_db
COMPRESSOR: dict[str, Any] = {
    "what": "fitted",
    "part": "compressor",
    "source": "new",
    "serial": "0417",
    "seller": "Halm",
    "proof": "R-77",
    "old_serial": "OLD-1",
}
WHOLE = COMPRESSOR | {"also": ["drier", "expansion_device"]}
GAP = {"gap_1": "0.45", "gap_2": "0.5", "gap_3": "0.5"}
MEASURED = {"test_kind": "air_gap", **GAP, "shims": "not_known"}


def points(told: Told) -> dict[str, str]:
    """The sentences of the repair by their code."""
    return {one.code: one.sentence for one in told.now.points}


def shut(told: Told) -> dict[str, Gate]:
    return {one.code: one for one in told.now.shut}


def photographed(told: Told) -> None:
    entry = told.job.entry
    about = {"about": ABOUT_OLD, "place": "compressor"}
    Photo.objects.create(entry=entry, job_key=told.job.key, number=1, sent_bytes=1, **about)


# The drier.


def test_a_loop_that_was_opened_without_a_new_drier_is_an_open_point_with_its_reason():
    told = Told()
    told.change(**COMPRESSOR)
    said = points(told)["drier_kept"]
    assert said.startswith("Compressor (car state 1): the loop was open")
    assert "sellers of parts make a new one a condition of warranty" in said


def test_a_new_drier_settles_it():
    told = Told()
    told.change(**WHOLE)
    assert "drier_kept" not in points(told)
    assert not {"drier_first", "drier_not_last"} & set(shut(told))


def test_a_loop_that_was_never_opened_asks_for_no_drier():
    told = Told()
    told.change(**CLUTCH)
    assert not {"drier_kept", "loop_not_told", "device_not_seen"} & set(points(told))
    assert "drier_first" not in shut(told)


def test_a_loop_opened_again_after_the_new_drier_says_that_it_was_not_last():
    told = Told()
    told.change(**WHOLE)
    told.change(what="fitted", part="hose", source="new")
    assert "Hose or line (car state 2)" in shut(told)["drier_not_last"].why


def test_the_drier_comes_before_pumping_down_and_the_gate_opens_with_it():
    told = Told()
    told.change(**COMPRESSOR)
    told.change(what="closed")
    gate = shut(told)["drier_first"]
    assert (gate.act, gate.found, gate.page_words) == ("pump", True, "Repair")
    assert "drier_first" in [one.code for one in bars_pumping(told.again)]
    told.change(what="fitted", part="drier", source="new")
    assert "drier_first" not in shut(told)


# The expansion device, and the parts that stay.


def test_a_compressor_without_a_look_at_the_expansion_device_is_an_open_point():
    told = Told()
    told.change(**COMPRESSOR)
    assert "no look at the expansion device" in points(told)["device_not_seen"]


@pytest.mark.parametrize("looked", ["clean", "dirty"])
def test_a_look_at_the_device_settles_it_and_opens_the_gate(looked):
    told = Told()
    assert "debris_first" in shut(told)
    stood(told.tell(LOOP_PARTS, expansion_device=looked))
    assert "debris_first" not in shut(told)
    told.change(**COMPRESSOR)
    assert "device_not_seen" not in points(told)


def test_not_looked_at_is_no_look():
    told = Told()
    stood(told.tell(LOOP_PARTS, expansion_device="unseen"))
    assert "debris_first" in shut(told)
    told.change(**COMPRESSOR)
    assert "device_not_seen" in points(told)


def test_a_new_device_or_the_test_for_debris_settles_it():
    told, other = Told(), Told(plate="KX.2200A", vin=None)
    told.change(**WHOLE)
    assert "device_not_seen" not in points(told)
    other.test({"test_kind": "debris", "expansion": "clean"})
    other.change(**COMPRESSOR)
    assert "device_not_seen" not in points(other)


def test_what_nothing_is_told_of_in_an_opened_loop_is_one_point():
    told = Told()
    told.change(**WHOLE)
    said = points(told)["loop_not_told"]
    assert said.endswith(
        "nothing is told: Condenser, Evaporator, Hoses and lines, Seals and valve cores."
    )
    stood(
        told.tell(LOOP_PARTS, condenser="clean", evaporator="unseen", hose="unseen", seal="unseen")
    )
    assert "loop_not_told" not in points(told)


def test_a_part_that_cannot_be_cleaned_is_open_until_it_is_replaced():
    told = Told()
    told.change(**WHOLE)
    stood(told.tell(LOOP_PARTS, condenser="dirty"))
    assert points(told)["stays_dirty"].startswith("Condenser: told as not to be cleaned")
    told.change(what="fitted", part="condenser", source="new", serial="1")
    assert "stays_dirty" not in points(told)


# The gap of the new part.


def test_a_clutch_fitted_without_its_gap_is_an_open_point():
    told = Told()
    told.change(**CLUTCH)
    assert "no air gap of the new part is noted" in points(told)["new_gap"]


def test_three_points_of_the_gap_are_enough_and_fewer_are_said():
    told, few = Told(), Told(plate="KX.2200A", vin=None)
    told.change(**CLUTCH, **GAP)
    assert "new_gap" not in points(told)
    few.change(**CLUTCH, gap_1="0.45")
    assert "noted at 1 of at least 3 points" in points(few)["new_gap"]


def test_a_gap_measured_on_the_car_since_settles_it_and_one_from_before_does_not():
    told = Told()
    told.test(MEASURED)
    told.change(**CLUTCH)
    assert "new_gap" in points(told)
    told.test(MEASURED)
    assert "new_gap" not in points(told)


def test_a_gap_outside_the_vehicles_own_limits_is_said_with_both():
    told = Told()
    told.job.vehicle.system.__class__.objects.update(gap_low_um=350, gap_high_um=650)
    told.change(**CLUTCH, gap_1="0.9", gap_2="0.95", gap_3="0.9")
    said = points(told)["new_gap"]
    assert "was 0.90–0.95\xa0mm" in said
    assert "own limits are 0.35–0.65\xa0mm" in said


@pytest.mark.parametrize("drive", ["electric_hv", "belt_clutchless"])
def test_a_compressor_without_a_magnetic_clutch_has_no_gap(drive):
    told = Told(drive=drive)
    told.change(**COMPRESSOR)
    assert "new_gap" not in points(told)


# What a seller asks, and the old part.


def test_where_a_part_was_bought_waits_as_an_open_point():
    told = Told()
    told.change(**COMPRESSOR | {"proof": ""})
    assert "proof of purchase not noted yet" in points(told)["bought"]


def test_of_what_the_customer_brought_no_bill_is_asked():
    told = Told()
    told.change(**COMPRESSOR | {"proof": "", "source": "customer"})
    assert "bought" not in points(told)


def test_an_old_part_stays_in_the_bay_until_its_number_and_a_photo_are_noted():
    told = Told()
    told.change(**COMPRESSOR | {"old_serial": ""})
    gate = shut(told)["old_first_compressor"]
    assert gate.what == "Let the old part leave the bay"
    assert "note the serial number and a photo of the old part" in gate.why


def test_a_number_and_a_photo_let_it_go():
    told = Told()
    told.change(**COMPRESSOR)
    assert "note a photo of" in shut(told)["old_first_compressor"].why
    photographed(told)
    assert "old_first_compressor" not in shut(told)


def test_an_old_part_that_went_without_them_is_an_open_point_and_was_booked():
    told = Told()
    key = str(told.change(**COMPRESSOR).key)
    stood(told.tell(TAKEN_OUT, change=key, went="core", core="40"))
    assert "old_first_compressor" not in shut(told)
    said = points(told)["old_gone"]
    assert said.startswith("Compressor (car state 1): the old part is gone (Sent back as a core")
    assert said.endswith("and a photo of it was not noted.")


def test_one_that_is_kept_in_the_shop_is_not_gone():
    told = Told()
    key = str(told.change(**COMPRESSOR).key)
    stood(told.tell(TAKEN_OUT, change=key, went="shop"))
    assert "old_gone" not in points(told)
    assert "old_first_compressor" in shut(told)


def test_an_old_part_that_went_where_the_customer_had_not_chosen_is_an_open_point():
    told = Told()
    key = str(told.change(**COMPRESSOR).key)
    stood(told.tell(OLD_PART, choice="returned"))
    stood(told.tell(TAKEN_OUT, change=key, went="core", core="40"))
    said = points(told)["old_against"]
    assert said.endswith("(Sent back as a core) is not what the customer chose.")


@pytest.mark.parametrize(("choice", "went"), [("returned", "customer"), ("seller", "core")])
def test_one_that_went_where_it_was_to_go_is_not(choice, went):
    told = Told()
    key = str(told.change(**COMPRESSOR).key)
    stood(told.tell(OLD_PART, choice=choice))
    stood(told.tell(TAKEN_OUT, change=key, went=went))
    assert "old_against" not in points(told)


# What several parts of one state do to what is known.


def test_all_parts_of_an_opening_are_weighed_together():
    told = Told()
    told.change(**WHOLE)
    around = around_of(told.again)
    (became,) = changes_by_state(around.states, around.changes)
    assert became["mechanics"] == "new"
    assert became["flow"] == ("drier_hose", "device_blocked", "device_open")


def test_a_drier_of_the_same_opening_is_no_second_opening():
    told = Told()
    told.change(**WHOLE)
    assert [one.state.number for one in work_of(told.again).openings] == [1]


def test_a_drier_of_the_same_opening_counts_as_fitted_before_the_evacuation():
    told = Told()
    told.change(**WHOLE)
    assert not work_of(told.again).opened_after_drier
    told.change(**COMPRESSOR | {"also": ["condenser"]})
    assert work_of(told.again).opened_after_drier
