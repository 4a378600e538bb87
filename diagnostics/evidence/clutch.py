"""What shows at coil, plate and hub with power at the coil: what it points at, what to do next."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from diagnostics.evidence.coil import (
    CoilCurrent,
    coil_current,
    is_untold,
    not_shown,
    temperature_words,
)
from diagnostics.evidence.findings import Mark
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System


@dataclass(frozen=True)
class Seen:
    """The readings by name. `at_odds`: no current was read, yet the magnet pulled.

    `untold`: more than 12 V systems show was read, and the system's voltage is not noted.
    """

    coil: CoilCurrent
    taps: dict[str, str]
    voltage: str
    at_odds: bool
    untold: bool

    def tapped(self, name: str) -> str:
        """The answer's code, or empty."""
        return self.taps.get(name, "")

    @property
    def holds(self) -> str:
        """The answer to whether the clutch takes hold."""
        return self.tapped("holds")

    @property
    def engine(self) -> str:
        """In a word."""
        return "running" if self.tapped("engine") == "running" else "off"

    @property
    def no_power(self) -> bool:
        """Whether next to no voltage was read, and nothing speaks against it."""
        return self.coil.dead and not self.coil.flows and not self.magnet

    @property
    def ground(self) -> str:
        """The answer about the coil's ground."""
        return self.tapped("ground")

    @property
    def fuse_blew(self) -> bool:
        """Whether the fuse of the jumper blew."""
        return self.tapped("fuse") == "yes"

    @property
    def blown(self) -> bool:
        """Whether the fuse of the jumper blew, and no current was seen."""
        return self.fuse_blew and not self.coil.flows

    @property
    def magnet(self) -> bool:
        """Whether the coil pulled, felt or seen."""
        return self.tapped("magnet") == "yes" or self.holds in ("yes", "drops_out", "slips")


def look(readings: Readings, system: System) -> Seen:
    """The readings, the current held against what such a coil draws."""
    coil = coil_current(system, readings)
    untold = is_untold(system, coil.volts)
    seen = Seen(coil, taps(readings), system.get("voltage", ""), at_odds=False, untold=untold)
    if coil.grade == "none" and seen.magnet:  # the meter was not in the line
        return replace(seen, coil=replace(coil, grade="unread", current=None), at_odds=True)
    return seen


def pull(seen: Seen) -> str:
    """What showed the coil's pull: the magnet is named only where it was felt for."""
    return "the magnet pulled" if seen.tapped("magnet") == "yes" else "the clutch took hold"


TOO_LITTLE = "So little current is not what such coils draw: measure the coil’s resistance, too."
_APART = "this step cannot tell them apart."
_NEXT = {
    "takes_hold": "It takes hold: look upstream next.",
    "takes_hold_slow_release": "Measure the air gap; too small is a fault too.",
    "slips": "Engine off: look at the clutch faces, measure the air gap, turn the hub.",
    "drops_out": "Measure the coil’s resistance now, while it fails, then the air gap.",
    "holds_when_pushed": "Measure the air gap next.",
    "magnet_no_hold": "Measure the air gap, look whether the plate moves freely.",
    "current_no_pull": "Measure the coil’s resistance, both polarities.",
    "does_not_hold": "Read the current.",
    "no_current": "Measure the coil’s resistance next.",
    "low_current": "Measure the coil’s resistance cold.",
    "high_current": "Mind the polarity, measure the coil’s resistance, both polarities.",
    "current_only": "Make it again and tell whether the clutch takes hold.",
}
_SUBJECTS = {
    "takes_hold_slow_release": "Gap too small, plate or hub sticking",
    "slips": "Gap, worn or oily face, weak pull, stiff compressor",
    "drops_out": "Coil that fails warm, loose joint at the coil, wide gap",
    "holds_when_pushed": "Gap, friction face or hub",
    "magnet_no_hold": "Gap, friction face or hub",
    "does_not_hold": "Coil, gap, friction face or hub",
    "high_current": "Short in coil, diode or lead, or polarity crossed",
}


