"""Moving a job to another stage."""

from typing import Any

from django import forms

from diagnostics.told import Moved
from jobs.forms.fields import Line, OnJob, Tap
from jobs.models.jobs import OPEN, STAGES
from jobs.models.stages import WHY_BACK, is_back

NOT_WHOLE = "This page’s form is not whole. Open the page again."
SAME = "The job is in this stage already. Tap another."
SAY_WHY_BACK = "Why does it go back? Tap one; it stands on the record."
SAY_WHAT = "Say in a few words what it is."


class StageForm(OnJob):
    """To which stage, from which, and on the way back why."""

    to = Tap("To which stage?", {code: STAGES[code] for code in OPEN}, required=True)
    came_from = forms.ChoiceField(
        choices=list(STAGES.items()), required=False, widget=forms.HiddenInput
    )
    why = Tap("Why does it go back?", WHY_BACK, "Stands on the record.")
    words = Line(300, "In own words", "May wait. Stands on the record.")

    def clean(self) -> dict[str, Any]:
        """On the way back a reason is told; “something else” says what."""
        said = super().clean()
        to, came_from = said.get("to", ""), said.get("came_from", "")
        if not came_from:
            self.add_error(None, NOT_WHOLE)
        elif to == came_from:
            self.add_error("to", SAME)
        elif to and is_back(came_from, to):
            if not said.get("why") and "why" not in self.errors:
                self.add_error("why", SAY_WHY_BACK)
            if said.get("why") == "other" and not said.get("words"):
                self.add_error("words", SAY_WHAT)
        return said

    def moved(self) -> Moved:
        """What is asked for; nobody asks why a job goes on."""
        told = self.cleaned_data
        back = is_back(told["came_from"], told["to"])
        return Moved(told["to"], told["came_from"], told["why"] if back else "", told["words"])
