"""What the form pack says of fields."""

import pytest

from diagnostics.forms.stage import StageForm
from jobs.forms.prices import PriceForm
from jobs.forms.system import SystemForm
from jobs.templatetags.form_parts import in_a_line


def test_a_field_that_asks_a_whole_question_is_named_by_what_it_is_about():
    form = SystemForm()
    names = [in_a_line(form[name]) for name in ("drive", "switched_side", "label_charge")]
    assert names == ["compressor drive", "switched side", "label charge"]


@pytest.mark.django_db
def test_a_question_is_not_put_into_the_sentence_that_says_what_to_mend():
    names = [in_a_line(StageForm()["why"]), in_a_line(PriceForm({"what": "part"})["unit"])]
    assert names == ["why it goes back", "what the price is for"]


@pytest.mark.django_db
def test_a_part_is_priced_by_the_piece_unless_somebody_taps_otherwise():
    assert PriceForm(initial={"what": "part"})["unit"].value() == "piece"