def _first(seen: Seen, code: str) -> str:
    """What comes next about coil and clutch; a weak supply and a bad ground come before them."""
    if code in ("takes_hold", "takes_hold_slow_release") or seen.blown:
        return _NEXT[code]
    return seen.coil.asks(seen.ground) or _NEXT[code]


def _open_mark(seen: Seen, code: str) -> Mark | None:
    """What the outcome leaves open about coil and clutch, if it says so at all."""
    if code == "takes_hold":
        words = "can still show hot or under load: taking hold once does not clear them."
        return Mark("open", "Wide gap, worn face", words)
    if code == "current_no_pull":
        words = f"turns bypassed (diode, polarity), or felt for elsewhere: {_APART}"
        return Mark("open", "The coil’s pull", f"{words}{seen.coil.but(seen.ground)}")
    if code in _SUBJECTS and (code != "high_current" or seen.blown):
        gap = "holding when pushed points at the gap; " if code == "holds_when_pushed" else ""
        return Mark("open", _SUBJECTS[code], f"{gap}{_APART}{seen.coil.but(seen.ground)}")
    return None


def clutch_marks(seen: Seen, code: str) -> Iterator[Mark]:
    """What the outcome shows of the clutch, and what it leaves open."""
    if seen.holds == "yes":
        state = f"engine {seen.engine}, {temperature_words(seen.coil)}"
        yield Mark("proved", "Clutch takes hold", f"shown with battery power, {state}.")
    left = _open_mark(seen, code)
    if left:
        yield left


def _was_driven(seen: Seen) -> bool:
    """Whether the engine turned the hub through the clutch."""
    return seen.engine == "running" and seen.holds == "yes"


def _about_the_shaft(seen: Seen, code: str) -> tuple[str, ...]:
    """What to do about the compressor, as far as this step knows its hub."""
    if seen.tapped("hub") == "not_free":
        return ("Find out why the hub is not free before any power goes on.",)
    known = _was_driven(seen) or seen.tapped("hub") == "free"
    if known and code not in ("no_current", "no_current_unsure", "slips"):
        return ()
    off = "Engine off, turn" if seen.engine == "running" else "Turn"
    return (f"{off} the hub by hand{' again' if seen.tapped('hub') == 'free' else ''}.",)


def shaft_mark(seen: Seen, code: str) -> Mark:
    """The compressor: never cleared by this step."""
    if seen.tapped("hub") == "not_free":
        words = "its hub was not free before: find out why before any power goes on."
        return Mark("open", "Compressor", words)
    if code in ("no_current", "no_current_unsure"):
        words = "not cleared: a locked or slipping compressor can open the coil’s melt fuse."
        return Mark("open", "Compressor", words)
    if code == "slips":
        return Mark("open", "Compressor", "not cleared: a stiff one makes a clutch slip.")
    if _was_driven(seen):
        return Mark("open", "Compressor", "the hub was driven; whether it pumps is not told.")
    if seen.tapped("hub") == "free":
        words = "its hub was found free by hand before; whether it pumps is not told."
        return Mark("open", "Compressor", words)
    return Mark("open", "Compressor", "not turned by this step.")


def onward(seen: Seen, code: str) -> tuple[str, ...]:
    """What the step itself says to do next: about coil and clutch, then about the compressor."""
    if code == "nothing_told":
        return (_to_repeat(seen),)
    if code == "no_current_unsure":
        first = not_shown(seen.coil, seen.ground)[1]
    else:
        first = _first(seen, code)
    if code.startswith("takes_hold") and seen.coil.grade == "low":
        first = f"{first} {TOO_LITTLE}"
    return (first, *_about_the_shaft(seen, code))


def _to_repeat(seen: Seen) -> str:
    if seen.no_power:
        return "Bring battery power to the coil and repeat."
    return seen.coil.asks(seen.ground) or "Read voltage and current at the coil, and repeat."
