"""Marks of entries in words, made when they are shown.

A mark is data (jobs.told.Mark), so that a name or a number which is blanked in its row does not
live on in a sentence. What a person typed is taken from the entry's fields, a name from its row.
"""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from jobs import cylinder_limits, ledger
from jobs.models.conflicts import CONFLICT, named, settled_by
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.odd_gas import GAS_ODD
from jobs.models.odd_loop import OIL_ODD, VACUUM_ODD
from jobs.models.people import Person
from jobs.models.said import EMPTY, PERSONAL, SAID, as_said, in_words, kept_as_typed
from jobs.models.wordings import in_shop_time
from jobs.told import Mark, one_line

# Trade articles: thin flat tubes side by side keep what a flush does not reach.
FLAT_TUBES = (
    "A condenser of flat tubes side by side (parallel flow) cannot be flushed reliably; after"
    " debris it is replaced."
)
# Common practice, no source.
NOT_FLUSHED = "Compressor, drier and expansion device are not flushed: they are replaced or kept."
# What is odd about a value that was kept: (what it is about, the sentence).
ODD = {
    "year_out": ("Model year", "Model years here go from {oldest} to {newest}, all four digits."),
    "odometer_below_zero": ("Odometer", "An odometer shows nothing below zero."),
    "odometer_beyond": ("Odometer", "More than an odometer shows."),
    "mass_below_zero": ("Label charge", ledger.BELOW_ZERO),
    "mass_beyond": ("Label charge", ledger.BEYOND),
    "charge_low": ("Label charge", "{mass} is less than a car holds (150–3000 g)."),
    "charge_high": ("Label charge", "{mass} is more than a car holds (150–3000 g)."),
    "coil_out": (
        "Clutch coil, the vehicle’s own figure",
        "No clutch coil has that; they go from 1 to 40 Ω.",
    ),
    "gap_out": ("Air gap’s limits", "No clutch has that; its gap goes from 0.1 to 2 mm."),
    "gap_alone": (
        "Air gap’s limits",
        "The gap is held to both limits: type the smallest and the largest.",
    ),
    "gap_turned": ("Air gap’s limits", "The largest is not above the smallest."),
    "ambient_out": ("Air outside the car", "A bay has −10 to 50 °C."),
    "rpm_out": ("Engine speed", "A usual test speed is 500 to 4000 rpm."),
    "flat_tubes": ("On which part", FLAT_TUBES),
    "cylinder_mass_odd": ("Mass", "{mass} is not what is expected here ({low} to {high})."),
    "cylinder_lighter": ("Scale", "{mass} is less than the tare of {tare}: scale or tare is off."),
    **GAS_ODD,
    **OIL_ODD,
    **VACUUM_ODD,
    **{code: ("Cylinder", words) for code, words in cylinder_limits.SENTENCES.items()},
    "consent_sum": (
        "Revised total",
        "Agreed before and added cost come to another sum than the revised total.",
    ),
    "label_below_zero": ("Grams on the service label", ledger.BELOW_ZERO),
    "label_beyond": ("Grams on the service label", ledger.BEYOND),
    "label_not_charged": (
        "Grams on the service label",
        "The label says other grams than the last charge put in, as booked.",
    ),
    "not_flushed": ("On which part", NOT_FLUSHED),
    "new_gap_out": (
        "Air gap of the new part",
        "No clutch has that; its gap goes from 0.1 to 2 mm.",
    ),
}
# Who typed it where and when. {name} is its author's.
OF_TYPING = {
    "clock_changed": (
        "The tablet’s clock was changed between typing and sending; the time shown may be off."
    ),
    "clock_ahead": "The tablet’s clock was ahead; the time shown is that of arrival.",
    "before_received": "By its time this happened before the car was received.",
    "clock_lost": (
        "By the tablet’s clock this was more than three years before it arrived, so that clock was"
        " not set; the time shown is that of arrival."
    ),
    "author_gone": "{name} no longer worked here when this arrived.",
    "before_sign_in": "By the tablet’s clock this was typed before {name} signed in there.",
    "corrected_since": "A later correction of this was here already; that one stands.",
    "discarded_stands": (
        "What was thrown away on the tablet had reached the shop server before: it stands."
    ),
    "agreed_meanwhile": (
        "While this page was open another amount was agreed; the text of this consent says what the"
        " page showed."
    ),
    "named_first": (
        "Recorded on the tablet under the name {name} while the shop server was away; the PIN was"
        " given later."
    ),
    "nameless": (
        "When this was recorded the tablet did not know who was there; it went out under the name"
        " of {name}, who signed in there."
    ),
    "other_tablet": "{name} typed this on another tablet than the one that sent it.",
}
MENDED = "Mended on the tablet {at}{by}; the time shown is that of the first tap."
BROUGHT_IN = "Brought in from a file that was saved on the tablet, by {name}, {at}."
BROUGHT = ("brought_in", "brought_in_own")
OWN_NAME = (
    " No sign-in that holds stood behind it: it was taken in under the name of who brought it in."
)
# What the shop knew already; of a job whose customer was blanked the number is left.
SAME_PERSON = " Perhaps the same person."
KNOWN = {
    "known_plate": "This plate was here before: job {number}, {name}.",
    "known_phone": "The shop already knows this phone: {name}, job {number}." + SAME_PERSON,
    "known_name": "The shop already knows the name {name}: job {number}." + SAME_PERSON,
}
NO_NAME = "name taken out"


