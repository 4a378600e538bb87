"""The step page: who may open it, what it shows of kind and car, what comes of a post."""

import json
import re

import pytest
from django.urls import reverse

from diagnostics.evidence.kinds.coil_power import UPSTREAM
from diagnostics.models import Step
from jobs.models import Photo
from jobs.models.people import DESK, OWNER
from tests.diagnostics.step_forms import some_key, step_of, tell, typed
from tests.factories import make_job, make_person

pytestmark = pytest.mark.django_db

PAGE = "/step/coil_power/"


@pytest.fixture
def signed_in(client):
    client.force_login(make_person())
    return client


def page_of(client, job, **asked):
    response = client.get(PAGE, {"job": str(job.key), **asked})
    assert response.status_code == 200
    return response.content.decode()


def post(client, job, **changed):
    return client.post(f"{PAGE}?job={job.key}", typed(**changed))


def meaning_of(client, job_key, **changed):
    said = typed(**changed) | {"job": str(job_key)}
    response = client.get(PAGE, said, headers={"HX-Request": "true"})
    assert response.status_code == 200
    return response.content.decode()


def data_in(page, name):
    found = re.search(rf'<script id="{name}" type="application/json">(.*?)</script>', page)
    assert found
    return json.loads(found[1])


# Who may.


def test_nobody_sees_a_test_without_a_sign_in(client):
    assert client.get(PAGE).status_code == 302
    assert client.get(PAGE, {"job": str(make_job().key)}).status_code == 302


def test_the_desk_does_not_test(client):
    client.force_login(make_person(DESK))
    job = make_job()
    assert client.get(PAGE, {"job": str(job.key)}).status_code == 403
    assert post(client, job).status_code == 403
    assert not Step.objects.exists()


def test_the_desk_cannot_record_a_step_past_the_page_either():
    assert tell(make_job(), make_person(DESK)).state == "forbidden"


def test_the_owner_tests_like_a_technician(client):
    client.force_login(make_person(OWNER))
    assert post(client, make_job()).status_code == 302


def test_any_tablet_may_keep_the_page_without_a_car(client):
    client.force_login(make_person(DESK))
    assert client.get(PAGE).status_code == 200


# The page.


def test_the_page_without_a_car_names_no_job_and_has_no_key(signed_in):
    job = make_job()
    page = signed_in.get(PAGE).content.decode()
    for words in (job.vehicle.plate, job.number, str(job.key), job.customer.name):
        assert words not in page
    assert '<input type="hidden" name="key" value="">' in page
    assert "hx-get" not in page


def test_the_page_has_the_kinds_whole_description_for_its_script(signed_in):
    page = signed_in.get(PAGE).content.decode()
    assert [one["name"] for one in data_in(page, "kind")["fields"]][:3] == [
        "engine",
        "hub",
        "ground",
    ]
    assert data_in(page, "units")["mV"]["factor"] == "1/1000"


def test_the_page_names_the_car_and_knows_its_system(signed_in):
    page = page_of(signed_in, make_job())
    assert "KX.4731D" in page
    assert data_in(page, "system")["drive"] == "belt_clutch"


def test_cautions_questions_and_the_range_in_the_hint_are_shown(signed_in):
    page = page_of(signed_in, make_job())
    for words in (
        "a hybrid or stop-start engine can start by itself",
        "Local codes",
        "0–16\u00a0V",
    ):
        assert words in page
    assert 'name="engine" value="off"' in page
    assert re.search(r'value="off"[^>]* checked', page)


def test_a_24_volt_vehicle_gets_its_own_range_and_remark(signed_in):
    page = page_of(signed_in, make_job(voltage="24"))
    assert "0–32\u00a0V" in page
    assert "24 V: judged by the vehicle’s own specification only." in page


def test_the_engine_is_off_and_no_conclusion_is_preset(signed_in):
    page = page_of(signed_in, make_job())
    assert len(re.findall(r"<input type=\"radio\"[^>]* checked", page)) == 1


@pytest.mark.parametrize(
    ("drive", "words"),
    [
        ("belt_clutchless", "No clutch here"),
        ("electric_hv", "never a 12 V test"),
        ("electric_48", "no clutch coil"),
    ],
)
def test_a_drive_without_a_clutch_bars_the_step_and_says_why(signed_in, drive, words):
    page = page_of(signed_in, make_job(drive=drive))
    assert words in page
    assert '<details class="all-the-same" data-form-holder>' in page
    assert "It was done all the same: record it" in page


@pytest.mark.parametrize(
    ("drive", "hidden"),
    [("electric_hv", {"pulley", "belt"}), ("belt_clutch", {"unit"}), (None, set())],
)
def test_an_answer_that_does_not_fit_the_car_is_hidden_without_any_script(signed_in, drive, hidden):
    address = reverse("step", args=["noise"])
    page = signed_in.get(address, {"job": str(make_job(drive=drive).key)}).content.decode()
    found = re.findall(r'<label class="answer"[^>]* hidden><input[^>]*value="(\w+)"', page)
    assert set(found) == hidden
    assert 'value="cannot_tell"' in page


