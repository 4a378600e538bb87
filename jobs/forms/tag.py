"""Why a car's A/C must not be run, in a person's own taps and words."""

from typing import Any

from jobs.forms.fields import Line, OnJob, Taps
from jobs.models.tags import REASONS

NO_REASON = "A tag without a reason is not believed. Tap one, or say it in words."


class TagForm(OnJob):
    """One tag."""

    reasons = Taps("Why must it not be run?", REASONS)
    words = Line(120, "Or in your words", "Short: it is read from two meters.")
    before = Line(120, "What has to happen before it may run?", "As far as you know it.")

    def clean(self) -> dict[str, Any]:
        """It says why."""
        said = super().clean()
        if not (said.get("reasons") or said.get("words")) and not self.errors:
            self.add_error("reasons", NO_REASON)
        return said
