"""What an owner sets for the shop, a form for each part; together they are one entry kind."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import Line, Lines
from jobs.forms.settings_figures import (
    Columns,
    KeepPart,
    PartForm,
    PlacePart,
    SumsPart,
    UnitsPart,
)
from jobs.forms.shop import ShopForm
from jobs.logbook import Told
from jobs.models import Shop
from jobs.models.shop import PAPERS
from jobs.told import one_line

PHRASES_MOST, PHRASE_LONG = 12, 80
PHRASED = {
    "complaint": ("What the customer says", "Offered at intake, under the complaint."),
    "decision": ("Why a repair was chosen", "Offered where it is decided."),
    "handover": ("Hand-over", "Offered where one technician leaves a job to another."),
    "not_done": ("Could not be done, in a few words", "Offered at every test."),
    "waiting": ("Waiting for", "Offered where a job is told to wait."),
}


class PapersPart(PartForm, ShopForm):
    """What stands on paper, and what money is counted in."""

    NAME, TITLE = "papers", "Shop and papers"
    field_order = (
        "name", "letterhead", "address", "phone", "web", "tax_number", "currency", "paper",
    )  # fmt: skip
    letterhead = Lines(400, "Lines under the name", "Such as what the shop does. Up to four.")
    phone = Line(60, "Phone")
    web = Line(200, "E-mail or web address")
    tax_number = Line(120, "Tax or registration number", "As it is printed, with its name.")

    def clean_letterhead(self) -> str:
        """Leave room for the rest of the page."""
        text: str = self.cleaned_data["letterhead"]
        if len(text.splitlines()) > 4:
            raise forms.ValidationError(f"Those are {len(text.splitlines())} lines; 4 fit.")
        return text

    @classmethod
    def said(cls, shop: Shop) -> str:
        """Name, currency and paper."""
        return f"{shop.name}, {shop.currency}, {PAPERS[shop.paper]}"


class PhrasesPart(PartForm):
    """The shop's own phrases, one a line."""

    NAME, TITLE = "phrases", "Own phrases"

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, (words, hint) in PHRASED.items():
            most = f"{hint} One a line, {PHRASES_MOST} at most."
            self.fields[f"phrases_{name}"] = Lines(PHRASES_MOST * (PHRASE_LONG + 2), words, most)

    def clean(self) -> Columns:
        """Hold each list to what a thumb finds its way in."""
        said = super().clean() or {}
        for name in PHRASED:
            field = f"phrases_{name}"
            found = phrases_in(said.get(field, ""))
            long = next((one for one in found if len(one) > PHRASE_LONG), "")
            if len(found) > PHRASES_MOST:
                told = f"Those are {len(found)} phrases; {PHRASES_MOST} fit. Take some out."
                self.add_error(field, told)
            elif long:
                told = f"“{long[:30]}…” has {len(long)} characters; {PHRASE_LONG} fit. Shorten it."
                self.add_error(field, told)
        return said

    def columns(self) -> Columns:
        """The lists that have something in them."""
        told = {name: phrases_in(self.cleaned_data[f"phrases_{name}"]) for name in PHRASED}
        return {"phrases": {name: found for name, found in told.items() if found}}

    @classmethod
    def filled(cls, shop: Shop) -> Columns:
        """One a line."""
        return {f"phrases_{name}": "\n".join(shop.phrases.get(name, ())) for name in PHRASED}

    @classmethod
    def said(cls, shop: Shop) -> str:
        """How many."""
        count = sum(len(shop.phrases.get(name, ())) for name in PHRASED)
        return f"{count} phrase{'' if count == 1 else 's'}" if count else "None yet"


class LawPart(PartForm):
    """The wording that the law of the place asks for."""

    NAME, TITLE = "law", "Wording required here"
    law = Lines(
        2000,
        "As required here",
        "Printed word for word on records and shown at every consent. The shop is responsible for"
        " this text; the program knows no law.",
    )

    @classmethod
    def said(cls, shop: Shop) -> str:
        """Its beginning."""
        text = one_line(shop.law)
        return f"{text[:70]}…" if len(text) > 71 else text or "None: check your local rules"


PARTS: Mapping[str, type[PartForm]] = {
    one.NAME: one
    for one in (PapersPart, UnitsPart, PlacePart, SumsPart, PhrasesPart, LawPart, KeepPart)
}


class NoPart(PartForm):
    """Of a part that is none."""

    def clean(self) -> Columns:
        """Nothing can be told of it."""
        raise forms.ValidationError("The shop server knows no such part of the settings.")


def shop_change_form(data: MultiValueDict[str, str], told: Told | None = None) -> PartForm:
    """The form of the part that an entry names."""
    return PARTS.get(str(data.get("part", "")), NoPart)(data, told)


def phrases_in(text: str) -> list[str]:
    """The lines that say something, each once."""
    return list(dict.fromkeys(line for told in text.splitlines() if (line := one_line(told))))
