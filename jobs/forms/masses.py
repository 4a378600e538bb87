"""Masses in forms: asked in the shop's unit, read to whole milligrams, odd ones asked about."""

from decimal import Decimal

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.shown_units import ShownIn
from jobs import ledger
from jobs.forms.chosen_unit import ask_in_chosen, unit_asked
from jobs.forms.fields import EntryForm

SMALL, LARGE = ("g", "oz"), ("kg", "lb")
ALL_UNITS = "g, kg, oz or lb behind it, too."


def ask_mass(form: EntryForm, name: str, units: tuple[str, str], chosen: ShownIn) -> None:
    """Show the field in one of its two units; any unit of mass may stand behind the number."""
    hint = str(form.fields[name].help_text)
    ask_in_chosen(form, name, units, chosen)
    form.fields[name].help_text = " ".join(filter(None, (hint, ALL_UNITS)))


def read_mass(
    form: EntryForm, name: str, units: tuple[str, str], usual: tuple[int, int]
) -> int | None:
    """A mass in whole mg; None: not told, or not to be read. Outside `usual` (mg) it asks why."""
    typed = form.cleaned_data.get(name, "")
    if not typed:
        return None
    try:
        told = ledger.mass(typed, unit_asked(form, name, units))
    except (Malformed, Impossible) as wrong:
        form.add_error(name, str(wrong))
        return None
    low, high = usual
    if not low <= told.mg <= high:
        figures: dict[str, int | str] = {
            "mg": told.mg,
            "low_mg": low,
            "high_mg": high,
            "unit": told.unit,
        }
        form.asks(name, "cylinder_mass_odd", **figures)
    return told.mg


def filled(mg: int | None, units: tuple[str, str], chosen: ShownIn) -> str:
    """A mass as it is filled into a field of these units: exact, metric, its unit where needed."""
    if mg is None:
        return ""
    unit = units[0]
    number = f"{(Decimal(mg) / (ledger.KG if unit == 'kg' else 1000)).normalize():f}"
    return number if unit == chosen.start(units) else f"{number} {unit}"
