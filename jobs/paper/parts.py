"""The parts of a record's data by the names that people read, and which of them differ."""

from collections.abc import Mapping
from typing import Any

PARTS = {
    "facts": "customer, car or stage",
    "closing": "how the job ended",
    "stages": "its stages",
    "let": "what an owner waived or overrode",
    "decisions": "the decisions",
    "said": "what the customer told",
    "system": "the system",
    "states": "the car states",
    "steps": "the findings",
    "opinion": "what is concluded",
    "not_done": "what could not be done",
    "not_tested": "what was not tested",
    "amounts": "refrigerant and oil",
    "photos": "the photos",
    "open_points": "the open points",
    "consents": "the consents",
    "equipment": "the equipment",
    "corrections": "the corrections",
}
# Parts that stand for themselves on each issue: they differ always, or follow from the others.
OF_THE_ISSUE = {
    "record": "number, issue or time",
    "shop": "the shop",
    "stands": "how the job stands",
    "customer": "the customer’s page",
    "cautions": "the cautions",
    "people": "the people",
    "schema": "the shape of the data",
}


def differing(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[str]:
    """The parts that the later has and that are not as in the earlier, in words."""
    return [words for part, words in PARTS.items() if before.get(part) != after.get(part)]


def touched(issued: Mapping[str, Any], copy: Mapping[str, Any]) -> list[str]:
    """The parts in which a copy's data are not those that were issued, in words."""
    words = PARTS | OF_THE_ISSUE
    names = [*words, *sorted({*issued, *copy} - {*words})]
    return [words.get(one, "parts that no record has") for one in names if other(issued, copy, one)]


def other(issued: Mapping[str, Any], copy: Mapping[str, Any], name: str) -> bool:
    """Whether one part differs or lacks on one side."""
    return (name in issued, issued.get(name)) != (name in copy, copy.get(name))
