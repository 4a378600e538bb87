"""What is open about estimates and invoices; without amounts, for points go to tablets too."""

from collections.abc import Iterable, Iterator, Sequence

from jobs.models.consent_points import Open
from jobs.models.estimates import Estimate
from jobs.models.invoices import Invoice


def of_estimates(estimates: Iterable[Estimate]) -> Iterator[Open]:
    """The version in force was written on an older one while another had come."""
    listed = sorted(estimates, key=lambda one: one.number)
    number_of = {one.pk: one.number for one in listed}
    for one in listed[-1:]:
        on = number_of.get(one.before_id or 0, 0)
        left_out = [f"estimate {other}" for other in range(on + 1, one.number)]
        if left_out:
            written = f"was written on estimate {on}" if on else "was begun anew"
            sentence = f"{one.words} {written}; what {' and '.join(left_out)} changed is not in it"
            yield Open("estimate_skips", sentence, "estimate", str(one.key))


def of_invoices(invoices: Iterable[Invoice], agreed: tuple[int, str] | None) -> Iterator[Open]:
    """An invoice that counts is more than what is agreed by now: (amount, currency)."""
    for one in invoices:
        if one.counts and is_over(one, agreed):
            what = "is more than was agreed" if agreed else "has nothing agreed beside it"
            sentence = f"Invoice {one.label} {what}: the difference needs the customer’s consent"
            yield Open("invoice_over", sentence, "invoice", str(one.key))


def is_over(one: Invoice, agreed: tuple[int, str] | None) -> bool:
    """Whether it is more than an amount; what is in another currency is no agreement to it."""
    amount = agreed[0] if agreed and agreed[1] == one.currency else 0
    return (one.total or 0) > amount


def of_priced(
    estimates: Iterable[Estimate], invoices: Sequence[Invoice], agreed: tuple[int, str] | None
) -> Iterator[Open]:
    """All of them."""
    yield from of_estimates(estimates)
    yield from of_invoices(invoices, agreed)