@dataclass(frozen=True)
class Said:
    """A mark in words, with its code and the field or column it is about (empty: none)."""

    code: str
    field: str
    words: str
    open: bool = False  # a conflict that waits for a person


def odd_words(code: str, figures: Mapping[str, Any]) -> str:
    """The sentence about an odd value; a mass is {"mg", "unit"}, another one `{name}_mg`."""
    if code in cylinder_limits.SENTENCES:
        return cylinder_limits.in_words(code, figures)
    told = dict(figures)
    for name in [one for one in told if one == "mg" or one.endswith("_mg")]:
        mass = ledger.shown_mass(int(told[name]), str(told["unit"]))
        told[name.removesuffix("_mg") if name != "mg" else "mass"] = mass
    return ODD[code][1].format(**told)


def marks_in_words(entries: Iterable[Entry], on_paper: bool = False) -> dict[int, list[Said]]:
    """The marks of entries by the entry's row, in at most four queries of its own.

    Entries come with their authors. A mark whose values were all blanked says nothing any more.
    `on_paper`: without the names and numbers of persons that stand no more; who gets the paper is
    not always whom they tell.
    """
    listed = list(entries)
    around = Around.of(listed, on_paper)
    return {
        entry.pk: [
            Said(mark["code"], mark.get("field", ""), words, around.is_open(mark, entry))
            for mark in entry.marks
            if (words := around.words(mark, entry))
        ]
        for entry in listed
    }


