"""Work on a cylinder: bought, weighed, poured over, sent for reclaim, gone."""

from datetime import date, datetime
from typing import Any
from uuid import UUID

from django import forms
from django.utils import timezone
from django.utils.datastructures import MultiValueDict

from jobs.cylinder_limits import (
    NO_REFRIGERANT,
    Held,
    Limit,
    asked_between,
    asked_into,
    asked_out_of,
)
from jobs.forms.cylinder_asked import IsDone, ask_limits
from jobs.forms.cylinders import (
    CAPACITY_USUAL,
    REFRIGERANTS,
    TARE_USUAL,
    WHICH_GAS,
    WhichCylinder,
    cylinder_of,
)
from jobs.forms.fields import (
    SAY_WHAT_WAS_WRONG,
    EntryForm,
    Line,
    Lines,
    Tap,
    Typed,
    WhatWasWrong,
    Why,
    WhyAsked,
)
from jobs.forms.masses import LARGE, SMALL, ask_mass, read_mass
from jobs.forms.when import happened
from jobs.ledger import KG, shown_mass
from jobs.logbook import Told
from jobs.models import Cylinder, CylinderWork, Entry
from jobs.models.cylinder_works import GONE, PURCHASE, RECLAIM, TRANSFER, WENT
from jobs.models.cylinders import as_held, by_gas, held_by
from jobs.models.shop import units_chosen
from jobs.told import Worked, as_key

NOT_HERE = "What this is to correct is no such work on a cylinder."
HOW_MUCH = "Type how much it was."
NEW = "new"
HYPHEN = "\u2011"  # R-134a is not torn at the end of a line
# From a breath of gas to what one cylinder holds; our judgement.
AMOUNT_USUAL = (1_000, 60 * KG)


class WorkForm(EntryForm):
    """What all of it asks. What corrects may also say that nothing of it was (`taken_back`)."""

    WHAT = ""
    MASSES: dict[str, tuple[str, str]] = {}
    cylinder: forms.Field = forms.CharField(widget=forms.HiddenInput)
    is_done = IsDone()
    taken_back = Tap("Did it happen at all?", {"yes": "No, it was entered by mistake"})
    corrected_why = WhatWasWrong()
    why_asked = WhyAsked()
    corrected: CylinderWork | None = None

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        chosen = units_chosen()
        self.unit = chosen.start(SMALL)
        for name, units in self.MASSES.items():
            ask_mass(self, name, units, chosen)
        if self.corrects:
            same = CylinderWork.objects.filter(what=self.WHAT, key=self.corrects)
            self.corrected = same.select_related("entry").first()

    @property
    def taken(self) -> bool:
        """Whether it says that nothing of it was."""
        return self.cleaned_data.get("taken_back") == "yes" and bool(self.corrects)

    @property
    def at(self) -> datetime:
        """The moment that is told of: of a correction, that of what it corrects."""
        if self.corrected:
            return self.corrected.at
        return happened(self.entry_told)

    @property
    def day(self) -> date:
        """The same as the shop's day."""
        return timezone.localdate(self.at)

    def clean_cylinder(self) -> Cylinder | None:
        """The cylinder that it is about."""
        return cylinder_of(as_key(self.cleaned_data["cylinder"]))

    def clean(self) -> dict[str, Any]:
        """What was wrong, where the page asked for it; then what each kind reads."""
        said = super().clean() or {}
        if self.corrects and not self.corrected and self.is_here(self.corrects):
            self.add_error(None, NOT_HERE)
        if self.corrects and said.get("why_asked") and not said.get("corrected_why"):
            self.add_error("corrected_why", SAY_WHAT_WAS_WRONG)
        if not self.taken and "cylinder" not in self.errors:
            self.read(said)
        return said

    @staticmethod
    def is_here(key: UUID) -> bool:
        """Whether the logbook has that entry; one that comes later may still be of this sort."""
        return Entry.objects.filter(key=key).exists()

    def read(self, said: dict[str, Any]) -> None:
        """Read and ask what this kind needs."""
        raise NotImplementedError

    def read_amount(self, said: dict[str, Any]) -> int | None:
        """The mass in the field `amount`, in mg; it has to be told."""
        if not said.get("amount"):
            self.add_error("amount", HOW_MUCH)
            return None
        return read_mass(self, "amount", SMALL, AMOUNT_USUAL)

    def held(self, cylinder: Cylinder) -> Held:
        """What it holds by the book, without what is being corrected."""
        return held_by(cylinder, without=self.left_out)

    @property
    def left_out(self) -> list[int]:
        """The entry that is being corrected, and those that were before."""
        if not self.corrects:
            return []
        return list(Entry.objects.filter(key=self.corrects).values_list("pk", flat=True))

    def ask(self, name: str, limits: list[Limit]) -> None:
        """Ask about limits, or mark that it is done."""
        ask_limits(self, name, limits, self.unit)

    def columns(self) -> dict[str, Any]:
        """What this kind tells, by the columns of CylinderWork."""
        return {}

    def worked(self) -> Worked:
        """The work as it is written."""
        row: Cylinder | None = self.cleaned_data["cylinder"]
        told = {} if self.taken else self.columns()
        return Worked(
            what=self.WHAT,
            cylinder=row.key if row else None,
            taken_back=self.taken,
            corrected_why=self.cleaned_data["corrected_why"],
            marks=self.marks,
            **told,
        )

    def words(self, *names: str) -> dict[str, str]:
        """Fields of words that were told."""
        return {name: self.cleaned_data[name] for name in names if self.cleaned_data[name]}


