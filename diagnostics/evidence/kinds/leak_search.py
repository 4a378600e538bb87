"""A leak searched place by place: found, clean or not reachable. None found is not tight.

Settings of 4, 7 and 14 g a year: SAE J2791 and J2913 (trade articles). At least 340 kPa for a
search by detector: SAE J1628, from memory; that soap and a tracer are held to the same is our
judgement. What dye tells: common practice, no source. Dye in the oil says little; dye at a spot
outside is oil that came out there.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnostics.evidence.cautions import (
    EYES_AND_HANDS,
    HOT,
    KEY_AWAY,
    LOCAL,
    NO_FLAME,
    UV_GLASSES,
)
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Standing
from diagnostics.evidence.hoses import HV_HOSES, THROUGH_REGULATOR
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.leak_places import PLACES, Searched, in_words, searched
from diagnostics.evidence.missing import missing
from diagnostics.evidence.orders import OWN_HOSES
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.uncertainty import measured, place
from diagnostics.physics.units import from_si, shown, to_si, with_unit

ELECTRONIC, DYE = When("method", ("electronic",)), When("method", ("dye",))
PRESSURE = Span(
    0, 2500, -101.33, 20_000, "Outside what a loop is searched at.",
    "Deeper than perfect vacuum, or more than any hose of a loop holds.",
)  # fmt: skip

FIELDS: tuple[Field, ...] = (
    Choice(
        "method", "Searched by", "",
        (
            Answer("electronic", "Electronic detector"),
            Answer("dye", "Dye and UV lamp"),
            Answer("soap", "Soap"),
            Answer("tracer", "Tracer gas, its detector"),
        ),
        condition=True,
    ),
    Choice(
        "setting", "Detector’s setting", "Grams a year it alarms at.",
        (
            Answer("g4", "4 g"), Answer("g7", "7 g"), Answer("g14", "14 g"),
            Answer("not_known", "Not known"),
        ),
        when=(ELECTRONIC,), why_not="Asked only of an electronic detector.", condition=True,
        compact=True,
    ),
    Choice(
        "in_oil", "Dye in the oil, at a port?", "Many loops are dyed at the factory.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_looked", "Not looked")),
        when=(DYE,), why_not="Asked only of a search with the lamp.", compact=True,
    ),
    Number(
        "pressure", "Pressure in the loop", "At that time, engine off.", "kPa", PRESSURE,
        ("psi", "bar"), instrument="low_side_gauge", condition=True, reference="gauge",
    ),
    *PLACES,
    Choice(
        "again", "Cleaned or blown free, run, looked again", "Where something was found.",
        (
            Answer("came_back", "Came again"),
            Answer("stayed_away", "Stayed away"),
            Answer("not_done", "Not done"),
        ),
        group="Where it was found",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("found_again", "found at a place, and came again after cleaning"),
    OutcomeWords("found", "found at a place, not looked at again"),
    OutcomeWords("suspect", "found at a place, stayed away after cleaning"),
    OutcomeWords("none_found", "none found at the setting used, all places", normal=True),
    OutcomeWords("part_searched", "none found, places left out", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

LEAK = "A leak"
ENOUGH = to_si(340, "kPa")  # gauge: SAE J1628, from memory; our judgement
_MORE = (
    "Warm the loop and search again under more pressure; one with hardly anything in it is"
    " recovered and searched under nitrogen or a tracer."
)
_ONWARD: dict[str, tuple[str, ...]] = {
    "found_again": ("Repair there, then search again under pressure.",),
    "found": ("Clean or blow the place free, run it, look again; take a photo.",),
    "suspect": ("Search again at the finest setting, under more pressure, out of the wind.",),
    "none_found": ("Weigh what is in it against the label: is anything missing?",),
    "part_searched": ("Search the places left out: take covers off, or use a lift.",),
    "nothing_told": ("Put pressure on the loop and search place by place.",),
}
SEEN = ("dye", "soap")  # shown to the eye, at the spot
_BY = {
    "electronic": "by detector",
    "dye": "under the UV lamp",
    "soap": "with soap",
    "tracer": "by tracer gas",
}


@dataclass(frozen=True)
class Search:
    """The answers, the places by answer, and the pressure as read."""

    told: Mapping[str, str]
    places: Searched
    pressure: Reading | None

    @property
    def method(self) -> str:
        """How it was searched, or empty."""
        return self.told.get("method", "")

    @property
    def under_pressure(self) -> bool:
        """Whether a pressure was read that the gauge can tell from none."""
        if self.pressure is None:
            return False
        gauge = measured(self.pressure.si, self.pressure.last_digit, "low_side_gauge")
        return gauge.value - gauge.expanded > 0

    @property
    def too_little(self) -> bool:
        """Whether there was pressure, less than such a search needs; dye shows what came out."""
        if self.pressure is None or not self.under_pressure or self.method == "dye":
            return False
        gauge = measured(self.pressure.si, self.pressure.last_digit, "low_side_gauge")
        return place(gauge, ENOUGH, math.inf) == "below"

    @property
    def setting(self) -> str:
        """The setting in words, or empty."""
        grams = self.told.get("setting", "").removeprefix("g")
        return f"{grams}\u00a0g a year" if grams.isdigit() else ""

    @property
    def why_nothing(self) -> str:
        """Why places that showed nothing tell nothing, or empty."""
        if not self.places.clean:
            return "No place was told as searched."
        if not self.method:
            return "How it was searched was not told."
        if self.method == "dye":
            dyed = self.told.get("in_oil") == "yes"
            return "" if dyed else "No dye was told in the oil: without it the lamp shows nothing."
        return self._lacks_pressure

    @property
    def _lacks_pressure(self) -> str:
        """Why the loop's pressure could show no leak, or empty."""
        if self.pressure is None:
            return "No pressure was told: an empty loop cannot show a leak."
        if not self.under_pressure:
            return "The loop had no pressure that could show a leak."
        if not self.too_little:
            return ""
        least = with_unit(shown(from_si(ENOUGH, "kPa"), 0), "kPa")
        return (
            f"{self.pressure.shown} is too little for such a search: below about {least} (our"
            " judgement) a leak may let out too little to be found."
        )


