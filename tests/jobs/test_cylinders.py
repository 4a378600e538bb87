"""Cylinders told of, bought, weighed, poured over, sent away: by the book and by the scale."""

from datetime import timedelta

import pytest
from django.utils import timezone

from jobs.actions.amounts import book
from jobs.cylinder_entries import CYLINDER, CYLINDER_GONE, PURCHASE, RECLAIM, TRANSFER, WEIGHING
from jobs.entries import RECOVERY
from jobs.logbook import enter
from jobs.models import Cylinder, CylinderWork, Entry, Move
from jobs.models.cylinder_points import points_of_job, points_of_shop
from jobs.models.cylinders import by_gas
from jobs.told import Moved
from tests.factories import make_job, make_person, make_shop, make_thing, make_told, said_of
from tests.jobs.cylinders import buy, errors, make_cylinder, mg_in, stood, told

pytestmark = pytest.mark.django_db
KG = 1_000_000
HOUR = timedelta(hours=1)


def weigh(cylinder, gross, **more):
    fields = {"cylinder": cylinder.key.hex, "gross": gross, **more.pop("fields", {})}
    return told(WEIGHING, fields, **more)


def open_codes(cylinder):
    return [one.code for one in points_of_shop([cylinder])]


def test_a_cylinder_without_a_name_gets_the_next_number():
    make_cylinder()
    assert [make_cylinder().name, make_cylinder("nitrogen").name] == ["Cylinder 2", "Nitrogen 1"]


def test_what_is_told_again_stands_in_place_and_keeps_its_key():
    one = make_cylinder(name="Blue one")
    again = {"cylinder": str(one.key), "kind": "refillable", "refrigerant": "R-134a"}
    stood(told(CYLINDER, {**again, "tare": "7.2 kg"}))
    row = Cylinder.objects.get()
    assert (row.key, row.name, row.tare_mg, row.water_capacity_ul) == (
        one.key,
        "Blue one",
        7_200_000,
        None,
    )


def test_a_refrigerant_told_wrong_is_put_right_in_what_was_booked():
    one = make_cylinder(refrigerant="R-12")
    stood(buy(one, "5 kg"))
    again = {"cylinder": str(one.key), "kind": "refillable", "refrigerant": "R-134a"}
    stood(told(CYLINDER, again))
    assert by_gas([one.pk]) == {one.pk: {"R-134a": 5 * KG}}


def test_an_empty_cylinder_may_be_used_for_another_refrigerant():
    one = make_cylinder(refrigerant="R-12")
    stood(buy(one, "5 kg"))
    stood(weigh(one, "7 kg", fields={"explained": "not_booked"}))
    again = {"cylinder": str(one.key), "kind": "refillable", "refrigerant": "R-134a"}
    stood(told(CYLINDER, again))
    assert set(Move.objects.values_list("gas", flat=True)) == {"R-12"}


def test_masses_are_read_in_pounds_and_a_slip_of_the_unit_is_asked():
    one = make_cylinder(tare="15 lb", water_capacity="26.2 lb")
    assert one.tare_mg == 6_803_886
    fields = {"kind": "refillable", "refrigerant": "R-12", "tare": "7 g"}
    assert "not what is expected" in errors(told(CYLINDER, fields))["tare"]
    kept = stood(told(CYLINDER, {**fields, "tare_why": "It is a toy."}))
    (said,) = said_of(Entry.objects.get(key=kept.key))
    assert "It is a toy." in said
    assert "below zero" in errors(told(CYLINDER, {**fields, "tare": "-7 kg"}))["tare"]
    assert "tare" in errors(told(CYLINDER, {**fields, "tare": "seven"}))


def test_only_the_tank_of_a_machine_belongs_to_one():
    machine = make_thing("service_machine")
    tank = make_cylinder("machine", machine=machine.key.hex)
    assert tank.machine == machine
    fields = {"kind": "refillable", "refrigerant": "R-12", "machine": machine.key.hex}
    assert "machine" in errors(told(CYLINDER, fields))


