"""Writing a consent: who agreed to which text, how, when, up to how much."""

from jobs.models import Consent, Entry, Job
from jobs.models.wordings import text_hash
from jobs.told import Agreed


def give_consent(job: Job, entry: Entry, told: Agreed) -> None:
    """Keep a consent with its exact text and the text's hash, unless the last one is the same."""
    last = job.consents.order_by("-number").first()
    given = (told.amount, told.currency, told.given_by, told.how, told.text)
    if last and (last.amount, last.currency, last.given_by, last.how, last.text) == given:
        return
    Consent.objects.create(
        job=job,
        number=last.number + 1 if last else 1,
        entry=entry,
        amount=told.amount,
        currency=told.currency,
        given_by=told.given_by,
        how=told.how,
        text=told.text,
        text_sha256=text_hash(told.text),
        given_at=entry.happened_at,
    )
