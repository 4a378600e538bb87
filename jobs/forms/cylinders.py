"""A cylinder or tank: what stands on it, what may be in it."""

import uuid
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.datastructures import MultiValueDict

from diagnostics.physics.refrigerants import NAMES
from diagnostics.physics.shown_units import ShownIn
from jobs.cylinder_limits import NO_REFRIGERANT
from jobs.forms.day import Day
from jobs.forms.fields import EntryForm, Line, Tap, Typed, Why
from jobs.forms.masses import LARGE, ask_mass, filled, read_mass
from jobs.ledger import KG
from jobs.logbook import Told
from jobs.models import Cylinder, Equipment
from jobs.models.amounts import CYLINDER_KINDS
from jobs.models.shop import units_chosen
from jobs.told import as_key

NO_SUCH_CYLINDER = "The shop’s list has no such cylinder."
WHICH_GAS = "Tap which refrigerant it is for; only what is contaminated may be of any sort."
NOT_A_TANK = "Only the tank of a service machine belongs to one. Untap it, or tap that kind."
REFRIGERANTS = {name: name for name in NAMES}
# From a can to what a shop can lift on its scale; our judgement.
TARE_USUAL = (100_000, 60 * KG)
CAPACITY_USUAL = (300_000, 120 * KG)


class WhichCylinder(Tap):
    """One of the cylinders offered, or any other of the list: what was done was done."""

    def valid_value(self, value: Any) -> bool:
        """Also one that is gone, or that another form would not offer."""
        return super().valid_value(value) or as_key(value) is not None


class CylinderForm(EntryForm):
    """A cylinder told anew, or one of the list told as it is now (`cylinder` is its key)."""

    cylinder = forms.UUIDField(required=False, widget=forms.HiddenInput)
    kind = Tap("What is it?", CYLINDER_KINDS, required=True)
    refrigerant = Tap("For which refrigerant?", REFRIGERANTS, "One refrigerant to a cylinder.")
    name = Line(80, "What it is called here", "Empty: Cylinder and the next number.")
    serial = Line(80, "Serial number")
    tare = Typed("Tare", "What it weighs empty: TW on its collar.")
    tare_why = Why()
    water_capacity = Typed("Water capacity", "The mass of water that fills it: WC on its collar.")
    water_capacity_why = Why()
    tested_until = Day("To be tested again by", "Last day on which it may be filled.")
    machine = Tap("Tank of which service machine?", {}, "Of the tank of a machine only.")

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        chosen = units_chosen()
        for name in ("tare", "water_capacity"):
            ask_mass(self, name, LARGE, chosen)
        machine = self.fields["machine"]
        if isinstance(machine, forms.ChoiceField):
            machine.choices = [(one.key.hex, one.name) for one in machines()]

    def clean_cylinder(self) -> Cylinder | None:
        """The one that is told of again; its field is hidden, so what is wrong stands on top."""
        key = self.cleaned_data["cylinder"]
        found = Cylinder.objects.filter(key=key).first() if key else None
        if key and found is None:
            self.add_error(None, NO_SUCH_CYLINDER)
        return found

    def clean(self) -> dict[str, Any]:
        """Masses in mg; a refrigerant for what takes one only; a machine for its tank."""
        said = super().clean() or {}
        self.tare_mg = read_mass(self, "tare", LARGE, TARE_USUAL)
        self.water_mg = read_mass(self, "water_capacity", LARGE, CAPACITY_USUAL)
        kind = said.get("kind", "")
        if kind and kind not in ("contaminated", *NO_REFRIGERANT) and not said.get("refrigerant"):
            self.add_error("refrigerant", WHICH_GAS)
        if said.get("machine") and kind != "machine":
            self.add_error("machine", NOT_A_TANK)
        return said

    def columns(self) -> dict[str, Any]:
        """The cylinder as a row has it; 1 g of water is 1 mL."""
        told = self.cleaned_data
        machine = Equipment.objects.filter(key=told["machine"]).first() if told["machine"] else None
        return {name: told[name] for name in ("kind", "name", "serial", "tested_until")} | {
            "refrigerant": "" if told["kind"] in NO_REFRIGERANT else told["refrigerant"],
            "tare_mg": self.tare_mg,
            "water_capacity_ul": self.water_mg,
            "machine": machine,
        }


def machines() -> list[Equipment]:
    """The service machines that are in use."""
    today = timezone.localdate()
    listed = Equipment.objects.filter(kind="service_machine")
    return [one for one in listed if not one.out_of_use(today)]


def cylinder_of(key: uuid.UUID | None) -> Cylinder:
    """The cylinder of a key.

    Raises:
        forms.ValidationError: the list has none.

    """
    found = Cylinder.objects.filter(key=key).first() if key else None
    if found is None:
        raise forms.ValidationError(NO_SUCH_CYLINDER)
    return found


def typed_in(row: Cylinder, chosen: ShownIn) -> dict[str, Any]:
    """A cylinder as it stands, to begin a change with."""
    names = ("kind", "refrigerant", "name", "serial", "tested_until")
    masses = {"tare": row.tare_mg, "water_capacity": row.water_capacity_ul}
    return (
        {name: getattr(row, name) for name in names}
        | {name: filled(mg, LARGE, chosen) for name, mg in masses.items()}
        | {"cylinder": row.key, "machine": row.machine.key.hex if row.machine else ""}
    )