def test_what_is_bought_comes_in_a_new_cylinder_with_its_weight():
    make_shop()
    fields = {"cylinder": "new", "refrigerant": "R-1234yf", "amount": "4.5 kg", "tare": "2.1 kg"}
    stood(told(PURCHASE, {**fields, "from_whom": "Elm Gas Ltd", "paper": "8812"}))
    row = Cylinder.objects.get()
    assert (row.kind, row.refrigerant, row.tare_mg, mg_in(row)) == (
        "new",
        "R-1234yf",
        2_100_000,
        4_500_000,
    )
    assert open_codes(row) == []


def test_a_purchase_without_its_paper_is_booked_and_stays_open():
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    (point,) = points_of_shop([one])
    assert "not noted yet: from whom, the paper’s number" in point.sentence


def test_a_purchase_put_right_counts_once_and_keeps_its_new_cylinder():
    make_shop()
    fields = {"cylinder": "new", "refrigerant": "R-134a", "amount": "5 kg"}
    first = stood(told(PURCHASE, fields))
    row = Cylinder.objects.get()
    right = {"cylinder": row.key.hex, "amount": "4 kg", "why_asked": "1"}
    assert "corrected_why" in errors(told(PURCHASE, right, corrects=first.key))
    stood(told(PURCHASE, {**right, "corrected_why": "Read it wrong."}, corrects=first.key))
    assert mg_in(row) == 4 * KG
    assert Move.objects.count() == 3


def test_a_correction_that_comes_first_still_counts_and_makes_one_cylinder():
    make_shop()
    fields = {"cylinder": "new", "refrigerant": "R-134a", "amount": "5 kg"}
    key = "00000000-0000-4000-8000-000000000001"
    stood(told(PURCHASE, {**fields, "amount": "4 kg"}, corrects=key))
    stood(told(PURCHASE, fields, key=key))
    row = Cylinder.objects.get()
    assert mg_in(row) == 4 * KG


def test_what_was_entered_by_mistake_is_taken_back():
    one = make_cylinder()
    first = stood(buy(one, "5 kg"))
    back = {"cylinder": one.key.hex, "taken_back": "yes"}
    stood(told(PURCHASE, back, corrects=first.key))
    assert mg_in(one) == 0


def test_scale_and_book_that_agree_move_nothing():
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    stood(weigh(one, "12 kg"))
    assert Move.objects.count() == 1
    assert CylinderWork.objects.get(what="weighing").stands_mg == 5 * KG


def test_a_difference_has_to_be_explained_and_becomes_a_move():
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    assert "200 g less" in errors(weigh(one, "11.8 kg"))["explained"].replace("\u00a0", " ")
    stood(weigh(one, "11.8 kg", fields={"explained": "vented"}))
    move = Move.objects.latest("id")
    assert (move.from_cylinder, move.to_place, move.amount) == (one, "unexplained", 200_000)
    assert mg_in(one) == 4_800_000


def test_two_weighings_each_bring_the_book_to_the_scale():
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    stood(weigh(one, "11.8 kg", fields={"explained": "scale"}))
    stood(weigh(one, "12.1 kg", fields={"explained": "not_explained"}))
    assert mg_in(one) == 5_100_000
    assert sorted(Move.objects.values_list("amount", flat=True)) == [200_000, 300_000, 5 * KG]


def test_what_arrives_late_from_before_a_weighing_explains_it_and_is_not_doubled():
    one = make_cylinder()
    stood(buy(one, "5 kg", happened_at=timezone.now() - timedelta(hours=3)))
    stood(weigh(one, "12.41 kg", fields={"explained": "not_explained"}))
    assert mg_in(one) == 5_410_000
    job = make_job()
    late = Entry.objects.get(pk=job.entry.pk)
    late.happened_at = late.done_at = timezone.now() - timedelta(hours=1)
    book(late, job, [Moved("refrigerant", 410_000, "car", "cylinder", "R-134a", None, one.key)])
    assert mg_in(one) == 5_410_000
    standing = Move.objects.filter(undoes=None, undone_by=None)
    assert not standing.filter(from_place="unexplained").exists()


