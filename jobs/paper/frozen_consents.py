"""What a record's data hold of each time that somebody was asked to agree."""

from jobs.paper.frozen_shared import Times


class Consent(Times):
    """One time that somebody was asked to agree: the exact text with its hash, and what came of it.

    `given_by` is in words where it would name somebody who is not the customer any more, `gone`
    says why one counts no more. `about_code` and `outcome` are codes with their words beside them;
    `estimate` is the number of the version. `added` is the added cost, `amount` the revised total;
    empty: none agreed. `tried` are the times at which nobody could be reached, `signed` says how
    it was signed, `signature` is the path of a drawn one, 1000 wide and 300 high. `number_called`
    is that of an agreement by phone or message, by which it can be checked; empty: none noted.
    """

    number: int
    entry: str
    given_by: str
    how: str
    how_code: str
    number_called: str
    asked_by: str
    text: str
    sha256: str
    about_code: str
    about_text: str
    estimate: int | None
    outcome: str
    outcome_text: str
    added: str
    added_units: int | None
    amount: str
    smallest_units: int | None
    currency: str
    tried: list[str]
    signed: str
    signature: str
    counts: bool
    gone: str
    superseded_by: int | None
