"""What becomes of the old parts."""

from jobs.forms.fields import Line, OnJob, Tap
from jobs.models.old_parts import CHOICES
from jobs.models.wordings import CONSENT_WAYS


class OldPartForm(OnJob):
    """One answer for all old parts, with what is wished for one of them in words."""

    choice = Tap("What is to become of the old parts?", CHOICES, required=True)
    how = Tap("How was it told?", CONSENT_WAYS)
    where = Line(300, "Not the same for all of them?", "Which part, and what becomes of it.")