def test_work_put_right_behind_a_weighing_leaves_the_cylinder_as_it_was_weighed():
    one, job, ago = make_cylinder(), make_job(), timezone.now() - timedelta(hours=5)
    fields = {"cylinder": one.key.hex, "gas": "label", "grams_out": "401 g"}
    person = make_person()
    first = make_told(fields, person, job_key=job.key, happened_at=ago)
    stood(enter(RECOVERY, first))
    stood(weigh(one, "7.41 kg", fields={"explained": "scale"}, happened_at=ago + HOUR))
    right = {**fields, "grams_out": "410 g"}
    stood(enter(RECOVERY, make_told(right, person, job_key=job.key, corrects=first.key)))
    assert mg_in(one) == 410_000
    standing = Move.objects.filter(undoes=None, undone_by=None)
    assert [move.from_place for move in standing] == ["car"]
    assert standing[0].happened_at == first.happened_at


def test_a_weighing_put_right_is_of_its_own_moment():
    one = make_cylinder()
    ago = timezone.now() - timedelta(hours=5)
    stood(buy(one, "5 kg", happened_at=ago))
    first = stood(
        weigh(one, "11 kg", fields={"explained": "scale"}, happened_at=ago + timedelta(hours=1))
    )
    stood(buy(one, "1 kg", happened_at=ago + timedelta(hours=2)))
    assert mg_in(one) == 5 * KG
    stood(weigh(one, "12 kg", corrects=first.key))
    assert mg_in(one) == 6 * KG


def test_a_scale_below_the_tare_is_asked_and_books_nothing():
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    assert "scale or tare is off" in errors(weigh(one, "6 kg"))["gross"]
    stood(weigh(one, "6 kg", fields={"gross_why": "The scale is broken."}))
    assert mg_in(one) == 5 * KG


def test_the_tank_of_a_machine_is_read_off_its_display():
    tank = make_cylinder("machine", tare="")
    stood(buy(tank, "8 kg"))
    fields = {"cylinder": tank.key.hex, "net": "7.9", "explained": "vented"}
    stood(told(WEIGHING, fields))
    assert mg_in(tank) == 7_900_000
    other = {**fields, "cylinder": make_cylinder(tare="").key.hex}
    assert "gross" in errors(told(WEIGHING, other))


def test_without_a_tare_the_form_asks_for_one():
    one = make_cylinder(tare="")
    assert "tare" in errors(weigh(one, "12 kg"))
    stood(weigh(one, "12 kg", fields={"tare": "7 kg", "explained": "not_booked"}))
    assert mg_in(one) == 5 * KG


def test_from_one_cylinder_into_another_asks_the_limits_of_both():
    one, two = make_cylinder(), make_cylinder(refrigerant="R-1234yf")
    fields = {"cylinder": one.key.hex, "to_cylinder": two.key.hex, "amount": "2 kg"}
    asked = errors(told(TRANSFER, fields))["to_cylinder"]
    assert "one refrigerant to a cylinder" in asked
    assert "weigh it" in asked
    done = stood(told(TRANSFER, {**fields, "is_done": "done"}))
    assert (mg_in(one), mg_in(two)) == (-2 * KG, 2 * KG)
    assert len(said_of(Entry.objects.get(key=done.key))) == 2
    assert open_codes(one) == ["cylinder_below_zero"]
    assert open_codes(two) == ["cylinder_second_gas"]


def test_what_happened_long_before_it_came_in_is_booked_without_a_question():
    one = make_cylinder(tested_until="2026-01-31")
    late = timezone.now() - timedelta(hours=2)
    fields = {"cylinder": one.key.hex, "amount": "2 kg"}
    assert "tested" in errors(told(PURCHASE, fields))["amount"]
    stood(told(PURCHASE, fields, happened_at=late))
    assert "cylinder_past_test" in open_codes(one)


