"""One version of an estimate."""

from typing import Any

from django import forms

from jobs.forms.priced import PricedForm
from jobs.told import Proposed


class EstimateForm(PricedForm):
    """Its lines, the version it is written on, and the decision that its lines came from."""

    on = forms.UUIDField(required=False, widget=forms.HiddenInput)
    plan = forms.CharField(required=False, max_length=200, widget=forms.HiddenInput)
    decision = forms.UUIDField(required=False, widget=forms.HiddenInput)
    begins = False  # whether its lines are to come from what was decided

    def propose(self, proposed: Proposed) -> None:
        """Begin with lines made from a decision."""
        self.begin(proposed.lines, self.currency)
        self.initial["plan"] = proposed.plan
        self.initial["decision"] = proposed.decision or ""

    @property
    def from_what(self) -> dict[str, Any]:
        """Which version it was written on, and the decision that its lines came from."""
        told = self.cleaned_data
        return {name: told.get(name) or None for name in ("on", "decision")} | {
            "plan": told.get("plan") or ""
        }