class PurchaseForm(WorkForm):
    """Refrigerant bought: as a rule in a cylinder of its own, which is new in the list then."""

    WHAT = PURCHASE
    MASSES = {"amount": SMALL, "tare": LARGE, "water_capacity": LARGE}
    cylinder = WhichCylinder("In which cylinder?", {NEW: "A new one"}, required=True)
    refrigerant = Tap("Which refrigerant?", REFRIGERANTS, "Of a new cylinder.")
    amount = Typed("How much, without the cylinder?", "As the paper says.")
    amount_why = Why()
    from_whom = Line(120, "From whom?", "May wait.")
    paper = Line(80, "Number of the paper", "Invoice or delivery note. May wait.")
    name = Line(80, "What the new cylinder is called here", "Empty: Cylinder and the next number.")
    serial = Line(80, "Its serial number")
    tare = Typed("Its tare", "As printed on it.")
    tare_why = Why()
    water_capacity = Typed("Its water capacity", "As printed on it.")
    water_capacity_why = Why()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["cylinder"]
        if isinstance(field, forms.ChoiceField):
            listed = Cylinder.objects.filter(gone_since=None, kind__in=("refillable", "machine"))
            known = [(one.key.hex, one.name) for one in listed]
            if self.corrected:
                row = self.corrected.cylinder
                known = [(row.key.hex, row.name), *(one for one in known if one[1] != row.name)]
            new = [] if self.corrected else [(NEW, "A new one")]
            field.choices = [*new, *known]

    def clean_cylinder(self) -> Cylinder | None:
        """One of the list; None: a new one."""
        told = self.cleaned_data["cylinder"]
        return None if told == NEW else cylinder_of(as_key(told))

    def read(self, said: dict[str, Any]) -> None:
        """How much, and what is new of a new cylinder."""
        row: Cylinder | None = said["cylinder"]
        self.mg = self.read_amount(said)
        self.new = {
            "tare_mg": read_mass(self, "tare", LARGE, TARE_USUAL),
            "water_capacity_ul": read_mass(self, "water_capacity", LARGE, CAPACITY_USUAL),
        }
        if row is None and not said.get("refrigerant"):
            self.add_error("refrigerant", WHICH_GAS)
        elif row and self.mg and row.kind != "new":
            held = self.held(row)
            gas = said.get("refrigerant") or held.gas
            self.ask("amount", asked_into(held, self.mg, gas, self.day))

    def columns(self) -> dict[str, Any]:
        """What was bought, and the new cylinder."""
        new = {"kind": "new", **self.new, **self.words("refrigerant", "name", "serial")}
        return {
            "amount_mg": self.mg,
            "told": self.words("from_whom", "paper"),
            "new": {} if self.cleaned_data["cylinder"] else new,
        }