def _code(seen: Search) -> str:
    if seen.places.found:
        by_again = {"came_back": "found_again", "stayed_away": "suspect"}
        return by_again.get(seen.told.get("again", ""), "found")
    if seen.why_nothing:
        return "nothing_told"
    return "none_found" if seen.places.whole else "part_searched"


def _sentence(seen: Search, code: str) -> str:
    at = in_words(seen.places.found)
    if code == "found_again":
        return f"Found again after cleaning: {at}."
    if code == "found":
        return f"Found: {at}."
    if code == "suspect":
        return f"Found, and stayed away after cleaning: {at}."
    if code == "nothing_told":
        dyed = seen.told.get("in_oil") == "yes" and not seen.places.clean
        return "Dye is in the oil, which alone says little." if dyed else seen.why_nothing
    where = "at any place" if code == "none_found" else "at the places searched"
    by = _BY[seen.method]
    limit = f" set to {seen.setting}" if seen.setting else ""
    return f"None found {by}{limit} {where}."


def _marks(seen: Search, code: str) -> Iterator[Mark]:
    """Of each place found; of a leak that was not found, only that it is open."""
    by = f", {_BY[seen.method]}" if seen.method in _BY else ""
    standings: dict[str, tuple[Standing, str]] = {
        "found_again": (
            "proved" if seen.method in SEEN else "likely",
            f"it came again after cleaning{by}."
            if seen.method in SEEN
            else f"it came again{by}; gas can come from a place nearby.",
        ),
        "found": (
            "likely",
            "points here; a stain can be old, gas and oil can come from higher up.",
        ),
        "suspect": ("open", "nothing new came out; a small one needs longer."),
    }
    if code in standings:
        standing, words = standings[code]
        for place in seen.places.found:
            yield Mark(standing, f"{LEAK} at: {place}", words)
    elif code != "nothing_told":
        smaller = f"smaller than {seen.setting}" if seen.setting else "smaller than this shows"
        left = "" if code == "none_found" else ", or at a place left out"
        yield Mark("open", LEAK, f"not settled: it may be {smaller}{left}.")


def _not_tested(readings: Readings, seen: Search, code: str) -> Iterator[str]:
    if seen.places.no_reach:
        yield f"Out of reach: {in_words(seen.places.no_reach)}."
    if seen.places.untold:
        yield f"Not told: {in_words(seen.places.untold)}."
    if not seen.method:
        yield "How it was searched: not told."
    if seen.method == "electronic" and not seen.setting:
        yield "The detector’s setting: not told."
    if seen.method != "dye":
        yield from missing(readings, "pressure", "Pressure in the loop")
    if seen.method == "dye" and seen.told.get("in_oil", "not_looked") == "not_looked":
        yield "Dye in the oil: not looked."
    if code == "found":
        yield "Cleaned, run and looked again: not done."
    yield "How many grams are missing: not told by a search."


def _notes(seen: Search, code: str) -> Iterator[str]:
    if seen.told.get("in_oil") == "yes":
        yield (
            "Dye in the oil says little: many loops are dyed at the factory, and a top-up through"
            " the port opens nothing. Dye at a spot outside is oil that came out there."
        )
    if code in ("none_found", "part_searched"):
        yield "None found at the setting used does not say that the loop is tight."
    if code == "nothing_told" and seen.told.get("again") == "came_back":
        yield "Something came again, but no place was tapped as found."
    if len(seen.places.found) > 1:
        yield "Several places: gas sinks and oil runs down; begin with the highest."


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """A place found by what comes out, in a loop that draws in; dye may be an old stain."""
    told, pressure = taps(readings), number(readings, "pressure")
    if pressure is None or told.get("method", "dye") == "dye":
        return
    gauge = measured(pressure.si, pressure.last_digit, "low_side_gauge")
    if gauge.value + gauge.expanded < 0 and searched(told, around.system).found:
        yield "pressure", "Nothing comes out of a loop under vacuum, yet a place was found."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    seen = Search(told, searched(told, around.system), number(readings, "pressure"))
    code = _code(seen)
    outcome = Outcome(
        code,
        _sentence(seen, code),
        tuple(_marks(seen, code)),
        tuple(_not_tested(readings, seen, code)),
        carries=code != "nothing_told",
    )
    lead = f"{seen.pressure.shown} in the loop." if seen.pressure else ""
    onward = (_MORE,) if code == "nothing_told" and seen.too_little else _ONWARD[code]
    return Meaning(outcome, lead, notes=tuple(_notes(seen, code)), onward=onward)


LEAK_SEARCH = Kind(
    name="leak_search",
    title="Leak search",
    question="Where does refrigerant or oil come out?",
    version=1,
    minutes=15,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    orders=OWN_HOSES,
    orders_for=("pressure",),
    waits=False,  # dye is looked for without hoses
    at_odds=_at_odds,
    setup=("lift", "shield off"),
    cautions=(KEY_AWAY, EYES_AND_HANDS, HOT, NO_FLAME, UV_GLASSES, THROUGH_REGULATOR, LOCAL),
    remarks=(HV_HOSES,),
    works_out=(WorkedOut("pressure", "In the loop", "same", ("pressure",), "psi"),),
    fine=Fine(
        "Rest clean",
        "the places not answered yet; method and pressure stay yours",
        {place.name: "clean" for place in PLACES},
        rest=True,
    ),
)
