"""What moved is a sum of moves: booked once, taken back by a move that names it."""

import pytest
from django.db import IntegrityError, transaction

from jobs.actions.amounts import book, let_last_count
from jobs.models import Cylinder, Entry, Move
from jobs.models.amounts import held
from jobs.told import Moved
from tests.factories import make_job

pytestmark = pytest.mark.django_db


def entries(count):
    """So many entries of one job, one after the other."""
    first = make_job().entry
    rest = []
    for number in range(count):
        one = Entry.objects.get(pk=first.pk)
        one.pk, one.key = None, f"00000000-0000-4000-8000-{number:012d}"
        one.save()
        rest.append(Entry.objects.get(pk=one.pk))
    return rest


def a_cylinder(entry):
    return Cylinder.objects.create(key=entry.key, entry=entry, name="Cylinder 3", kind="refillable")


def recovered(milligrams, cylinder):
    return Moved("refrigerant", milligrams, "car", "cylinder", "R-134a", to_cylinder=cylinder.key)


def test_what_was_recovered_lies_in_its_cylinder():
    told, one = entries(2)
    three = a_cylinder(told)
    book(one, None, [recovered(410_000, three)])
    assert held(Move.objects.all()) == {three.pk: 410_000}


def test_a_correction_takes_the_first_back_and_counts_alone():
    told, one, two = entries(3)
    three = a_cylinder(told)
    book(one, None, [recovered(410_000, three)])
    book(two, None, [recovered(401_000, three)])
    let_last_count([one, two], two)
    assert held(Move.objects.all())[three.pk] == 401_000
    assert Move.objects.count() == 3


def test_where_the_order_turns_out_the_other_way_the_first_is_booked_once_more():
    told, one, two, three_ = entries(4)
    three = a_cylinder(told)
    twice = recovered(200_000, three)
    book(one, None, [twice, twice])
    book(two, None, [recovered(401_000, three)])
    let_last_count([one, two], two)
    let_last_count([two, one], three_)
    assert held(Move.objects.all())[three.pk] == 400_000
    let_last_count([two, one], three_)
    assert held(Move.objects.all())[three.pk] == 400_000


def test_a_move_into_no_cylinder_is_none():
    (one,) = entries(1)
    with pytest.raises(IntegrityError), transaction.atomic():
        book(one, None, [Moved("refrigerant", 1, "car", "cylinder")])
