"""The part of a record that tells which way was chosen, and what was offered beside it."""

from diagnostics.decided import NO_TOTAL, decisions_of, in_time, reason_words, who_and_when
from diagnostics.models import Decision
from diagnostics.record.words import in_parts, times
from jobs.models import Job
from jobs.paper import frozen_decisions


def decisions(job: Job) -> list[frozen_decisions.Decided]:
    """Those that stand, the last to happen first; it counts."""
    standing = in_time(decisions_of(job))
    return [told(one, counts=one is standing[-1]) for one in reversed(standing)]


def told(one: Decision, *, counts: bool) -> frozen_decisions.Decided:
    """One decision, as it was frozen when it came."""
    return {
        "plan": one.plan,
        "text": one.words,
        "decider": one.decided_by,
        "who": who_and_when(one),
        "why": reason_words(one),
        "reasons": list(one.reasons),
        "rested_on": [
            {
                "standing": row["standing"],
                "words": row["shown"],
                "text": row["words"],
                "steps": row["steps"],
            }
            for row in one.rested_on
        ],
        "ways": [
            {
                "plan": row["code"],
                "text": row["words"],
                "amount": row["shown"] or NO_TOTAL,
                "total": row["total"],
                "chosen": row["chosen"],
                "mark": row["mark"],
                "leaves": [in_parts(text) for text in (*row["leaves"], row["warning"]) if text],
            }
            for row in one.offered
        ],
        "entries": one.saw,
        "counts": counts,
        "by": one.entry.author.name,
        "author": str(one.entry.author.key),
        "entry": str(one.entry.key),
        **times(one.entry),
    }
