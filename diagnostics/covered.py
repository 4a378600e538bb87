"""Parts that were fitted and that the estimate agreed to has no line for.

Told only where it can be: an estimate whose lines of parts were made from repairs. A line that
somebody typed, or work agreed to in words, may have meant any part.
"""

from collections.abc import Iterator

from diagnostics.evidence.options.lines import PARTS
from jobs.models import Change, Consent, Estimate, Job
from jobs.models.changes import standing
from jobs.models.consents import ESTIMATE, to_work

ANY = "other"
NOT_COVERED = "{}: {}, which was agreed to, has no line for this part."


def not_covered(job: Job) -> Iterator[tuple[str, str]]:
    """The sentence and the key of each such change; no query where the job came with its rows."""
    fitted = [one for one in standing(job.changes.all()) if one.what == "fitted"]
    if not fitted:
        return
    versions = {one.pk: one for one in job.estimates.all()}
    agreed = to_work(job.consents.all()) if versions else []
    for change in fitted:
        estimate = agreed_for(change, agreed, versions)
        if estimate and not has_parts_of(estimate, change):
            yield NOT_COVERED.format(change.short, estimate.words), str(change.key)


def agreed_for(
    change: Change, agreed: list[Consent], versions: dict[int, Estimate]
) -> Estimate | None:
    """The version that was agreed to last when it was fitted; None: none was, or work in words."""
    before = [one for one in agreed if one.given_at <= change.entry.done_at]
    if not before or any(one.about != ESTIMATE for one in before):
        return None
    return versions.get(before[-1].estimate_id or 0)


def has_parts_of(estimate: Estimate, change: Change) -> bool:
    """Whether each part of a change may be among the lines."""
    lines = [line for line in estimate.lines if line["sort"] == "part"]
    listed = {PARTS[line["code"]].fitted if line["code"] in PARTS else ANY for line in lines}
    return ANY in listed or all(one.part in {*listed, ANY} for one in change.parts)
