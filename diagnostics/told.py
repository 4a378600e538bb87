"""What forms say, in the shape in which actions write it. Neither of the two imports the other."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from jobs.models import Equipment


@dataclass(frozen=True)
class ToldStep:
    """What a step's form says: names as the columns of Step; `named` by quantity."""

    kind: str
    kind_version: int
    readings: Mapping[str, Any]
    kept: Mapping[str, str]
    marks: list[dict[str, str]]
    seen: str
    not_done: str
    not_done_words: str
    corrected_why: str = ""
    named: Mapping[str, Equipment] = field(default_factory=dict)


@dataclass(frozen=True)
class Asked:
    """What the issuer asks for, having seen so many entries of the job."""

    issue: int
    entries: int
    changed: str
    address: str
