"""What a relay's answers and volts say, in words, and what comes next."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.findings import Mark
from diagnostics.evidence.readings import Readings, number
from diagnostics.evidence.under_load import FEED_LIMIT, Drop, grade_sentence

COIL_FIRST = (
    "Measure the clutch coil’s resistance before a relay goes in: shorted turns end a relay or"
    " driver, and the next one too."
)


@dataclass(frozen=True)
class Seen:
    """Answers by name, and the volts lost across its contacts, None without current.

    `unjudged` are those volts in words where no limit is for them, `side` is the one switched.
    """

    told: dict[str, str]
    drop: Drop | None
    unjudged: str
    side: str

    def is_told(self, name: str, *codes: str) -> bool:
        """Whether the answer is one of these."""
        return self.told.get(name, "") in codes


SENTENCES = {
    "carries": "The relay’s output carries current when cold is asked for.",
    "clicks_only": "The relay clicks; that its contacts carry was not shown.",
    "no_output": "The relay clicks and its output stays dead.",
    "dead_output": "The relay’s output stays dead; whether it clicks was not told.",
    "does_not_move": "The relay does not move when cold is asked for.",
    "stuck_on": "The relay’s output stays on with A/C off.",
    "coil_open": "The relay’s own coil is open.",
    "swap_cures": "It works with a like relay in its place.",
    "swap_same": "A like relay in its place changes nothing.",
    "bridge_works": "With the relay’s contacts bridged the clutch takes hold.",
    "bridge_nothing": "With the relay’s contacts bridged nothing happens.",
    "nothing_told": "Nothing is shown of the relay yet.",
}
NOT_COMMANDED = "Not commanded: control unit, pressure switch, fuse of the relay’s coil"
MARKS: dict[str, tuple[Mark, ...]] = {
    "carries": (Mark("ruled_out", "Relay open", "ruled out at this moment: its output carries."),),
    "clicks_only": (
        Mark("open", "Relay’s contacts", "a click tells of its coil, not of its contacts."),
    ),
    "no_output": (
        Mark("open", "Relay’s contacts, or what leads into them", "cannot be told apart yet."),
    ),
    "dead_output": (
        Mark("open", "Relay, its command, or what leads into its contacts",
             "cannot be told apart yet."),
    ),
    "does_not_move": (
        Mark("open", f"Relay’s coil, or {NOT_COMMANDED[0].lower()}{NOT_COMMANDED[1:]}",
             "cannot be told apart yet."),
    ),
    "stuck_on": (
        Mark("likely", "Relay stuck on, or its coil held on", "points here; a short around it looks"
             " the same while it is in its place."),
    ),
    "coil_open": (Mark("likely", "Relay", "its own coil reads open."),),
    "swap_cures": (
        Mark("likely", "Relay", "points here; moving it may also have cured a loose socket."),
    ),
    "swap_same": (Mark("open", "Relay", "less likely; the like one was not shown to be good."),),
    "bridge_works": (
        Mark("open", "Relay, or its command", "cannot be told apart by this step."),
    ),
}  # fmt: skip
BEHIND = {  # what a bridge that does nothing leaves open, by the side that is switched
    "feed": "Feed into the socket, wire, coil or ground",
    "ground": "Ground into the socket, wire, coil or its feed",
    "": "What leads into the socket, wire, coil, its feed or ground",
}
NEXT = {
    "carries": "Read the voltage at the plugged-in coil, current flowing.",
    "clicks_only": "Try its output with a filament lamp, or read the drop across its contacts.",
    "no_output": "See whether {rail} reaches the relay, with a filament lamp{to}.",
    "dead_output": "See whether {rail} reaches the relay, with a filament lamp{to}.",
    "does_not_move": "See whether the control unit commands it, then try its coil’s two pins.",
    "swap_same": "See whether {rail} reaches the socket, and the command.",
    "bridge_works": "See whether the control unit commands the relay.",
    "bridge_nothing": "See whether {rail} reaches the socket, then put power and ground straight at"
    " the coil.",
    "stuck_on": "Pull it: if the output stays on, look for a short around it.",
    "nothing_told": "Ask for cold and feel whether the relay clicks.",
}
DATA_FIRST = "Read in the data list whether it is commanded."
# What its contacts pass on, and where the lamp's other lead goes, by the side that is switched.
RAIL = {
    "feed": ("power", " to ground"),
    "ground": ("ground", " to battery plus"),
    "": ("power, or ground if that is what it switches,", ""),
}


def _then(seen: Seen, code: str) -> str:
    rail, to = RAIL[seen.side]
    found = NEXT.get(code, "Fit a relay of the same number, then read the drop across it.")
    return found.format(rail=rail, to=to)


def _first(seen: Seen, code: str) -> Iterator[str]:
    """What comes before anything else."""
    if seen.is_told("bridged", "takes_hold", "nothing"):
        yield "Take the bridge off."
    if _unfelt(seen, code):
        yield "See whether its output is dead with A/C off."
    if code == "dead_output":
        silent = seen.is_told("built", "inside") or seen.is_told("click", "cannot_tell")
        yield DATA_FIRST if silent else "Ask for cold and feel whether it clicks."


def onward(seen: Seen, code: str) -> tuple[str, ...]:
    """What comes next; no relay is replaced before the clutch coil was measured."""
    points_at_relay, before = _points_at_relay(seen, code), tuple(_first(seen, code))
    if seen.is_told("clutch_coil", "too_low") and points_at_relay:
        low = "The clutch coil reads too low: settle that before a relay goes in."
        return (*before, low)
    first = COIL_FIRST if points_at_relay and not seen.is_told("clutch_coil", "inside") else ""
    inside = code == "nothing_told" and seen.is_told("built", "inside")
    then = _then(seen, "carries" if inside else code)
    return (*before, *(one for one in (first, then) if one))


def _unfelt(seen: Seen, code: str) -> bool:
    """Whether power came out without a click, and that it stops again was not seen."""
    return code == "carries" and seen.is_told("click", "no") and not seen.is_told("lets_go", "yes")


def _points_at_relay(seen: Seen, code: str) -> bool:
    return code == "stuck_on" or code not in NEXT or seen.is_told("renewed", "yes")


def _bridge_marks(seen: Seen, code: str) -> Iterator[Mark]:
    """What a bridge told, whatever else was told of the relay."""
    if seen.is_told("bridged", "takes_hold"):
        yield Mark("ruled_out", "Wire, coil and gap behind the relay", "ruled out at this moment.")
    if seen.is_told("bridged", "nothing"):
        words = "cannot be told apart yet."
        if code != "bridge_nothing":
            words = f"with the contacts bridged nothing happened: {words}"
        yield Mark("open", BEHIND[seen.side], words)


def marks(seen: Seen, code: str) -> Iterator[Mark]:
    """What they point at, leave open or rule out."""
    if code == "loses" and seen.drop:
        yield Mark("likely", "Relay’s contacts or socket", f"{seen.drop.words} is lost here.")
    yield from MARKS.get(code, ())
    yield from _bridge_marks(seen, code)
    renewed = code != "nothing_told" and seen.is_told("renewed", "yes")
    if renewed and not seen.is_told("clutch_coil", "inside"):
        words = "not cleared by a new relay: the clutch coil was not measured, or reads too low."
        yield Mark("open", "What ended the relay before", words)


def not_tested(seen: Seen, code: str) -> Iterator[str]:
    """What they do not tell."""
    if code == "nothing_told":
        yield "Relay: not tested."
    if seen.unjudged:
        yield "Contacts under load: measured, not judged."
    elif seen.drop is None and code not in ("carries", "nothing_told"):
        yield "Contacts under load: not measured."
    if not seen.is_told("bridged", "takes_hold"):
        yield "What lies behind the relay: not tested by this step."


def notes(readings: Readings, seen: Seen, code: str) -> Iterator[str]:
    """What else a reader has to know beside them."""
    ohm = number(readings, "coil_ohm")
    if _unfelt(seen, code):
        yield "No click was felt, yet power comes out: its contacts may be stuck."
    if ohm:
        yield f"Its own coil reads {ohm.shown}: recorded, and held against no figure."
    if seen.is_told("built", "inside"):
        yield "It cannot be swapped or bridged: power at the coil’s plug and data tell of it."
    if seen.unjudged:
        yield f"{seen.unjudged} across its contacts at 24\u00a0V: recorded and not judged."
    if seen.drop and not seen.drop.outside:
        yield grade_sentence(seen.drop, FEED_LIMIT, "across its contacts")
