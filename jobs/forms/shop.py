"""The shop itself: name, address, currency, paper."""

from django import forms

from jobs.forms.fields import Line, Lines, Tap, ToldForm
from jobs.forms.people import NameField, PasswordTwice, PinField
from jobs.models.shop import PAPERS
from jobs.money import DECIMALS


class ShopForm(ToldForm):
    """What stands on paper, and what money is counted in."""

    name = Line(
        120,
        "Name of the shop",
        "As it is printed on records.",
        required=True,
        error_messages={"required": "Type the name of the shop."},
    )
    address = Lines(500, "Address", "As it is printed; may wait.")
    currency = Line(
        20,
        "Currency",
        "What prices are in: three letters, such as USD, CAD or EUR.",
        required=True,
        error_messages={"required": "Type the currency’s three letters, such as USD or EUR."},
    )
    paper = Tap("Paper", PAPERS, required=True)

    def clean_currency(self) -> str:
        """Hold it to the list of ISO 4217."""
        code: str = self.cleaned_data["currency"].upper()
        if code not in DECIMALS:
            raise forms.ValidationError(
                f"“{code}” is no currency in use (ISO 4217). "
                "Type its three letters, such as USD or EUR."
            )
        return code


class BeginForm(ShopForm, PasswordTwice):
    """The shop and its first owner, as typed on the first page."""

    field_order = ("name", "address", "currency", "paper", "owner", "password", "password_again")
    owner = NameField("Your name", missing="Type your name. You will be the owner.")
    pin = PinField()