@pytest.mark.parametrize("drive", ["belt_electric", None])
def test_a_drive_that_may_have_a_clutch_asks_first(signed_in, drive):
    page = page_of(signed_in, make_job(drive=drive))
    assert re.search(r"data-first><strong>First:</strong> <span>[^<]+magnetic clutch", page)
    assert '<details class="all-the-same" data-form-holder open>' in page


@pytest.mark.parametrize(
    "path",
    ["/step/no_such_test/", f"{PAGE}?job=12", f"{PAGE}?job={some_key()}"],
    ids=["no kind", "no key", "another key"],
)
def test_what_is_not_here_is_not_found(signed_in, path):
    assert signed_in.get(path).status_code == 404


def test_the_page_asks_the_database_as_often_with_many_steps(signed_in, django_assert_num_queries):
    job = make_job()
    # session, person, job with all, consent, settings, phrases, instruments, and for the gates:
    # states, overrides, steps, instruments named, changes, waits, notes
    with django_assert_num_queries(14):
        page_of(signed_in, job)
    for _ in range(5):
        step_of(tell(job))
    # and once for the instruments that any of the steps name
    with django_assert_num_queries(15):
        page_of(signed_in, job)


@pytest.mark.parametrize(
    ("count", "said"), [(0, ""), (1, "1 photo stays with it."), (2, "2 photos stay with it.")]
)
def test_a_correction_says_that_the_earlier_photos_stay_with_their_step(signed_in, count, said):
    job = make_job()
    step = step_of(tell(job))
    for number in range(count):
        Photo.objects.create(
            entry=step.entry, number=number, field="photo", sent_sha256="a" * 64, sent_bytes=3
        )
    page = page_of(signed_in, job, corrects=str(step.key))
    plain = re.sub(r"<[^>]+>", "", page)
    assert (f"Its {said}" in plain) if said else ("with it." not in plain)


# What comes of a post.


def test_a_recorded_step_leads_back_to_the_job(signed_in):
    job = make_job()
    response = post(signed_in, job)
    assert response.status_code == 302
    assert response["Location"] == f"{reverse('job')}?job={job.key}"
    assert Step.objects.get().readings["volts"] == {"si": 12.38, "typed": "12.38", "unit": "V"}


def test_a_problem_stands_at_its_field_and_nothing_typed_is_lost(signed_in):
    job = make_job()
    response = post(signed_in, job, volts="twelve", amps="3,05", seen="<b>Rattle</b> & smoke")
    page = response.content.decode()
    assert response.status_code == 422
    assert "“twelve” is no number" in page
    assert 'value="twelve"' in page
    assert 'value="3,05"' in page
    assert "&lt;b&gt;Rattle&lt;/b&gt; &amp; smoke" in page
    assert re.search(r'name="holds" value="no"[^>]* checked', page)
    assert "mend voltage at the coil’s pins. All you typed is still here." in page
    assert not Step.objects.exists()


def test_a_value_outside_shows_what_it_can_be_and_asks_why_it_stays(signed_in):
    response = post(signed_in, make_job(), volts="123.8")
    page = response.content.decode()
    assert response.status_code == 422
    assert "Type it again, or keep it and say why." in page
    assert "can be 0–16\u00a0V" in page
    assert 'name="volts_why"' in page


def test_script_in_a_typed_value_is_shown_as_text(signed_in):
    page = post(signed_in, make_job(), volts="<script>alert(1)</script>").content.decode()
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page


# While it is typed.


def test_the_meaning_below_the_fields_needs_no_whole_form(signed_in):
    job = make_job()
    said = meaning_of(signed_in, job.key, holds=None, pushed=None, magnet=None)
    assert "3.05\u00a0A" in said
    assert UPSTREAM in said
    assert "<html" not in said
    assert not Step.objects.exists()


def test_nothing_typed_shows_nothing(signed_in):
    said = meaning_of(signed_in, make_job().key, **dict.fromkeys(set(typed()) - {"engine"}))
    assert "Nothing is read yet." in said


def test_the_meaning_leaves_out_what_is_no_number(signed_in):
    said = meaning_of(signed_in, make_job().key, volts="twelve")
    assert "Voltage under load: no reading to go by." in said


def test_a_car_not_here_yet_is_met_as_one_of_which_nothing_is_known(signed_in):
    said = meaning_of(signed_in, some_key())
    assert "No figure of this vehicle" in said


def test_the_meaning_is_for_those_who_test(client):
    client.force_login(make_person(DESK))
    response = client.get(PAGE, {"job": some_key()}, headers={"HX-Request": "true"})
    assert response.status_code == 403


