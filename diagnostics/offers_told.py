"""Ways to repair in words: for the page, for what a tablet keeps, for what a decision freezes.

No chance stands here, and nothing from which one could be worked out.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from diagnostics.assess import Assessed, touched_since
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.findings import Strip
from diagnostics.evidence.inference.network import OTHER
from diagnostics.evidence.inference.verdict import NOT_OK, Stands
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.leak_places import PLACES
from diagnostics.evidence.options.costing import Figure
from diagnostics.evidence.options.lines import FLUIDS
from diagnostics.evidence.options.offer import Left, Offer
from diagnostics.evidence.options.offers import least
from diagnostics.evidence.options.option import Need, in_words, together, without
from diagnostics.evidence.options.plans import PLACE, sees_to
from diagnostics.evidence.options.prices import Line
from diagnostics.evidence.options.turn import Turn, between
from diagnostics.evidence.strips import axis
from diagnostics.evidence.verdict_words import TO_CUSTOMER, answer_words
from diagnostics.offering import Ways
from diagnostics.price_sheet import Sheet
from jobs import ledger, money
from jobs.forms.prices import hours_words
from jobs.models import CarState
from jobs.models.changes import SOURCES

MAIN = 5  # more of them nobody compares: our judgement
PLACE_WORDS = {one.name: one.question for one in PLACES}
NOTHING_FOUND = (
    "No test has shown or made likely yet what is at fault. Every way below would be a guess."
)
NOTHING_SINCE = (
    "Since the car was changed no test has shown or made likely that anything is at fault. Every"
    " way below would be a guess."
)


@dataclass(frozen=True)
class LineTold:
    """One line of a cost: what, how much of it, its price; `missing` where that is not typed."""

    words: str
    much: str
    amount: str
    missing: str


@dataclass(frozen=True)
class NeedTold:
    """What comes first: the tests that tell of it, and the steps that did on the car as it is."""

    sentence: str
    kinds: Sequence[Kind]
    steps: Sequence[int]


@dataclass(frozen=True)
class CuresTold:
    """What a way cures of what was found, or what it is meant for; and how that stands."""

    words: str
    standing: str
    stands: str
    found: bool = True


@dataclass(frozen=True)
class OfferTold:
    """One way in words. `percent` is the length of its bar, None: no price."""

    offer: Offer
    total: str
    percent: float | None
    lines: Sequence[LineTold]
    tax: str
    cures: Sequence[CuresTold]
    leaves: Sequence[str]
    stands: str
    needs: Sequence[NeedTold]
    against: Sequence[str]

    @property
    def sees_to_something(self) -> bool:
        """Whether it cures something of what was found."""
        return any(one.found for one in self.cures)

    @property
    def is_partial(self) -> bool:
        """Whether it cures a part of what was found, and not all."""
        return self.sees_to_something and not self.offer.whole


def of_cost(amount: int | None, currency: str) -> str:
    """An amount with its currency; empty: there is none, or no currency to tell it in."""
    return money.shown(amount, currency) if amount is not None and currency else ""


def told(
    ways: Ways, sheet: Sheet, steps: Sequence[Assessed], states: Sequence[CarState]
) -> list[OfferTold]:
    """Plans in words, their bars on one scale."""
    most = max((one.cost.total or 0 for one in ways.offers), default=0)
    made = steps_by_kind(steps, states)
    return [one_told(one, ways, sheet, most, made) for one in ways.offers]


def steps_by_kind(steps: Sequence[Assessed], states: Sequence[CarState]) -> Mapping[str, list[int]]:
    """The numbers of the tests that stand on the car as it is, by their kind."""
    found: dict[str, list[int]] = {}
    for one in steps:
        if one.stands and one.meaning and not touched_since(one, states):
            found.setdefault(one.step.kind, []).append(one.step.number)
    return found


def one_told(
    one: Offer, ways: Ways, sheet: Sheet, most: int, made: Mapping[str, Sequence[int]]
) -> OfferTold:
    """One plan."""
    total = one.cost.total
    tax = one.cost.tax_on(("labor", "parts", "refrigerant")) if total is not None else 0
    return OfferTold(
        offer=one,
        total=of_cost(total, sheet.currency),
        percent=None if total is None else round(100 * total / most, 2) if most else 0.0,
        lines=[line_told(line, sheet) for line in one.cost.lines],
        tax=of_cost(tax, sheet.currency) if tax else "",
        cures=list(cures_told(one, ways)),
        leaves=[left_told(left, ways) for left in one.leaves],
        stands=TO_CUSTOMER[one.standing],
        needs=[need_told(need, made) for need in one.needs],
        against=[each.sentence for each in one.against],
    )


def left_told(left: Left, ways: Ways) -> str:
    """What stays; where one of several is shown and not which, that is said."""
    all_of = ways.car.standing(left.cures)
    if left.standing != "open" or all_of not in ("proved", "likely"):
        return left.words
    name, _, answers = in_words(left.cures).partition(": ")
    return f"{name}, one of {answers} ({TO_CUSTOMER[all_of]})"


def cures_told(one: Offer, ways: Ways) -> Iterator[CuresTold]:
    """What was found and it sees to, each with how it stands; else what it is meant for."""
    car, seen = ways.car, dict[str, list[str]]()
    for variable, code in ways.found:
        if any(sees_to(option, (variable, code)) for option in one.options):
            seen.setdefault(variable, []).append(code)
    for variable, codes in seen.items():
        if variable == PLACE:
            stands = car.standing({"tightness": ("leaks",)})
            named = ", ".join(lower(PLACE_WORDS[code]) for code in codes)
            yield CuresTold(f"Leak at: {named}", stands, TO_CUSTOMER[stands])
            continue
        all_of = {variable: tuple(codes)}
        stands = car.standing(all_of)
        singly = all(car.is_found({variable: (code,)}) for code in codes)
        which = "" if singly else "one of "
        name, _, answers = in_words(all_of).partition(": ")
        yield CuresTold(
            f"{name}, {which}{answers}" if which else f"{name}: {answers}",
            stands,
            TO_CUSTOMER[stands],
        )
    if not seen and one.repairs:
        because = " ".join(dict.fromkeys(option.because for option in one.options))
        yield CuresTold(because, one.standing, TO_CUSTOMER[one.standing], found=False)


def line_told(line: Line, sheet: Sheet) -> LineTold:
    """One line of a cost."""
    return LineTold(
        line.words, much_words(line, sheet), of_cost(line.amount, sheet.currency), line.missing
    )


def much_words(line: Line, sheet: Sheet) -> str:
    """How much of it, or which part."""
    if line.kind == "parts":
        return SOURCES.get(sheet.value(f"source_{line.code}") or "", "").lower()
    if line.much is None:
        return ""
    if line.kind == "labor":
        hours = hours_words(line.much)
        return hours if hours.endswith("min") else f"{hours} h"
    unit = "g" if FLUIDS[line.code].unit == "kg" else "mL"
    return f"{ledger.plain_grams(line.much)} {unit}"


def need_told(need: Need, made: Mapping[str, Sequence[int]]) -> NeedTold:
    """What comes first, and whether a test told of it; that is no pass."""
    steps = sorted(number for kind in need.kinds for number in made.get(kind, ()))
    kinds = [] if steps else [KINDS[kind] for kind in need.kinds if kind in KINDS]
    return NeedTold(need.sentence, kinds, steps)


def parted(offers: Iterable[OfferTold]) -> tuple[list[OfferTold], list[OfferTold], list[OfferTold]]:
    """The few that a customer chooses from, the cheapest asked for first; others; no repair.

    The cheapest that cures anything of what was found is always among the few. A few repairs put
    together of which one is asked for by nothing are among the others.
    """
    listed = list(offers)
    none = [one for one in listed if not one.offer.repairs]
    repairs = [one for one in listed if one.offer.repairs]
    cheapest = least(one.offer for one in repairs if one.sees_to_something)
    whole = [
        one
        for one in repairs
        if one.offer.also_possible or (one.offer.whole and (asked_for(one) or is_one(one)))
    ]
    first = sorted(whole, key=lambda one: not one.offer.also_possible)[:MAIN]
    main = [*first, *(one for one in repairs if one.offer is cheapest and one not in first)]
    return main, [one for one in repairs if one not in main], none


def asked_for(one: OfferTold) -> bool:
    """Whether what it is meant for was found."""
    return one.offer.standing in ("proved", "likely")


def is_one(one: OfferTold) -> bool:
    """Whether it is one repair."""
    return len(one.offer.options) == 1


@dataclass(frozen=True)
class Beside:
    """The cheapest way that is asked for beside the next dearer one."""

    heading: str
    sentences: Sequence[str]
    rests_on: Sequence[str]
    strip: Strip | None


def beside(ways: Ways, main: Sequence[OfferTold], currency: str) -> Beside | None:
    """Both prices of today, and where the shop has a figure of its own, which of them it favors."""
    cheap = next((one for one in main if one.offer.also_possible), None)
    if cheap is None or cheap.offer.cost.total is None:
        return None
    least = cheap.offer.cost.total
    dearer = [
        one
        for one in main
        if (one.offer.cost.total or 0) > least and one.offer.whole and does_more(one, cheap)
    ]
    dear = min(dearer, key=lambda one: one.offer.cost.total or 0, default=None)
    found = between(cheap.offer, dear.offer, ways.prices) if dear else None
    if dear is None or found is None:
        return None
    gap = of_cost(found.gap, currency)
    heading = f"{cheap.offer.words} costs you {gap} less today than {lower(dear.offer.words)}."
    return Beside(
        heading,
        list(sentences(found, cheap, dear, currency)),
        found.rests_on + (found.share_rests_on if found.pays else ()),
        strip_of(found, ways.prices.figures, cheap, dear, currency),
    )


def does_more(one: OfferTold, other: OfferTold) -> bool:
    """Whether one way cures something that the other does not."""
    mends, less = (
        together(*(each.all_cures for each in way.offer.options)) for way in (one, other)
    )
    return bool(without(mends, less))


def sentences(found: Turn, cheap: OfferTold, dear: OfferTold, currency: str) -> Iterator[str]:
    """What is to be said of the two."""
    parts = cheap.offer.cost.of("parts")
    if parts and found.parts is not None and parts != found.parts:
        yield (
            f"Its parts cost {of_cost(parts, currency)}, tax included. At"
            f" {of_cost(found.parts, currency)} both ways would cost the same today."
        )
    if not found.pays:
        yield (
            "Today’s prices only: the shop has no figure of its own from which it could be said"
            " which costs less later."
        )
    elif found.pays == cheap.offer.code:
        yield f"By the shop’s own figure {lower(cheap.offer.words)} stays the cheaper way later."
    else:
        yield (
            f"By the shop’s own figure {lower(dear.offer.words)} is the cheaper way over the time"
            " the car is kept, although it costs more today."
        )


def strip_of(
    found: Turn,
    figures: Iterable[Figure],
    cheap: OfferTold,
    dear: OfferTold,
    currency: str,
) -> Strip | None:
    """What more the dearer one costs today, beside what more would pay; by own figures only."""
    codes, then = ({one.code for one in each.offer.options} for each in (cheap, dear))
    own = next((one.share for one in figures if one.after in codes and one.then in then), None)
    if own is None or not found.pays or found.later is None:
        return None
    scale = 10.0 ** money.DECIMALS[currency]
    pays, more = float(own * found.later) / scale, found.gap / scale
    low, high, ticks = axis(0.0, 1.15 * max(pays, more))
    words = f"{of_cost(found.gap, currency)} more today"
    return Strip(currency, low, high, ticks, (0.0, pays), "pays up to here", more, words, 0.0)


def lower(text: str) -> str:
    """A name inside a sentence."""
    return text[:1].lower() + text[1:]


def verdict_frozen(stands: Iterable[Stands]) -> list[dict[str, Any]]:
    """What the verdict said of each thing that tests bear on, in words, without shares."""
    told = [one for one in stands if one.standing in ("proved", "likely") and one.code != OTHER]
    single = {one.variable for one in told if one.code not in (NOT_OK, "ok")}
    rows = [
        {
            "variable": one.variable,
            "code": one.code,
            "standing": one.standing,
            "words": answer_words(one.variable, one.code),
            "shown": TO_CUSTOMER[one.standing],
            "steps": sorted({number for each in one.carried for number in each.steps}),
        }
        for one in told
        if not (one.code == NOT_OK and one.variable in single)
    ]
    borne = [row for row in rows if row["steps"]]
    return sorted(borne, key=lambda row: (row["code"] == "ok", row["standing"] != "proved"))


def offer_frozen(one: OfferTold, *, chosen: bool) -> dict[str, Any]:
    """One way as it was offered, with its prices."""
    offer = one.offer
    return {
        "code": offer.code,
        "words": offer.words,
        "chosen": chosen,
        "standing": offer.standing,
        "stands": one.stands if offer.repairs else "",
        "mark": offer.mark,
        "warning": offer.warning,
        "leaves": list(offer.leaves_words),
        "unshown": list(offer.unshown),
        "total": offer.cost.total,
        "shown": one.total,
        "missing": list(offer.cost.missing),
        "lines": [
            {"kind": line.kind, "code": line.code, "words": each.words, "much": each.much,
             "count": line.much, "amount": line.amount, "shown": each.amount}
            for line, each in zip(offer.cost.lines, one.lines, strict=True)
        ] if chosen else [],
    }  # fmt: skip


def kept_words(one: OfferTold) -> list[str]:
    """What a tablet shows of a way while the shop server is away: no price."""
    offer = one.offer
    cures = [f"{cured.words.rstrip('.')}: {cured.stands}." for cured in one.cures]
    leaves = f"Leaves: {'; '.join(one.leaves)}." if one.leaves else ""
    breaks = f"A part seller may refuse its warranty: it leaves out {' and '.join(offer.breaks)}."
    against = f"Against it: {' '.join(one.against)}" if one.against else ""
    told = [*cures, offer.warning, leaves, *offer.leaves_words, *offer.unshown, against]
    return [text for text in (*told, breaks if offer.breaks else "", *offer.cautions) if text]
