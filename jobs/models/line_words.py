"""The lines of an estimate or an invoice in words, and what one version changed against another."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from jobs.models.changes import SOURCES
from jobs.models.priced import Line
from jobs.models.shop import HALVES, ROUNDINGS
from jobs.models.wordings import words
from jobs.money import percent, shown

if TYPE_CHECKING:
    from jobs.models.priced import Priced

MEASURES = {
    "m": "a meter",
    "ft": "a foot",
    "kg": "a kilogram",
    "g": "a gram",
    "lb": "a pound",
    "oz": "an ounce",
    "L": "a liter",
    "mL": "a milliliter",
    "fl oz": "a fluid ounce",
}
FOR_ONE = {"h": "an hour", "piece": "each", **MEASURES}
SHARE_OF = {"labor": "the labor", "parts": "the parts", "refrigerant": "refrigerant and oil"}
NOT_TOLD = "not priced"
NOTHING_CHANGED = "Nothing in its lines, taxes or note."


@dataclass(frozen=True)
class LineSaid:
    """One line as it is printed. `how_much` and `at` may be empty."""

    words: str
    source: str
    how_much: str
    at: str
    amount: str
    missing: bool


def said(line: Line, currency: str) -> LineSaid:
    """A line in words."""
    return LineSaid(
        line["words"],
        words(SOURCES, line["source"]) if line["source"] else "",
        how_much(line),
        at(line, currency),
        NOT_TOLD if line["amount"] is None else signed(line["amount"], currency),
        line["amount"] is None,
    )


def signed(amount: int, currency: str) -> str:
    """An amount that may be below zero, with a minus sign and not a dash."""
    return shown(amount, currency).replace("-", "\u2212")


def how_much(line: Line) -> str:
    """2.5 h, 650 g, 3; empty where it is there once or not told."""
    number, unit = line["quantity"], line["unit"]
    if not number or (unit in ("piece", "time") and number == "1"):
        return ""
    if unit == "%":
        taken = "labor" if line["sort"] == "sundry" else line["taxed"]
        return f"{number}\u00a0% of {SHARE_OF.get(taken, 'it')}"
    return number if unit in ("piece", "time") else f"{number}\u00a0{unit}"


def at(line: Line, currency: str) -> str:
    """At 96.00 EUR an hour; empty where one price is all of it."""
    price, per = line["price"], line["per"]
    if price is None or per not in FOR_ONE or not how_much(line):
        return ""
    return f"at {shown(price, currency)} {FOR_ONE[per]}"


def in_words(one: "Priced") -> list[LineSaid]:
    """All its lines."""
    return [said(line, one.currency) for line in one.lines]


def taxes_in_words(one: "Priced") -> list[tuple[str, str]]:
    """Each tax: its name, share and what it was taken on; what it comes to."""
    return [
        (
            tax_words(tax["name"], tax["millionths"], tax["base"], one.currency),
            shown(tax["amount"], one.currency),
        )
        for tax in one.taxes
    ]


def tax_words(name: str, millionths: int, base: int, currency: str) -> str:
    """Sales tax, 8.25 % of 341.25 EUR."""
    return f"{name}, {percent(millionths)}\u00a0% of {shown(base, currency)}"


def rounding_words(one: "Priced") -> str:
    """How its taxes were rounded: once, on the total; half up."""
    return f"{words(ROUNDINGS, one.tax_rounding)}; {words(HALVES, one.tax_halves).lower()}"


def changed(before: "Priced", lines: Sequence[Line], after: Mapping[str, object]) -> list[str]:
    """What a version changes against the one before, in sentences; `after` has its columns."""
    currency = str(after["currency"])
    told = [*between(before, lines, currency), *of_taxes(before, after)]
    if before.currency != currency:
        told.append(f"Currency: {before.currency} → {currency}.")
    if before.note != after["note"]:
        told.append("The note.")
    total = after["total"]
    if before.total != total:
        now = shown(total, currency) if isinstance(total, int) else "none"
        was = "none" if before.total is None else shown(before.total, before.currency)
        told.append(f"Total: {was} → {now}.")
    return told or [NOTHING_CHANGED]


def between(before: "Priced", lines: Sequence[Line], currency: str) -> Iterator[str]:
    """Lines that are new, that went, and that are not as they were."""
    old, new = named(before.lines), named(lines)
    for name, line in new.items():
        if name not in old:
            yield f"Added: {line['words']}, {said(line, currency).amount}."
        elif old[name] != line:
            yield from other(old[name], before.currency, line, currency)
    for name, line in old.items():
        if name not in new:
            yield f"Taken out: {line['words']}, {said(line, before.currency).amount}."


def named(lines: Iterable[Line]) -> dict[tuple[str, int], Line]:
    """Lines by what they are, and the how-manieth of these."""
    found: dict[tuple[str, int], Line] = {}
    for line in lines:
        name = f"{line['sort']} {line['code'] or line['words']}"
        found[name, sum(one == name for one, _ in found)] = line
    return found


def other(old: Line, old_currency: str, line: Line, currency: str) -> Iterator[str]:
    """One line that is another than it was."""
    was, now = said(old, old_currency), said(line, currency)
    told = [
        f"{before or 'nothing said'} → {after or 'nothing said'}"
        for before, after in (
            (was.words, now.words),
            (was.source, now.source),
            (was.how_much, now.how_much),
            (was.at, now.at),
            (was.amount, now.amount),
        )
        if before != after
    ]
    if old["taxed"] != line["taxed"]:
        told.append("taxed otherwise")
    if told:
        yield f"{now.words}: {'; '.join(told)}."


def of_taxes(before: "Priced", after: Mapping[str, object]) -> Iterator[str]:
    """Taxes at another share, new ones, others gone; and how they are rounded."""
    rows = after["taxes"]
    listed = rows if isinstance(rows, list) else []
    if before.total is not None and after["total"] is not None:
        old = {tax["name"]: tax["millionths"] for tax in before.taxes}
        new = {tax["name"]: tax["millionths"] for tax in listed}
        for name in [*new, *(one for one in old if one not in new)]:
            if old.get(name) != new.get(name):
                yield f"{name}: {share(old.get(name))} → {share(new.get(name))}."
    if (before.tax_rounding, before.tax_halves) != (after["tax_rounding"], after["tax_halves"]):
        yield "How taxes are rounded."


def share(millionths: int | None) -> str:
    """Percent, or none."""
    return "none" if millionths is None else f"{percent(millionths)}\u00a0%"
