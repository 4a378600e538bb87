"""An invoice: nothing on it may wait for a price."""

from typing import Any

from django import forms

from jobs.forms.fields import Lines, WhatWasWrong
from jobs.forms.priced import PricedForm
from jobs.models.priced import BELOW_ZERO

TYPE_PRICE = "Type the price; 0 if it costs nothing."
TYPE_MUCH = "Type how much of it."
NO_TOTAL = f"An invoice has a total: {BELOW_ZERO.partition(': ')[2]}."


class InvoiceForm(PricedForm):
    """Its lines, what became of the old parts, and the invoice that it takes the place of."""

    on = forms.UUIDField(required=False, widget=forms.HiddenInput)
    old_parts = Lines(600, "Old parts", "Given back, kept by the shop, or gone back to the seller.")
    corrected_why = WhatWasWrong()
    came_from = ""  # where the lines that it begins with come from, in a sentence

    def clean(self) -> dict[str, Any]:
        """Each line with its amount; what corrects another says why."""
        said = super().clean()
        for number, line in self.lines.items():
            if line["amount"] is None and line["unit"] != "%":
                lacks = "price" if line["price"] is None else "quantity"
                self.add_error(f"{lacks}_{number}", TYPE_PRICE if lacks == "price" else TYPE_MUCH)
        if self.sums.below_zero:
            self.add_error(None, NO_TOTAL)
        if said.get("on") and not said.get("corrected_why"):
            self.add_error("corrected_why", "Say in a few words what was wrong with it.")
        return said
