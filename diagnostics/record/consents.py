"""The part of a record about what was agreed: exact texts, by whom, how, by which number."""

import re
from collections.abc import Container, Iterable

from diagnostics.record.words import how_words, times
from jobs import search, signature
from jobs.models import Consent, Entry, Job
from jobs.models.consents import CALLED, OUTCOMES, YES
from jobs.models.wordings import in_shop_time, words
from jobs.paper import frozen

BY_CUSTOMER_THEN = "the customer, under a name that stands no more"
NUMBER_THEN = "a number that stands no more"


def gone(job: Job, entries: Iterable[Entry]) -> set[str]:
    """Every name and phone told for the job's customer that is not the customer's, as folded text.

    A phone is its digits, however they are parted.
    """
    fields = [entry.fields for entry in entries]
    names = {search.fold(name) for one in fields for name in one.get("customer_name", ())}
    phones = {digits(phone) for one in fields for phone in one.get("phone", ())}
    now = {search.fold(job.customer.name), digits(job.customer.phone), ""}
    return (names | phones) - now


def digits(phone: str) -> str:
    """A phone to compare with another."""
    return re.sub(r"\D", "", phone)


def giver(consent: Consent, not_now: Container[str]) -> str:
    """Who gave a consent, without a name that is not the customer's any more.

    Where nobody else was named the form took the customer's name as it was then.
    """
    return BY_CUSTOMER_THEN if search.fold(consent.given_by) in not_now else consent.given_by


def called(consent: Consent, not_now: Container[str]) -> str:
    """The number called or written to, by which it can be checked; empty: none was noted."""
    if consent.how not in CALLED or not consent.number_called:
        return ""
    told = (search.fold(consent.given_by), digits(consent.number_called))
    return NUMBER_THEN if any(one in not_now for one in told) else consent.number_called


def drawn(consent: Consent, not_now: Container[str]) -> str:
    """The path of the signature; a hand goes with its name."""
    return "" if search.fold(consent.given_by) in not_now else signature.path(consent.strokes)


def consents(rows: Iterable[Consent], not_now: Container[str]) -> list[frozen.Consent]:
    """Each consent with its exact text and that text's hash; `not_now` as by `gone`."""
    return [
        {
            "number": consent.number,
            "entry": str(consent.entry.key),
            "given_by": giver(consent, not_now),
            "how": how_words(consent.how),
            "how_code": consent.how,
            "number_called": called(consent, not_now),
            "asked_by": consent.entry.author.name,
            "text": consent.text,
            "sha256": consent.text_sha256,
            "about_code": consent.about,
            "about_text": consent.about_short,
            "estimate": consent.estimate.number if consent.estimate else None,
            "outcome": consent.outcome,
            "outcome_text": words(OUTCOMES, consent.outcome),
            "added": consent.added_words if consent.outcome in YES else "",
            "added_units": consent.added,
            "amount": consent.amount_words if consent.outcome in YES else "",
            "smallest_units": consent.amount,
            "currency": consent.currency,
            "tried": [in_shop_time(at) for at in consent.tried],
            "signed": consent.signed_words,
            "signature": drawn(consent, not_now),
            "counts": consent.counts,
            "gone": consent.gone,
            "superseded_by": consent.superseded_by.number if consent.superseded_by else None,
            **times(consent.entry),
        }
        for consent in rows
    ]
