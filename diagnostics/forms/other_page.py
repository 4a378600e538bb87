"""What comes from a page older or newer than this program: kept as typed, marked, never refused.

So is what was told twice for a field that takes one value.

A tablet sends what was entered on the page it had kept, days later and across an update.
"""

from collections.abc import Iterator, Mapping, Sequence

from django.forms import Field

from diagnostics.evidence.kind import Kind
from diagnostics.evidence.problems import OTHER_PAGE, unlisted
from diagnostics.models import TOLD
from jobs.logbook import Told

KEPT = f"“{TOLD}” is kept as typed and used for nothing."
ENTRY_VERSION = 1  # of the entry "step": which fields every kind's form has beside its own


def answers_with(answers: Mapping[str, str], told: str) -> dict[str, str]:
    """The answers to tap, and the one told if it is none of them, so that it stays."""
    if told in answers or not told.strip():
        return dict(answers)
    return {**answers, told: f"{told} (typed on an older or newer page)"}


def other_page_marks(
    told: Told | None, kind: Kind, version: int, not_done: str, known: Sequence[str]
) -> Iterator[dict[str, str]]:
    """Marks of a step from another page; `known` are the fields of the form."""
    if not_done and not_done not in {reason.code for reason in kind.not_done}:
        sentence = unlisted("Could not be done, because", TOLD)
        yield mark("not_done", "unknown_answer", sentence, not_done)
    if version > kind.version:
        yield mark("test_version", "newer", newer("this test", version, kind.version))
    if told is None:
        return
    if told.version > ENTRY_VERSION:
        yield mark("", "newer", newer("test steps", told.version, ENTRY_VERSION))
    for name in sorted(set(told.fields) - set(known)):
        said = ", ".join(text for text in told.fields[name] if text)
        yield mark(name, "unknown_field", f"{OTHER_PAGE} “{name}” is not asked here; {KEPT}", said)


def told_twice_marks(told: Told | None, fields: Mapping[str, Field]) -> Iterator[dict[str, str]]:
    """Marks of the form's fields that were told two values: each takes one, and the last counts."""
    for name, told_for_it in sorted(told.fields.items()) if told else ():
        values = list(dict.fromkeys(told_for_it)) if name in fields else []
        if len(values) > 1:
            question = fields[name].label or name
            words = dict(getattr(fields[name], "choices", ()))
            said = ", then ".join(
                f"“{words.get(one, one)}”" if one else "nothing" for one in values
            )
            sentence = f"Told more than once: “{question}”: {TOLD}; the last counts."
            yield mark(name, "told_twice", sentence, said)


def newer(what: str, theirs: int, ours: int) -> str:
    """That the page was of a version this program does not know yet."""
    return f"Typed on a newer page: it has {what} in version {theirs}, this program in {ours}."


def mark(field: str, code: str, sentence: str, told: str = "") -> dict[str, str]:
    """A step's mark; there is nothing to give a reason for."""
    return {"field": field, "code": code, "sentence": sentence, "told": told, "why": ""}