class TransferForm(WorkForm):
    """From one cylinder into another."""

    WHAT = TRANSFER
    MASSES = {"amount": SMALL}
    to_cylinder = WhichCylinder("Into which one?", {}, required=True)
    amount = Typed("How much?", "By the scale.")
    amount_why = Why()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["to_cylinder"]
        if isinstance(field, forms.ChoiceField):
            own = as_key(self.data.get("cylinder") or self.initial.get("cylinder"))
            others = Cylinder.objects.filter(gone_since=None).exclude(kind__in=NO_REFRIGERANT)
            listed = [one for one in others if one.key != own]
            sums = by_gas([one.pk for one in listed])
            field.choices = [
                (one.key.hex, choice_words(one, as_held(one, sums.get(one.pk, {})), self.unit))
                for one in listed
            ]

    def clean_to_cylinder(self) -> Cylinder:
        """The one that was filled."""
        return cylinder_of(as_key(self.cleaned_data["to_cylinder"]))

    def read(self, said: dict[str, Any]) -> None:
        """How much, into another cylinder than its own, within the limits of both."""
        self.mg = self.read_amount(said)
        source, target = said["cylinder"], said.get("to_cylinder")
        if target and target == source:
            self.add_error("to_cylinder", "Tap another cylinder than the one it comes out of.")
        elif target and self.mg:
            limits = asked_between(self.held(source), self.held(target), self.mg, self.day)
            self.ask("to_cylinder", limits)

    def columns(self) -> dict[str, Any]:
        """What went over."""
        return {"amount_mg": self.mg, "to_cylinder": self.cleaned_data["to_cylinder"].key}


class ReclaimForm(WorkForm):
    """What is sent to a facility that cleans it, out of a cylinder that stays here."""

    WHAT = RECLAIM
    MASSES = {"amount": SMALL}
    amount = Typed("How much?", "Empty: all that is in it by the book.")
    amount_why = Why()
    facility = Line(120, "To which facility?", "Its name. May wait.")
    address = Lines(300, "Its address", "May wait.")
    paper = Line(80, "Number of the paper", "May wait.")

    def read(self, said: dict[str, Any]) -> None:
        """A part, or the whole."""
        held = self.held(said["cylinder"])
        if said.get("amount"):
            self.mg = self.read_amount(said)
        else:
            self.mg = max(held.mg, 0)
            if not self.mg:
                self.add_error("amount", "By the book nothing is in it. Type how much it was.")
        if self.mg:
            self.ask("amount", asked_out_of(held, self.mg, self.day))

    def columns(self) -> dict[str, Any]:
        """What was sent, and where."""
        return {"amount_mg": self.mg, "told": self.words("facility", "address", "paper")}


class GoneForm(WorkForm):
    """A cylinder that leaves the shop, with what is left in it."""

    WHAT = GONE
    how = Tap("How did it go?", {code: words for code, (words, _) in WENT.items()}, required=True)
    facility = Line(120, "To whom?", "Supplier or facility. May wait.")
    address = Lines(300, "The address", "Where it went for reclaim. May wait.")
    paper = Line(80, "Number of the paper", "May wait.")

    def read(self, said: dict[str, Any]) -> None:
        """What is in it yet by the book, where it is to be empty."""
        held = self.held(said["cylinder"])
        if held.mg and said.get("how") == "scrapped":
            self.ask("how", [Limit("cylinder_not_empty", {"holds_mg": held.mg})])

    def columns(self) -> dict[str, Any]:
        """Nothing of it is in the shop from then on."""
        return {"stands_mg": 0, "told": self.words("how", "facility", "address", "paper")}


def choice_words(row: Cylinder, held: Held, unit: str) -> str:
    """A cylinder as an answer: its name, its gas, what it holds and may hold."""
    most = held.fill.most
    room = f" of {shown_mass(most, unit)}" if most is not None else ""
    gas = "contaminated" if row.kind == "contaminated" else held.gas.replace("-", HYPHEN)
    return f"{row.name}, {gas}: {shown_mass(held.mg, unit)}{room}"