def test_all_of_a_cylinder_or_a_part_goes_for_reclaim():
    one = make_cylinder("contaminated")
    stood(weigh(one, "10 kg", fields={"explained": "not_booked"}))
    fields = {"cylinder": one.key.hex, "facility": "Vale Reclaim", "address": "4 Weir Road"}
    stood(told(RECLAIM, {**fields, "amount": "1 kg", "paper": "77"}))
    assert mg_in(one) == 2 * KG
    stood(told(RECLAIM, {**fields, "paper": "78"}))
    assert mg_in(one) == 0
    assert "nothing is in it" in errors(told(RECLAIM, fields))["amount"]


def test_a_cylinder_given_back_takes_what_is_left_with_it_and_is_not_filled_again():
    one = make_cylinder("new")
    stood(told(PURCHASE, {"cylinder": "new", "refrigerant": "R-134a", "amount": "3 kg"}))
    two = Cylinder.objects.latest("id")
    stood(told(CYLINDER_GONE, {"cylinder": two.key.hex, "how": "returned"}))
    two.refresh_from_db()
    assert (mg_in(two), two.gone_since) == (0, timezone.localdate())
    fields = {"cylinder": one.key.hex, "to_cylinder": two.key.hex, "amount": "1 kg"}
    assert "to_cylinder" in errors(told(TRANSFER, fields))


def test_what_is_booked_into_a_cylinder_that_is_gone_stays_open():
    one = make_cylinder()
    stood(told(CYLINDER_GONE, {"cylinder": one.key.hex, "how": "scrapped"}))
    stood(buy(one, "1 kg"))
    one.refresh_from_db()
    assert "cylinder_gone" in open_codes(one)


def test_a_scrapped_cylinder_that_is_not_empty_is_asked_about():
    one = make_cylinder()
    stood(buy(one, "1 kg"))
    fields = {"cylinder": one.key.hex, "how": "scrapped"}
    assert "still holds" in errors(told(CYLINDER_GONE, fields))["how"]


def test_a_job_tells_of_the_cylinders_that_its_refrigerant_went_through():
    job, old = make_job(), make_cylinder(tested_until="2026-01-31", name="Cylinder 4")
    taken = [Moved("refrigerant", 200_000, "cylinder", "car", "R-134a", old.key)]
    book(job.entry, job, taken)
    (point,) = points_of_job(job)
    assert "200 g below zero: weigh cylinder 4." in point.sentence.replace("\u00a0", " ")
    other = make_job()
    back = [Moved("refrigerant", 300_000, "car", "cylinder", "R-134a", None, old.key)]
    book(other.entry, other, back)
    assert points_of_job(job) == points_of_job(other) == []
    (point,) = points_of_shop([old])
    assert "cylinder 4 is past its test date" in point.sentence
    assert point.job == other


def gases(cylinder):
    return by_gas([cylinder.pk]).get(cylinder.pk, {})


def test_what_is_put_right_after_its_cylinder_has_another_refrigerant_stays_of_the_one_it_was():
    one, two = make_cylinder(), make_cylinder()
    hours = [timezone.now() - HOUR * ago for ago in (6, 5, 4, 3, 2)]
    bought = stood(buy(one, "5 kg", happened_at=hours[0]))
    stood(weigh(one, "11.5 kg", fields={"explained": "vented"}, happened_at=hours[1]))
    fields = {"cylinder": one.key.hex, "to_cylinder": two.key.hex, "is_done": "done"}
    over = stood(told(TRANSFER, {**fields, "amount": "4.5 kg"}, happened_at=hours[2]))
    other = {"cylinder": str(one.key), "kind": "refillable", "refrigerant": "R-1234yf"}
    stood(told(CYLINDER, other | {"tare": "7 kg", "water_capacity": "12 kg"}, happened_at=hours[3]))
    again = {"happened_at": hours[4], "corrects": over.key}
    stood(told(TRANSFER, {**fields, "amount": "4 kg"}, **again))
    assert (gases(one), gases(two)) == ({"R-134a": KG // 2}, {"R-134a": 4 * KG})
    stood(buy(one, "6 kg", happened_at=hours[4], corrects=bought.key))
    assert (gases(one), gases(two)) == ({"R-134a": KG // 2}, {"R-134a": 4 * KG})
    assert set(Move.objects.values_list("gas", flat=True)) == {"R-134a"}
