"""The switch on the job: is it failing right now?"""

from jobs.forms.fields import OnJob, Tap
from jobs.models.jobs import FAILING


class FailingNowForm(OnJob):
    """One of three answers."""

    failing = Tap("Failing now?", FAILING, required=True)
