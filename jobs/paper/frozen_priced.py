"""What a record's data hold of money: each estimate, the invoice, what becomes of old parts."""

from typing import TypedDict

from jobs.paper.frozen_shared import Times


class Line(TypedDict):
    """One line of an estimate or invoice. `amount` is a text, empty where a price is missing."""

    sort: str
    text: str
    much: str
    amount: str
    smallest_units: int | None


class Priced(Times):
    """An estimate (`label`: Estimate 2) or an invoice, as it was written.

    `total` has the currency, or says why there is none; `tax_units` and `total_units` count its
    smallest unit. `counts`: no later one took its place. `changed` says what is otherwise than in
    the version before or, of an invoice, than on the estimate; `agreed` what it was held against.
    """

    label: str
    key: str
    number: int
    lines: list[Line]
    tax: str
    total: str
    tax_units: int | None
    total_units: int | None
    currency: str
    counts: bool
    changed: list[str]
    agreed: str
    over: str
    by: str
    author: str
