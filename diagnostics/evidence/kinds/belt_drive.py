"""Belt, tensioner and pulleys: looked at standing, and under load.

A belt that slips under load makes a clutch look weak: common practice, no source. The load meant is
the compressor's: a belt that holds with it let go was not tested under it.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.orders import RUN
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import SystemRule

SIGNS = {"cracked": "Cracked", "glazed": "Glazed", "oily": "Oily", "loose": "Loose"}
SEEN = (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_looked", "Not looked"))

FIELDS: tuple[Field, ...] = (
    Choice("belt", "Belt", "", (Answer("on", "On"), Answer("missing", "Missing or thrown"))),
    *(
        Choice(name, words, "", SEEN, compact=True, group="" if index else "The belt is")
        for index, (name, words) in enumerate(SIGNS.items())
    ),
    Choice(
        "tensioner", "Tensioner", "Its pointer to its mark.",
        (
            Answer("inside", "Inside its mark"), Answer("beyond", "Beyond it"),
            Answer("no_mark", "No mark, or none fitted"), Answer("not_looked", "Not looked"),
        ),
        group="Standing and running",
    ),
    Choice(
        "wobble", "Pulley wobbles", "Seen from the side, running.",
        SEEN, compact=True,
    ),
    Choice(
        "load", "Under load, A/C on", "Blower up, lamps on; from a distance.",
        (Answer("slips", "Slips"), Answer("holds", "Holds"), Answer("not_tried", "Not tried")),
        compact=True,
    ),
    Choice(
        "engaged", "Compressor engaged then?", "Plate turning; no clutch: driven up.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_seen", "Not seen")),
        when=(When("load", ("slips", "holds")),),
        why_not="Asked only where the belt was tried under load.",
        condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("missing", "belt missing or thrown"),
    OutcomeWords("slips", "slips"),
    OutcomeWords("slips_seen_why", "slips, and is loose, oily or beyond its mark"),
    OutcomeWords("wobbles", "pulley wobbles"),
    OutcomeWords("loose", "loose, or tensioner beyond its mark"),
    OutcomeWords("oily", "oily"),
    OutcomeWords("worn", "cracked or glazed"),
    OutcomeWords("fine", "nothing seen on the belt drive", normal=True),
    OutcomeWords("holds", "holds under load, looks not all told", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "missing": "The belt is missing or thrown.",
    "slips": "The belt slips under load.",
    "slips_seen_why": "The belt slips under load, and a reason of its own is seen.",
    "wobbles": "A pulley wobbles.",
    "loose": "The belt is loose, or its tensioner stands beyond its mark.",
    "oily": "There is oil on the belt.",
    "worn": "The belt is cracked or glazed.",
    "fine": "Nothing is seen on belt, tensioner and pulley.",
    "holds": "The belt holds under load.",
    "nothing_told": "Not all of the belt drive’s signs were told.",
}
_ONWARD = {
    "missing": ("Turn every pulley and the hub by hand before a new belt goes on.",),
    "slips": ("Turn the hub by hand: a stiff compressor makes a sound belt slip.",),
    "slips_seen_why": ("Turn the hub by hand: a stiff compressor makes any belt slip.",),
    "wobbles": ("Belt off: spin and rock the pulley by hand.",),
    "loose": ("Look at the tensioner and the belt’s length before the clutch is judged.",),
    "oily": ("Find whose oil it is, and where it drips from.",),
    "worn": ("Look whether it slips under load.",),
    "fine": (),
    "holds": (),
    "nothing_told": ("Look at belt, tensioner and pulleys with a lamp, engine off.",),
}


_NOT_BY_IT = ("Belt off: spin and rock every pulley by hand, look at the tensioner.",)
_TRY_AGAIN = ("Try it under load again, the compressor engaged.",)


def _onward(code: str, told: dict[str, str]) -> tuple[str, ...]:
    if code in SLIPS and _slips_without_it(told):
        return _NOT_BY_IT
    if code == "worn" and _held(told):
        return ("It holds, and is worn all the same: look up when the maker has it renewed.",)
    in_vain = told.get("load") == "holds" and not _held(told)
    return _TRY_AGAIN if in_vain and code in ("fine", "nothing_told") else _ONWARD[code]


SLIPS = ("slips", "slips_seen_why")


def _found(told: dict[str, str]) -> Iterator[str]:
    """Every outcome that was seen, the weightiest first."""
    seen = {name for name in SIGNS if told.get(name) == "yes"}
    why = bool(seen & {"loose", "oily"}) or told.get("tensioner") == "beyond"
    rows = (
        ("missing", told.get("belt") == "missing"),
        ("slips_seen_why", told.get("load") == "slips" and why),
        ("slips", told.get("load") == "slips"),
        ("wobbles", told.get("wobble") == "yes"),
        ("loose", "loose" in seen or told.get("tensioner") == "beyond"),
        ("oily", "oily" in seen),
        ("worn", bool(seen & {"cracked", "glazed"})),
    )
    return (code for code, holds in rows if holds)


def _code(told: dict[str, str]) -> str:
    found = next(_found(told), "")
    if found:
        return found
    looked = (
        told.get("belt") == "on"
        and all(told.get(name) == "no" for name in SIGNS)
        and told.get("tensioner") in ("inside", "no_mark")
        and told.get("wobble") == "no"
    )
    if looked:
        return "fine"
    return "holds" if _held(told) else "nothing_told"


def _held(told: dict[str, str]) -> bool:
    """Whether it held under the compressor's load."""
    return told.get("load") == "holds" and told.get("engaged") == "yes"


