"""The find page."""

import pytest
from django.urls import reverse

from jobs import search
from jobs.models import Job
from jobs.models.people import OWNER
from tests.factories import make_job, make_person, make_shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def page(client):
    """The page for some words, as text."""
    make_shop()
    client.force_login(make_person("desk"))

    def ask(**query):
        response = client.get(reverse("find"), query)
        assert response.status_code == 200
        return response.content.decode()

    return ask


def test_nobody_finds_anything_without_a_sign_in(client):
    make_job()
    response = client.get(reverse("find"), {"words": "KX"})
    assert response.status_code == 302
    assert response["Location"].startswith(reverse("sign_in"))


def test_without_words_the_open_jobs_stand_there(page):
    make_job()
    make_job(plate="ZL.1473B")
    Job.objects.filter(vehicle__plate="ZL.1473B").update(stage="closed")
    shown = page()
    assert "1 open job, newest first." in shown
    assert "KX.4731D" in shown
    assert "ZL.1473B" not in shown


def test_an_empty_shop_says_what_will_stand_here(page):
    assert "No job is open. A car that is taken in stands here." in page()


def test_a_job_found_links_to_itself_with_the_found_part_marked(page):
    job = make_job()
    shown = page(words="473")
    assert f"/job/?job={job.key}" in shown
    assert "KX.<mark>473</mark>1D" in shown
    assert "1 job, newest first." in shown


def test_nothing_found_says_where_it_looked(page):
    make_job()
    assert "No job has “zzz” in plate, VIN" in page(words="zzz")


def test_signs_alone_are_told_apart_from_finding_nothing(page):
    make_job()
    shown = page(words="???")
    assert "type letters or digits" in shown
    assert "KX.4731D" not in shown


def test_too_many_words_say_that_only_the_first_count(page):
    assert "Only the first words were looked for." in page(words=" ".join("abcdefghijklm"))


@pytest.mark.parametrize(
    "words",
    ['"', "' OR 1=1 --", "\x00", "<script>alert(1)</script>", "w" * 10_000, "\u202e", "(((", "%%"],
)
def test_no_words_break_the_page_or_come_back_as_markup(page, words):
    make_job()
    assert "<script>alert" not in page(words=words)


def test_a_customer_s_markup_is_text(page):
    make_job(customer_name="<b>Ida</b>", plate='"><img>')
    shown = page()
    assert "<b>Ida" not in shown
    assert "&lt;b&gt;Ida" in shown
    assert "<img>" not in shown


def test_the_next_fifty_are_one_link_away(page, monkeypatch):
    monkeypatch.setattr(search, "PAGE", 2)
    for number in range(1, 6):
        make_job(plate=f"KX.470{number}D")
    shown = page(words="KX")
    assert "The newest 2; there are more." in shown
    assert "2 older jobs" in shown
    last = Job.objects.get(vehicle__plate="KX.4704D").key
    assert f"?words=KX&amp;older={last}" in shown
    further = page(words="KX", older=str(last))
    assert "KX.4703D" not in further  # the part found is marked
    assert "<mark>KX</mark>.4703D" in further
    assert "<mark>KX</mark>.4705D" not in further
    assert "1 older job<" in further


def test_a_key_that_is_none_shows_the_first_page(page):
    make_job()
    assert "KX.4731D" in page(older="x")


@pytest.mark.parametrize("words", ["", "KX", "nothing like it"])
def test_it_asks_the_database_the_same_however_many_are_found(
    client, django_assert_max_num_queries, words
):
    client.force_login(make_person("desk"))
    for number in range(1, 9):
        make_job(plate=f"KX.470{number}D")
    with django_assert_max_num_queries(5):
        client.get(reverse("find"), {"words": words})


def test_what_was_found_is_marked_in_name_phone_and_vin_too(page):
    make_job()
    assert "Ida <mark>Marwell</mark>" in page(words="marwell")
    assert "555 010 <mark>0199</mark>" in page(words="0199")
    assert "<mark>000789</mark>" in page(words="000789")
    assert "ZZ9HB1PA2ST000789" not in page(words="marwell")  # it is not what was looked for


def test_a_closed_job_of_last_year_is_found_by_four_characters_of_its_plate(page):
    job = make_job()
    Job.objects.update(stage="closed")
    assert f"/job/?job={job.key}" in page(words="4731")


def test_while_typing_only_the_rows_come_with_the_words_about_them(client):
    client.force_login(make_person("desk"))
    job = make_job()
    asked = {"words": "4731"}
    response = client.get(reverse("find"), asked, headers={"HX-Request": "true"})
    shown = response.content.decode()
    assert "<html" not in shown
    assert f"/job/?job={job.key}" in shown
    assert 'id="found-said" role="status" hx-swap-oob="true">1 job, newest first.' in shown
    assert "HX-Request" in response["Vary"]


def test_typing_after_the_sign_in_ended_leaves_the_page_as_it_is(client):
    response = client.get(reverse("find"), {"words": "x"}, headers={"HX-Request": "true"})
    assert response.status_code == 401


@pytest.mark.parametrize("route", ["job", "people", "intake", "unsent", "customer"])
def test_find_is_one_tap_away_on_every_page(client, route):
    client.force_login(make_person(OWNER))
    make_shop()
    shown = client.get(reverse(route)).content.decode()
    assert shown.count("data-to-find") == 1
    assert f'href="{reverse("find")}#words"' in shown


def test_find_itself_and_the_sign_in_have_no_way_to_find(client):
    make_shop()
    assert "data-to-find" not in client.get(reverse("sign_in")).content.decode()
    client.force_login(make_person(OWNER))
    assert "data-to-find" not in client.get(reverse("find")).content.decode()


def test_make_and_year_stand_together_and_the_year_is_not_what_was_found(page):
    make_job()
    assert "Brenloh Ilex 1.6, 2017" in page(words="4731")
    assert "<mark>Brenloh</mark> Ilex 1.6, 2017" in page(words="brenloh")
    make_job(plate="ZZ.2017A", make_model=None)
    assert "<bdi>2017</bdi>" in page(words="2017")


def test_a_car_whose_make_is_not_known_leaves_its_place_empty(page):
    make_job(make_model=None, model_year=None)
    assert "<td></td>" in page()
