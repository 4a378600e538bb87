"""The pages of the cylinders: the list, one cylinder, and the forms of what is done with it."""

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models import Cylinder
from jobs.models.people import DESK, TECHNICIAN
from tests.factories import make_person
from tests.jobs.cylinders import buy, make_cylinder, mg_in, stood

pytestmark = pytest.mark.django_db


@pytest.fixture
def bay() -> Client:
    browser = Client()
    browser.force_login(make_person(TECHNICIAN))
    return browser


def page(browser, **asked):
    return browser.get(reverse("cylinders"), asked).content.decode()


def test_the_list_says_what_is_in_each_and_how_much_may_be(bay):
    one = make_cylinder()
    stood(buy(one, "9.7 kg"))
    shown = page(bay).replace("\u00a0", " ")
    assert "9 700 g by the book, 9 600 g at most" in shown
    assert "Empty it down to that." in shown


def test_one_cylinder_shows_both_rules_and_which_one_is_used(bay):
    shown = page(bay, cylinder=make_cylinder(refrigerant="R-152a").key.hex)
    assert "0.8 × water capacity × specific gravity at 25 °C" in shown
    assert shown.count("the lower one, used here") == 1


def test_weighed_with_a_difference_the_page_asks_and_then_says_what_was_booked(bay):
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    at = reverse("cylinders_tell", args=["weighing"])
    told = {"cylinder": one.key.hex, "gross": "11.8"}
    asked = bay.post(at, told)
    assert asked.status_code == 422
    assert "200\u00a0g less" in asked.content.decode()
    answer = bay.post(at, told | {"explained": "vented"}, follow=True)
    shown = answer.content.decode().replace("\u00a0", " ")
    assert "<strong>Booked.</strong>" in shown
    assert "200 g less than the book" in shown
    assert mg_in(one) == 4_800_000


def test_scale_and_book_that_agree_are_said_to(bay):
    one = make_cylinder()
    stood(buy(one, "5 kg"))
    at = reverse("cylinders_tell", args=["weighing"])
    shown = bay.post(at, {"cylinder": one.key.hex, "gross": "12"}, follow=True).content.decode()
    assert "scale and book agree" in shown


def test_a_correction_begins_with_what_was_told(bay):
    one = make_cylinder()
    first = stood(buy(one, "5 kg"))
    shown = page(bay, cylinder=one.key.hex, do="purchase", corrects=str(first.key))
    assert 'value="5000"' in shown
    assert "What was wrong with the earlier one?" in shown


def test_the_desk_sees_cylinders_and_is_offered_no_work():
    browser = Client()
    browser.force_login(make_person(DESK))
    one = make_cylinder()
    shown = page(browser, cylinder=one.key.hex)
    assert "do=weighing" not in shown
    assert "Book this weighing" not in page(browser, cylinder=one.key.hex, do="weighing")


def test_a_new_cylinder_is_bought_on_the_page(bay):
    make_cylinder()
    told = {"cylinder": "new", "refrigerant": "R-1234yf", "amount": "10 lb", "name": "Yellow"}
    answer = bay.post(reverse("cylinders_tell", args=["purchase"]), told, follow=True)
    assert "Booked." in answer.content.decode()
    assert mg_in(Cylinder.objects.get(name="Yellow")) == 4_535_924


def test_pages_of_cylinders_that_are_not_here_say_so(bay):
    assert bay.get(reverse("cylinders"), {"cylinder": "x"}).status_code == 404
    assert bay.post(reverse("cylinders_tell", args=["nothing"])).status_code == 404


def test_many_cylinders_are_listed_at_a_fixed_number_of_queries(bay, django_assert_max_num_queries):
    make_cylinder()
    with django_assert_max_num_queries(14) as few:
        page(bay)
    for _ in range(5):
        stood(buy(make_cylinder(tested_until="2026-01-01"), "1 kg"))
    with django_assert_max_num_queries(14) as many:
        page(bay)
    assert len(many) == len(few)
