"""The post of a page without script, as an entry."""

import uuid

import pytest
from django.test import RequestFactory

from jobs.logbook import NotAnEntry, clean_fields
from jobs.passes import TABLET_COOKIE, tablet_token
from jobs.views.posted import told_from_post
from tests.factories import make_person

pytestmark = pytest.mark.django_db


def post_of(person, **fields):
    request = RequestFactory().post("/", fields)
    request.user = person
    return request


def test_a_page_s_post_is_its_signed_in_person_s_entry():
    person, key = make_person(), uuid.uuid4()
    told = told_from_post(post_of(person, key=str(key), grams="500", csrfmiddlewaretoken="x"), 1)
    assert (told.key, told.author, told.sender) == (key, person, person)
    assert clean_fields(told.fields) == {"grams": ["500"]}


def test_a_form_that_lost_its_key_gets_a_new_one():
    person = make_person()
    first = told_from_post(post_of(person, key="", grams="1"), 1)
    second = told_from_post(post_of(person, grams="1"), 1)
    assert first.key != second.key


def test_a_key_that_is_none_is_said_so():
    with pytest.raises(NotAnEntry, match="open the form again"):
        told_from_post(post_of(make_person(), key="17", grams="1"), 1)


def test_the_tablet_it_was_posted_from_is_told_where_it_is_known():
    request, tablet = post_of(make_person(), grams="1"), uuid.uuid4()
    assert told_from_post(request, 1).tablet is None
    request.COOKIES[TABLET_COOKIE] = tablet_token(tablet)
    assert told_from_post(request, 1).tablet == tablet
