"""A cylinder on the scale, or a machine's tank by its own display, held against the book."""

from typing import Any

from jobs.forms.cylinder_works import WorkForm
from jobs.forms.cylinders import TARE_USUAL
from jobs.forms.fields import Lines, Tap, Typed, Why
from jobs.forms.masses import LARGE, read_mass
from jobs.ledger import KG, shown_mass
from jobs.models import Cylinder
from jobs.models.cylinder_works import EXPLAINED, WEIGHING
from jobs.models.cylinders import held_by

# With what is in it; our judgement. A tank may be empty.
GROSS_USUAL, NET_USUAL = (200_000, 150 * KG), (0, 60 * KG)
TARE_NEEDED = "The list has no tare of this cylinder: type what stands on its collar as TW."


class WeighingForm(WorkForm):
    """What is in it from then on; a difference to the book at that moment is to be explained."""

    WHAT = WEIGHING
    MASSES = {"gross": LARGE, "tare": LARGE, "net": LARGE}
    net = Typed("The machine shows", "What it says is in its tank. Instead of a scale.")
    net_why = Why()
    gross = Typed("The scale shows", "Cylinder and all, hoses off.")
    gross_why = Why()
    tare = Typed("Tare", "As it stands in the list; other on the collar: type that.")
    tare_why = Why()
    explained = Tap("Where does the difference come from?", EXPLAINED, "As far as you can say.")
    note = Lines(300, "What else is to be said of it?")
    gross_mg: int | None = None
    tare_mg: int | None = None
    stands: int | None = None

    def read(self, said: dict[str, Any]) -> None:
        """What is in it by the scale or the machine, and what the book had."""
        row: Cylinder = said["cylinder"]
        if row.kind == "machine" and said.get("net") and not said.get("gross"):
            self.stands = read_mass(self, "net", LARGE, NET_USUAL)
        else:
            self.stands = self.by_scale(row, said)
        if self.stands is None:
            return
        self.booked = held_by(row, at=self.at, without=self.left_out).mg
        if self.stands != self.booked and not said.get("explained"):
            self.add_error("explained", difference_words(self.stands, self.booked, self.unit))

    def by_scale(self, row: Cylinder, said: dict[str, Any]) -> int | None:
        """Scale less tare, in mg; None: not told, or less than nothing, which is not booked."""
        self.gross_mg = read_mass(self, "gross", LARGE, GROSS_USUAL)
        self.tare_mg = read_mass(self, "tare", LARGE, TARE_USUAL)
        if not said.get("gross"):
            self.add_error("gross", "Type what the scale shows.")
        if not said.get("tare"):
            self.tare_mg = row.tare_mg
            if row.tare_mg is None:
                self.add_error("tare", TARE_NEEDED)
        if self.errors or self.gross_mg is None or self.tare_mg is None:
            return None
        net = self.gross_mg - self.tare_mg
        if net < 0:
            figures: dict[str, int | str] = {"mg": self.gross_mg, "tare_mg": self.tare_mg}
            self.asks("gross", "cylinder_lighter", **figures, unit="kg")
        return net if net >= 0 else None

    def columns(self) -> dict[str, Any]:
        """What was read, and what stood in the book then."""
        told: dict[str, Any] = self.words("note")
        if self.stands is not None:
            told["booked_mg"] = self.booked
            if self.stands != self.booked:
                told |= self.words("explained")
        return {
            "gross_mg": self.gross_mg,
            "tare_mg": self.tare_mg,
            "stands_mg": self.stands,
            "told": told,
        }


def difference_words(net: int, booked: int, unit: str) -> str:
    """Scale and book beside each other."""
    more = "more" if net > booked else "less"
    return (
        f"In it are {shown_mass(net, unit)} as read, by the book {shown_mass(booked, unit)}:"
        f" {shown_mass(abs(net - booked), unit)} {more}. Tap where that comes from."
    )