# Correcting.


def test_a_correction_begins_with_what_was_typed(signed_in):
    job = make_job()
    step = step_of(tell(job, volts="12,4 V", seen="Click."))
    page = page_of(signed_in, job, corrects=str(step.key))
    assert 'value="12,4 V"' in page
    assert "Click." in page
    assert f'name="corrects" value="{step.key}"' in page
    assert "Both stay on the record" in page


@pytest.mark.parametrize("told", ["x", some_key()], ids=["no key", "another key"])
def test_a_step_to_correct_has_to_be_one_of_this_job(signed_in, told):
    response = signed_in.get(PAGE, {"job": str(make_job().key), "corrects": told})
    assert response.status_code == 404


def test_a_step_of_another_job_cannot_be_corrected_here(signed_in):
    step = step_of(tell(make_job()))
    other = make_job(plate="PW.5504K")
    response = signed_in.get(PAGE, {"job": str(other.key), "corrects": str(step.key)})
    assert response.status_code == 404


# A correction, and a job without consent.


def test_a_correction_begins_with_what_the_earlier_step_shows(signed_in):
    job = make_job()
    step = step_of(tell(job, volts="17.2", volts_why="charger on"))
    page = page_of(signed_in, job, corrects=str(step.key))
    assert "The plate does not come by itself; it holds when pushed." in page
    assert "Nothing is read yet." not in page
    assert 'class="odd-strip"' in page
    assert "Nothing is read yet." in page_of(signed_in, job)


def test_a_correction_asks_what_was_wrong_and_a_first_step_does_not(signed_in):
    job = make_job()
    step = step_of(tell(job))
    asked = "What was wrong with the earlier one?"
    assert asked in page_of(signed_in, job, corrects=str(step.key))
    assert asked not in page_of(signed_in, job)


def test_a_reason_without_a_correction_is_no_reason():
    assert step_of(tell(make_job(), corrected_why="x")).corrected_why == ""


def test_a_correction_of_a_step_with_the_engine_running_begins_with_the_warning(signed_in):
    job = make_job()
    step = step_of(tell(job, engine="running", pushed=None))
    assert SHOWN_GATE.search(page_of(signed_in, job, corrects=str(step.key)))


def test_testing_without_consent_is_told_at_the_head_and_bars_nothing(signed_in):
    told = re.compile(r"data-no-consent>No consent to find the fault counts: what may be spent")
    job = make_job(consent_amount="", consent_how="")
    page = page_of(signed_in, job)
    assert told.search(page)
    assert f"/consent/?job={job.key}" in page
    assert post(signed_in, job).status_code == 302
    assert not told.search(page_of(signed_in, make_job()))


# The order that must not be broken.

GATE = "turn the hub by hand first, and only a free hub is run."
BLANK = {"ground": None, "volts": None, "amps": None, "magnet": None, "holds": None, "pushed": None}
SHOWN_GATE = re.compile(r'data-gate="hub_before_power" role="status">')


@pytest.mark.parametrize("hub", ["not_done", "not_free", "", None])
def test_a_running_engine_is_warned_of_until_the_hub_was_found_free(signed_in, hub):
    job = make_job()
    assert GATE in meaning_of(signed_in, job.key, engine="running", hub=hub, pushed=None)
    assert GATE in meaning_of(signed_in, job.key, engine="running", hub=hub, **BLANK)


def test_an_engine_that_is_off_or_a_free_hub_is_not_warned_of(signed_in):
    job = make_job()
    assert GATE not in meaning_of(signed_in, job.key)
    assert GATE not in meaning_of(signed_in, job.key, engine="running", hub="free", pushed=None)


def test_a_form_that_came_back_with_the_hub_not_answered_shows_the_warning(signed_in):
    job = make_job()
    page = post(signed_in, job, engine="running", pushed=None, volts="much").content.decode()
    assert SHOWN_GATE.search(page)
    assert not SHOWN_GATE.search(page_of(signed_in, job))


def test_without_script_the_warning_stands_from_the_start(signed_in):
    assert f'<noscript><p class="need gate">Not with the engine running: {GATE}' in page_of(
        signed_in, make_job()
    )


# Whose name it gets.


def test_a_jobs_step_names_who_records_it_and_leads_to_another_person_and_back(client):
    job, person = make_job(), make_person(name="Anneke Pohl")
    client.force_login(person)
    page = page_of(client, job)
    assert "<bdi data-recorder-name>Anneke Pohl</bdi>" in page
    assert f"/sign_in/?next=%2Fstep%2Fcoil_power%2F%3Fjob%3D{job.key}" in page


def test_the_step_page_that_a_tablet_keeps_names_nobody(client):
    client.force_login(make_person(name="Anneke Pohl"))
    page = client.get(PAGE).content.decode()
    assert "Anneke Pohl" not in page
    assert "data-recorder hidden" in page