@dataclass(frozen=True)
class Around:
    """The rows that marks point to, by key."""

    tellers: Mapping[str, Entry]
    jobs: Mapping[str, Job]
    people: Mapping[str, str]  # names
    settled: Mapping[str, Entry]  # by the conflict's name
    on_paper: bool

    @classmethod
    def of(cls, listed: list[Entry], on_paper: bool) -> "Around":
        """Read what the marks of these entries point to."""
        marks = [mark for entry in listed for mark in entry.marks]
        tellers = keys(mark.get("teller") for mark in marks)
        jobs = keys(mark.get("job") for mark in marks)
        people = keys(mark.get("person") for mark in marks)
        entries = Entry.objects.filter(key__in=tellers).select_related("author")
        known = Job.objects.filter(key__in=jobs).select_related("customer")
        named_there = Person.objects.filter(key__in=people).values_list("key", "name")
        return cls(
            {str(one.key): one for one in entries} if tellers else {},
            {str(one.key): one for one in known} if jobs else {},
            {str(key): name for key, name in named_there} if people else {},
            settled_by(listed),
            on_paper,
        )

    def words(self, mark: Mark, entry: Entry) -> str:
        """One mark of an entry; a code that this program does not know stays as it is."""
        code = mark["code"]
        if code in OF_TYPING:
            return OF_TYPING[code].format(name=entry.author.name) + clock_said(mark)
        if code in ("mended", *BROUGHT):
            return self.mended(mark) if code == "mended" else self.brought_in(mark)
        if code in KNOWN:
            return self.known(mark)
        if code in ODD:
            return kept(mark, entry)
        if code in ("changed", "emptied"):
            return changed(mark, self.on_paper)
        return self.conflict(mark, entry) if code == CONFLICT else code

    def is_open(self, mark: Mark, entry: Entry) -> bool:
        """Whether it is a conflict that nobody settled yet."""
        return mark["code"] == CONFLICT and named(entry, mark["field"]) not in self.settled

    def mended(self, mark: Mark) -> str:
        """Who changed the entry on the tablet after it was first told there."""
        name = self.people.get(mark.get("person", ""))
        at = in_shop_time(datetime.fromisoformat(str(mark["figures"]["at"])))
        return MENDED.format(at=at, by=f" by {name}" if name else ", by whom is not known")

    def brought_in(self, mark: Mark) -> str:
        """Who brought the entry in from a file, and whose name it then got."""
        name = self.people.get(mark.get("person", ""), "nobody known")
        at = in_shop_time(datetime.fromisoformat(str(mark["figures"]["at"])))
        own = OWN_NAME if mark["code"] == "brought_in_own" else ""
        return BROUGHT_IN.format(name=name, at=at) + own

    def known(self, mark: Mark) -> str:
        """A job that was here before."""
        job = self.jobs.get(mark["job"])
        if job is None:
            return ""
        return KNOWN[mark["code"]].format(number=job.number, name=job.customer.name or NO_NAME)

    def conflict(self, mark: Mark, entry: Entry) -> str:
        """Both values, and the question or who settled it; columns of one field in a row."""
        since = self.since(mark.get("teller"))
        settler = self.settled.get(named(entry, mark["field"]))
        stood, end = "stands", "Which is right?"
        if settler:
            stood = "stood"
            end = f"Settled {moment_of(settler)} ({settler.author.name})."
        questions = []
        for name in mark["told"]:
            if name not in SAID:
                continue
            here, there = in_words(name, mark["told"]), in_words(name, mark["stood"])
            if here != there and self.on_paper and name in PERSONAL:
                questions.append(f"{SAID[name]}: told in two ways. {end}")
            elif here != there:
                questions.append(
                    f"{SAID[name]}: “{there}” {stood}{since}; here “{here}” was told. {end}"
                )
        return " ".join(questions)

    def since(self, key: str | None) -> str:
        """Since when a value stands, and who told it."""
        teller = self.tellers.get(key or "")
        if teller is None:
            return ""
        return f" since {moment_of(teller)} ({teller.author.name})"


def moment_of(entry: Entry) -> str:
    """When it happened, in the shop's time."""
    return in_shop_time(entry.happened_at)


def clock_said(mark: Mark) -> str:
    """What a clock said that is not believed, in the shop's time; empty where it is not kept."""
    said = mark.get("figures", {}).get("said")
    return f" That clock said {in_shop_time(datetime.fromisoformat(str(said)))}." if said else ""


def keys(told: Iterable[str | None]) -> list[uuid.UUID]:
    """Keys without gaps and repeats."""
    return [uuid.UUID(key) for key in {key for key in told if key}]


def kept(mark: Mark, entry: Entry) -> str:
    """An odd value that stayed, and why, as its entry has it."""
    label = ODD[mark["code"]][0]
    why = one_line(" ".join(entry.fields.get(f"{mark['field']}_why", ())))
    sentence = odd_words(mark["code"], mark["figures"])
    return kept_as_typed(f"{label}: {sentence}", why)


def changed(mark: Mark, on_paper: bool) -> str:
    """What stood before; where that was blanked or is a person's, only that there was something."""
    name, stood = mark["field"], mark["stood"]
    done = f"{SAID.get(name, name)} {'not known' if mark['code'] == 'emptied' else 'changed'}"
    untold = stood.get(name) in EMPTY or (on_paper and name in PERSONAL)
    return f"{done}." if untold else f"{done}; before: {as_said(name, stood)}."