def _slips_without_it(told: dict[str, str]) -> bool:
    """Whether it slips with the compressor let go, so not by its load."""
    return told.get("load") == "slips" and told.get("engaged") == "no"


def _sentence(code: str, told: dict[str, str]) -> str:
    if code in SLIPS and _slips_without_it(told):
        return "The belt slips, the compressor not engaged."
    if code == "nothing_told" and told.get("load") == "holds":
        if told.get("engaged") == "no":
            return "The belt holds, but the compressor was not engaged."
        return "The belt holds, but that the compressor was engaged is not told."
    return _SENTENCES[code]


def _why_it_slips(told: dict[str, str]) -> str:
    if _slips_without_it(told):
        return "loose or oily belt, tensioner or another pulley: not parted."
    return "loose or oily belt, tensioner, or a compressor that turns hard: not parted."


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    for one in _found(told):
        if one == "slips_seen_why":
            continue  # told by the two that it is made of
        yield Mark("proved", _sentence(one, told).rstrip("."), "seen.")
    if told.get("load") == "slips":
        yield Mark("open", "Why it slips", _why_it_slips(told))
    if code == "missing":
        yield Mark("open", "Why it is off", "a pulley that stood still can throw it.")
    if code in ("fine", "holds") and _held(told):
        yield Mark("ruled_out", "Belt slipping", "ruled out under this load.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    rows = {"belt": "Belt on", **SIGNS, "tensioner": "Tensioner", "wobble": "Wobble"}
    left = [words for name, words in rows.items() if told.get(name, "not_looked") == "not_looked"]
    if left:
        yield f"Not told: {', '.join(left)}."
    if told.get("tensioner") == "no_mark":
        yield "Tensioner’s reach: no mark to go by."
    if told.get("load", "not_tried") == "not_tried":
        yield "Slip under load: not tested."
    elif told["load"] == "holds" and not _held(told):
        yield "Slip under load: not tested, the compressor was not told as engaged."
    yield "Bearings and the compressor’s shaft: not tested by a look."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    if told.get("belt") == "missing" and told.get("load") in ("slips", "holds"):
        yield "load", "The belt is missing, yet it was tried under load."
    if told.get("belt") == "missing" and told.get("tensioner") in ("inside", "beyond"):
        yield "tensioner", "The belt is missing, yet its tensioner was read as under a belt."
    if told.get("belt") == "missing" and told.get("loose") == "yes":
        yield "loose", "The belt is missing, yet it is told as loose."


def _stops(readings: Readings, _around: Circumstances) -> Iterator[str]:
    """A belt that is off or a pulley that wobbles ends the drive, whatever else was told."""
    told = taps(readings)
    if told.get("belt") == "missing" or told.get("wobble") == "yes":
        yield cautions.STOP_DRIVING


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    carries = code != "nothing_told"
    outcome = Outcome(
        code, _sentence(code, told), tuple(_marks(code, told)), tuple(_not_tested(told)), carries
    )
    notes = tuple(_stops(readings, around))
    return Meaning(outcome, notes=notes, onward=_onward(code, told))


BARS = (SystemRule({"drive": ("electric_hv", "electric_48")}, "No belt turns this compressor."),)

BELT_DRIVE = Kind(
    name="belt_drive",
    title="Belt drive",
    question="Is the belt on, sound and tight, and does it hold under load?",
    version=1,
    minutes=3,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        cautions.KEY_AWAY,
        "Belt touched only with the engine off.",
        cautions.CLEAR_OF_BELT,
        cautions.LOCAL,
    ),
    orders=RUN,
    orders_for=("load",),
    at_odds=_at_odds,
    stops=_stops,
    bars=BARS,
    fine=Fine(
        "Fine: on, sound, tensioner inside its mark, no wobble",
        "sets the taps below; under load stays yours to tell",
        {"belt": "on", **dict.fromkeys(SIGNS, "no"), "tensioner": "inside", "wobble": "no"},
    ),
)
