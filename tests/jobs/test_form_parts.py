"""What the form pack says of fields."""

from jobs.forms.system import SystemForm
from jobs.templatetags.form_parts import in_a_line


def test_a_field_that_asks_a_whole_question_is_named_by_what_it_is_about():
    form = SystemForm()
    names = [in_a_line(form[name]) for name in ("drive", "switched_side", "label_charge")]
    assert names == ["compressor drive", "switched side", "label charge"]
