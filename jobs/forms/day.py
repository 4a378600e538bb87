"""A day on the calendar, as typed or picked."""

from datetime import date
from typing import Any

from django import forms

OLDEST, NEWEST = 1950, 2100
HOW = "Type the day such as 3 Mar 2026, or pick it."
NO_SUCH_YEAR = f"The year lies between {OLDEST} and {NEWEST}. Type it again."


class DayInput(forms.DateInput):
    """The browser's own field for a day; without one it is a line of text."""

    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")


class Day(forms.DateField):
    """One day. 3/4/2026 is two days in two countries, so a month is typed in letters."""

    widget = DayInput

    def __init__(self, label: str, hint: str = "", missing: str = "") -> None:
        super().__init__(
            label=label,
            help_text=hint,
            required=bool(missing),
            input_formats=["%Y-%m-%d", "%d %b %Y", "%d %B %Y", "%d. %b %Y", "%d. %B %Y"],
            error_messages={"invalid": HOW, "required": missing},
        )

    def validate(self, value: Any) -> None:
        """A year that somebody can mean."""
        super().validate(value)
        if isinstance(value, date) and not OLDEST <= value.year <= NEWEST:
            raise forms.ValidationError(NO_SUCH_YEAR)
