"""Air, doors and engine speed, as they are now."""

from decimal import Decimal
from typing import Any

from django.utils.datastructures import MultiValueDict

from diagnostics.physics.errors import Malformed
from diagnostics.physics.typed import split
from diagnostics.physics.units import to_si, unit_named
from jobs.forms.chosen_unit import ask_in_chosen, unit_asked
from jobs.forms.fields import OnJob, Tap, Typed, Why
from jobs.logbook import Told
from jobs.models.conditions import AIR, DOORS
from jobs.models.shop import units_chosen

TEMPERATURES = (CELSIUS, FAHRENHEIT) = ("°C", "°F")
# What a bay has, and what an engine turns in a test, as the tests ask it; our judgement.
COLD, HOT = to_si(-10, CELSIUS), to_si(50, CELSIUS)
SLOW, FAST = Decimal(500), Decimal(4000)
NOTHING_TOLD = "Tap or type at least one of these."
NOT_RPM = "is not in rpm. Type the number alone."


class ConditionsForm(OnJob):
    """One telling; what is not looked at stays empty."""

    ambient = Typed("Air outside the car, in the shade", "−10 to 50 °C;", "°C")
    ambient_why = Why()
    air = Tap("How does the air feel?", AIR, "For who reads the job: no test begins with it.")
    rpm = Typed("Engine speed", "500 to 4000. Electric: leave it empty.", "rpm")
    rpm_why = Why()
    doors = Tap("Doors and windows", DOORS)
    ambient_unit = CELSIUS

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        ask_in_chosen(self, "ambient", TEMPERATURES, units_chosen())

    def clean(self) -> dict[str, Any]:
        """Read both numbers; ask about what no bay has."""
        said = super().clean()
        try:
            if said.get("ambient"):
                said["ambient"] = self.read_ambient(said["ambient"])
        except Malformed as wrong:
            self.add_error("ambient", str(wrong))
        try:
            if said.get("rpm"):
                said["rpm"] = self.read_rpm(said["rpm"])
        except Malformed as wrong:
            self.add_error("rpm", str(wrong))
        if not self.errors and not any(
            said.get(name) for name in ("ambient", "air", "rpm", "doors")
        ):
            self.add_error("ambient", NOTHING_TOLD)
        return said

    def read_ambient(self, typed: str) -> str:
        """The number as typed, without its unit, which is noted.

        Raises:
            Malformed: no number, or in no unit of temperature.

        """
        number, suffix = split(typed)
        asked = unit_asked(self, "ambient", TEMPERATURES)
        unit = unit_named(suffix, TEMPERATURES) if suffix else asked
        if unit is None:
            raise Malformed(f"“{typed}” is not in °C or °F. Type it in one of those.")
        self.ambient_unit = unit
        if not COLD <= to_si(number, unit) <= HOT:
            self.asks("ambient", "ambient_out")
        return f"{number:f}"

    def read_rpm(self, typed: str) -> str:
        """The number as typed.

        Raises:
            Malformed: no number, or in another unit.

        """
        number, suffix = split(typed)
        if suffix and unit_named(suffix, ("rpm",)) is None:
            raise Malformed(f"“{typed}” {NOT_RPM}")
        if not SLOW <= number <= FAST:
            self.asks("rpm", "rpm_out")
        return f"{number:f}"

    def told(self) -> dict[str, str]:
        """The row's columns."""
        said = {name: self.cleaned_data[name] for name in ("ambient", "air", "rpm", "doors")}
        return said | {"ambient_unit": self.ambient_unit if said["ambient"] else ""}
