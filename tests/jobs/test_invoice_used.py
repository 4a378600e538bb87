"""An invoice begins with what was put in, and says what of the refrigerant was the car's own."""

import pytest

from diagnostics.lines_proposed import proposed_for
from jobs.entries import CHANGE, OIL
from jobs.models.done import done_words
from tests.factories import make_job, tell
from tests.jobs.test_estimate import GAS, LABOR, choose, decided, write
from tests.jobs.test_invoice import desk, moved, page_of

__all__ = ["desk"]
pytestmark = pytest.mark.django_db
OWN = "Of the refrigerant: 410\u00a0g\u00a0(14.5\u00a0oz) came out of this car; whether"
OF_GAS = GAS | {"code": "refrigerant"}


def test_oil_begins_with_the_milliliters_that_were_put_in(desk):
    job = make_job()
    write(job, {"sort": "fluid", "words": "Oil", "quantity": "150 mL", "code": "oil"})
    moved(job, 75_000, into=True, substance="oil")
    assert 'value="75 mL"' in page_of(desk, job)


def test_oil_that_a_new_part_came_with_is_not_billed_as_oil(desk):
    job = make_job()
    write(job, {"sort": "fluid", "words": "Oil", "quantity": "150 mL", "code": "oil"})
    tell(OIL, job, oil="pag46", prefilled="15", added="65", drained_old="42", allotted="20")
    assert 'value="65 mL"' in page_of(desk, job)
    assert list(done_words(job)) == [
        (
            "Oil: 42\u00a0mL out, 80\u00a0mL in, 20\u00a0mL more out by the maker’s table,"
            " not measured, 15\u00a0mL of what went in came in the new part."
        )
    ]


def test_refrigerant_is_billed_in_whole_grams(desk):
    job = make_job()
    write(job, OF_GAS)
    moved(job, 619_567, into=True)
    assert 'value="620 g"' in page_of(desk, job)


def test_the_cars_own_grams_stand_beside_the_line_of_refrigerant(desk):
    job = make_job()
    write(job, OF_GAS)
    moved(job, 410_000, into=False)
    assert OWN in page_of(desk, job)


def test_without_a_line_of_refrigerant_they_are_not_named(desk):
    job = make_job()
    write(job, LABOR)
    moved(job, 410_000, into=False)
    assert "came out of this car" not in page_of(desk, job)


def test_an_estimate_from_a_decision_names_them_too():
    told = decided()
    choose(told, "leak_joint")
    moved(told.job, 410_000, into=False)
    assert OWN in proposed_for(told.again).words


def test_the_numbers_of_parts_fitted_together_stand_on_the_invoice():
    job = make_job()
    more = {"part": "compressor", "source": "new", "serial": "8812", "also": ["drier"]}
    done = tell(CHANGE, job, what="fitted", **more, number_drier="TY-44")
    assert done.stands, done.form and done.form.errors
    [sentence] = done_words(job)
    assert "serial 8812" in sentence
    assert "TY-44" in sentence
