"""How a record says times, codes and what is not known."""

import re
from collections.abc import Iterable
from datetime import datetime

from django.utils import timezone

from diagnostics.physics.units import EN_DASH, NO_BREAK
from jobs.models import Entry
from jobs.models.wordings import CONSENT_WAYS, PAYERS, in_shop_time, words
from jobs.paper import frozen

NOT_NOTED = "not noted"
STANDS = {
    "intake": "Taken in; testing has not begun.",
    "testing": "Testing is not finished.",
    "deciding": "Tested; nothing is decided yet.",
    "repairing": "The repair is not finished.",
    "verifying": "Whether it cools again is not verified yet.",
    "closed": "The job is closed.",
}
DECIDED = "Tested, and a way to repair is decided."
# What the customer's paper calls the standings.
STANDING_WORDS = {
    "proved": "shown by test",
    "likely": "most likely",
    "open": "not settled",
    "ruled_out": "ruled out by test",
}
FAILING_WORDS = {
    "yes": "failing at that time",
    "no": "not failing at that time",
    "cannot_tell": "whether it was failing: can’t tell",
}
KIND_WORDS = {
    "intake": "intake",
    "customer": "customer",
    "vehicle": "car",
    "system": "air conditioning",
    "consent": "consent",
    "estimate": "estimate",
    "invoice": "invoice",
    "named": "who may say yes",
    "old_part": "what becomes of the old parts",
    "failing_now": "failing now",
    "change": "change on the car",
    "recovery": "recovery",
    "charge": "charge",
    "machine_cycle": "cycle of a service machine",
    "oil": "oil",
    "evacuation": "evacuation",
    "loop_parts": "parts of the loop",
    "taken_out": "old part that was taken out",
    "place": "where the car is",
    "waiting": "what the car waits for",
    "waiting_end": "waits no longer",
    "step": "test step",
    "prices_typed": "hours and prices typed",
    "decision": "decision",
    "verified": "caps and service label",
    "stage": "stage",
    "close": "closing of the job",
    "waive": "point waived",
    "override": "order overridden",
    "issue": "issue of the record",
    "follows": "whether it is a comeback",
    "merge": "two put together",
    "redact": "name taken out",
    "copy_seen": "copy of an entry looked at",
    "handover": "hand-over note",
    "conditions": "conditions",
    "taken_over": "job taken over",
    "tag": "tag that the A/C must not be run",
    "photo": "photos",
    "photo_filed": "photo filed anew",
    "discard": "entry thrown away on a tablet",
    "person": "person",
    "person_change": "change of a person",
    "tablet_change": "owner's word about a tablet",
    "qualification": "qualification of a person",
    "equipment": "instrument of the shop",
    "equipment_check": "check of an instrument",
    "equipment_tablet": "instruments beside a tablet",
    "cylinder": "cylinder",
    "purchase": "refrigerant bought",
    "weighing": "cylinder weighed",
    "transfer": "refrigerant from cylinder to cylinder",
    "reclaim": "refrigerant sent for reclaim",
    "cylinder_gone": "cylinder given back or scrapped",
    "shop": "shop",
    "shop_change": "settings of the shop",
    "price": "price",
    "tax": "tax",
}


def in_parts(text: str) -> str:
    """A text without a percent sign: 5 parts in 100."""
    return re.sub(r"\s?%", f"{NO_BREAK}parts in 100", text)


def iso(moment: datetime) -> str:
    """The same moment for programs, with the zone's offset."""
    return timezone.localtime(moment).isoformat()


def arrived(entry: Entry) -> str:
    """When it arrived, where that was more than ten minutes after it happened; else empty."""
    return f"arrived {in_shop_time(entry.came_late)}" if entry.came_late else ""


def times(entry: Entry) -> frozen.Times:
    """When an entry happened and when it arrived."""
    return {
        "at": iso(entry.happened_at),
        "when": in_shop_time(entry.happened_at),
        "arrived_at": iso(entry.arrived_at),
        "arrived": arrived(entry),
    }


def done_times(entry: Entry, first: Entry) -> frozen.DoneTimes:
    """Those of an entry, and when that was done which it tells; `first` told it first."""
    return {
        **times(entry),
        "done_at": iso(entry.done_at),
        "done": in_shop_time(entry.done_at),
        "corrected": in_shop_time(entry.happened_at) if first != entry else "",
        "done_by": first.author.name,
    }


def kind_words(kind: str) -> str:
    """What an entry of that kind is called; its own name where this program has no word."""
    return KIND_WORDS.get(kind, kind)


def payer_words(code: str) -> str:
    """Who pays."""
    return f"Pays: {words(PAYERS, code) if code else NOT_NOTED}"


def how_words(code: str) -> str:
    """How a consent was given."""
    return words(CONSENT_WAYS, code).lower() if code else f"how: {NOT_NOTED}"


def several(count: int, one: str, more: str) -> str:
    """1 test, 3 tests, no test."""
    return f"{count or 'no'} {one if count < 2 else more}"


def numbers(of: Iterable[int]) -> str:
    """Numbers in order, runs of three and more put together: 1, 2, 4–7."""
    runs: list[list[int]] = []
    for number in sorted(of):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}{EN_DASH}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs
    )
